package hold

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

func after[T ~float64](x T) T  { return T(math.Nextafter(float64(x), math.Inf(1))) }
func before[T ~float64](x T) T { return T(math.Nextafter(float64(x), math.Inf(-1))) }

// Every field of a flight may take the limits of its range, and nothing beyond.
func TestFlightAtItsLimits(t *testing.T) {
	p := minutePattern(t, 90, Right)
	good := Flight{TAS: 400, Rate: 3, Wind: wind.Wind{From: 10, Speed: 20}}
	for field, change := range map[string]struct {
		in, out []Flight
	}{
		"TAS": {
			[]Flight{{TAS: wind.MaxTAS, Rate: 3}},
			[]Flight{{TAS: after(wind.MaxTAS), Rate: 3}},
		},
		"rate of turn": {
			[]Flight{{TAS: 400, Rate: MinRate}, {TAS: 400, Rate: MaxRate}},
			[]Flight{{TAS: 400, Rate: before(MinRate)}, {TAS: 400, Rate: after(MaxRate)}},
		},
		"wind speed": {
			[]Flight{{TAS: 400, Rate: 3}, {TAS: wind.MaxTAS, Rate: 3, Wind: wind.Wind{From: 180, Speed: wind.MaxSpeed}}},
			[]Flight{
				{TAS: 400, Rate: 3, Wind: wind.Wind{Speed: before(abeam.Knots(0))}},
				{TAS: wind.MaxTAS, Rate: 3, Wind: wind.Wind{From: 180, Speed: after(wind.MaxSpeed)}},
			},
		},
		"altitude": {
			[]Flight{{TAS: 400, Rate: 3, Altitude: MinAltitude}, {TAS: 400, Rate: 3, Altitude: MaxAltitude}},
			[]Flight{{TAS: 400, Rate: 3, Altitude: before(MinAltitude)}, {TAS: 400, Rate: 3, Altitude: after(MaxAltitude)}},
		},
	} {
		for _, f := range append(change.in, good) {
			if err := errors.Join(f.Validate(), second(p.Circuit(f))); err != nil {
				t.Errorf("%+v: %v", f, err)
			}
		}
		for _, f := range change.out {
			for _, err := range []error{f.Validate(), second(p.Circuit(f))} {
				var at *abeam.FieldError
				if !errors.As(err, &at) || !errors.Is(err, abeam.ErrInvalid) || at.Field != field {
					t.Errorf("%+v: %v, want about %s", f, err, field)
				}
			}
		}
	}
	// Straight on the tail a wind as strong as the airspeed leaves ground on the course, but
	// no racetrack closes in it.
	_, err := p.Circuit(Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 270, Speed: 120}})
	var at *abeam.FieldError
	if !errors.Is(err, abeam.ErrUnflyable) || !errors.As(err, &at) || !strings.HasPrefix(at.Limit, "below the TAS") {
		t.Errorf("wind of the airspeed on the tail: %v", err)
	}
}

// The longest legs are flown, by their own and by the clock.
func TestLongestLegs(t *testing.T) {
	p, err := NewPattern(Fix{}, 0, Right, TimedInbound(MaxLeg))
	if err != nil {
		t.Fatal(err)
	}
	calm := Flight{TAS: 120, Rate: 3}
	if c, err := p.Circuit(calm); err != nil || c.Lap != 2*MaxLeg+2*time.Minute {
		t.Errorf("lap %v, %v", c.Lap, err)
	}
	if c, err := p.Fly(calm, 180, MaxLeg); err != nil || c.Lap != 2*MaxLeg+2*time.Minute {
		t.Errorf("flown, lap %v, %v", c.Lap, err)
	}
}

// Out square to the course is not within 90 degrees of it; a degree nearer is.
func TestOutboundSquare(t *testing.T) {
	p := minutePattern(t, 0, Right)
	f := Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 0, Speed: 30}}
	for heading, want := range map[abeam.Bearing]bool{90: false, 91: false, 89: true, 270: false, 269: false, 271: true} {
		c, err := p.Fly(f, heading, time.Minute)
		if err != nil || c.Notes.Has(OutboundPointsInbound) != want {
			t.Errorf("outbound %v: %v, %v", heading, c.Notes, err)
		}
	}
}

// In calm, out on the reciprocal for no time at all: two half circles back to the fix, with
// an inbound leg of nothing. There is a way to go on it all the same.
func TestProgressWithoutInboundLeg(t *testing.T) {
	c, err := minutePattern(t, 0, Right).Fly(Flight{TAS: 120, Rate: 3}, 180, 0)
	if err != nil || c.Inbound != 0 || c.Lap != 2*time.Minute {
		t.Fatalf("inbound %v of %v, %v", c.Inbound, c.Lap, err)
	}
	p, err := c.Progress(c.RollOut)
	if err != nil || !near.Equal(p.TimeToFix.Seconds(), 60, 1e-6) {
		t.Errorf("%+v, %v", p, err)
	}
}

func TestPlaceAtMaxRange(t *testing.T) {
	p := minutePattern(t, 0, Right)
	if _, err := p.Place(Point{MaxRange, 0}); err != nil {
		t.Error(err)
	}
	if at, err := p.Place(Point{after(MaxRange), 0}); !errors.Is(err, abeam.ErrInvalid) || at != (s2.LatLng{}) {
		t.Errorf("%v, %v", at, err)
	}
}

func TestExtentSums(t *testing.T) {
	if e := (Extent{Beyond: 1, Outbound: 2, Widest: 4, Astray: 8}); e.Length() != 3 || e.Width() != 12 {
		t.Errorf("length %v, width %v", e.Length(), e.Width())
	}
}

func TestLineKinds(t *testing.T) {
	var texts []string
	for k := range Route + 2 {
		texts = append(texts, k.String())
	}
	if got := strings.Join(texts, " "); got != "none radial course bearing track airway route none" {
		t.Error(got)
	}
}

// An airway is one or two letters and up to four figures.
func TestAirways(t *testing.T) {
	for _, name := range []string{"V1", "V1234", "UL1", "UL6079"} {
		if err := (Clearance{Line: Line{Kind: Airway, Name: name}}).Validate(); err != nil {
			t.Error(err)
		}
	}
	for _, name := range []string{"", "1", "1234", "V", "UL", "V12345", "UML1", "UML", "V1A", "v1"} {
		if err := (Clearance{Line: Line{Kind: Airway, Name: name}}).Validate(); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%q: %v", name, err)
		}
	}
}

// A name has 40 letters at most.
func TestLongestName(t *testing.T) {
	for n, want := range map[int]error{40: nil, 41: abeam.ErrInvalid, 400: abeam.ErrInvalid} {
		if err := (Clearance{ClearedTo: strings.Repeat("A", n)}).Validate(); !errors.Is(err, want) {
			t.Errorf("%d letters: %v", n, err)
		}
	}
}

// What an error quotes of a text is 40 bytes at most.
func TestClip(t *testing.T) {
	whole := strings.Repeat("x", 40)
	if clip(whole) != `"`+whole+`"` || clip(whole+"y") != `"`+whole+`..."` {
		t.Errorf("%s, %s", clip(whole), clip(whole+"y"))
	}
}

// Texts and names of the greatest length, a sentence that ends on a figure, figures said
// with a point, and three figures of DME.
func TestReadAtTheLimits(t *testing.T) {
	longest := strings.Repeat("A", 40)
	speed := Clearance{MaxIAS: 210}
	for text, want := range map[string]Clearance{
		"MAXIMUM HOLDING AIRSPEED IS 210.":                             speed,
		"MAXIMUM HOLDING AIRSPEED IS 210:":                             speed,
		"MAXIMUM HOLDING AIRSPEED IS 210. AS PUBLISHED":                {MaxIAS: 210, AsPublished: true},
		"MAXIMUM HOLDING AIRSPEED IS 210.AS PUBLISHED":                 {MaxIAS: 210, AsPublished: true},
		"1 POINT 5 MINUTE LEG":                                         {LegTime: 90 * time.Second},
		"60 MINUTE LEG":                                                {LegTime: time.Hour},
		"CLEARED TO " + longest:                                        {ClearedTo: longest},
		"CLEARED TO 150 DME FIX":                                       {ClearedTo: "150 DME FIX"},
		"HOLD NORTH":                                                   {Direction: North},
		"AS PUBLISHED" + strings.Repeat(" ", 1000-len("AS PUBLISHED")): {AsPublished: true},
	} {
		if c, err := ParseClearance(text); err != nil || c != want {
			t.Errorf("%.50q: %+v, %v", text, c, err)
		}
	}
	for _, text := range []string{
		"60.01 MINUTE LEG", "CLEARED TO 1500 DME FIX", "CLEARED TO " + longest + "A",
		"AS PUBLISHED" + strings.Repeat(" ", 1001-len("AS PUBLISHED")),
	} {
		if c, err := ParseClearance(text); !errors.Is(err, abeam.ErrInvalid) || c != (Clearance{}) {
			t.Errorf("%.50q: %+v, %v", text, c, err)
		}
	}
}

// A leg in miles alone is not given in minutes too; and where the limit is a Mach number
// alone there is no indicated airspeed above it.
func TestFindingsOfOne(t *testing.T) {
	c := Clearance{Fix: "TARNO", Direction: West, Line: Line{Kind: Radial, Bearing: 270}, LegMiles: 5, TurnSaid: true, NoDelay: true, MaxIAS: 280}
	found, err := c.Findings(Setting{Rules: ICAO(), Altitude: 36000})
	if err != nil || len(found) != 0 {
		t.Errorf("%v, %v", found, err)
	}
	c.LegTime = time.Minute
	if found, err = c.Findings(Setting{Rules: ICAO(), Altitude: 36000}); err != nil || !slices.Equal(found, []Finding{MinutesAndMiles}) {
		t.Errorf("%v, %v", found, err)
	}
}

// Along the course the heading follows the wind: 1,000 ft/min from 6,000 ft through an east
// wind that grows from 10 kt to 50 at 16,000 ft is at 11,000 ft after 5 minutes, in 30 kt,
// where 120 kt needs asin(30/120) into the wind.
func TestAlongsideFollowsTheWind(t *testing.T) {
	p := minutePattern(t, 0, Right)
	v := Varying{
		TAS: 120, Ascent: Ascent{From: 6000, To: 16000, PerMinute: 1000},
		Winds: profile(t,
			wind.Level{Altitude: 6000, Wind: wind.Wind{From: 90, Speed: 10}},
			wind.Level{Altitude: 16000, Wind: wind.Wind{From: 90, Speed: 50}}),
		OutboundTurn: TurnRule{Rate: 3}, InboundTurn: TurnRule{Rate: 3},
	}
	q := newVaryingLap(&p, &v, 1, nil, nil)
	var m motion
	q.alongside(&m, 0, 300)
	if want := math.Asin(0.25); !near.Equal(m.h, want, 1e-12) || m.y != 0 {
		t.Errorf("heading %v rad, want %v, %v across", m.h, want, m.y)
	}
}

// Outbound on 190 is 10 degrees to the right of the reciprocal of 000, and 170 to the left,
// whichever way the turns go.
func TestOutboundCorrection(t *testing.T) {
	for _, turn := range []Turn{Right, Left} {
		for heading, want := range map[abeam.Bearing]abeam.Degrees{190: 10, 170: -10} {
			c, err := minutePattern(t, 0, turn).Fly(Flight{TAS: 120, Rate: 3}, heading, time.Minute)
			if err != nil || !near.Equal(c.OutboundCorrection, want, 1e-9) || !near.Angle(c.OutboundHeading, heading, 1e-9) {
				t.Errorf("%v turns, outbound %v: %v, %v", turn, c.OutboundHeading, c.OutboundCorrection, err)
			}
		}
	}
}
