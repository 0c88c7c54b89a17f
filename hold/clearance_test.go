package hold

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

func TestInvalidClearance(t *testing.T) {
	nan := abeam.NM(math.NaN())
	for i, c := range []Clearance{
		{ClearedTo: "tarno"}, {ClearedTo: "HOLD NORTH"}, {ClearedTo: "A  B"}, {ClearedTo: "THE A"}, {ClearedTo: strings.Repeat("A", 41)}, {ClearedTo: " A"}, {ClearedTo: "A,"},
		{Fix: "TARNO"}, {Fix: "ÖREBRO", Direction: North}, {Fix: "5", Direction: North}, {Direction: 9},
		{Line: Line{Kind: 7}}, {Line: Line{Bearing: 5}}, {Line: Line{Name: "X"}}, {Line: Line{Kind: Radial, Bearing: 360}}, {Line: Line{Kind: Radial, Bearing: 0.5}},
		{Line: Line{Kind: Radial, Bearing: abeam.Bearing(math.NaN())}}, {Line: Line{Kind: Radial, Name: "a"}},
		{Line: Line{Kind: Airway}}, {Line: Line{Kind: Airway, Name: "VICTOR"}}, {Line: Line{Kind: Airway, Name: "V1", Bearing: 4}}, {Line: Line{Kind: Route}},
		{LegTime: -1}, {LegTime: 1}, {LegTime: MaxLeg + minuteHundredth}, {LegMiles: -1}, {LegMiles: 100}, {LegMiles: 0.001}, {LegMiles: nan}, {LegMiles: abeam.NM(math.Inf(1))},
		{Turn: 2}, {Turn: Left}, {MaxIAS: -1}, {MaxIAS: 1000}, {MaxIAS: 0.5}, {MaxIAS: abeam.Knots(math.NaN())},
	} {
		s := Setting{Rules: FAA()}
		for op, err := range map[string]error{
			"Validate": c.Validate(), "InboundCourse": second(c.InboundCourse(s)), "Pattern": second(c.Pattern(s)), "Findings": second(c.Findings(s)),
		} {
			var field *abeam.FieldError
			if !errors.Is(err, abeam.ErrInvalid) || !errors.As(err, &field) || field.Op != "hold.Clearance."+op {
				t.Errorf("%d, %+v: %s gives %v", i, c, op, err)
			}
		}
		_, _ = c.String(), c.Readback()
	}
}

// Every radial and direction: of the radial and its reciprocal the one nearer to the
// direction of holding is where the pattern lies.
func TestInboundCourse(t *testing.T) {
	for radial := range 360 {
		for o := North; o <= Northwest; o++ {
			c := Clearance{Fix: "TARNO", Direction: o, Line: Line{Kind: Radial, Bearing: abeam.Bearing(radial)}}
			outward := math.Abs(math.Remainder(float64(radial)-45*float64(o-1), 360))
			got, err := c.InboundCourse(Setting{})
			switch {
			case outward <= 67.5 && (err != nil || got != abeam.NewBearing(float64(radial+180))),
				outward >= 112.5 && (err != nil || got != abeam.Bearing(radial)),
				outward > 67.5 && outward < 112.5 && !errors.Is(err, abeam.ErrInvalid):
				t.Errorf("hold %v on the %03d radial: inbound %v, %v", o, radial, got, err)
			}
			if got, err := c.InboundCourse(Setting{AtStation: true}); err != nil || got != abeam.NewBearing(float64(radial+180)) {
				t.Errorf("hold %v of the station on the %03d radial: inbound %v, %v", o, radial, got, err)
			}
			fits, atStation := outward <= 22.5 || outward >= 157.5, outward <= 22.5
			for s, want := range map[bool]bool{false: fits, true: atStation} {
				found, err := c.Findings(Setting{AtStation: s, Rules: FAA(), Altitude: 5000})
				if err != nil || slices.Contains(found, DirectionDoesNotFit) == want {
					t.Errorf("hold %v on the %03d radial, at the station %v: %v, %v", o, radial, s, found, err)
				}
			}
			// A course is no radial: the station makes no difference.
			c.Line.Kind = Course
			course, courseErr := c.InboundCourse(Setting{AtStation: true})
			if (courseErr == nil) != (err == nil) || err == nil && course != got {
				t.Errorf("hold %v on course %03d: %v, %v", o, radial, course, courseErr)
			}
		}
	}
	for name, c := range map[string]Clearance{
		"line":                 {Direction: North},
		"line ":                {Direction: North, Line: Line{Kind: Airway, Name: "V12"}},
		"direction of holding": {Line: Line{Kind: Radial, Bearing: 10}},
	} {
		_, err := c.InboundCourse(Setting{})
		var field *abeam.FieldError
		if !errors.As(err, &field) || field.Field != strings.TrimSpace(name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestFindings(t *testing.T) {
	now := time.Date(2026, 3, 1, 18, 0, 0, 0, time.UTC)
	const whole = "HOLD WEST OF TARNO ON THE 270 RADIAL, 1 MINUTE LEG, RIGHT TURNS, EXPECT FURTHER CLEARANCE 1835"
	for text, want := range map[string][]Finding{
		whole: nil,
		strings.Replace(whole, "1835", "1800", 1):                                       nil,
		strings.Replace(whole, "1835", "1759", 1):                                       {EFCPast},
		strings.Replace(whole, "1835", "0559", 1):                                       nil, // the next morning
		strings.Replace(whole, "1835", "0601", 1):                                       {EFCPast},
		strings.Replace(whole, "RIGHT TURNS, ", "", 1):                                  {NoTurnSaid},
		strings.Replace(whole, ", EXPECT FURTHER CLEARANCE 1835", "", 1):                {NoEFC},
		strings.Replace(whole, "EXPECT FURTHER CLEARANCE 1835", "NO DELAY EXPECTED", 1): nil,
		strings.Replace(whole, "1 MINUTE", "1.01 MINUTE", 1):                            {LegTimeLong},
		strings.Replace(whole, "LEG", "LEG, 5 MILE LEG", 1):                             {MinutesAndMiles},
		strings.Replace(whole, "270", "292", 1):                                         nil,
		strings.Replace(whole, "270", "293", 1):                                         {DirectionDoesNotFit},
		strings.Replace(whole, "270", "090", 1):                                         nil,
		strings.Replace(whole, "270", "180", 1):                                         {DirectionDoesNotFit},
		strings.Replace(whole, "WEST OF TARNO", "WEST", 1):                              {NoFix},
		"CLEARED TO MERLA, " + whole:                                                    {FixesDiffer},
		"CLEARED TO TARNO, " + whole:                                                    nil,
		strings.Replace(whole, "ON THE 270 RADIAL, ", "", 1):                            {NoLine},
		strings.Replace(whole, "ON THE 270 RADIAL", "ON V12", 1):                        nil,
		strings.Replace(whole, "HOLD WEST OF TARNO", "CLEARED TO TARNO", 1):             {NoDirection},
		whole + ", MAXIMUM HOLDING AIRSPEED IS 200":                                     nil,
		whole + ", MAXIMUM HOLDING AIRSPEED IS 201":                                     {SpeedAboveLimit},
		whole + ", MAXIMUM HOLDING AIRSPEED IS 90":                                      nil,
		whole + ", MAXIMUM HOLDING AIRSPEED IS 89":                                      {SpeedBelowMinimum},
		"CLEARED TO TARNO, HOLD WEST, AS PUBLISHED, EFC 1835":                           {NeedsChart},
		"CLEARED TO TARNO, AS PUBLISHED, NO DELAY EXPECTED":                             {NeedsChart, NoDirection},
		"CLEARED TO TARNO": {NoInstructions, NoTurnSaid, NoEFC},
	} {
		c, err := ParseClearance(text)
		if err != nil {
			t.Fatal(err)
		}
		found, err := c.Findings(Setting{Rules: FAACopter(), Altitude: 6000, Now: now})
		if err != nil || !slices.Equal(found, want) {
			t.Errorf("%q: %v, %v, want %v", text, found, err, want)
		}
	}
	for name, s := range map[string]Setting{"no rules": {}, "altitude": {Rules: FAA(), Altitude: 70000}, "no legs": {Rules: Rules{Speeds: FAA().Speeds}}} {
		if found, err := (Clearance{}).Findings(s); !errors.Is(err, abeam.ErrInvalid) || found != nil {
			t.Errorf("%s: %v, %v", name, found, err)
		}
	}
	texts := map[string]bool{}
	for f := NoFix; f < endOfFindings; f++ {
		texts[f.String()] = true
	}
	if len(texts) != int(endOfFindings)-1 || texts["not a finding"] || Finding(0).String() != "not a finding" || endOfFindings.String() != "not a finding" {
		t.Errorf("texts of the findings: %v", texts)
	}
}

func TestPatternOfClearance(t *testing.T) {
	s := Setting{Fix: Fix{Ident: "TARNO", Variation: 12}, Rules: FAA(), Altitude: 14000}
	c := Clearance{Fix: "TARNO", Direction: West, Line: Line{Kind: Radial, Bearing: 270}, Turn: Left, TurnSaid: true}
	p, err := c.Pattern(s)
	if err != nil || p.Inbound() != 90 || p.Turn() != Left || p.Leg() != TimedInbound(time.Minute) || p.Fix() != s.Fix {
		t.Errorf("%+v, %v", p, err)
	}
	s.Altitude = 14001
	if p, err = c.Pattern(s); err != nil || p.Leg() != TimedInbound(90*time.Second) {
		t.Errorf("%+v, %v", p, err)
	}
	c.LegTime = 2 * time.Minute
	if p, err = c.Pattern(Setting{}); err != nil || p.Leg() != TimedInbound(2*time.Minute) {
		t.Errorf("a leg time that was said needs no rules: %+v, %v", p, err)
	}
	with := func(change func(*Clearance, *Setting)) (Clearance, Setting) {
		c, s := c, s
		change(&c, &s)
		return c, s
	}
	for name, change := range map[string]func(*Clearance, *Setting){
		"pattern":   func(c *Clearance, _ *Setting) { c.AsPublished = true },
		"DME limit": func(c *Clearance, s *Setting) { c.Direction, c.LegMiles, s.Station.Fix = East, 8, 5 },
		"station course": func(c *Clearance, s *Setting) {
			c.Line.Kind, c.LegMiles, s.Station.Fix = Course, 5, 10 // a course does not tell
		},
		"line":         func(c *Clearance, _ *Setting) { c.Line = Line{} },
		"fix position": func(_ *Clearance, s *Setting) { s.Fix.Position.Lat = math.Pi / 2 },
		"altitude":     func(c *Clearance, s *Setting) { c.LegTime, s.Altitude = 0, abeam.Feet(math.NaN()) },
	} {
		c, s := with(change)
		p, err := c.Pattern(s)
		var field *abeam.FieldError
		if !errors.As(err, &field) || field.Field != name || p != (Pattern{}) {
			t.Errorf("%s: %+v, %v", name, p, err)
		}
	}
	// The published examples: inbound to the station, fix 10 DME, 5 NM leg, turn at 15;
	// inbound away from it, fix 28 DME, 8 NM leg, turn at 20. AIM FIG 5-3-5 and 5-3-6.
	for _, tc := range []struct {
		direction  Octant
		fix, miles abeam.NM
		inbound    abeam.Bearing
		course     StationCourse
		limit      abeam.NM
	}{{West, 10, 5, 90, Toward, 15}, {East, 28, 8, 270, Away, 20}} {
		c, s := c, s
		c.Direction, c.LegMiles, s.Station.Fix = tc.direction, tc.miles, tc.fix
		p, err := c.Pattern(s)
		station, limit := p.Leg().DME()
		if err != nil || p.Inbound() != tc.inbound || station.Course != tc.course || limit != tc.limit {
			t.Errorf("%+v: %v %v, %v", tc, p.Inbound(), p.Leg(), err)
		}
	}
	rnav := c
	rnav.LegMiles = 5
	if p, err = rnav.Pattern(s); err != nil || p.Leg() != LengthOutbound(5) {
		t.Errorf("%v, %v", p.Leg(), err)
	}
	s.Rules = ICAO()
	c.LegTime = 0
	if p, err = c.Pattern(s); err != nil || p.Leg() != TimedOutbound(90*time.Second) {
		t.Errorf("%v, %v", p.Leg(), err)
	}
	s.Rules = FAA()
	if miles, ok := (Clearance{LegMiles: 5}).DistanceLeg(); miles != 5 || !ok {
		t.Errorf("%v, %v", miles, ok)
	}
	if p, err = StandardPattern(s, 360); err != nil || p.Inbound() != 0 || p.Turn() != Right || p.Leg() != TimedInbound(90*time.Second) {
		t.Errorf("%+v, %v", p, err)
	}
	if _, err = StandardPattern(Setting{Fix: s.Fix}, 360); !errors.Is(err, abeam.ErrInvalid) {
		t.Errorf("no rules: %v", err)
	}
}

// A radial is of its station and a bearing from it; either word is read for both.
func TestStationOfALine(t *testing.T) {
	for text, want := range map[string]string{
		"HOLD WEST OF TARNO ON THE 255 RADIAL FROM BREMKA":  "HOLD WEST OF TARNO ON THE 255 RADIAL OF BREMKA",
		"HOLD WEST OF TARNO ON THE 255 BEARING OF BREMKA":   "HOLD WEST OF TARNO ON THE 255 BEARING FROM BREMKA",
		"HOLD WEST OF TARNO ON THE 255 BEARING FROM BREMKA": "HOLD WEST OF TARNO ON THE 255 BEARING FROM BREMKA",
	} {
		c, err := ParseClearance(text)
		if err != nil || c.String() != want {
			t.Errorf("%q: %q, %v", text, c, err)
		}
		if again, err := ParseClearance(want); err != nil || again != c {
			t.Errorf("%q is read again as %q, %v", want, again, err)
		}
	}
}

// Where nothing is charted a pilot asks for instructions before the fix (AIM 5-3-8 c): it
// is not for information only. A longer leg that was cleared is.
func TestWhatIsToAsk(t *testing.T) {
	for f, want := range map[Finding]bool{NoInstructions: false, NoEFC: false, SpeedAboveLimit: false, DirectionDoesNotFit: false, NoTurnSaid: true, LegTimeLong: true, NeedsChart: true} {
		if f.Information() != want {
			t.Errorf("%v: for information %v", f, f.Information())
		}
	}
}
