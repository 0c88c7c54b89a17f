package timing

import (
	"fmt"

	"github.com/holdingfix/abeam"
)

// Strategy is a way to fly a hold: before each lap it is told what a pilot sees and
// answers with the outbound leg. The zero Strategy has no Next and is rejected.
//
// Next is called from several goroutines where a [Study] has several workers, so it
// should depend on what it is told and on nothing that it changes.
type Strategy struct {
	Name  string
	Next  func(Seen) Plan
	About About // what is known of it; may be left out
}

// Compose puts a rule for the time and a rule for the heading together. The rule for the
// heading is told the time that the other one has chosen, in the plan. Without a name the
// strategy has that of the two rules. What is known of it is what is known of both, its class
// the weaker of theirs.
func Compose(name string, t TimingRule, d DriftRule) Strategy {
	if name == "" {
		name = t.Name + " + " + d.Name
	}
	s := Strategy{Name: name, About: About{
		Name: name, Statement: t.Statement + "; " + d.Statement, Source: t.Source + "; " + d.Source,
		Class: max(t.Class, d.Class), Applies: t.Applies + "; " + d.Applies, Needs: t.Needs | d.Needs,
	}}
	if t.Next != nil && d.Next != nil { // else it is rejected where it is flown
		s.Next = func(seen Seen) Plan { return d.Next(seen, t.Next(seen)) }
	}
	return s
}

// StrategyError reports a strategy that gave no plan that can be flown: by name, with
// the lap and with what it was told. It unwraps to [abeam.ErrInvalid].
type StrategyError struct {
	Strategy string
	Lap      int // the first is 1
	Seen     Seen
	Plan     Plan   // what it asked for, zero if it panicked
	Problem  string // what is wrong
}

// Error gives all of it in one line.
func (e *StrategyError) Error() string {
	s := &e.Seen
	return fmt.Sprintf("strategy %q, lap %d: %s (TAS %v, wind from %v at %v, inbound course %v, target %v; seen: correction %.1f°, last outbound %v, inbound %v, rolled out %.2f NM abreast)",
		e.Strategy, e.Lap, e.Problem, s.Flight.TAS, s.Flight.Wind.From, s.Flight.Wind.Speed, s.Pattern.Inbound(), s.Target(),
		float64(s.Correction), s.Last.Outbound, s.Inbound, float64(s.RollOut.Abreast))
}

// Unwrap gives [abeam.ErrInvalid].
func (e *StrategyError) Unwrap() error { return abeam.ErrInvalid }

// ask runs the strategy and judges its answer. The strategy is somebody else's code:
// whatever it does wrong becomes an error.
func (s *Strategy) ask(seen *Seen) (plan Plan, err error) {
	defer func() {
		if r := recover(); r != nil {
			plan, err = Plan{}, s.failed(seen, Plan{}, fmt.Sprintf("it panicked: %v", r))
		}
	}()
	plan = s.Next(*seen)
	if fault := plan.fault(); fault != "" {
		return Plan{}, s.failed(seen, plan, "it asked for "+fault)
	}
	return plan, nil
}

func (s *Strategy) failed(seen *Seen, plan Plan, problem string) error {
	return &StrategyError{Strategy: s.Name, Lap: seen.Laps + 1, Seen: *seen, Plan: plan, Problem: problem}
}
