package hold

import (
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/draw"
	"github.com/holdingfix/abeam/internal/near"
)

// drawLegHold draws a hold with any kind of leg, of 40 s to 4 minutes in still air.
func drawLegHold(t *rapid.T, share float64) (Pattern, Flight) {
	p, f := drawHold(t, share)
	f.Altitude = abeam.Feet(draw.Uniform(0, 30000).Draw(t, "altitude"))
	seconds := draw.Uniform(40, 240).Draw(t, "seconds")
	length := f.TAS * abeam.Knots(seconds/3600)
	var leg Leg
	switch kind := rapid.SampledFrom(legKinds[:]).Draw(t, "kind"); kind {
	case InboundTimed:
		leg = TimedInbound(time.Duration(seconds * 1e9))
	case OutboundTimed:
		leg = TimedOutbound(time.Duration(seconds * 1e9))
	case OutboundLength:
		leg = LengthOutbound(abeam.NM(length))
	case InboundLength:
		leg = LengthInbound(abeam.NM(length))
	case OutboundDME:
		s := Station{Course: rapid.SampledFrom([]StationCourse{Toward, Away}).Draw(t, "course"), Elevation: 500}
		s.Fix = 5 + abeam.NM(draw.Uniform(0, 60).Draw(t, "fix DME"))
		if s.Course == Away {
			s.Fix += abeam.NM(length)
		}
		limit, err := s.Limit(abeam.NM(length))
		if err != nil {
			t.Fatal(err)
		}
		leg = DMELimit(s, limit)
	}
	p, err := p.WithLeg(leg)
	if err != nil {
		t.Fatal(err)
	}
	return p, f
}

func TestLegsClose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawLegHold(t, 0.6)
		c, err := p.Circuit(f)
		if err != nil {
			if !errors.Is(err, abeam.ErrUnflyable) {
				t.Fatal(err)
			}
			return
		}
		size := float64(f.TAS) / 3600 * c.Lap.Seconds()
		samples, err := c.AppendTrack(nil, c.Lap/5+1)
		if err != nil {
			t.Fatal(err)
		}
		end := samples[len(samples)-1]
		if math.Hypot(float64(end.At.Along), float64(end.At.Abreast)) > 1e-11*size+1e-9 || end.Time != c.Lap {
			t.Fatalf("ends at %+v", end)
		}
		if c.Inbound < 0 || c.Established.Along > 0 || c.Extent.Astray != 0 {
			t.Fatalf("inbound %v from %v, %v", c.Inbound, c.Established, c.Extent)
		}
		if c.Notes.Has(OutboundPointsInbound) && p.leg.kind != InboundTimed && p.leg.kind != InboundLength {
			t.Fatalf("not the ordinary circuit: outbound %v", c.OutboundCorrection)
		}
		if c.Straight < time.Second {
			return // its end is a quotient of roundings in a wind almost along the course
		}
		// The leg ends where it is said to.
		switch v := float64(f.TAS) / 3600; p.leg.kind {
		case OutboundTimed:
			if !near.Equal(c.Clock.Seconds(), p.leg.time.Seconds(), 1e-7) {
				t.Fatalf("clock %v, want %v", c.Clock, p.leg.time)
			}
		case OutboundLength:
			if !near.Equal(-c.TurnIn.Along, p.leg.distance, 1e-8) {
				t.Fatalf("turns in at %v, want %v", c.TurnIn.Along, p.leg.distance)
			}
		case InboundLength:
			if !near.Equal(-c.Established.Along, p.leg.distance, abeam.NM(1e-9+1e-9*v)) {
				t.Fatalf("established at %v, want %v", c.Established.Along, p.leg.distance)
			}
		case OutboundDME:
			s, limit := p.leg.DME()
			fix, err := GroundDistance(s.Fix, f.Altitude-s.Elevation)
			if err != nil {
				t.Fatal(err)
			}
			if s.Course == Away {
				fix = -fix
			}
			along, abreast := float64(c.TurnIn.Along-fix), float64(c.TurnIn.Abreast)
			got, err := SlantRange(abeam.NM(math.Hypot(along, abreast)), f.Altitude-s.Elevation)
			if err != nil || !near.Equal(got, limit, 1e-7) {
				t.Fatalf("reads %v at the end, want %v, %v", got, limit, err)
			}
		}
	})
}

// Turning pattern and wind together changes nothing but the directions; mirroring them
// swaps left and right.
func TestLegsRotateAndMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawLegHold(t, 0.4)
		c, err := p.Circuit(f)
		if err != nil {
			t.Skip("no circuit in this wind")
		}
		if c.Straight < time.Second {
			// Hardly any wind across and hardly any leg: the heading is then a quotient of
			// two roundings.
			t.Skip("no leg to speak of")
		}
		by := abeam.Degrees(draw.Uniform(-180, 180).Draw(t, "by"))
		a, b := turnedAndMirrored(t, p, f, by)
		// Where a circuit is hardly turned by its limit (an arc grazed, a leg hardly long
		// enough), rounding moves it by more; 1e-6 s is far below anything flown.
		for _, o := range []Circuit{a, b} {
			if !near.Equal(o.Straight.Seconds(), c.Straight.Seconds(), 1e-6) || !near.Equal(o.Inbound.Seconds(), c.Inbound.Seconds(), 1e-6) {
				t.Fatalf("legs %v %v and %v %v", c.Straight, c.Inbound, o.Straight, o.Inbound)
			}
			if o.Notes != c.Notes {
				t.Fatalf("notes %q and %q", c.Notes, o.Notes)
			}
		}
		if !near.Angle(a.OutboundHeading, c.OutboundHeading.Add(by), 1e-6) {
			t.Fatalf("turned by %v: outbound %v and %v", by, c.OutboundHeading, a.OutboundHeading)
		}
		if !near.Equal(b.OutboundCorrection.Abs(), c.OutboundCorrection.Abs(), 1e-6) {
			t.Fatalf("mirrored: corrections %v and %v", c.OutboundCorrection, b.OutboundCorrection)
		}
	})
}

// In still air every leg is the racetrack whose straight legs are equal; the DME limit
// lies on a circle about the station, two radii abreast.
func TestLegsInStillAir(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawLegHold(t, 0)
		c, err := p.Circuit(f)
		if err != nil {
			if p.leg.kind != OutboundDME {
				t.Fatal(err)
			}
			t.Skip("the DME limit lies within the width of the pattern")
		}
		v := float64(f.TAS) / 3600
		want := 0.0 // s
		switch p.leg.kind {
		case InboundTimed:
			want = p.leg.time.Seconds()
		case OutboundTimed:
			want = p.leg.time.Seconds()
		case OutboundLength, InboundLength:
			want = float64(p.leg.distance) / v
		case OutboundDME:
			h := float64(f.Altitude-500) / 6076.115485564304
			abreast := 2 * float64(f.TAS) / (20 * math.Pi * float64(f.Rate))
			s := p.leg.station
			fix := math.Sqrt(float64(s.Fix*s.Fix) - h*h)
			reach := math.Sqrt(float64(p.leg.distance*p.leg.distance) - h*h - abreast*abreast)
			want = (reach - fix) / v
			if s.Course == Away {
				want = (fix - reach) / v
			}
		}
		if !near.Equal(c.Straight.Seconds(), want, 1e-6) || !near.Equal(c.Inbound.Seconds(), want, 1e-6) ||
			!near.Angle(c.OutboundHeading, p.Outward(), 1e-9) {
			t.Fatalf("%v: straight %v, inbound %v on %v, want %v s", p.leg, c.Straight, c.Inbound, c.OutboundHeading, want)
		}
	})
}

// An inbound leg of t at groundspeed g is the inbound leg of length g t.
func TestInboundByTimeOrLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawHold(t, 0.9)
		c, err := p.Circuit(f)
		if err != nil {
			t.Skip("no circuit in this wind")
		}
		length := float64(c.InboundGroundspeed) * p.leg.time.Hours()
		q, err := p.WithLeg(LengthInbound(abeam.NM(length)))
		if err != nil {
			t.Skip("longer than a leg may be")
		}
		d, err := q.Circuit(f)
		if err != nil {
			if c.Straight > time.Millisecond {
				t.Fatal(err)
			}
			t.Skip("at the shortest leg to the last bit")
		}
		slack := 2e-9 + 1e-12*c.Lap.Seconds()/(1-float64(f.Wind.Speed/f.TAS))
		if !near.Equal(c.Straight.Seconds(), d.Straight.Seconds(), slack) || !near.Equal(c.Inbound.Seconds(), d.Inbound.Seconds(), slack) ||
			!near.Angle(c.OutboundHeading, d.OutboundHeading, 1e-7) {
			t.Fatalf("by time %v %v %v, by length %v %v %v", c.Straight, c.Inbound, c.OutboundHeading, d.Straight, d.Inbound, d.OutboundHeading)
		}
	})
}
