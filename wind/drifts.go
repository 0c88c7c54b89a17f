package wind

import (
	"fmt"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// DriftSight is the drift seen on a heading. The zero DriftSight is no drift on
// north.
type DriftSight struct {
	Heading abeam.Bearing
	Drift   abeam.Degrees // track - heading, positive to the right; within 90 degrees
}

// WindFromDrifts finds the wind from the drift seen on two headings flown at one
// TAS. The crosswind on each track is known, and two crosswinds fix a wind. With
// tracks t1, t2 = heading + drift, and the headwind and crosswind on the first:
//
//	crosswind on t1 = -TAS sin(drift1)
//	headwind on t1  = TAS (sin(drift2) - sin(drift1) cos(t2 - t1)) / sin(t2 - t1)
//
// Source: the wind star of dead reckoning (double drift), common practice; the
// formula is the vector triangle of both headings, worked out. Exact to rounding,
// magnified by 1/sin(t2 - t1): best with the tracks square, singular where they are
// parallel.
//
// TAS is above 0 and at most [MaxTAS].
//
// Errors: [abeam.ErrInvalid] for input out of range, parallel tracks, or a wind
// stronger than [MaxSpeed]; [abeam.ErrUnflyable] where the wind that fits would blow
// the aeroplane backwards along a track.
func WindFromDrifts(tas abeam.Knots, first, second DriftSight) (Wind, error) {
	const op = "wind.WindFromDrifts"
	if err := check.Above(op, "TAS", tas, 0, MaxTAS); err != nil {
		return Wind{}, err
	}
	if err := first.validate(op, "first heading", "first drift"); err != nil {
		return Wind{}, err
	}
	if err := second.validate(op, "second heading", "second drift"); err != nil {
		return Wind{}, err
	}
	t1, t2 := first.Heading.Add(first.Drift), second.Heading.Add(second.Drift)
	s, c := angle.Sincos(float64(t2.Sub(t1)))
	if s == 0 {
		return Wind{}, check.Invalid(op, "second track", t2, fmt.Sprintf("not parallel to the first of %v", t1))
	}
	d1, c1 := angle.Sincos(float64(first.Drift))
	d2, c2 := angle.Sincos(float64(second.Drift))
	head := (d2 - d1*c) / s
	w, err := found(op, fromComponents(t1, Components{Head: tas * abeam.Knots(head), Cross: tas * abeam.Knots(-d1)}))
	if err != nil {
		return Wind{}, err
	}
	// The headwind on the second track is the first's turned: head cos + cross sin.
	for _, g := range []struct {
		field string
		share float64
	}{
		{"groundspeed on the first heading", c1 - head},
		{"groundspeed on the second heading", c2 - (head*c - d1*s)},
	} {
		if !(g.share > 0) {
			return Wind{}, check.Unflyable(op, g.field, tas*abeam.Knots(g.share), "above 0 kt in the wind that fits both drifts")
		}
	}
	return w, nil
}

func (d DriftSight) validate(op, heading, drift string) error {
	if err := check.Finite(op, heading, d.Heading); err != nil {
		return err
	}
	if !(d.Drift > -90 && d.Drift < 90) {
		return check.Invalid(op, drift, d.Drift, "within 90° of the heading")
	}
	return nil
}
