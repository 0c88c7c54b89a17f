package entry

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// Still air, 120 kt at 3 deg/s: the radius is 120/(20 pi 3) = 2/pi = 0.636620 NM, a minute
// is 2 NM. Inbound 000, right turns: the holding side is east, abreast is to the east and
// along to the north. Every figure worked by hand, none by the program.
func TestStillAirByHand(t *testing.T) {
	const r = 2 / math.Pi
	p := pattern(t, 0, hold.Right)
	f := hold.Flight{TAS: 120, Rate: 3}
	for _, c := range []struct {
		name     string
		entry    Kind
		heading  abeam.Bearing
		along    float64 // established
		seconds  float64 // to established
		extent   [4]float64
		through  float64
		straight time.Duration
		pieces   int
	}{
		// A half circle to (0, 2r), 2 NM to (-2, 2r), a half circle to (-2, 0).
		{"direct, straight in", Direct, 0, -2, 180, [4]float64{r, 2 + r, 2 * r, 0}, 180, time.Minute, 4},
		// A turn of 180 - 90 = 90 degrees from 090, to (-r, r), 2 NM to (-2-r, r). A half circle back would end at (-2-r, -r), past
		// the course by r. It goes on to 045, by r sin 45 along and r (1 - cos 45) back
		// east; so does the turn back to 000. What is left to the course is
		// r (1 - 2 (1 - cos 45)) = (sqrt2 - 1) r, flown at 45 degrees and so as much along
		// too, over a leg of sqrt2 times that. Along: -2 - r + sqrt2 r + (sqrt2 - 1) r.
		// Turns of 90 + 225 + 45 = 360 degrees take 120 s; 30 s/NM for the rest. The most
		// westerly point is where the half circle ends, abreast -r; the furthest south its
		// quarter, along -2 - 2r; the furthest east (-2-r, r) and the leg before.
		{"direct, across from the holding side", Direct, 90, -2 - 2*r + 2*math.Sqrt2*r,
			120 + 30*(2+math.Sqrt2*(math.Sqrt2-1)*r), [4]float64{0, 2 + 2*r, r, r}, 90, time.Minute, 6},
		// Already on 150: 2 NM to (-sqrt3, 1). Back to 000 through 210 degrees: by
		// r (sin 0 - sin 150) = -r/2 along and r (cos 150 - cos 0) = -r (1 + sqrt3/2) abreast,
		// to 1 - 1.866025 r = -0.187950, past the course. It weaves: past 000 by a and back,
		// with 2 r (1 - cos a) = 0.187950, a = 31.53 degrees, gaining 2 r sin a along.
		// Furthest east on heading 180: 1 + r (cos 150 - cos 180) = 1 + r (1 - sqrt3/2).
		// Furthest south on heading 270: -sqrt3 + r (sin 270 - sin 150) = -sqrt3 - 3r/2.
		// Furthest west at 000 in the turn back: 1 - r (1 + sqrt3/2).
		{"teardrop, along its heading", Teardrop, 150, -math.Sqrt(3) - r/2 + 2*r*math.Sin(weaveByHand(r)),
			60 + (210+2*weaveByHand(r)*180/math.Pi)/3, [4]float64{0, math.Sqrt(3) + 1.5*r, 1 + r*(1-math.Sqrt(3)/2), r*(1+math.Sqrt(3)/2) - 1}, 0, time.Minute, 4},
		// Heading 270: left through 90 to 180, to (-r, -r); 2 NM to (-2-r, -r). Left through
		// 180 would end at (-2-r, r), on the other side of the course by r: the mirror image
		// of the direct entry above, on to 315 and back at 45 degrees.
		{"parallel, across from the non-holding side", Parallel, 270, -2 - 2*r + 2*math.Sqrt2*r,
			120 + 30*(2+math.Sqrt2*(math.Sqrt2-1)*r), [4]float64{0, 2 + 2*r, r, r}, 90, time.Minute, 6},
	} {
		fl, err := FAA().Plan(c.entry, time.Minute).Fly(p, f, c.heading, AsPublished)
		if err != nil {
			t.Fatal(err)
		}
		if !near.Equal(float64(fl.Established.Along), c.along, 1e-9) || fl.Established.Abreast != 0 {
			t.Errorf("%s: established %+v, by hand %v", c.name, fl.Established, c.along)
		}
		if !near.Equal(fl.ToEstablish.Seconds(), c.seconds, 1e-6) || !near.Equal(fl.Inbound.Seconds(), -30*c.along, 1e-6) {
			t.Errorf("%s: established after %v, by hand %v; inbound %v", c.name, fl.ToEstablish, c.seconds, fl.Inbound)
		}
		e := fl.Extent
		for i, got := range [4]abeam.NM{e.Beyond, e.Outbound, e.Widest, e.Astray} {
			if !near.Equal(float64(got), c.extent[i], 1e-9) {
				t.Errorf("%s: extent %+v, by hand %v", c.name, e, c.extent)
				break
			}
		}
		if !near.Equal(float64(fl.Through), c.through, 1e-9) || fl.EntryTime != c.straight || fl.Clock != c.straight || fl.n != c.pieces {
			t.Errorf("%s: turns through %v, %v on the leg, %d pieces", c.name, fl.Through, fl.EntryTime, fl.n)
		}
	}
}

// weaveByHand is the angle past the inbound heading of the teardrop above, in radians.
func weaveByHand(r float64) float64 {
	return math.Acos(1 - (r*(1+math.Sqrt(3)/2)-1)/(2*r))
}

// From the edges of its sector, still air, as published: turns of 250 and of 70 degrees.
// From 290 the turn ends past the fix by r sin 70, which is 0.598 NM or 17.9 s at 120 kt
// before the fix is abeam and the clock starts.
func TestDirectFromItsEdges(t *testing.T) {
	const r = 2 / math.Pi
	p := pattern(t, 0, hold.Right)
	f := hold.Flight{TAS: 120, Rate: 3}
	s, c := math.Sincos(70 * math.Pi / 180)
	for heading, want := range map[abeam.Bearing]struct {
		through          abeam.Degrees
		abreast, outward float64 // where the leg lies and how far it goes
		wait             float64
	}{
		290: {250, r * (1 + c), 2, 30 * r * s},
		110: {70, r * (1 - c), 2 + r*s, 0},
	} {
		fl, err := FAA().Plan(Direct, time.Minute).Fly(p, f, heading, AsPublished)
		if err != nil {
			t.Fatal(err)
		}
		if !near.Equal(fl.Through, want.through, 1e-9) || fl.FixTurn != hold.Right || fl.Clock != time.Minute ||
			!near.Equal((fl.EntryTime-fl.Clock).Seconds(), want.wait, 1e-8) {
			t.Errorf("heading %v: %+v", heading, fl)
		}
		for leg := range fl.Legs() {
			if leg.Phase == ReturnTurn && (!near.Equal(float64(leg.From.Abreast), want.abreast, 1e-9) || !near.Equal(float64(-leg.From.Along), want.outward, 1e-9)) {
				t.Errorf("heading %v: turns back at %+v, want %+v", heading, leg.From, want)
			}
		}
	}
}

// On the inbound heading over the fix, the corrected direct entry is the exact circuit.
func TestDirectIsTheCircuit(t *testing.T) {
	solved := 0
	for i := range 400 {
		p, f, _, plan := scattered(t, i, 0.6)
		p, err := p.WithLeg(hold.TimedInbound(plan.Inbound))
		if err != nil {
			t.Fatal(err)
		}
		c, err := p.Circuit(f)
		if err != nil {
			continue
		}
		solved++
		plan.Entry = Direct
		fl, err := plan.Fly(p, f, c.InboundHeading, ForWind)
		if err != nil {
			t.Fatal(err)
		}
		for name, pair := range map[string][2]time.Duration{
			"leg": {fl.EntryTime, c.Straight}, "inbound": {fl.Inbound, c.Inbound}, "lap": {fl.Total, c.Lap}, "clock": {fl.Clock, c.Clock},
		} {
			if d := pair[0] - pair[1]; d > 1000 || d < -1000 {
				t.Errorf("case %d: %s %v, circuit %v", i, name, pair[0], pair[1])
			}
		}
		if !near.Angle(fl.EntryHeading, c.OutboundHeading, 1e-8) || !near.Equal(fl.Through, c.OutboundTurn.Angle, 1e-8) ||
			!near.Equal(fl.Extent.Widest, c.Extent.Widest, 1e-8) || !near.Equal(fl.Extent.Beyond, c.Extent.Beyond, 1e-8) ||
			!near.Equal(fl.Extent.Outbound, c.Extent.Outbound, 1e-8) || fl.Extent.Astray != 0 || fl.Notes != 0 {
			t.Errorf("case %d: %+v, circuit %+v", i, fl, c)
		}
	}
	t.Logf("%d circuits", solved)
	if solved < 300 {
		t.Errorf("only %d circuits", solved)
	}
}

// A teardrop kept on its angle makes good just that track, and still ends on the course.
func TestKeepAngle(t *testing.T) {
	p := pattern(t, 40, hold.Left)
	for _, angle := range []abeam.Degrees{10, 20, 30, 45} {
		plan := FAA().Plan(Teardrop, time.Minute)
		plan.Teardrop, plan.KeepAngle = angle, true
		fl, err := plan.Fly(p, hold.Flight{TAS: 130, Rate: 3, Wind: wind.Wind{From: 200, Speed: 20}}, 225, ForWind)
		if err != nil {
			t.Fatal(err)
		}
		if !near.Equal(fl.Offset(), angle, 1e-9) || fl.Notes.Has(OffCourse) || fl.Notes.Has(AngleLimited) || !fl.Notes.Has(InboundTimeMissed) {
			t.Errorf("%v: offset %v, %v", angle, fl.Offset(), fl.Notes)
		}
	}
}

// The two wordings of the teardrop in a crosswind: the FAA's is a heading, and is blown
// off; ICAO's is a track.
func TestTeardropHeadingOrTrack(t *testing.T) {
	p := pattern(t, 0, hold.Right)
	f := hold.Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 240, Speed: 30}} // square across 150
	for _, c := range []struct {
		rules          Rules
		heading, track abeam.Bearing
	}{
		{FAA(), 150, 150 - 14.036243},  // atan(30/120)
		{ICAO(), 150 + 14.477512, 150}, // asin(30/120)
		{FAARNAV(), 150 + 14.477512, 150},
	} {
		fl, err := c.rules.Plan(Teardrop, time.Minute).Fly(p, f, 130, AsPublished)
		if err != nil {
			t.Fatal(err)
		}
		if !near.Angle(fl.EntryHeading, c.heading, 1e-6) || !near.Angle(fl.EntryTrack, c.track, 1e-6) {
			t.Errorf("%v: heading %v, track %v", c.rules, fl.EntryHeading, fl.EntryTrack)
		}
	}
	if FAA().TeardropBasis() != Heading || ICAO().TeardropBasis() != Track {
		t.Error("teardrop basis")
	}
}

// Two minutes of teardrop under ICAO: 1 minute 30 on the offset, 30 s parallel to the
// outbound. From 150 in still air at 120 kt, r = 2/pi: 3 NM on 150 to (-3 cos 30, 1.5),
// a turn of 30 to (.. - r sin 30, .. + r (1 - cos 30)), 1 NM on 180.
func TestOffsetLimit(t *testing.T) {
	const r = 2 / math.Pi
	fl, err := ICAO().Plan(Teardrop, 2*time.Minute).Fly(pattern(t, 0, hold.Right), hold.Flight{TAS: 120, Rate: 3}, 150, AsPublished)
	if err != nil {
		t.Fatal(err)
	}
	var turn, back Leg
	for leg := range fl.Legs() {
		switch leg.Phase {
		case OffsetTurn:
			turn = leg
		case ReturnTurn:
			back = leg
		}
	}
	s, c := 0.5, math.Sqrt(3)/2
	if fl.EntryTime != ICAO().OffsetLimit() || turn.Turn != hold.Right || !near.Equal(turn.Through, 30, 1e-9) || !near.Angle(turn.Heading, 180, 1e-9) ||
		!near.Equal(float64(back.From.Along), -3*c-r*s-1, 1e-9) || !near.Equal(float64(back.From.Abreast), 1.5+r*(1-c), 1e-9) ||
		!fl.Notes.Has(OffsetTimeLimited) {
		t.Errorf("%v, %+v, %+v, %v", fl.EntryTime, turn, back, fl.Notes)
	}
	short, err := ICAO().Plan(Teardrop, 90*time.Second).Fly(pattern(t, 0, hold.Right), hold.Flight{TAS: 120, Rate: 3}, 150, AsPublished)
	if err != nil || short.Notes.Has(OffsetTimeLimited) || short.EntryTime != 90*time.Second {
		t.Errorf("90 s: %v, %v", short.EntryTime, err)
	}
}

// Turning pattern, heading and wind together changes nothing but the directions;
// mirroring them swaps left and right.
func TestFlyRotatesAndMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inbound, heading := draw.Bearing().Draw(t, "inbound"), draw.Bearing().Draw(t, "heading")
		tas := draw.TAS().Draw(t, "tas")
		f := hold.Flight{TAS: tas, Rate: 3, Wind: draw.Wind(tas, 0.5).Draw(t, "wind")}
		m := rapid.SampledFrom([]Manner{AsPublished, ForWind}).Draw(t, "manner")
		kind := rapid.SampledFrom([]Kind{Direct, Teardrop, Parallel}).Draw(t, "kind")
		by := abeam.Degrees(draw.Whole(-180, 180).Draw(t, "by"))
		plan := FAA().Plan(kind, time.Minute)
		fl, err := plan.Fly(pattern(t, inbound, hold.Right), f, heading, m)
		fTurned, fMirrored := f, f
		fTurned.Wind.From = f.Wind.From.Add(by)
		fMirrored.Wind.From = inbound.Add(-f.Wind.From.Sub(inbound))
		turned, errTurned := plan.Fly(pattern(t, inbound.Add(by), hold.Right), fTurned, heading.Add(by), m)
		mirrored, errMirrored := plan.Fly(pattern(t, inbound, hold.Left), fMirrored, inbound.Add(-heading.Sub(inbound)), m)
		if (err == nil) != (errTurned == nil) || (err == nil) != (errMirrored == nil) {
			t.Fatalf("%v, turned %v, mirrored %v", err, errTurned, errMirrored)
		}
		if err != nil {
			return
		}
		for name, o := range map[string]Flown{"turned": turned, "mirrored": mirrored} {
			if !near.Equal(o.Established.Along, fl.Established.Along, 1e-6) || !near.Equal(o.ToEstablish.Seconds(), fl.ToEstablish.Seconds(), 1e-4) ||
				!near.Equal(o.Extent.Astray, fl.Extent.Astray, 1e-6) || !near.Equal(o.Extent.Widest, fl.Extent.Widest, 1e-6) || o.n != fl.n {
				t.Fatalf("%s: %+v and %+v", name, fl, o)
			}
		}
		if !near.Angle(turned.EntryHeading, fl.EntryHeading.Add(by), 1e-8) || turned.FixTurn != fl.FixTurn ||
			!near.Equal(mirrored.EntryHeading.Sub(inbound).Abs(), fl.EntryHeading.Sub(inbound).Abs(), 1e-8) ||
			(fl.Through > 0 && mirrored.FixTurn == fl.FixTurn) || mirrored.Return == fl.Return {
			t.Fatalf("headings %v, turned %v, mirrored %v", fl.EntryHeading, turned.EntryHeading, mirrored.EntryHeading)
		}
	})
}

// The still-air procedure and the flown entry agree on headings, turns and times.
func TestFlyIsThePublishedProcedure(t *testing.T) {
	f := hold.Flight{TAS: 120, Rate: 3}
	for _, turn := range []hold.Turn{hold.Right, hold.Left} {
		p := pattern(t, 75, turn)
		for h := range 360 {
			for _, kind := range []Kind{Direct, Teardrop, Parallel} {
				pr, err := Published(p, kind, abeam.Bearing(h), time.Minute)
				if err != nil {
					t.Fatal(err)
				}
				fl, err := FAA().Plan(kind, time.Minute).Fly(p, f, abeam.Bearing(h), AsPublished)
				if err != nil {
					t.Fatal(err)
				}
				if !near.Angle(fl.EntryHeading, pr.Heading, 1e-9) || !near.Equal(fl.Through, pr.Through, 1e-9) || fl.Clock != pr.Time ||
					fl.Return != pr.Return || (pr.Through > 0 && fl.FixTurn != pr.First) {
					t.Fatalf("%v, %v turns, heading %d: %+v, flown %+v", kind, turn, h, pr, fl)
				}
			}
		}
	}
}
