package hold

import (
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
)

// BenchmarkGroundRatio takes turns between placing a point, locating it again, solving a
// circuit and finding the point on it, and reports what the second of each pair costs in
// the first.
func BenchmarkGroundRatio(b *testing.B) {
	ps, fs := varied(b)
	var at []s2.LatLng
	var points []Point
	var circuits []Circuit
	for i := range ps {
		ps[i].fix.Position = s2.LatLngFromDegrees(float64(i%120-60), float64(i%360-180))
		c, err := ps[i].Circuit(fs[i])
		if err != nil {
			b.Fatal(err)
		}
		p := Point{abeam.NM(i%7) - 4, abeam.NM(i % 3)}
		where, err := ps[i].Place(p)
		if err != nil {
			b.Fatal(err)
		}
		at, points, circuits = append(at, where), append(points, p), append(circuits, c)
	}
	var spent [4]time.Duration
	n := 0
	for b.Loop() {
		for k, run := range [4]func(int){
			func(i int) { p, _ := ps[i].Place(points[i]); sink += float64(p.Lat) },
			func(i int) { p, _ := ps[i].Locate(at[i]); sink += float64(p.Along) },
			func(i int) { c, _ := ps[i].Circuit(fs[i]); sink += float64(c.OutboundHeading) },
			func(i int) { p, _ := circuits[i].ProgressOnTrack(points[i], 90); sink += float64(p.ToFix) },
		} {
			start := time.Now()
			for i := range ps {
				run(i)
			}
			spent[k] += time.Since(start)
		}
		n += len(ps)
	}
	b.ReportMetric(0, "ns/op") // a block of a thousand runs: not a figure of anything
	b.ReportMetric(float64(spent[1])/float64(spent[0]), "locate/place")
	b.ReportMetric(float64(spent[3])/float64(spent[2]), "progress/circuit")
	b.ReportMetric(float64(spent[1])/float64(n), "ns/locate")
	b.ReportMetric(float64(spent[3])/float64(n), "ns/progress")
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
