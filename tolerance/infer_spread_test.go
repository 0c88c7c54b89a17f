package tolerance

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// piecesOf is a track in calm air at 120 kt from the south to the fix of northbound, a
// sample a second: straight pieces, with half a circle to the right after each but the last.
func piecesOf(t *testing.T, seconds ...int) Log {
	t.Helper()
	var points []hold.Point
	x, y, course := -float64(seconds[0])/30, 0.0, 0.0
	step := func(rate float64) {
		points = append(points, hold.Point{Along: abeam.NM(x), Abreast: abeam.NM(y)})
		s, c := math.Sincos((course + rate/2) * math.Pi / 180)
		x, y, course = x+c/30, y+s/30, course+rate
	}
	for i, n := range seconds {
		for range n {
			step(0)
		}
		for range 60 {
			if i < len(seconds)-1 {
				step(3)
			}
		}
	}
	return placed(t, northbound(t), points)
}

// Turns that begin up to 30 s of flight from their mean hold there, any further apart they
// hold nowhere. The second begins 2 k seconds beyond the first, so that both are k from the
// mean.
func TestSpreadOfTheTurns(t *testing.T) {
	for _, k := range []int{0, 15, 29, 31, 40} {
		log := piecesOf(t, 120, 60, 60+2*k, 60, 60)
		got, err := Infer(log)
		if k > 30 {
			var e *abeam.FieldError
			if !errors.As(err, &e) || e.Field != "spread of the turns at the fix" || got != (Inferred{}) {
				t.Errorf("%d s apart: %+v, %v", k, got, err)
			} else if spread := e.Value.(time.Duration).Seconds(); math.Abs(spread-float64(k)) > 0.5 {
				t.Errorf("%d s apart: %v", k, spread)
			}
			continue
		}
		// The corners are good to a second; no way of arrival crosses the course.
		along := got.Pattern.Fix().Position.Distance(northbound(t).Fix().Position).Radians() * 3440
		if err != nil || got.Turns != 2 || math.Abs(float64(got.Spread)*30-float64(k)) > 0.5 || math.Abs(along*30-float64(k)) > 1 || got.Pattern.Inbound().Sub(0).Abs() > 0.01 {
			t.Errorf("%d s apart: %+v, %v", k, got, err)
		}
	}
}

// At a fix that is given the turns may begin up to 60 s of flight from it.
func TestSpreadAroundAGivenFix(t *testing.T) {
	log := piecesOf(t, 120, 60, 60, 60, 60, 60)
	p := northbound(t)
	for k, ok := range map[int]bool{0: true, 59: true, 61: false} {
		place, err := p.Place(hold.Point{Along: abeam.NM(k) / 30})
		if err != nil {
			t.Fatal(err)
		}
		got, err := InferAt(log, hold.Fix{Position: place})
		if (err == nil) != ok || ok && (got.Pattern.Fix().Position != place || math.Abs(float64(got.Spread)*30-float64(k)) > 1) {
			t.Errorf("%d s before the fix: %+v, %v", k, got, err)
		}
	}
}

// The leg is the median inbound time to the next half a minute: 60 s and 72 s are a minute,
// 78 s a minute and a half; below it is half a minute.
func TestInferredLeg(t *testing.T) {
	for flown, want := range map[int]time.Duration{60: time.Minute, 72: time.Minute, 78: 90 * time.Second, 20: 30 * time.Second} {
		got, err := Infer(piecesOf(t, 120, flown, flown, flown, flown, flown))
		if err != nil || got.Legs != 2 || got.Turns != 3 || got.Pattern.Leg().Inbound() != want {
			t.Errorf("%d s: %+v, %v", flown, got, err)
		}
	}
}

// No sample is no track; one is a track that holds nowhere.
func TestInferOfAlmostNothing(t *testing.T) {
	for n, value := range []string{"no track", "no two laps around one place", "no two laps around one place"} {
		log := piecesOf(t, 120, 60)
		log.Samples = log.Samples[:n]
		_, err := Infer(log)
		var e *abeam.FieldError
		if !errors.As(err, &e) || !errors.Is(err, abeam.ErrInvalid) || e.Op != "tolerance.Infer" || e.Field != "log" || e.Value != value {
			t.Errorf("%d samples: %v", n, err)
		}
		if _, err := InferAt(log, hold.Fix{Position: s2.LatLngFromDegrees(50, 8)}); !errors.As(err, &e) || e.Op != "tolerance.InferAt" {
			t.Errorf("%d samples: %v", n, err)
		}
	}
}
