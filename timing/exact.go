package timing

import (
	"errors"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// Exact flies the circuit that closes on the fix in the wind as the pilot knows it: the
// heading of [hold.Pattern.Circuit] for its time from wings level. In a steady wind that is
// known it leaves no error from the first lap on.
//
// Where the wind allows no outbound leg for the inbound time it flies the circuit of the
// shortest inbound leg. In a wind, as it is known, that stops the aeroplane it flies the
// still-air leg.
func Exact() Strategy {
	return Strategy{Name: "exact", Next: exact, About: About{
		Name: "exact", Statement: "the heading and the time, from wings level, of the circuit that closes on the fix",
		Source: "the closing equation of package hold", Class: Derived, Applies: "a steady wind that is known", Needs: NeedsWind | NeedsComputer,
	}}
}

func exact(s Seen) Plan {
	c, err := s.Pattern.Circuit(s.Flight)
	if errors.Is(err, abeam.ErrUnflyable) {
		c, err = shortest(s.Pattern, s.Flight)
	}
	if err != nil {
		return Plan{Outbound: within(s.Target())}
	}
	return Plan{Correction: c.OutboundCorrection, Outbound: within(c.Straight), Start: AtTurnComplete}
}

// Measured flies the first lap as [Exact] does and every other one exactly in the wind that the
// last lap tells: [wind.WindFromLap] of its times from wings level and the correction held
// inbound. A wind that is wrongly known costs the first lap and little after it; what the last
// lap lacked of closing on the fix is taken for wind, so that it is not exact at once. A lap
// that no wind explains is flown again.
func Measured() Strategy {
	return Strategy{Name: "exact in the wind of the last lap", Next: measured, About: About{
		Name: "exact in the wind of the last lap", Statement: "the circuit that closes on the fix in the wind that the times and the correction of the last lap tell",
		Source: "derived here, wind.WindFromLap", Class: Derived, Applies: "every lap after the first", Needs: NeedsInboundTime | NeedsDrift | NeedsWind | NeedsComputer,
	}}
}

func measured(s Seen) Plan {
	if s.Laps == 0 {
		return exact(s)
	}
	w, err := wind.WindFromLap(s.Pattern.Inbound(), wind.Lap{
		TAS: s.Flight.TAS, Rate: abeam.Degrees(s.Flight.Rate), Outbound: s.Last.Outbound, Inbound: max(1, s.Inbound),
		Correction: s.Correction, Reversed: s.Last.Correction.Abs() > 90,
	})
	if err != nil {
		return s.Last
	}
	s.Flight.Wind = w
	return exact(s)
}

// shortest is the circuit of the shortest inbound leg that can be had.
func shortest(p hold.Pattern, f hold.Flight) (hold.Circuit, error) {
	d, err := p.ShortestInbound(f)
	if err != nil {
		return hold.Circuit{}, err
	}
	if p, err = p.WithLeg(hold.TimedInbound(max(1, d))); err != nil {
		return hold.Circuit{}, err
	}
	return p.Circuit(f)
}
