package verification

import (
	"errors"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/reference/holds"
	"github.com/holdingfix/abeam/wind"
)

// A hold whose speed is not published is flown at 200 kt. The column is of indicated
// airspeeds; taken as true ones they are as good as any.
const nominal abeam.Knots = 200

func tasOf(speed holds.Number) abeam.Knots {
	if speed.Given {
		return abeam.Knots(speed.Value)
	}
	return nominal
}

func publishedPattern(t *testing.T, h holds.Hold) hold.Pattern {
	t.Helper()
	fix := hold.Fix{Ident: h.Ident, Variation: abeam.Variation(h.Variation.Value), Position: s2.LatLngFromDegrees(h.Lat.Value, h.Lon.Value)}
	leg := hold.LengthOutbound(abeam.NM(h.Miles.Value)) // AIM 5-3-8 j.5
	if !h.Miles.Given {
		band, err := hold.FAA().LegTime(abeam.Feet(h.MinAlt.Value))
		if err != nil {
			t.Fatal(err)
		}
		leg = hold.TimedInbound(band.Time)
	}
	return newPattern(t, h.ID, fix, h.Inbound, h.Turn, leg)
}

func newPattern(t *testing.T, id string, fix hold.Fix, inbound float64, turn string, leg hold.Leg) hold.Pattern {
	t.Helper()
	p, err := hold.NewPattern(fix, abeam.NewBearing(inbound), map[string]hold.Turn{"L": hold.Left, "R": hold.Right}[turn], leg)
	if err != nil {
		t.Fatalf("%s: %v", id, err)
	}
	return p
}

// tally counts what was flown.
type tally struct {
	rows, placed, timed, circuits, short, points int
}

// fly solves a pattern in calm and in 30 kt from eight directions, at the airspeed of
// its limit, and follows the track over the ground.
func (n *tally) fly(t *testing.T, id string, p hold.Pattern, placed, timed bool, tas abeam.Knots) {
	t.Helper()
	n.rows++
	turning, err := hold.FAATurn().At(tas)
	if err != nil {
		t.Fatalf("%s: %v", id, err)
	}
	if timed {
		n.timed++
	}
	if placed {
		n.placed++
	}
	for from := -45; from < 360; from += 45 {
		f := hold.Flight{TAS: tas, Rate: turning.Rate}
		if from >= 0 {
			f.Wind = wind.Wind{From: abeam.Bearing(from), Speed: 30}
		}
		c, err := p.Circuit(f)
		if errors.Is(err, abeam.ErrUnflyable) { // only where the leg is too short for the wind
			var field *abeam.FieldError
			byTime := p.Leg().Kind() == hold.InboundTimed
			if !errors.As(err, &field) || byTime && field.Field != "inbound leg" || !byTime && p.Leg().Length() > 2 {
				t.Errorf("%s, wind from %d: %v", id, from, err)
			}
			n.short++
			continue
		}
		if err != nil || c.Extent.Astray != 0 {
			t.Errorf("%s, wind from %d: astray %v, %v", id, from, c.Extent.Astray, err)
			continue
		}
		n.circuits++
		n.follow(t, id, p, c, placed)
	}
}

// follow samples the track in 12 pieces: on the holding side throughout, up to rounding,
// and on the globe.
func (n *tally) follow(t *testing.T, id string, p hold.Pattern, c hold.Circuit, placed bool) {
	t.Helper()
	if !placed {
		return
	}
	positions, err := c.Positions(p.Fix(), c.Lap/12)
	if err != nil {
		t.Fatalf("%s: %v", id, err)
	}
	for s, at := range positions {
		if s.At.Abreast < -1e-9 || !at.IsValid() {
			t.Errorf("%s at %v: %v, %v", id, s.Time, s.At, at)
		}
		n.points++
	}
}

func TestPublishedCircuits(t *testing.T) {
	rows, _ := publishedHolds(t)
	var n tally
	for _, h := range rows {
		n.fly(t, h.ID, publishedPattern(t, h), h.Lat.Given, !h.Miles.Given, tasOf(h.Speed))
	}
	t.Logf("%+v", n)
	if n.rows != 7863 || n.placed != 7779 || n.timed != 2190 || n.circuits+n.short != 9*7863 || n.short > 9*7863/1000 {
		t.Errorf("%+v", n)
	}
}

func TestCodedCircuits(t *testing.T) {
	rows, err := holds.Coded()
	if err != nil {
		t.Fatal(err)
	}
	var n tally
	for _, h := range rows {
		fix := hold.Fix{Ident: h.Ident, Variation: abeam.Variation(h.Variation), Position: s2.LatLngFromDegrees(h.Lat, h.Lon)}
		leg := hold.LengthInbound(abeam.NM(h.Miles.Value)) // AIM 5-3-8 j.7(a)(4)
		if h.Minutes.Given {
			leg = hold.TimedInbound(time.Duration(h.Minutes.Value * float64(time.Minute)))
		}
		n.fly(t, h.ID, newPattern(t, h.ID, fix, h.Inbound, h.Turn, leg), true, !h.Miles.Given, tasOf(h.Speed))
	}
	t.Logf("%+v", n)
	if n.rows != 8500 || n.placed != 8500 || n.timed != 2183 || n.circuits != 9*8500 {
		t.Errorf("%+v", n)
	}
}
