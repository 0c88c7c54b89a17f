package timing

import (
	"strconv"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// Case is one aeroplane and leg of a grid.
type Case struct {
	TAS  abeam.Knots
	Rate hold.Rate
	Leg  time.Duration // inbound
}

// Grid is what strategies are measured over: every case in every wind, the wind as a share
// of the airspeed, from every angle. Its cells are all combinations; a cell in which the
// inbound time of the leg cannot be had (see [hold.Pattern.ShortestInbound]) is left out
// and counted.
type Grid struct {
	Name   string
	Cases  []Case
	Shares []float64       // wind speed over TAS, 0 to MaxShare
	Angles []abeam.Degrees // wind from, less inbound course; positive from the holding side
	Turn   hold.Turn
}

// MaxShare is the strongest wind of a grid, as a share of the airspeed.
const MaxShare = 0.9

// WideGrid is the whole range in which holds are flown: TAS 70 to 300 kt by 10, legs of 1,
// 1.5 and 2 minutes, turns as the FAA (30 degrees of bank) and ICAO (25) have them, winds of
// 0 to 60 % of the airspeed from all around.
func WideGrid() Grid {
	g := Grid{Name: "70 to 300 kt, legs of 1 to 2 minutes", Shares: shares(60), Angles: around()}
	for tas := abeam.Knots(70); tas <= 300; tas += 10 {
		for _, leg := range []time.Duration{time.Minute, 90 * time.Second, 2 * time.Minute} {
			faa, icao := mustRate(hold.FAATurn(), tas), mustRate(hold.ICAOTurn(), tas)
			g.Cases = append(g.Cases, Case{tas, faa, leg})
			if icao != faa {
				g.Cases = append(g.Cases, Case{tas, icao, leg})
			}
		}
	}
	return g
}

// LightGrid is light aircraft: TAS 90 to 120 kt by 5, legs of 1 minute at 3 deg/s, winds of 0
// to the given percentage of the airspeed, at most 60.
func LightGrid(percent int) Grid {
	g := Grid{Name: "light aircraft, 90 to 120 kt, winds to " + strconv.Itoa(percent) + " %", Shares: shares(percent), Angles: around()}
	for tas := abeam.Knots(90); tas <= 120; tas += 5 {
		g.Cases = append(g.Cases, Case{tas, mustRate(hold.FAATurn(), tas), time.Minute})
	}
	return g
}

// JetGrid is jets: 200 KIAS at 6,000 ft, 210 at 10,000, 230 at 14,000 with legs of 1 minute;
// 240 at 18,000, 265 at 20,000 and 25,000 with 1.5 minutes; standard air, turns as the FAA
// has them for a flight director (25 degrees), winds of 0 to the given percentage of the
// airspeed, at most 60. Calibrated airspeed stands for indicated.
func JetGrid(percent int) Grid {
	g := Grid{Name: "jets, 200 to 265 KIAS, winds to " + strconv.Itoa(percent) + " %", Shares: shares(percent), Angles: around()}
	for _, at := range []struct {
		cas      abeam.Knots
		altitude abeam.Feet
	}{{200, 6000}, {210, 10000}, {230, 14000}, {240, 18000}, {265, 20000}, {265, 25000}} {
		air, _ := wind.StandardAir(at.altitude, 0)
		tas, _ := air.TASFromCAS(at.cas)
		leg, _ := hold.FAA().LegTime(at.altitude)
		g.Cases = append(g.Cases, Case{tas, mustRate(hold.FAAFlightDirectorTurn(), tas), leg.Time})
	}
	return g
}

// mustRate is the rate of a published rule at an airspeed of a published grid: neither can
// be out of range, which a test sees to.
func mustRate(rule hold.TurnRule, tas abeam.Knots) hold.Rate {
	t, _ := rule.At(tas)
	return t.Rate
}

// shares are the wind strengths by 2.5 % of the airspeed.
func shares(percent int) []float64 {
	var s []float64
	for i := 0; i*25 <= min(percent, 60)*10; i++ {
		s = append(s, float64(i)*0.025)
	}
	return s
}

// around are the wind angles by 10 degrees.
func around() []abeam.Degrees {
	var a []abeam.Degrees
	for deg := abeam.Degrees(-170); deg <= 180; deg += 10 {
		a = append(a, deg)
	}
	return a
}

// Len is the number of cells, those left out included.
func (g Grid) Len() int { return len(g.Cases) * len(g.Shares) * len(g.Angles) }

func (g *Grid) validate(op string) error {
	if g.Len() == 0 {
		return check.Invalid(op, "grid", g.Name, "of at least one case, one wind strength and one wind angle")
	}
	for _, s := range g.Shares {
		if err := check.Within(op, "wind share", s, 0, MaxShare); err != nil {
			return err
		}
	}
	for _, a := range g.Angles {
		if err := check.Finite(op, "wind angle", a); err != nil {
			return err
		}
	}
	for _, c := range g.Cases {
		if _, err := g.pattern(c); err != nil {
			return err
		}
		if err := (hold.Flight{TAS: c.TAS, Rate: c.Rate}).Validate(); err != nil {
			return err
		}
	}
	return nil
}

// Cell is one combination of a grid.
type Cell struct {
	Pattern hold.Pattern // inbound course 360
	Flight  hold.Flight
	Share   float64       // wind speed over TAS
	Angle   abeam.Degrees // wind from, less inbound course; positive from the holding side
}

// Cell gives a cell by its number, 0 to Len-1. The angle varies fastest, then the share.
//
// Errors: [abeam.ErrInvalid] for a number or a value out of range; [abeam.ErrUnflyable] where
// the inbound time of the leg cannot be had.
func (g Grid) Cell(i int) (Cell, error) {
	const op = "timing.Grid.Cell"
	if !(i >= 0 && i < g.Len()) {
		return Cell{}, check.Invalid(op, "number", i, "from 0 to "+strconv.Itoa(g.Len()-1))
	}
	angles, strengths := len(g.Angles), len(g.Shares)
	k := g.Cases[i/(angles*strengths)]
	c := Cell{Share: g.Shares[i/angles%strengths], Angle: g.Angles[i%angles]}
	var err error
	if c.Pattern, err = g.pattern(k); err != nil {
		return Cell{}, err
	}
	c.Flight = hold.Flight{TAS: k.TAS, Rate: k.Rate, Wind: wind.Wind{
		From:  abeam.NewBearing(float64(g.Turn.Apply(c.Angle))),
		Speed: k.TAS * abeam.Knots(c.Share),
	}}
	shortest, err := c.Pattern.ShortestInbound(c.Flight)
	if err != nil {
		return Cell{}, err
	}
	if shortest > k.Leg {
		return Cell{}, check.Unflyable(op, "inbound leg", k.Leg, "at least "+shortest.String()+" in this wind")
	}
	return c, nil
}

func (g *Grid) pattern(c Case) (hold.Pattern, error) {
	return hold.NewPattern(hold.Fix{}, 0, g.Turn, hold.TimedInbound(c.Leg))
}
