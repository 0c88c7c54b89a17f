package hold

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
)

// Progress is how far round a circuit an aeroplane is: the place of the track that is
// nearest to it, and what is left from there if the circuit is flown.
type Progress struct {
	Nearest Sample // the moment of the circuit at that place: its Phase is the leg
	// Off is how far off the track the aeroplane is, positive to the right of the track
	// as flown: to the inside with right turns.
	Off abeam.NM

	LegToGo   abeam.NM // over the ground along the track to the end of the phase
	LegTime   time.Duration
	ToFix     abeam.NM // the same to over or abeam the fix, where the lap ends
	TimeToFix time.Duration
}

// Progress finds an aeroplane on the circuit by its place alone. Where two places of
// the track are equally near, the later in the lap is given: over the fix, where one
// lap ends and the next begins, that is the end of the inbound leg with nothing to go;
// at a corner the leg that begins; midway between the legs the inbound one. Beside such
// a place the answer can change legs with a step; [Circuit.ProgressOnTrack] and
// [Circuit.ProgressOnHeading] tell the legs apart by where the aeroplane goes.
//
// Accuracy: rounding, 1e-9 NM and 1e-6 s; less in time near the middle of a turn, from
// where all of it is equally far.
//
// Errors: [abeam.ErrInvalid] for a point that is not finite or farther from the fix
// than [MaxRange], or a circuit that is zero or rolls out beyond the fix.
func (c Circuit) Progress(at Point) (Progress, error) {
	return c.progress("hold.Circuit.Progress", at, 0, 180)
}

// ProgressOnTrack finds an aeroplane by its place and its track over the ground, in the
// north of the pattern: of the places at which the circuit's track lies within 90
// degrees of it, the nearest. There always is one, for the track turns through a full
// circle. At the fix itself the two laps have one track: see [Circuit.Progress].
//
// Accuracy and errors: as [Circuit.Progress]; [abeam.ErrInvalid] for a track that is
// not finite.
func (c Circuit) ProgressOnTrack(at Point, track abeam.Bearing) (Progress, error) {
	const op = "hold.Circuit.ProgressOnTrack"
	if err := check.Finite(op, "track", track); err != nil {
		return Progress{}, err
	}
	// V cos(h - track) + (wind along the track) falls to 0 at the edge.
	mid := c.turn.mirror(float64(track - c.inbound))
	s, cos := angle.Sincos(mid)
	along := c.legs.wx*cos + c.legs.wy*s
	return c.progress(op, at, mid, angle.Acos(-along/c.legs.v))
}

// ProgressOnHeading is [Circuit.ProgressOnTrack] by the heading of the aeroplane: of the
// places at which the circuit's heading lies within 90 degrees of it, the nearest.
func (c Circuit) ProgressOnHeading(at Point, heading abeam.Bearing) (Progress, error) {
	const op = "hold.Circuit.ProgressOnHeading"
	if err := check.Finite(op, "heading", heading); err != nil {
		return Progress{}, err
	}
	return c.progress(op, at, c.turn.mirror(float64(heading-c.inbound)), 90)
}

// progress looks where the heading lies within half degrees of mid, in the frame.
func (c *Circuit) progress(op string, at Point, mid, half float64) (Progress, error) {
	if c.Lap <= 0 {
		return Progress{}, check.Invalid(op, "circuit", "zero", "one that Circuit or Fly gave")
	}
	if c.Inbound < 0 {
		return Progress{}, check.Invalid(op, "inbound leg", c.Inbound, "at least 0s: beyond the fix there is none")
	}
	if err := at.validate(op); err != nil {
		return Progress{}, err
	}
	segments := c.segments()
	n := nearest{x: float64(at.Along), y: float64(at.Abreast), distance: math.Inf(1)}
	for i := range segments {
		n.search(i, &segments[i], mid, half)
	}
	return c.left(&segments, &n), nil
}
