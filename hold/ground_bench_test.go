package hold

import (
	"testing"

	"github.com/holdingfix/abeam"
)

func BenchmarkProgress(b *testing.B) {
	ps, fs := varied(b)
	circuits := make([]Circuit, len(ps))
	for i := range ps {
		var err error
		if circuits[i], err = ps[i].Circuit(fs[i]); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		p, _ := circuits[i&1023].ProgressOnTrack(Point{abeam.NM(i%7) - 4, abeam.NM(i % 3)}, 90)
		sink += float64(p.ToFix)
		i++
	}
}

func BenchmarkParseClearance(b *testing.B) {
	texts := []string{
		"CLEARED TO TARNO, HOLD WEST, AS PUBLISHED, EXPECT FURTHER CLEARANCE 1835",
		"hold north east of the one five dme fix on the merla zero six three radial, one and a half minute legs, left turns, efc 18:35z",
		"HOLD SW OF TARNO ON VICTOR ONE TWENTY THREE, 5 NM LEGS, MAXIMUM HOLDING AIRSPEED IS 210 KNOTS, NO DELAY EXPECTED",
	}
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		c, _ := ParseClearance(texts[i%len(texts)])
		sink += float64(c.Direction)
		i++
	}
}
