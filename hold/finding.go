package hold

// Finding is something about a clearance that a pilot should know or ask about before
// holding: it can be read, but something is missing or does not fit.
type Finding uint8

// The findings, in the order in which [Clearance.Findings] gives them.
const (
	_ Finding = iota
	NoFix
	FixesDiffer
	// NoInstructions: neither a direction nor a line, nor as published. Where the pattern is
	// charted it need not be said; where none is, AIM 5-3-8 c has the pilot ask before the fix.
	NoInstructions
	NeedsChart
	NoDirection
	NoLine
	// DirectionDoesNotFit: the direction of holding lies outside the octants of the line
	// and of its reciprocal.
	DirectionDoesNotFit
	MinutesAndMiles
	LegTimeLong
	NoTurnSaid
	SpeedAboveLimit
	SpeedBelowMinimum
	NoEFC
	EFCPast
	endOfFindings
)

// String says what the finding means, for a reader.
func (f Finding) String() string {
	if f == 0 || f >= endOfFindings {
		return "not a finding"
	}
	return [...]string{
		"No fix was given: ask for one",
		"The clearance limit and the holding fix differ: ask which is meant",
		"No holding instructions: hold as charted; if nothing is charted, ask before the fix, and if that fails hold in a standard pattern on the course of arrival and ask again",
		"As published: the pattern stands on the chart",
		"No direction of holding was given: ask for one",
		"No radial, course, bearing, track, airway or route was given: ask for one",
		"The direction of holding does not fit the line: ask which is meant",
		"The leg was given in minutes and in miles: ask which is meant",
		"The leg time is longer than the standard one of the altitude: it is flown as cleared",
		"No turn was said: turns are to the right",
		"The maximum holding airspeed is above the limit of the altitude: ask whether it is meant",
		"The maximum holding airspeed is below the least speed to hold at: ask for another",
		"No EFC was given: ask for one",
		"The EFC has passed: ask for another",
	}[f-1]
}

// Information reports a finding that needs no question: what was left unsaid has its
// standard meaning, or what was said departs from it on purpose.
func (f Finding) Information() bool {
	return f == NeedsChart || f == LegTimeLong || f == NoTurnSaid
}

// Findings gives what is missing in a clearance or does not fit, in a fixed order; none
// if there is nothing. The speed limit, the leg time and the least speed are those of
// the rules at the altitude; a limit in Mach alone is not compared. The EFC is missing
// only where a delay is expected, and compared with Now unless that is zero.
//
// Source: AIM 5-3-8 c, i and j.
//
// Errors: [abeam.ErrInvalid] for a clearance that is not valid, or rules without a band
// for the altitude.
func (c Clearance) Findings(s Setting) ([]Finding, error) {
	if err := c.validate("hold.Clearance.Findings"); err != nil {
		return nil, err
	}
	speed, err := s.Rules.SpeedLimit(s.Altitude)
	if err != nil {
		return nil, err
	}
	leg, err := s.Rules.LegTime(s.Altitude)
	if err != nil {
		return nil, err
	}
	limit := speed.Limit.IAS
	instructed := c.Direction != 0 || c.Line.Kind != 0
	var found []Finding
	for _, f := range []struct {
		finding Finding
		is      bool
	}{
		{NoFix, c.HoldingFix() == ""},
		{FixesDiffer, c.Fix != "" && c.ClearedTo != "" && c.Fix != c.ClearedTo},
		{NoInstructions, !instructed && !c.AsPublished},
		{NeedsChart, c.AsPublished},
		{NoDirection, c.Direction == 0 && (c.AsPublished || c.Line.Kind != 0)},
		{NoLine, c.Direction != 0 && c.Line.Kind == 0 && !c.AsPublished},
		{DirectionDoesNotFit, c.Direction != 0 && c.Line.Kind.numbered() && !c.fits(s.AtStation)},
		{MinutesAndMiles, c.LegTime > 0 && c.LegMiles > 0},
		{LegTimeLong, c.LegTime > leg.Time},
		{NoTurnSaid, !c.TurnSaid && !c.AsPublished},
		{SpeedAboveLimit, limit > 0 && c.MaxIAS > limit},
		{SpeedBelowMinimum, c.MaxIAS > 0 && c.MaxIAS < s.Rules.Minimum},
		{NoEFC, !c.EFC.Given() && !c.NoDelay},
		{EFCPast, c.EFC.Given() && !s.Now.IsZero() && c.EFC.Near(s.Now).Before(s.Now)},
	} {
		if f.is {
			found = append(found, f.finding)
		}
	}
	return found, nil
}
