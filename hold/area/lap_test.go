package area

import (
	"math"
	"testing"

	"github.com/holdingfix/abeam"
)

// In calm air the turns of a lap are of the radius r about points r beside the course and L
// apart. From the fix the farthest place is in the second of them, straight behind its centre:
// hypot(L, r) + r away. A lap that goes out on the inbound heading flies on, and then a full
// circle, whose centre is as far. Documented: within 0.004 r, and 1e-6 NM where it decides.
func TestFarthestOfALapByHand(t *testing.T) {
	for _, c := range []struct{ out, knots, rate, leg float64 }{
		{180, 160, 3, 60}, {-180, 160, 3, 60}, {540, 400, 1.3, 47}, {180, 90, 2.2, 200},
		{0, 160, 3, 60}, {360, 400, 1.3, 47}, {-360, 90, 2.2, 200},
	} {
		l := lap{out: c.out, speed: c.knots / 3600, rate: c.rate, leg: c.leg}
		r := l.speed / (c.rate * math.Pi / 180)
		away := math.Hypot(c.leg*l.speed, r) + r
		for _, beyond := range []float64{0.8, 0.1, 0.01, 1e-4, 0, -1e-4, -0.01, -0.1} {
			a := FixTolerance{radius: abeam.NM(away - beyond)}.Area()
			within := 0.004 * r
			if math.Abs(beyond) <= 0.01 {
				within = 1e-6
			}
			if far := l.farthest(a, math.Min(0, beyond)); !(far <= beyond+1e-12 && far >= beyond-within) {
				t.Errorf("%+v: %v beyond, want %v within %v", c, far, beyond, within)
			}
			// Farther inside than a threshold it may be told less, and not more.
			if far := l.farthest(a, 0); !(far <= beyond+1e-12) || beyond < 0 && far > 0 {
				t.Errorf("%+v: %v beyond, want at most %v", c, far, beyond)
			}
		}
	}
}

// The top of a tent, wherever it stands between the ends: within a millionth of their distance,
// and sought nowhere else.
func TestPeak(t *testing.T) {
	for _, ends := range [][2]float64{{0, 1}, {-3, 5}, {100, 100.5}} {
		lo, hi := ends[0], ends[1]
		for share := 0.0; share <= 1; share += 1.0 / 64 {
			top := lo + share*(hi-lo)
			got := peak(func(x float64) float64 {
				if x < lo || x > hi {
					t.Errorf("sought at %v, beyond %v to %v", x, lo, hi)
				}
				return -math.Abs(x - top)
			}, lo, hi)
			if !(got <= 0 && got >= -1e-6*(hi-lo)) {
				t.Errorf("%v to %v, top at %v: %v short", lo, hi, top, -got)
			}
		}
	}
}
