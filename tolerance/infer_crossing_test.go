package tolerance

import (
	"testing"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// across is a flight of the course frame in steps of a second through two points, with a
// first turn that begins at its sample 20: by the window of 10 s it has begun at 31.
func across(t *testing.T, a, b hold.Point, at int) (*motion, *candidate, []leg) {
	t.Helper()
	points := make([]hold.Point, 101)
	for i := range points {
		if points[i] = a; i >= at {
			points[i] = b
		}
	}
	p := northbound(t)
	m := drawn(t, p, points)
	return m, &candidate{sign: 1, members: []int{0}, ends: []int{20}, fix: p.Fix().Position}, []leg{{0, 20, 0, 180, 0}, {60, 90, 180, 0, 180}}
}

// The crossing lies where the line of the two points meets the course, by hand; it counts
// from 20 degrees on (0.364 NM abreast to 1 NM along), within 30 s of flight (1 NM at
// 120 kt), before the first turn.
func TestArrivalCrossing(t *testing.T) {
	p := northbound(t)
	for name, tc := range map[string]struct {
		a, b hold.Point
		at   int
		want abeam.NM
		ok   bool
	}{
		"a quarter of the way":     {hold.Point{Along: 0.2, Abreast: -0.1}, hold.Point{Along: 0.6, Abreast: 0.3}, 10, 0.3, true},
		"from the other side":      {hold.Point{Along: -0.6, Abreast: 0.3}, hold.Point{Along: -0.2, Abreast: -0.1}, 10, -0.3, true},
		"at right angles":          {hold.Point{Along: 0.5, Abreast: -0.1}, hold.Point{Along: 0.5, Abreast: 0.1}, 10, 0.5, true},
		"at right angles, back":    {hold.Point{Along: -0.5, Abreast: 0.01}, hold.Point{Along: -0.5, Abreast: -0.04}, 10, -0.5, true},
		"at 21 degrees":            {hold.Point{Along: -0.5, Abreast: -0.192}, hold.Point{Along: 0.5, Abreast: 0.192}, 10, 0, true},
		"at 19 degrees":            {hold.Point{Along: -0.5, Abreast: -0.172}, hold.Point{Along: 0.5, Abreast: 0.172}, 10, 0, false},
		"at 21 degrees, far apart": {hold.Point{Along: 0, Abreast: -0.0384}, hold.Point{Along: 1, Abreast: 0.3456}, 10, 0.1, true},
		"within 1 NM":              {hold.Point{Along: 0.99, Abreast: -0.1}, hold.Point{Along: 0.99, Abreast: 0.1}, 10, 0.99, true},
		"beyond 1 NM":              {hold.Point{Along: 1.01, Abreast: -0.1}, hold.Point{Along: 1.01, Abreast: 0.1}, 10, 0, false},
		"within 1 NM behind":       {hold.Point{Along: -0.99, Abreast: -0.1}, hold.Point{Along: -0.99, Abreast: 0.1}, 10, -0.99, true},
		"beyond 1 NM behind":       {hold.Point{Along: -1.01, Abreast: -0.1}, hold.Point{Along: -1.01, Abreast: 0.1}, 10, 0, false},
		"in the first step":        {hold.Point{Along: 0.5, Abreast: -0.1}, hold.Point{Along: 0.5, Abreast: 0.1}, 1, 0.5, true},
		"as the turn begins":       {hold.Point{Along: 0.5, Abreast: -0.1}, hold.Point{Along: 0.5, Abreast: 0.1}, 30, 0.5, true},
		"when it has begun":        {hold.Point{Along: 0.5, Abreast: -0.1}, hold.Point{Along: 0.5, Abreast: 0.1}, 31, 0, false},
		"on one side":              {hold.Point{Along: -0.5, Abreast: 0.1}, hold.Point{Along: -0.5, Abreast: 0.4}, 10, 0, false},
	} {
		m, c, legs := across(t, tc.a, tc.b, tc.at)
		got, ok := m.arrivalCrossing(c, legs, 0)
		if ok != tc.ok {
			t.Errorf("%s: %v, %v", name, got, ok)
			continue
		}
		want, err := p.Place(hold.Point{Along: tc.want})
		if err != nil {
			t.Fatal(err)
		}
		// Good to a metre: a straight line in latitude and longitude is none in the frame.
		if off := abeam.NM(got.Distance(want).Radians() * 3440); ok && off*1852 > 1 {
			t.Errorf("%s: %v, %v, off by %.5f NM", name, got, want, float64(off))
		}
	}
}

// A sample on the line itself is where it is crossed, whichever side it comes from.
func TestArrivalOverTheLine(t *testing.T) {
	for _, side := range []float64{1, -1} {
		m, c, legs := across(t, hold.Point{}, hold.Point{}, 0)
		fix := m.log.Samples[0]
		for i := range m.log.Samples {
			// On the meridian of the fix the frame has exactly 0 abreast.
			m.log.Samples[i].Lon = fix.Lon + 0.001*side*float64(i-10)
		}
		got, ok := m.arrivalCrossing(c, legs, 0)
		if !ok || got.Lng.Degrees() != fix.Lon || abs(got.Lat.Degrees()-fix.Lat) > 1e-9 {
			t.Errorf("from side %v: %v, %v", side, got, ok)
		}
	}
}

// Across the date line the crossing is on the line.
func TestArrivalAcrossTheDateLine(t *testing.T) {
	for _, lon := range []float64{180, -180} {
		m, c, legs := across(t, hold.Point{}, hold.Point{}, 0)
		for i := range m.log.Samples {
			s := &m.log.Samples[i]
			if s.Lon = 179.999; i >= 10 {
				s.Lon = -179.997
			}
		}
		c.fix = s2.LatLngFromDegrees(50, lon)
		got, ok := m.arrivalCrossing(c, legs, 0)
		if !ok || abs(abs(got.Lng.Degrees())-180) > 1e-9 {
			t.Errorf("fix at %v: %v, %v", lon, got, ok)
		}
	}
}

// The first turn of the pattern is one of 45 degrees its way; it has begun a window after
// the end of its leg, or at the end of the log.
func TestFirstTurn(t *testing.T) {
	m := drawn(t, northbound(t), make([]hold.Point, 101))
	for name, tc := range map[string]struct {
		sign, after float64
		last        int
		want        int
	}{
		"of 45":            {1, 45, 20, 31},
		"below 45":         {1, below(45), 20, 71},
		"the other way":    {1, -180, 20, 71},
		"left":             {-1, -45, 20, 31},
		"near the end":     {1, 180, 95, 101},
		"just before it":   {1, 180, 89, 100},
		"below 45 to left": {-1, above(-45), 20, 101},
	} {
		legs := []leg{{0, tc.last, 0, tc.after, 0}, {50, 60, 180, 100, 0}}
		if got := m.firstTurn(legs, tc.sign); got != tc.want {
			t.Errorf("%s: %d, want %d", name, got, tc.want)
		}
	}
}
