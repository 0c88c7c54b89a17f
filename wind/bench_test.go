package wind_test

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

// sink keeps the compiler from dropping what is measured.
var sink float64

func BenchmarkDecodeAloftBulletin(b *testing.B) {
	text := made(200)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := wind.DecodeAloftBulletin(text); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWindFromLap(b *testing.B) {
	lap := wind.Lap{TAS: 200, Rate: 3, Outbound: time.Minute, Inbound: time.Minute}
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		x := float64(i)
		lap.Correction = abeam.Degrees(math.Mod(x*0.618, 6) - 3)
		w, err := wind.WindFromLap(abeam.Bearing(math.Mod(x*137.5, 360)), lap)
		if err != nil {
			b.Fatal(err)
		}
		sink = float64(w.Speed)
		i++
	}
}
