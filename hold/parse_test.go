package hold

import (
	"errors"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
)

func clockTime(tb testing.TB, hour, minute int) ClockTime {
	tb.Helper()
	c, err := NewClockTime(hour, minute)
	if err != nil {
		tb.Fatal(err)
	}
	return c
}

// The published forms, and the ways in which each is said and written.
func TestPublishedForms(t *testing.T) {
	at1835 := clockTime(t, 18, 35)
	for _, tc := range []struct {
		want  Clearance
		texts []string
	}{
		{
			Clearance{ClearedTo: "TARNO", Direction: West, AsPublished: true},
			[]string{"CLEARED TO TARNO, HOLD WEST, AS PUBLISHED", "cleared to tarno hold west as published", "Cleared to TARNO; hold W as published."},
		},
		{
			Clearance{ClearedTo: "TARNO", AsPublished: true, EFC: at1835},
			[]string{"CLEARED TO TARNO, HOLD AS PUBLISHED, EXPECT FURTHER CLEARANCE 1835", "cleared to the tarno, as published, efc 18:35"},
		},
		{
			Clearance{ClearedTo: "TARNO", NoDelay: true},
			[]string{"CLEARED TO TARNO, NO DELAY EXPECTED", "no delay expected, cleared to tarno"},
		},
		{
			Clearance{Fix: "TARNO", Direction: Northeast, Line: Line{Kind: Radial, Bearing: 63}, LegTime: 2 * time.Minute, Turn: Left, TurnSaid: true, EFC: at1835},
			[]string{
				"HOLD NORTHEAST OF TARNO ON THE 063 RADIAL, 2 MINUTE LEG, LEFT TURNS, EXPECT FURTHER CLEARANCE 1835",
				"hold north east of the tarno on the zero six three radial two minute legs left turns expect further clearance one eight three five",
				"Hold NE of Tarno, on 063° radial; two minutes; left-hand turns. EFC: 18:35Z!",
				"hold northeast of tarno on radial sixty three, two-minute legs, left turn, expect further clearance at eighteen thirty five zulu",
			},
		},
		{
			Clearance{Fix: "15 DME FIX", Direction: West, Line: Line{Kind: Radial, Bearing: 86}, LegMiles: 5},
			[]string{
				"HOLD WEST OF 15 DME FIX ON THE 086 RADIAL, 5 MILE LEG",
				"hold w of the one five dme fix on the 086 radial, 5 NM legs",
				"Hold west of the fifteen DME fix on the zero eight six degree radial, five nautical mile DME legs",
			},
		},
		{
			Clearance{Fix: "TARNO", Direction: South, Line: Line{Kind: Radial, Bearing: 0, Name: "MERLA"}, LegTime: 90 * time.Second, TurnSaid: true},
			[]string{
				"HOLD SOUTH OF TARNO ON THE 360 RADIAL OF MERLA, 1.5 MINUTE LEG, RIGHT TURNS",
				"hold south of tarno on the merla 000 radial, one point five minute legs, right turns",
				"hold south of tarno on the merla three six zero radial, one and a half minute legs, right hand turns",
				"hold south of tarno on the 360 radial from merla, one and one-half minute leg, right turns",
			},
		},
		{
			Clearance{Fix: "TARNO", Direction: Southeast, Line: Line{Kind: Course, Bearing: 309}},
			[]string{"HOLD SOUTHEAST OF TARNO ON THE 309 COURSE", "hold south-east of tarno on course three zero niner", "hold se of tarno on the tree zero nine course"},
		},
		{
			Clearance{Fix: "TARNO", Direction: North, Line: Line{Kind: BearingLine, Bearing: 5}},
			[]string{"HOLD NORTH OF TARNO ON THE 005 BEARING", "hold n of tarno on bearing 5", "hold north of tarno on the zero zero fife degrees bearing"},
		},
		{
			Clearance{Fix: "TARNO", Direction: Northwest, Line: Line{Kind: TrackLine, Bearing: 130}},
			[]string{"HOLD NORTHWEST OF TARNO ON THE 130 TRACK", "hold nw of tarno on track one three zero"},
		},
		{
			Clearance{Fix: "TARNO", Direction: Southwest, Line: Line{Kind: Airway, Name: "V123"}},
			[]string{
				"HOLD SOUTHWEST OF TARNO ON AIRWAY V123", "hold sw of tarno on v123", "hold south west of tarno on victor one two three",
				"hold southwest of tarno on victor one twenty three airway", "hold southwest of tarno on the airway victor 123",
			},
		},
		{
			Clearance{Fix: "TARNO", Direction: East, Line: Line{Kind: Route, Name: "NORTH PASS"}},
			[]string{"HOLD EAST OF TARNO ON ROUTE NORTH PASS", "hold e of tarno on the route north pass"},
		},
		{
			Clearance{MaxIAS: 210, EFC: clockTime(t, 0, 5)},
			[]string{
				"MAXIMUM HOLDING AIRSPEED IS 210, EXPECT FURTHER CLEARANCE 0005", "maximum holding airspeed is two one zero knots, efc 0:05",
				"maximum holding speed 210 kt expect further clearance 00 05 utc", "maximum holding airspeed is 210 efc zero zero zero five z",
			},
		},
	} {
		for i, text := range tc.texts {
			got, err := ParseClearance(text)
			if err != nil || got != tc.want {
				t.Errorf("%q: %+v, %v", text, got, err)
			}
			if canonical := strings.Replace(text, "HOLD AS PUBLISHED", "AS PUBLISHED", 1); i == 0 && got.String() != canonical {
				t.Errorf("%q is written %q", text, got)
			}
		}
	}
}

// What cannot be read is an error that names the word and its place.
func TestUnreadable(t *testing.T) {
	for text, want := range map[string]string{
		"":                                       "text",
		" ,. ":                                   "text",
		strings.Repeat("x", MaxClearance+1):      "length of the text",
		"HOLD":                                   "end after word 1",
		"HOLD UP OF TARNO":                       "word 2 at byte 5",
		"HOLD NORTH, EAST OF TARNO":              "word 3 at byte 12",
		"HOLD NORTH OF":                          "end after word 3",
		"HOLD NORTH OF ON THE 063 RADIAL":        "word 4 at byte 14",
		"HOLD NORTH OF ÖREBRO":                   "word 4 at byte 14",
		"HOLD NORTH OF TARNO ON THE 361 RADIAL":  "word 7 at byte 27",
		"HOLD NORTH OF TARNO ON THE 0063 RADIAL": "word 7 at byte 27",
		"HOLD NORTH OF TARNO ON THE 06.3 RADIAL": "word 7 at byte 27",
		"HOLD NORTH OF TARNO ON THE RADIAL":      "end after word 7",
		"HOLD NORTH OF TARNO ON THE 063":         "end after word 7",
		"HOLD NORTH OF TARNO ON THE 063 BEAM":    "word 8 at byte 31",
		"HOLD NORTH OF TARNO ON AIRWAY 123":      "word 7 at byte 30",
		"HOLD NORTH OF TARNO ON ROUTE":           "end after word 6",
		"ON THE MERLA 063 RADIAL OF MERLA":       "word 6 at byte 24",
		"ON THE 063 RADIAL OF 5":                 "word 6 at byte 21",
		"CLEARED FOR TARNO":                      "word 2 at byte 8",
		"CLEARED TO HOLD NORTH":                  "word 3 at byte 11",
		"CLEARED TO TARNO, CLEARED TO MERLA":     "word 4 at byte 18",
		"LEFT TURNS, RIGHT TURNS":                "word 3 at byte 12",
		"LEFT PATTERN":                           "word 2 at byte 5",
		"1 MINUTE, 2 MINUTE":                     "word 3 at byte 10",
		"5 MILE 6 MILE":                          "word 3 at byte 7",
		"0 MINUTE LEG":                           "word 1 at byte 0",
		"61 MINUTE LEG":                          "word 1 at byte 0",
		"60.01 MINUTE LEG":                       "word 1 at byte 0",
		"1.005 MINUTE LEG":                       "word 1 at byte 0",
		"100 MILE LEG":                           "word 1 at byte 0",
		"5 FURLONG LEG":                          "word 2 at byte 2",
		"5 NAUTICAL LEG":                         "word 3 at byte 11",
		"ONE AND A MINUTE":                       "word 4 at byte 10",
		"EXPECT CLEARANCE 1835":                  "word 2 at byte 7",
		"EFC 2400":                               "word 2 at byte 4",
		"EFC 1860":                               "word 2 at byte 4",
		"EFC 835":                                "word 2 at byte 4",
		"EFC 118:35":                             "word 2 at byte 4",
		"EFC +8:35":                              "word 2 at byte 4",
		"EFC 18:3":                               "word 2 at byte 4",
		"EFC ONE EIGHT, THREE FIVE":              "word 2 at byte 4",
		"EFC SOON":                               "word 2 at byte 4",
		"EFC":                                    "end after word 1",
		"EFC 1835, EFC 1835":                     "word 3 at byte 10",
		"MAXIMUM HOLDING AIRSPEED IS 0":          "word 5 at byte 28",
		"MAXIMUM HOLDING AIRSPEED IS 1000":       "word 5 at byte 28",
		"MAXIMUM HOLDING AIRSPEED IS FAST":       "word 5 at byte 28",
		"MAXIMUM HOLDING ALTITUDE":               "word 3 at byte 16",
		"MAXIMUM AIRSPEED":                       "word 2 at byte 8",
		"MAXIMUM HOLDING SPEED 200 MAXIMUM HOLDING SPEED 200": "word 5 at byte 26",
		"AS PUBLISHED, AS PUBLISHED":                          "word 3 at byte 14",
		"NO DELAY EXPECTED NO DELAY EXPECTED":                 "word 4 at byte 18",
		"AS FILED":                                            "word 2 at byte 3",
		"NO DELAY":                                            "end after word 2",
		"HOLD NORTH OF TARNO\x00":                             "word 4 at byte 14",
		"HOLD NORTH OF \xff\xfe":                              "word 4 at byte 14",
		"HOLD NORTH OF TARNO EXCEPT MONDAY":                   "",
		"THE WEATHER IS FINE":                                 "word 1 at byte 0",
		"CLEARED TO " + strings.Repeat("A", 41):               "word 3 at byte 11",
	} {
		c, err := ParseClearance(text)
		if want == "" { // words that run on are part of the name
			if err != nil || c.Fix != "TARNO EXCEPT MONDAY" {
				t.Errorf("%q: %+v, %v", text, c, err)
			}
			continue
		}
		var field *abeam.FieldError
		if !errors.As(err, &field) || !errors.Is(err, abeam.ErrInvalid) || field.Op != opParse || field.Field != want || field.Limit == "" || c != (Clearance{}) {
			t.Errorf("%.60q: %+v, %v, want %s", text, c, err, want)
		}
	}
}

// drawClearance draws valid clearances of every kind.
func drawClearance() *rapid.Generator[Clearance] {
	name := rapid.OneOf(rapid.Just(""), rapid.StringMatching(`[A-Z]{2,5}`), rapid.SampledFrom([]string{"15 DME FIX", "TARNO VOR", "3 DME", "NORTH BEND", "D15K", "V12"})).
		Filter(func(s string) bool { return validName("", "", s) == nil })
	return rapid.Custom(func(t *rapid.T) Clearance {
		c := Clearance{
			ClearedTo: name.Draw(t, "limit"), Direction: Octant(rapid.IntRange(0, 8).Draw(t, "direction")),
			AsPublished: rapid.Bool().Draw(t, "published"), NoDelay: rapid.Bool().Draw(t, "no delay"), TurnSaid: rapid.Bool().Draw(t, "turn said"),
			LegTime:  time.Duration(rapid.SampledFrom([]int{0, 1, 100, 150, 6000, 33}).Draw(t, "leg time")) * minuteHundredth,
			LegMiles: abeam.NM(float64(rapid.SampledFrom([]int{0, 1, 500, 1050, 9999, 807}).Draw(t, "leg miles")) / 100),
			EFC:      ClockTime{int16(rapid.IntRange(0, 1440).Draw(t, "EFC"))},
			MaxIAS:   abeam.Knots(rapid.SampledFrom([]float64{0, 1, 90, 175, 210, 999}).Draw(t, "speed")),
		}
		if c.Direction != 0 {
			c.Fix = name.Draw(t, "fix")
		}
		if c.TurnSaid {
			c.Turn = Turn(rapid.IntRange(0, 1).Draw(t, "turn"))
		}
		switch c.Line.Kind = LineKind(rapid.IntRange(0, 6).Draw(t, "kind")); {
		case c.Line.Kind.numbered():
			c.Line.Bearing = abeam.Bearing(rapid.IntRange(0, 359).Draw(t, "bearing"))
			c.Line.Name = name.Draw(t, "station")
		case c.Line.Kind == Airway:
			c.Line.Name = rapid.StringMatching(`[A-Z]{1,2}[0-9]{1,4}`).Draw(t, "airway")
		case c.Line.Kind == Route:
			c.Line.Name = "PASS " + name.Draw(t, "route")
			c.Line.Name = strings.TrimSpace(c.Line.Name)
		}
		return c
	})
}

// A valid clearance is read from what is written of it, in figures and in words, in
// lower case and without punctuation where that keeps numbers apart.
func TestClearanceRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawClearance().Draw(t, "clearance")
		if err := c.Validate(); err != nil {
			t.Fatal(err)
		}
		if c == (Clearance{}) {
			return // says nothing
		}
		for _, text := range []string{c.String(), c.Readback(), strings.ToLower(c.Readback()), strings.ReplaceAll(c.String(), ", ", "; ")} {
			back, err := ParseClearance(text)
			if err != nil || back != c {
				t.Fatalf("%q is read as %+v, %v, want %+v", text, back, err, c)
			}
		}
	})
}

// Words of the phraseology in any order: what can be read is a fixed point.
func TestClearanceFixedPoint(t *testing.T) {
	words := []string{
		"CLEARED", "TO", "HOLD", "NORTH", "EAST", "W", "OF", "THE", "TARNO", "ON", "063", "RADIAL", "COURSE", "VICTOR", "V12", "AIRWAY", "ROUTE",
		"ONE", "FIVE", "TWENTY", "POINT", "1.5", "MINUTE", "MILE", "DME", "LEG", "LEFT", "TURNS", "EXPECT FURTHER CLEARANCE", "EFC", "1835", "18", "35Z",
		"MAXIMUM HOLDING AIRSPEED IS", "AS PUBLISHED", "NO DELAY EXPECTED", "AND", "HALF", ",", "FROM", "MERLA",
		"CLEARED TO TARNO", "HOLD SOUTH OF MERLA", "ON THE 063 RADIAL", "TWO MINUTE LEG",
	}
	// Words alone are seldom readable; after one of these they often are, and these
	// themselves must be.
	starts := []string{"", "CLEARED TO TARNO", "HOLD SOUTH OF MERLA ON THE 170 RADIAL", "HOLD WEST AS PUBLISHED"}
	for _, text := range starts[1:] {
		c, err := ParseClearance(text)
		if err != nil {
			t.Fatal(err)
		}
		fixedPoint(t, text, c)
	}
	rapid.Check(t, func(t *rapid.T) {
		start := rapid.SampledFrom(starts).Draw(t, "start")
		text := start + " " + strings.Join(rapid.SliceOfN(rapid.SampledFrom(words), 0, 6).Draw(t, "words"), " ")
		if c, err := ParseClearance(text); err == nil {
			fixedPoint(t, text, c)
		}
	})
}

type failer interface{ Fatalf(string, ...any) }

func fixedPoint(t failer, text string, c Clearance) {
	if err := c.Validate(); err != nil {
		t.Fatalf("%q is read as %+v: %v", text, c, err)
	}
	for _, written := range []string{c.String(), c.Readback()} {
		back, err := ParseClearance(written)
		if err != nil || back != c || back.String() != c.String() || back.Readback() != c.Readback() {
			t.Fatalf("%q is written %q and read as %+v, %v, want %+v", text, written, back, err, c)
		}
	}
}

func FuzzParseClearance(f *testing.F) {
	for _, s := range []string{
		"CLEARED TO TARNO, HOLD WEST, AS PUBLISHED",
		"hold north east of the one five dme fix on the merla zero six three radial, one and a half minute legs, left-hand turns, efc 18:35z",
		"HOLD SW OF TARNO ON VICTOR ONE TWENTY THREE, 5 NM LEGS, MAXIMUM HOLDING AIRSPEED IS 210 KNOTS, NO DELAY EXPECTED",
		"on course 360; expect further clearance at 18 35", "on the 063° radial from V12, ten mile dme leg", "ON ROUTE THE THE PASS 1 DME", "\xff°:.1:2", "",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := ParseClearance(text)
		if err != nil {
			var field *abeam.FieldError
			if !errors.As(err, &field) || !errors.Is(err, abeam.ErrInvalid) || c != (Clearance{}) {
				t.Fatalf("%q: %+v, %v", text, c, err)
			}
			if message := err.Error(); len(message) > 400 || strings.ContainsAny(message, "\n\r\x00") {
				t.Fatalf("the message is not one short line: %q", message)
			}
			return
		}
		fixedPoint(t, text, c)
		if b, err := c.InboundCourse(Setting{}); err == nil && !(b >= 0 && b < 360) {
			t.Fatalf("%q: inbound course %v", text, b)
		}
		if _, err := c.Findings(Setting{Rules: FAA(), Altitude: 5000, Now: time.Unix(0, 0)}); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
	})
}
