package entry

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/oracle"
	"github.com/holdingfix/abeam/wind"
)

// steps is how many times a leg is looked at.
const steps = 20

// scattered is the case i of a low-discrepancy sequence: dense, never aligned, the same
// in every run.
func scattered(tb testing.TB, i int, windShare float64) (hold.Pattern, hold.Flight, abeam.Bearing, Plan) {
	u := func(alpha float64) float64 { _, f := math.Modf(float64(i+1) * alpha); return f }
	p := pattern(tb, abeam.NewBearing(360*u(math.Sqrt(3))), hold.Turn(i&1))
	tas := 70 + 380*u(math.Sqrt2)
	f := hold.Flight{TAS: abeam.Knots(tas), Rate: hold.Rate(1 + 3*u(math.Sqrt(7))), Wind: wind.Wind{
		From: abeam.NewBearing(360 * u(math.Sqrt(11))), Speed: abeam.Knots(tas * windShare * u(math.Sqrt(13))),
	}}
	rules := []Rules{FAA(), ICAO(), AirForce(), FAARNAV()}[i/2%4]
	plan := rules.Plan(Kind(i%3)+Direct, time.Duration((30+120*u(math.Sqrt(5)))*1e9))
	plan.Teardrop = MinTeardrop + (MaxTeardrop-MinTeardrop)*abeam.Degrees(u(math.Sqrt(17)))
	plan.Intercept = 20 + 70*abeam.Degrees(u(math.Sqrt(19)))
	plan.KeepAngle = i%7 == 0
	return p, f, abeam.NewBearing(360 * u(math.Sqrt(23))), plan
}

// integrated flies the legs of an entry by quadrature in north and east, one after
// another from the fix, and compares the places with those of the entry. It knows the
// headings, the turns and the times, and nothing of the closed forms. It gives the worst
// difference and the extremes.
func integrated(tb testing.TB, p hold.Pattern, f hold.Flight, fl Flown) (worst float64, extent hold.Extent) {
	tb.Helper()
	h := oracle.Hold{TAS: float64(f.TAS), WindFrom: float64(f.Wind.From), WindSpeed: float64(f.Wind.Speed)}
	course := float64(p.Inbound()) * math.Pi / 180
	frame := func(n, e float64) (along, abreast float64) {
		along = n*math.Cos(course) + e*math.Sin(course)
		abreast = e*math.Cos(course) - n*math.Sin(course)
		if p.Turn() == hold.Left {
			abreast = -abreast
		}
		return along, abreast
	}
	samples := func(at time.Duration) Sample {
		i := 0
		return fl.sample(&i, at)
	}
	var piece oracle.Piece
	heading := math.NaN()
	for leg := range fl.Legs() {
		piece.Duration, piece.Rate = leg.Time.Seconds(), 0
		piece.Heading = float64(leg.Heading)
		if leg.Through > 0 {
			piece.Rate = float64(f.Rate)
			if leg.Turn == hold.Left {
				piece.Rate = -piece.Rate
			}
			piece.Heading = float64(leg.Heading) - piece.Rate*piece.Duration
		}
		if d := math.Remainder(piece.Heading-heading, 360); math.Abs(d) > 1e-6 { // NaN at the start passes
			tb.Fatalf("%v starts on %v, the leg before ended on %v", leg.Phase, piece.Heading, heading)
		}
		heading = piece.Heading + piece.Rate*piece.Duration
		const n = steps
		for j := range n + 1 {
			s := piece.Duration * float64(j) / n
			along, abreast := frame(h.At(piece, s))
			got := samples(leg.Start + time.Duration(s*1e9))
			worst = math.Max(worst, math.Hypot(along-float64(got.At.Along), abreast-float64(got.At.Abreast)))
			extent.Beyond = max(extent.Beyond, abeam.NM(along))
			extent.Outbound = max(extent.Outbound, abeam.NM(-along))
			extent.Widest = max(extent.Widest, abeam.NM(abreast))
			extent.Astray = max(extent.Astray, abeam.NM(-abreast))
		}
		piece.North, piece.East = h.At(piece, piece.Duration)
	}
	if fl.Inbound >= 0 { // back over the fix
		worst = math.Max(worst, math.Hypot(piece.North, piece.East))
	} else {
		_, abreast := frame(piece.North, piece.East)
		worst = math.Max(worst, math.Abs(abreast))
	}
	return worst, extent
}

// Entries of all kinds, rules and manners against quadrature: their tracks, that they
// end over the fix, their extremes, and the inbound time that the correction promises.
func TestEntriesAgainstQuadrature(t *testing.T) {
	var worst, worstTime float64
	count := map[Kind]map[Manner]int{Direct: {}, Teardrop: {}, Parallel: {}}
	met, unflyable := 0, 0
	cases := 600
	if testing.Short() { // the quadrature is slow
		cases = 120
	}
	for i := range cases {
		p, f, heading, plan := scattered(t, i, 0.6)
		for _, m := range []Manner{AsPublished, ForWind} {
			fl, err := plan.Fly(p, f, heading, m)
			if err != nil {
				if !errors.Is(err, abeam.ErrUnflyable) || m == ForWind {
					t.Fatalf("case %d %v: %v", i, m, err)
				}
				unflyable++
				continue
			}
			count[plan.Entry][m]++
			off, e := integrated(t, p, f, fl)
			worst = math.Max(worst, off)
			if off > 1e-6 {
				t.Errorf("case %d: %+v %v: off by %g NM", i, plan, m, off)
			}
			// Samples miss an extreme by at most v rate/2 (dt/2)2, a turn being 21 samples.
			turn := 0.0
			for leg := range fl.Legs() {
				if leg.Through > 0 {
					turn = math.Max(turn, leg.Time.Seconds())
				}
			}
			slack := abeam.NM(1.6*float64(f.TAS)/3600*float64(f.Rate)*math.Pi/180/8*math.Pow(turn/steps, 2) + 1e-6)
			for k, pair := range [][2]abeam.NM{
				{fl.Extent.Beyond, e.Beyond}, {fl.Extent.Outbound, e.Outbound},
				{fl.Extent.Widest, e.Widest}, {fl.Extent.Astray, e.Astray},
			} {
				if pair[0]-pair[1] > slack || pair[1]-pair[0] > 1e-6 {
					t.Errorf("case %d: %v %v: extent %d is %v, sampled %v, slack %v", i, plan.Entry, m, k, pair[0], pair[1], slack)
				}
			}
			if limit := plan.OffsetLimit; plan.Entry == Teardrop && limit > 0 && fl.EntryTime > limit {
				t.Errorf("case %d %v: %v on the offset track", i, m, fl.EntryTime)
			}
			if m == ForWind && !fl.Notes.Has(InboundTimeMissed) {
				met++
				worstTime = math.Max(worstTime, math.Abs((fl.Inbound - plan.Inbound).Seconds()))
				if plan.Entry == Teardrop && (fl.Notes.Has(OffCourse) || plan.KeepAngle) && !fl.Notes.Has(OffsetTimeLimited) {
					t.Errorf("case %d: %+v: %v", i, plan, fl.Notes)
				}
			}
		}
	}
	t.Logf("%v, %d unflyable as published; worst %.1e NM, inbound time met in %d, worst %.1e s", count, unflyable, worst, met, worstTime)
	if worstTime > 2e-6 {
		t.Errorf("inbound time off by %g s", worstTime)
	}
	for k, by := range count {
		if by[AsPublished] < cases/4 || by[ForWind] != cases/3 {
			t.Errorf("%v: only %v flown", k, by)
		}
	}
}

// The time to a DME reading by hand: 10 from the station on one axis, a speed of 1.
func TestReading(t *testing.T) {
	for _, c := range []struct {
		x, y, gx, gy, limit float64
		growing             bool
		want                float64
		ok                  bool
	}{
		{-10, 0, -1, 0, 15, true, 5, true},             // straight out
		{-10, 0, 0, 1, 15, true, math.Sqrt(125), true}, // square out: 15^2 - 10^2
		{-10, 0, 1, 0, 15, true, 25, true},             // by way of the station
		{-10, 0, 1, 0, 4, false, 6, true},              // straight in
		{-10, 3, 1, 0, 5, false, 6, true},              // past it by 3: at 4 before abeam, 3-4-5
		{-10, 3, 1, 0, 2, false, 0, false},             // past it by more than the limit
		{-10, 3, 1, 0, 3, false, 10, true},             // touching the limit
		{10, 0, 0, 0, 4, false, 0, false},              // hanging, and short of it
		{-10, 0, -1, 0, 4, false, 0, false},            // away from it
		{10, 0, 0, 0, 15, true, 0, false},              // hanging in the wind
		{-10, 0, -1, 0, 10, true, 0, true},             // there already
		{-10, 0, 1, 0, 10, true, 0, true},              // there already, and turning back
		{-10, 0, -1, 0, 9, true, 0, true},              // passed
		{-10, 0, -1, 0, 11, false, 0, true},            // passed the other way
	} {
		got, ok := reading(c.x, c.y, c.gx, c.gy, c.limit, c.growing)
		if ok != c.ok || ok && math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v: %v, %v", c, got, ok)
		}
	}
}

// A heading a rounding behind the start is reached at once, not after a circle; straight
// about, the side is the one asked for.
func TestThroughAndShorter(t *testing.T) {
	d := func(deg float64) dir { return dir{deg: deg} }
	for _, c := range []struct{ from, to, sense, want float64 }{
		{10, 20, 1, 10}, {20, 10, 1, 350}, {20, 10, -1, 10}, {10, 20, -1, 350}, {-170, 170, -1, 20}, {-170, 170, 1, 340},
		{10, 10, 1, 0}, {10 + 1e-13, 10, 1, 0}, {10, 10 + 1e-13, -1, 0}, {0, 720, 1, 0},
	} {
		if got := through(d(c.from), d(c.to), c.sense); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("from %v to %v in the sense %v: %v", c.from, c.to, c.sense, got)
		}
	}
	for _, about := range []float64{1, -1} {
		for _, off := range []float64{0, 1e-13, -1e-13} {
			if sense, angle := shorter(d(0), d(180+off), about); sense != about || math.Abs(angle-180) > 1e-9 {
				t.Errorf("about by %v: %v, %v", about, sense, angle)
			}
		}
	}
	if sense, angle := shorter(d(0), d(-90), 1); sense != -1 || angle != 90 {
		t.Errorf("to the left: %v, %v", sense, angle)
	}
}
