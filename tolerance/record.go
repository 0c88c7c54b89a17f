package tolerance

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/angle"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/kinematics"
)

type state struct{ x, y, h float64 }

type piecewise struct {
	kinematics.Segment
	start float64
}

func (f *flown) piece(rate, duration float64) kinematics.Segment {
	return kinematics.Segment{
		X: f.state.x, Y: f.state.y, Heading: f.state.h, Rate: rate, Speed: f.v, WX: f.wx, WY: f.wy, Duration: duration,
	}
}

func (f *flown) add(rate, duration float64) {
	s := f.piece(rate, duration)
	f.pieces = append(f.pieces, piecewise{s, f.now})
	end := s.End()
	f.state = state{end.X, end.Y, float64(abeam.NewDegrees(end.Heading))}
	f.now += duration
}

func (f *flown) straight(duration float64) { f.add(0, duration) }

// turn goes one way to a heading of the course frame.
func (f *flown) turn(to, way float64) {
	through := math.Mod(way*(to-f.state.h)+720, 360)
	f.add(way*f.rate, through/f.rate)
	f.state.h = to
}

// record samples the flight. Every sample draws the same number of random figures, so
// that a slip or a noise does not change the others.
func (p *Plan) record(op string, f *flown, ias abeam.Knots) (Log, error) {
	n := int(f.now / p.Step.Seconds())
	if n >= MaxSamples {
		return Log{}, check.Invalid(op, "samples", n, fmt.Sprintf("at most %d", MaxSamples))
	}
	log := Log{HeadingNorth: p.HeadingNorth, TrackNorth: abeam.True, Samples: make([]Sample, 0, n+1)}
	random := rand.New(rand.NewPCG(p.Seed, 7))
	variation := p.Pattern.Fix().Variation
	k := 0
	for i := 0; i <= n; i++ {
		t := (p.Step * time.Duration(i)).Seconds()
		for k+1 < len(f.pieces) && f.pieces[k+1].start <= t {
			k++
		}
		st := f.pieces[k].At(t - f.pieces[k].start)
		gx, gy := f.ground(st.Heading)
		place, err := p.Pattern.Place(hold.Point{Along: abeam.NM(st.X), Abreast: abeam.NM(st.Y)})
		if err != nil {
			return Log{}, err
		}
		compass := func(theta float64) abeam.Bearing { return p.Pattern.Inbound().Add(abeam.Degrees(f.side * theta)) }
		heading := compass(st.Heading)
		if p.HeadingNorth == abeam.True {
			heading = variation.True(heading)
		}
		s := Sample{
			Time: p.Step * time.Duration(i), Lat: place.Lat.Degrees(), Lon: place.Lng.Degrees(),
			Altitude: p.Altitude + p.Noise.Altitude*abeam.Feet(random.NormFloat64()),
			IAS:      max(0, ias+p.Noise.IAS*abeam.Knots(random.NormFloat64())),
			Heading:  heading.Add(p.Noise.Heading * abeam.Degrees(random.NormFloat64())),
			Groundspeed: max(0, abeam.Knots(math.Hypot(gx, gy)*3600)+
				p.Noise.Groundspeed*abeam.Knots(random.NormFloat64())),
			Track: variation.True(compass(angle.Atan2(gy, gx))).Add(p.Noise.Track * abeam.Degrees(random.NormFloat64())),
			Has:   Quantities(Time | Latitude | Longitude | Altitude | IAS | Heading | Groundspeed | Track),
		}
		for _, slip := range p.Slips {
			if s.Time >= slip.From && s.Time < slip.From+slip.For {
				s.slip(slip)
			}
		}
		log.Samples = append(log.Samples, s)
	}
	return log, nil
}

func (s *Sample) slip(by Slip) {
	switch by.Quantity {
	case Altitude:
		s.Altitude += abeam.Feet(by.By)
	case IAS:
		s.IAS = max(0, s.IAS+abeam.Knots(by.By))
	case Heading:
		s.Heading = s.Heading.Add(abeam.Degrees(by.By))
	}
}
