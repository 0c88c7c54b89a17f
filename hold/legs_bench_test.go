package hold

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

// legKinds are all kinds, the timed inbound leg first.
var legKinds = [5]LegKind{InboundTimed, InboundLength, OutboundTimed, OutboundLength, OutboundDME}

// variedLegs gives the flights of varied with patterns of one kind of leg, a minute or so
// long, all solvable.
func variedLegs(tb testing.TB, kind LegKind) ([]Pattern, []Flight) {
	ps, fs := varied(tb)
	for i := range ps {
		f := &fs[i]
		f.Altitude = abeam.Feet(math.Mod(float64(i)*797, 12000))
		minute := f.TAS / 60
		var leg Leg
		switch kind {
		case InboundTimed:
			leg = TimedInbound(time.Minute)
		case InboundLength:
			leg = LengthInbound(abeam.NM(minute))
		case OutboundTimed:
			leg = TimedOutbound(90 * time.Second)
		case OutboundLength:
			leg = LengthOutbound(abeam.NM(2 * minute))
		case OutboundDME:
			s := Station{Course: Toward, Fix: 10}
			if i%2 == 1 {
				s = Station{Course: Away, Fix: abeam.NM(10 + 2*minute)}
			}
			limit, err := s.Limit(abeam.NM(2 * minute))
			if err != nil {
				tb.Fatal(err)
			}
			leg = DMELimit(s, limit)
		}
		var err error
		if ps[i], err = ps[i].WithLeg(leg); err != nil {
			tb.Fatal(err)
		}
		for {
			if _, err := ps[i].Circuit(*f); err == nil {
				break
			}
			f.Wind.Speed /= 2
		}
	}
	return ps, fs
}

func BenchmarkLegs(b *testing.B) {
	for _, kind := range legKinds {
		b.Run(kind.String(), func(b *testing.B) {
			ps, fs := variedLegs(b, kind)
			b.ReportAllocs()
			i := 0
			for b.Loop() {
				runCircuit(&ps[i&1023], &fs[i&1023])
				i++
			}
		})
	}
}

func TestLegsAllocateNothing(t *testing.T) {
	for _, kind := range legKinds {
		ps, fs := variedLegs(t, kind)
		if n := testing.AllocsPerRun(10, func() {
			for i := range ps {
				runCircuit(&ps[i], &fs[i])
				runOutbound(&ps[i], &fs[i])
			}
		}); n != 0 {
			t.Errorf("%v allocates %v times", kind, n)
		}
	}
}
