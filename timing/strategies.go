package timing

// Strategies are the ones of this package that are measured side by side: each published
// timing rule with triple drift, each published drift rule with the half discrepancy, their
// usual combinations, the rules found here, and the exact circuit with and without
// knowledge of the wind. Names are unique.
func Strategies() []Strategy {
	triple, half := ThreeTimes(), ByHalf()
	all := []Strategy{Compose("", LegTime(), NoDrift())}
	for _, t := range TimingRules() {
		all = append(all, Compose("", t, triple))
	}
	for _, d := range DriftRules() {
		if d.Name != triple.Name {
			all = append(all, Compose("", half, d))
		}
	}
	return append(all,
		Compose("", AtLeast30(half), triple),
		Compose("", FirstThen(BySecondsPerKnot(), half), triple),
		Compose("", Lopsided(), triple),
		Compose("", Tenths(), triple),
		Compose("", Lopsided(), ByOutbound()),
		Compose("", FirstThen(Tenths(), Lopsided()), ByOutbound()),
		Compose("", ByQuotient(), ByOutbound()),
		Measured(),
		Exact(),
	)
}
