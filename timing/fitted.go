package timing

// The numbers of the fitted rules, rounded to what can be done in the head.
const (
	lopsidedLong  = 3. / 4 // fits: 0.73 light aircraft, 0.81 jets
	lopsidedShort = 4. / 3 // fits: 1.39 light aircraft, 1.44 jets
	tenthAgainst  = 24     // s a minute of the leg; fits: 24.2 light aircraft, 27.7 jets
	tenthWith     = 20     // s a minute of the leg; fits: 21.2 light aircraft, 28.0 jets
)

// Lopsided is the best simple rule found here for a pilot who knows no more than the last
// inbound time:
//
//	Inbound too long: take three quarters of the excess off the outbound time.
//	Inbound too short: add the lack and a third of it.
//
// An inbound time that is too long has the wind on the nose and behind on the outbound leg,
// where a second covers more ground than it takes to come back over, and the other way
// round: see [Sensitivity]. One share for both must be wrong for one of them.
//
// Fitted by [Study.Fit] to laps 2 to 4 of [LightGrid](30), with [ThreeTimes], and rounded.
// Held against the published rules on the 30 % of the cells that the fit did not see, its
// mean error of the inbound time over laps 2 to 4 is a quarter of the half discrepancy's,
// three fifths of the full discrepancy's and half of that in proportion.
//
// Bounds over all of that grid, flown with [ThreeTimes]: on the second lap the median error is
// below 2 s and 95 % are below 12 s; on the third below 0.5 and 6 s. In a headwind inbound
// straight down the course it settles below 13/37 of the airspeed: two laps multiply an
// error by (1 - 3/4 s)(1 - 4/3 s), where s is the sensitivity, and that is below 1 for s
// below 25/12.
func Lopsided() TimingRule {
	return TimingRule{
		About: About{
			Name: "lopsided", Statement: "too long: three quarters of the excess off the outbound; too short: the lack and a third of it on",
			Source: "fitted here", Class: Fitted, Applies: "every lap after the first", Needs: NeedsInboundTime,
		},
		Next: func(s Seen) Plan { return lopsided(s, lopsidedLong, lopsidedShort) },
	}
}

// lopsided corrects an excess by one share and a lack by another.
func lopsided(s Seen, long, short float64) Plan {
	e := observed(s) - s.Target().Seconds()
	k := long
	if e < 0 {
		k = short
	}
	return afterFirst(s, s.Last.Outbound.Seconds()-k*e)
}

// LopsidedFamily is [Lopsided] with its two shares open, beside any drift rule.
func LopsidedFamily(drift DriftRule) Family {
	return Family{
		Name: "lopsided + " + drift.Name, Parameters: []string{"share of an excess", "share of a lack"}, Start: []float64{0.5, 0.5},
		Make: func(x []float64) Strategy {
			return Compose("", TimingRule{About: Lopsided().About, Next: func(s Seen) Plan { return lopsided(s, x[0], x[1]) }}, drift)
		},
	}
}

// GainFamily is [ByGain] with its share open.
func GainFamily(drift DriftRule) Family {
	return Family{
		Name: "share of the discrepancy + " + drift.Name, Parameters: []string{"share"}, Start: []float64{0.5},
		Make: func(x []float64) Strategy { return Compose("", ByGain(x[0]), drift) },
	}
}

// MultipleFamily is [Multiple] with its multiple open, beside any timing rule.
func MultipleFamily(t TimingRule) Family {
	return Family{
		Name: t.Name + " + multiple of the drift", Parameters: []string{"multiple"}, Start: []float64{3},
		Make: func(x []float64) Strategy { return Compose("", t, Multiple(x[0])) },
	}
}

// Tenths is the fitted form of the seconds per knot, for a pilot who knows the wind:
//
//	For each tenth of the airspeed of headwind on the outbound leg add 24 seconds a minute
//	of the leg; for each tenth of tailwind take 20 off.
//
// The rule of a second a knot forgets the airspeed: see [SecondsPerKnot].
//
// Fitted by [Study.Fit] to the first lap of [LightGrid](30), with [ThreeTimes]. On the cells
// kept out of the fit its mean error on the first lap is below a third of that of
// [BySecondsPerKnot]. Jets with legs of 1.5 minutes ask for 28 s each way.
func Tenths() TimingRule {
	return TimingRule{
		About: About{
			Name: "seconds per tenth", Statement: "for each tenth of the airspeed: 24 s a minute longer for outbound headwind, 20 s shorter for tailwind",
			Source: "fitted here", Class: Fitted, Applies: "the wind known", Needs: NeedsWind,
		},
		Next: func(s Seen) Plan { return tenths(s, tenthAgainst, tenthWith) },
	}
}

func tenths(s Seen, against, with float64) Plan {
	head := 10 * float64(s.OutboundHeadwind()/s.Flight.TAS)
	per := against
	if head < 0 {
		per = with
	}
	return seconds(s.Target().Seconds() * (1 + per*head/60))
}

// TenthsFamily is [Tenths] with its seconds open, beside any drift rule.
func TenthsFamily(drift DriftRule) Family {
	return Family{
		Name: "seconds per tenth + " + drift.Name, Parameters: []string{"s a tenth against", "s a tenth with it"}, Start: []float64{10, 10},
		Make: func(x []float64) Strategy {
			return Compose("", TimingRule{About: Tenths().About, Next: func(s Seen) Plan { return tenths(s, x[0], x[1]) }}, drift)
		},
	}
}
