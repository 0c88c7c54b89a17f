package timing
import ("testing";"context";"fmt";"time")
func builtins() []Strategy {
	return []Strategy{
	 Compose("", LegTime(), NoDrift()),
	 Compose("", LegTime(), ThreeTimes()),
	 Compose("", ByHalf(), NoDrift()),
	 Compose("", ByHalf(), SingleDrift()),
	 Compose("", ByHalf(), DoubleDrift()),
	 Compose("", ByHalf(), Multiple(2.5)),
	 Compose("", ByHalf(), ThreeTimes()),
	 Compose("", ByHalf(), BySide()),
	 Compose("", ByHalf(), ByTurns()),
	 Compose("", ByHalf(), TripleThenSingle()),
	 Compose("", ByFull(), ThreeTimes()),
	 Compose("", InProportion(), ThreeTimes()),
	 Compose("", BySecondsPerKnot(), ThreeTimes()),
	 Compose("", BySecondsPerKnotPerMinute(), ThreeTimes()),
	 Compose("", TwiceAbeam(), ThreeTimes()),
	 Compose("", FirstThen(BySecondsPerKnot(), ByHalf()), ThreeTimes()),
	 Exact(),
	}
}
func TestExplore(t *testing.T) {
	for _, g := range []Grid{LightGrid(60), LightGrid(30), JetGrid(60), JetGrid(30), WideGrid()} {
		at := time.Now()
		r, err := Study{Grid: g, Strategies: builtins(), Laps: 8, Start: AtWingsLevelOrAbeam, Intercept: StandardIntercept()}.Run(context.Background())
		if err != nil { t.Fatal(err) }
		fmt.Println(g.Name, r.Cells, r.LeftOut, time.Since(at))
		for _, o := range r.Outcomes {
			fmt.Printf("%-45s", o.Strategy)
			for _, i := range []int{0,1,2,7} { l := o.Laps[i]; fmt.Printf(" %5.1f %5.1f |", l.Inbound.AbsQuantile(.5), l.Inbound.AbsQuantile(.95)) }
			l := o.Laps[7]
			fmt.Printf(" x %.2f %.2f astray %.0f%% fail %d %v %v w5 %d never %d\n", l.Across.AbsQuantile(.5), l.Across.AbsQuantile(.95), 100*float64(l.Astray)/float64(o.Trials), o.Failed, o.Behaviours, o.Failure, o.Within5[:4], o.Within5[8])
		}
	}
}
