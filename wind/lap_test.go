package wind_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/wind"
)

// flown solves the circuit forward, independently of the package: the outbound time
// that closes V tout uout = -(g tin + w (T + tout)), the positive root of
//
//	(V² - w²) tout² - 2 w·b tout - b² = 0,   b = g tin + w T,
//
// in the frame of the course, with the wind blowing towards (wx, wy). It also tells
// how square to the course the outbound heading is: 0 is square.
func flown(v, rate, tin, wx, wy float64) (tout, correction, along float64) {
	full := 360 / rate
	sin := -wy / v
	g := v*math.Sqrt(1-sin*sin) + wx
	bx, by := g*tin+wx*full, wy*full
	a, h, b2 := v*v-wx*wx-wy*wy, wx*bx+wy*by, bx*bx+by*by
	tout = (h + math.Sqrt(h*h+a*b2)) / a
	along = -(bx + wx*tout) / (v * tout)
	return tout, math.Asin(sin) * 180 / math.Pi, along
}

func TestWindFromLapUndoesTheCircuit(t *testing.T) {
	undo := func(t *rapid.T, tas abeam.Knots, course abeam.Bearing, w wind.Wind) {
		rate := draw.Uniform(1, 4).Draw(t, "rate")
		inbound := time.Duration(draw.Uniform(30e9, 120e9).Draw(t, "inbound"))
		c := w.Components(course)
		tout, correction, along := flown(float64(tas), rate, inbound.Seconds(), -float64(c.Head), -float64(c.Cross))
		if math.Abs(along) < 0.1 || tout < 1 {
			t.Skip("outbound heading square to the course, or hardly flown")
		}
		got, err := wind.WindFromLap(course, wind.Lap{
			TAS: tas, Rate: abeam.Degrees(rate), Outbound: time.Duration(math.Round(tout * 1e9)), Inbound: inbound,
			Correction: abeam.Degrees(correction), Reversed: along > 0,
		})
		if err != nil || !sameWind(got, w, 1e-9*tas) {
			t.Errorf("got %+v, %v; want %+v (outbound %v s, correction %v, along %v)", got, err, w, tout, correction, along)
		}
	}
	t.Run("any wind", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			tas := draw.TAS().Draw(t, "TAS")
			undo(t, tas, draw.Bearing().Draw(t, "course"), draw.Wind(tas, 0.7).Draw(t, "wind"))
		})
	})
	// A headwind this strong carries the aircraft so far outbound in the turns that nearly
	// every leg between them is flown towards the fix.
	t.Run("reversed", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			tas := draw.TAS().Draw(t, "TAS")
			course := draw.Bearing().Draw(t, "course")
			from := course.Add(abeam.Degrees(draw.Uniform(-20, 20).Draw(t, "off the course")))
			undo(t, tas, course, wind.Wind{From: from, Speed: tas * abeam.Knots(draw.Uniform(0.55, 0.7).Draw(t, "share"))})
		})
	})
}

// With the wind straight down the course, no outbound leg at all and the shortest
// inbound leg: both roots are one.
func TestWindFromLapWithoutOutbound(t *testing.T) {
	lap := wind.Lap{TAS: 120, Rate: 3, Inbound: time.Minute}
	for _, lap.Reversed = range []bool{false, true} {
		w, err := wind.WindFromLap(360, lap)
		if err != nil || !sameWind(w, wind.Wind{From: 0, Speed: 40}, 1e-9) {
			t.Errorf("reversed %v: %+v, %v; want a third of the TAS from north", lap.Reversed, w, err)
		}
	}
}

func TestWindFromLapBadInput(t *testing.T) {
	good := wind.Lap{TAS: 120, Rate: 3, Outbound: time.Minute, Inbound: time.Minute, Correction: 5}
	for _, c := range []struct {
		name, field string
		course      abeam.Bearing
		spoil       func(*wind.Lap)
		kind        error
	}{
		{"course NaN", "inbound course", abeam.Bearing(nan), func(*wind.Lap) {}, abeam.ErrInvalid},
		{"TAS 0", "TAS", 0, func(l *wind.Lap) { l.TAS = 0 }, abeam.ErrInvalid},
		{"TAS NaN", "TAS", 0, func(l *wind.Lap) { l.TAS = abeam.Knots(nan) }, abeam.ErrInvalid},
		{"rate 0", "rate of turn", 0, func(l *wind.Lap) { l.Rate = 0 }, abeam.ErrInvalid},
		{"rate infinite", "rate of turn", 0, func(l *wind.Lap) { l.Rate = abeam.Degrees(inf) }, abeam.ErrInvalid},
		{"outbound negative", "outbound", 0, func(l *wind.Lap) { l.Outbound = -1 }, abeam.ErrInvalid},
		{"outbound endless", "outbound", 0, func(l *wind.Lap) { l.Outbound = math.MaxInt64 }, abeam.ErrInvalid},
		{"inbound 0", "inbound", 0, func(l *wind.Lap) { l.Inbound = 0 }, abeam.ErrInvalid},
		{"correction NaN", "correction", 0, func(l *wind.Lap) { l.Correction = abeam.Degrees(nan) }, abeam.ErrInvalid},
		{"correction 90", "correction", 0, func(l *wind.Lap) { l.Correction = 90 }, abeam.ErrInvalid},
		{"correction -90", "correction", 0, func(l *wind.Lap) { l.Correction = -90 }, abeam.ErrInvalid},
		{"outbound too short for the crosswind", "outbound", 0, func(l *wind.Lap) { l.Outbound = 10 * time.Second }, abeam.ErrUnflyable},
		{"wind too strong", "wind speed", 0, func(l *wind.Lap) { l.TAS, l.Outbound, l.Correction = 800, time.Hour, 0 }, abeam.ErrInvalid},
	} {
		lap := good
		c.spoil(&lap)
		w, err := wind.WindFromLap(c.course, lap)
		var field *abeam.FieldError
		if w != (wind.Wind{}) || !errors.Is(err, c.kind) || !errors.As(err, &field) || field.Field != c.field {
			t.Errorf("%s: %+v, %v", c.name, w, err)
		}
		if valid := lap.Validate() == nil; c.kind == abeam.ErrInvalid && valid && c.field != "inbound course" && c.field != "wind speed" {
			t.Errorf("%s: Validate finds nothing", c.name)
		}
	}
}
