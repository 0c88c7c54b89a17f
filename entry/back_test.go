package entry

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// The last turn of an entry ends on the inbound course, where the inbound leg begins. By the
// circle that it flies through the air, in north and east, and the wind over its time.
func TestLastTurnEndsOnTheCourse(t *testing.T) {
	weaves, flown := 0, 0
	for _, share := range []float64{0.3, 0.95, 0.999} {
		for i := range 2000 {
			p, f, heading, plan := scattered(t, i, share)
			f.Wind.Speed = min(f.Wind.Speed, wind.MaxSpeed)
			fl, err := plan.Fly(p, f, heading, AsPublished)
			if err != nil {
				continue
			}
			flown++
			var last, before Leg
			for leg := range fl.Legs() {
				if leg.Through > 0 {
					last, before = leg, last
				}
			}
			if last.Phase == CourseTurn && last.Start == before.Start+before.Time {
				weaves++
			}
			rate := float64(f.Rate) * math.Pi / 180
			if last.Turn == hold.Left {
				rate = -rate
			}
			through := float64(last.Through) * math.Pi / 180
			to := float64(last.Heading) * math.Pi / 180
			from := to - math.Copysign(through, rate)
			blow, v := float64(f.Wind.From)*math.Pi/180, float64(f.TAS)/3600
			drift := -float64(f.Wind.Speed) / 3600 * through / math.Abs(rate)
			north := v/rate*(math.Sin(to)-math.Sin(from)) + drift*math.Cos(blow)
			east := v/rate*(math.Cos(from)-math.Cos(to)) + drift*math.Sin(blow)
			s, c := math.Sincos(float64(p.Inbound()) * math.Pi / 180)
			along := float64(last.From.Along) + north*c + east*s
			abreast := float64(last.From.Abreast) + float64(p.Turn().Apply(abeam.Degrees(east*c-north*s)))
			if !near.Equal(abreast, 0, 1e-9) || !near.Equal(along, float64(fl.Established.Along), 1e-9) {
				t.Errorf("case %d at %v, %v: %v ends at %v along, %v abreast; established at %v", i, share, plan.Entry, last.Phase, along, abreast, fl.Established.Along)
			}
		}
	}
	t.Logf("%d flown, %d with no leg between the turns", flown, weaves)
	if weaves < 500 {
		t.Errorf("only %d with no leg between the turns", weaves)
	}
}

// Across a wind of half the airspeed that blows away from the course, a heading of 30 degrees
// towards it stays as far from it as it is, sin 30 = 1/2: no intercept, however long, from
// either side. One of 31 gets there. To the last digit of the sine: 128 is a power of 2, which
// leaves the digits of what it multiplies.
func TestInterceptHangsInTheWind(t *testing.T) {
	plan := FAA().Plan(Direct, time.Minute)
	for _, from := range []abeam.Bearing{270, 90} {
		plan.Intercept = 30
		f := hold.Flight{TAS: 128, Rate: 3, Wind: wind.Wind{From: from, Speed: abeam.Knots(128 * direction(30).sin)}}
		fl, err := plan.Fly(pattern(t, 0, hold.Right), f, 0, AsPublished)
		var field *abeam.FieldError
		if !errors.As(err, &field) || !errors.Is(err, abeam.ErrUnflyable) || field.Field != "intercept angle" || fl != (Flown{}) {
			t.Errorf("wind from %v: %v", from, err)
		}
		plan.Intercept = 31
		if fl, err = plan.Fly(pattern(t, 0, hold.Right), f, 0, AsPublished); err != nil || !fl.Notes.Has(OffCourse) {
			t.Errorf("wind from %v, 31 degrees: %v, %v", from, fl.Notes, err)
		}
	}
}
