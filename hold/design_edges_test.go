package hold

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/edges"
	"github.com/holdingfix/abeam/wind"
)

func TestDesignLimitRanges(t *testing.T) {
	const op = "hold.DesignDMELimit"
	least := math.SmallestNonzeroFloat64
	call := func(fix abeam.NM, tas abeam.Knots, rate Rate, height abeam.Feet, outbound time.Duration) error {
		return second(DesignDMELimit(fix, tas, rate, height, outbound))
	}
	edges.Check(t, []edges.Input{
		edges.Real(op, "fix DME", least, float64(MaxLength), func(x float64) error { return call(abeam.NM(x), 220, 3, 14000, time.Minute) }),
		edges.Real(op, "TAS", least, float64(wind.MaxTAS), func(x float64) error { return call(30, abeam.Knots(x), 3, 14000, time.Minute) }),
		edges.Real(op, "rate of turn", float64(MinRate), float64(MaxRate), func(x float64) error { return call(30, 220, Rate(x), 14000, time.Minute) }),
		edges.Real(op, "height", 0, float64(MaxAltitude), func(x float64) error { return call(30, 220, 3, abeam.Feet(x), time.Minute) }),
		edges.Whole(op, "outbound time", 1, float64(MaxLeg), func(x float64) error { return call(30, 220, 3, 14000, time.Duration(x)) }),
	})
	// No fix is too near a station on its own level.
	if _, err := DesignDMELimit(abeam.NM(least), 220, 3, 0, time.Minute); err != nil {
		t.Error(err)
	}
	// At 10,000 ft the square of the height is 2.7, its root by hand 1.64316767.
	for fix, want := range map[abeam.NM]error{1.6431676: abeam.ErrUnflyable, 1.6431677: nil} {
		if _, err := DesignDMELimit(fix, 220, 3, 10000, time.Minute); !errors.Is(err, want) {
			t.Errorf("fix %v: %v, want %v", fix, err, want)
		}
	}
}

// Right over the station, as near as a float comes to it: with nothing of the square left
// under the root, the limit is what time, turn and height make, and never NaN. At 220 kt
// and 3 deg/s in a minute, 3.666667 NM out and two radii of 220/(60 pi) = 1.167136 abreast.
func TestDesignLimitOverhead(t *testing.T) {
	for height := abeam.Feet(0); height <= MaxAltitude; height += 35 {
		h := float64(height) / 1000
		up := 0.027 * h * h
		want := math.Sqrt(3.666667*3.666667 + 4*1.167136*1.167136 + up)
		over := abeam.NM(math.Sqrt(up))
		for _, fix := range []abeam.NM{over, after(over), after(after(over))} {
			if fix == 0 {
				continue
			}
			d, err := DesignDMELimit(fix, 220, 3, height, time.Minute)
			// A few last bits of a square below 117 leave less than 1e-6 NM under the root.
			if err != nil || !(math.Abs(float64(d.Exact)-want) < 5e-6) {
				t.Errorf("%v at %v: %v, %v, by hand %v", fix, height, d.Exact, err, want)
			}
		}
	}
}

// An aeroplane that hardly moves has its limit at the fix, which leaves the rounding alone:
// a fraction below 0.25 goes down to 14,000 ft, one below 0.5 above, any other up.
func TestDesignLimitRounding(t *testing.T) {
	for _, tc := range []struct {
		fix     abeam.NM
		height  abeam.Feet
		charted abeam.NM
	}{
		{5, 0, 5}, {before(abeam.NM(5.25)), 0, 5}, {5.25, 0, 6}, {5.75, 0, 6},
		{10.4, 14000, 11}, {10.4, after(abeam.Feet(14000)), 10},
		{10.2, 14000, 10}, {10.6, 20000, 11},
	} {
		d, err := DesignDMELimit(tc.fix, 1e-300, 3, tc.height, time.Minute)
		if err != nil || d.Charted != tc.charted || math.Abs(float64(d.Exact-tc.fix)) > 1e-12 {
			t.Errorf("%v at %v: %+v, %v, want %v", tc.fix, tc.height, d, err, tc.charted)
		}
	}
}

func TestStationAndSlantRanges(t *testing.T) {
	for _, elevation := range []abeam.Feet{MinAltitude, MaxAltitude} {
		p := legPattern(t, DMELimit(Station{Course: Toward, Fix: 20, Elevation: elevation}, 25))
		if s, _ := p.Leg().DME(); s.Elevation != elevation {
			t.Errorf("elevation %v", s.Elevation)
		}
	}
	with := func(op string, build func(Station) error) []edges.Input {
		return []edges.Input{
			edges.Real(op, "fix DME", 0, float64(MaxLength), func(x float64) error { return build(Station{Course: Toward, Fix: abeam.NM(x)}) }),
			edges.Real(op, "station elevation", float64(MinAltitude), float64(MaxAltitude), func(x float64) error {
				return build(Station{Course: Toward, Fix: 20, Elevation: abeam.Feet(x)})
			}),
		}
	}
	edges.Check(t, with("hold.Station.Validate", Station.Validate))
	most := float64(MaxAltitude - MinAltitude)
	edges.Check(t, []edges.Input{
		edges.Real("hold.SlantRange", "ground distance", 0, float64(MaxLength), func(x float64) error { return second(SlantRange(abeam.NM(x), 0)) }),
		edges.Real("hold.SlantRange", "height", -most, most, func(x float64) error { return second(SlantRange(20, abeam.Feet(x))) }),
		edges.Real("hold.GroundDistance", "slant range", 0, float64(MaxLength), func(x float64) error { return second(GroundDistance(abeam.NM(x), 0)) }),
		edges.Real("hold.GroundDistance", "height", -most, most, func(x float64) error { return second(GroundDistance(20, abeam.Feet(x))) }),
	})
	// Right above the station, or below it, the reading is the height and the distance nothing.
	for _, height := range []abeam.Feet{2 * abeam.FeetPerNM, -2 * abeam.FeetPerNM} {
		if d, err := GroundDistance(2, height); err != nil || d != 0 {
			t.Errorf("at %v: %v, %v", height, d, err)
		}
		_, err := GroundDistance(before(abeam.NM(2)), height)
		if at, ok := errors.AsType[*abeam.FieldError](err); !ok || !errors.Is(err, abeam.ErrUnflyable) || at.Field != "slant range" {
			t.Errorf("at %v: %v", height, err)
		}
	}
}
