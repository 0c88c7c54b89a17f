package wind_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/edges"
	"github.com/holdingfix/abeam/wind"
)

func errorOf[T any](_ T, err error) error { return err }

// The documented range of every input, from both sides of its ends.
func TestRanges(t *testing.T) {
	const tiny = math.SmallestNonzeroFloat64
	w := wind.Wind{From: 30, Speed: 20}
	lap := func(change func(*wind.Lap)) error {
		l := wind.Lap{TAS: 120, Rate: 3, Outbound: time.Minute, Inbound: time.Minute}
		change(&l)
		return l.Validate()
	}
	drifts := func(d float64) error {
		return errorOf(wind.WindFromDrifts(100, wind.DriftSight{Drift: abeam.Degrees(d)}, wind.DriftSight{Heading: 45}))
	}
	altitude := func(op string, call func(abeam.Feet) error) edges.Input {
		field := "pressure altitude"
		if op == "wind.DesignFactor" || op == "wind.OmnidirectionalWind" || op == "wind.OmnidirectionalWindSI" || op == "wind.NewProfile" {
			field = "altitude"
		}
		return edges.Real(op, field, -5_000, 65_617, func(x float64) error { return call(abeam.Feet(x)) })
	}
	below90 := math.Nextafter(90, 0)
	edges.Check(t, []edges.Input{
		altitude("wind.StandardAir", func(h abeam.Feet) error { return errorOf(wind.StandardAir(h, 0)) }),
		altitude("wind.DesignFactor", func(h abeam.Feet) error { return errorOf(wind.DesignFactor(h, 0)) }),
		altitude("wind.OmnidirectionalWind", func(h abeam.Feet) error { return errorOf(wind.OmnidirectionalWind(h)) }),
		altitude("wind.OmnidirectionalWindSI", func(h abeam.Feet) error { return errorOf(wind.OmnidirectionalWindSI(h)) }),
		altitude("wind.NewProfile", func(h abeam.Feet) error { return errorOf(wind.NewProfile(wind.Level{Altitude: h})) }),
		edges.Real("wind.StandardAir", "deviation", -80, 80, func(x float64) error { return errorOf(wind.StandardAir(0, wind.Deviation(x))) }),
		edges.Real("wind.MeasuredAir", "outside air temperature", -65, 95, func(x float64) error { return errorOf(wind.MeasuredAir(0, wind.Celsius(x))) }),
		edges.Real("wind.DesignFactor", "deviation", -80, 80, func(x float64) error { return errorOf(wind.DesignFactor(0, wind.Deviation(x))) }),
		edges.Real("wind.DesignTAS", "IAS", tiny, 800, func(x float64) error { return errorOf(wind.DesignTAS(abeam.Knots(x), 0, 0)) }),
		edges.Real("wind.DecodeAloftGroup", "level", tiny, 65_617, func(x float64) error { return errorOf(wind.DecodeAloftGroup("2435", abeam.Feet(x))) }),

		edges.Real("wind.New", "wind speed", 0, 400, func(x float64) error { return errorOf(wind.New(0, abeam.Knots(x))) }),
		edges.Real("wind.SolveHeading", "TAS", tiny, 800, func(x float64) error { return errorOf(wind.SolveHeading(0, abeam.Knots(x), w)) }),
		edges.Real("wind.SolveTrack", "TAS", tiny, 800, func(x float64) error { return errorOf(wind.SolveTrack(0, abeam.Knots(x), w)) }),
		edges.Real("wind.SolveWind", "TAS", tiny, 800, func(x float64) error { return errorOf(wind.SolveWind(0, 400, 0, abeam.Knots(x))) }),
		edges.Real("wind.SolveWind", "groundspeed", tiny, 1200, func(x float64) error {
			return errorOf(wind.SolveWind(0, abeam.Knots(x), 0, min(800, abeam.Knots(x)+1)))
		}),
		edges.Real("wind.SolveTAS", "groundspeed", tiny, 1200, func(x float64) error {
			return errorOf(wind.SolveTAS(0, abeam.Knots(x), wind.Wind{From: 180, Speed: 400}))
		}),
		edges.Real("wind.SolveTASOnHeading", "groundspeed", tiny, 1200, func(x float64) error {
			return errorOf(wind.SolveTASOnHeading(0, abeam.Knots(x), wind.Wind{From: 180, Speed: 400}))
		}),
		edges.Real("wind.CoursesMadeGood", "TAS", tiny, 800, func(x float64) error { return errorOf(wind.CoursesMadeGood(abeam.Knots(x), w)) }),
		edges.Real("wind.MaxDrift", "TAS", tiny, 800, func(x float64) error { return errorOf(wind.MaxDrift(abeam.Knots(x), 0)) }),
		edges.Real("wind.MaxDrift", "wind speed", 0, 400, func(x float64) error { return errorOf(wind.MaxDrift(500, abeam.Knots(x))) }),
		edges.Real("wind.MaxDriftRule", "TAS", tiny, 800, func(x float64) error { return errorOf(wind.MaxDriftRule(abeam.Knots(x), 0)) }),
		edges.Real("wind.OneInSixty", "distance along", tiny, 10_000, func(x float64) error { return errorOf(wind.OneInSixty(0, abeam.NM(x))) }),
		edges.Real("wind.OneInSixty", "distance off", -60, 60, func(x float64) error { return errorOf(wind.OneInSixty(abeam.NM(x), 60)) }),
		edges.Real("wind.WindFromDrifts", "TAS", tiny, 800, func(x float64) error {
			return errorOf(wind.WindFromDrifts(abeam.Knots(x), wind.DriftSight{}, wind.DriftSight{Heading: 90}))
		}),
		edges.Real("wind.WindFromDrifts", "first drift", -below90, below90, drifts),

		edges.Real("wind.Lap.Validate", "TAS", tiny, 800, func(x float64) error { return lap(func(l *wind.Lap) { l.TAS = abeam.Knots(x) }) }),
		edges.Real("wind.Lap.Validate", "rate of turn", 0.1, 30, func(x float64) error { return lap(func(l *wind.Lap) { l.Rate = abeam.Degrees(x) }) }),
		edges.Real("wind.Lap.Validate", "correction", -below90, below90, func(x float64) error { return lap(func(l *wind.Lap) { l.Correction = abeam.Degrees(x) }) }),
		edges.Whole("wind.Lap.Validate", "outbound", 0, float64(time.Hour), func(x float64) error { return lap(func(l *wind.Lap) { l.Outbound = time.Duration(x) }) }),
		edges.Whole("wind.Lap.Validate", "inbound", 1, float64(time.Hour), func(x float64) error { return lap(func(l *wind.Lap) { l.Inbound = time.Duration(x) }) }),

		edges.Real("wind.Air.TASFromMach", "Mach number", 0, math.Nextafter(1, 0), func(x float64) error { return errorOf(standardAir(t, 0, 0).TASFromMach(wind.Mach(x))) }),
	})
	// 20 degrees from the course are what the rule is given for, and no less.
	for angle, ok := range map[abeam.Degrees]bool{20: true, -20: true, 160: true, 19.999: false, 160.001: false} {
		if _, err := wind.AnglePlus20(angle); (err == nil) != ok || err != nil && !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("angle %v: %v", angle, err)
		}
	}
}
