package entry

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/edges"
	"github.com/holdingfix/abeam/internal/geodesy"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

func windy(tb testing.TB, turn hold.Turn) (hold.Pattern, Flown) {
	tb.Helper()
	p, err := hold.NewPattern(hold.Fix{Position: s2.LatLngFromDegrees(47.25, -120.5), Variation: 14}, 75, turn, hold.TimedInbound(time.Minute))
	if err != nil {
		tb.Fatal(err)
	}
	fl, err := FAA().Plan(Parallel, time.Minute).Fly(p, hold.Flight{TAS: 140, Rate: 3, Wind: wind.Wind{From: 300, Speed: 25}}, 300, AsPublished)
	if err != nil {
		tb.Fatal(err)
	}
	return p, fl
}

func TestTrackRestartsAndEndsOnce(t *testing.T) {
	_, fl := windy(t, hold.Right)
	for _, step := range []time.Duration{hold.MinStep, time.Second, 7 * time.Second, fl.Total / 4, fl.Total - 1, fl.Total, fl.Total + 1, time.Hour} {
		track, err := fl.Track(step)
		if err != nil {
			t.Fatal(err)
		}
		appended, err := fl.AppendTrack(nil, step)
		if err != nil {
			t.Fatal(err)
		}
		edges.Track(t, track, appended, Sample{Heading: 300}, func(s Sample) time.Duration { return s.Time }, step, fl.Total)
	}
	n := 0
	for range fl.Legs() {
		if n++; n == 2 {
			break
		}
	}
	if n != 2 {
		t.Errorf("stopped after %d", n)
	}
}

// The legs join without a gap in time or place, each begins its phase, and the sum of
// their times is the total.
func TestLegsJoin(t *testing.T) {
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		_, fl := windy(t, turn)
		var at time.Duration
		last := Phase(0)
		for leg := range fl.Legs() {
			i := 0
			s := fl.sample(&i, at)
			if leg.Start != at || s.Phase != leg.Phase || s.At != leg.From || leg.Phase < last {
				t.Errorf("%v turns: %+v, sample %+v at %v", turn, leg, s, at)
			}
			if (leg.Through > 0) == (leg.Groundspeed > 0) {
				t.Errorf("%v turns: %v both turns and goes straight", turn, leg.Phase)
			}
			at += leg.Time
			last = leg.Phase
		}
		if at != fl.Total || last != InboundLeg || fl.ToEstablish+fl.Inbound != fl.Total {
			t.Errorf("%v turns: the legs take %v of %v", turn, at, fl.Total)
		}
	}
}

// A position lies where the inverse of the geodesic finds it: at its distance from the
// fix, and the entry ends over the fix to a millimetre.
func TestPositions(t *testing.T) {
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		p, fl := windy(t, turn)
		positions, err := fl.Positions(p, 10*time.Second)
		if err != nil {
			t.Fatal(err)
		}
		fix := p.Fix().Position
		var last float64
		for s, at := range positions {
			// Over a few miles the metric of the ellipsoid at the fix is good to 1e-3.
			const a, e2 = geodesy.A, geodesy.F * (2 - geodesy.F)
			w := math.Sqrt(1 - e2*math.Pow(math.Sin(float64(fix.Lat)), 2))
			north := float64(at.Lat-fix.Lat) * a * (1 - e2) / (w * w * w)
			east := float64(at.Lng-fix.Lng) * a / w * math.Cos(float64(fix.Lat))
			course := (75.0 + 14) * math.Pi / 180
			right := east*math.Cos(course) - north*math.Sin(course)
			if turn == hold.Left {
				right = -right
			}
			ahead := north*math.Cos(course) + east*math.Sin(course)
			if !near.Equal(ahead, s.At.Along.Metres(), 15) || !near.Equal(right, s.At.Abreast.Metres(), 15) {
				t.Errorf("%v turns: %+v lies at %v, %v m", turn, s, ahead, right)
			}
			last = math.Hypot(north, east)
		}
		if last > 1e-3 {
			t.Errorf("%v turns: ends %v m from the fix", turn, last)
		}
	}
}

func TestTrackErrors(t *testing.T) {
	p, fl := windy(t, hold.Right)
	other := pattern(t, 76, hold.Right)
	left := pattern(t, 75, hold.Left)
	for _, step := range []time.Duration{0, -1, hold.MinStep - 1} {
		if _, err := fl.Track(step); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("Track(%v): %v", step, err)
		}
		if dst, err := fl.AppendTrack(make([]Sample, 2), step); !errors.Is(err, abeam.ErrInvalid) || len(dst) != 2 {
			t.Errorf("AppendTrack(%v): %d, %v", step, len(dst), err)
		}
		if _, err := fl.Positions(p, step); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("Positions(%v): %v", step, err)
		}
	}
	for name, err := range map[string]error{
		"Track":              second(Flown{}.Track(time.Second)),
		"Positions":          second(Flown{}.Positions(p, time.Second)),
		"Positions, course":  second(fl.Positions(other, time.Second)),
		"Positions, turn":    second(fl.Positions(left, time.Second)),
		"Actions":            second(Flown{}.Actions(p, Crossing{})),
		"Actions, course":    second(fl.Actions(other, Crossing{})),
		"Actions, altitude":  second(fl.Actions(p, Crossing{Altitude: abeam.Feet(math.NaN())})),
		"Place, zero":        second(hold.Pattern{}.Place(hold.Point{})),
		"Place, not finite":  second(p.Place(hold.Point{Along: abeam.NM(math.NaN())})),
		"Place, far":         second(p.Place(hold.Point{Abreast: hold.MaxRange + 1})),
		"Place, infinite":    second(p.Place(hold.Point{Abreast: abeam.NM(math.Inf(-1))})),
		"Published, pattern": second(Published(hold.Pattern{}, Direct, 0, time.Minute)),
	} {
		if !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for range (Flown{}).Legs() {
		t.Error("the zero Flown has a leg")
	}
}
