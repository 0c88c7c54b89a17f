package wind_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/reference"
	"github.com/holdingfix/abeam/wind"
)

func bulletinText(t testing.TB, name string) string {
	t.Helper()
	text, err := reference.Bulletin(name)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func decodeBulletin(t testing.TB, text string) wind.AloftBulletin {
	t.Helper()
	b, err := wind.DecodeAloftBulletin(text)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// group is a forecast for the tests to write by hand.
func group(level abeam.Feet, from abeam.Bearing, speed abeam.Knots, temperature ...wind.Celsius) wind.AloftLevel {
	l := wind.AloftLevel{Level: level, Wind: wind.Reported{Wind: wind.Wind{From: from, Speed: speed}, North: abeam.True}}
	if len(temperature) > 0 {
		l.HasTemperature, l.Temperature = true, temperature[0]
	}
	return l
}

// A whole real bulletin, with four stations decoded by hand.
func TestDecodeAloftBulletin(t *testing.T) {
	b := decodeBulletin(t, bulletinText(t, "aloft_2026-01-31"))
	if err := b.Err(); err != nil || b.Failed != nil {
		t.Error(err)
	}
	if len(b.Stations) != 31 || len(b.Heading) != 6 {
		t.Errorf("%d stations, %d heading lines", len(b.Stations), len(b.Heading))
	}
	if want := []abeam.Feet{3_000, 6_000, 9_000, 12_000, 18_000, 24_000, 30_000, 34_000, 39_000}; !slices.Equal(b.Levels, want) {
		t.Errorf("levels %v", b.Levels)
	}
	lv := func(l wind.AloftLevel) wind.AloftLevel { l.LightAndVariable = true; return l }
	want := map[string]wind.AloftStation{
		"ABR": {Name: "ABR", Line: 10, Levels: []wind.AloftLevel{
			group(3_000, 190, 14), group(6_000, 170, 16, -9), group(9_000, 180, 8, -14), lv(group(12_000, 0, 0, -18)),
			group(18_000, 0, 33, -29), group(24_000, 350, 62, -39), group(30_000, 350, 92, -51), group(34_000, 350, 98, -59),
			group(39_000, 340, 104, -64),
		}},
		"GLD": {Name: "GLD", Line: 23, Levels: []wind.AloftLevel{
			lv(group(6_000, 0, 0)), group(9_000, 350, 28, -7), group(12_000, 320, 43, -12), group(18_000, 340, 52, -24),
			group(24_000, 340, 73, -34), group(30_000, 350, 96, -47), group(34_000, 340, 114, -55), group(39_000, 340, 119, -64),
		}},
		"ALS": {Name: "ALS", Line: 13, Levels: []wind.AloftLevel{
			group(12_000, 310, 13, -8), group(18_000, 340, 44, -17), group(24_000, 340, 52, -28), group(30_000, 330, 70, -43),
			group(34_000, 330, 74, -54), group(39_000, 330, 77, -64),
		}},
		"BRO": {Name: "BRO", Line: 18, Levels: []wind.AloftLevel{
			group(3_000, 20, 25), group(6_000, 10, 24, 5), group(9_000, 330, 21, 0), group(12_000, 310, 28, -5),
			group(18_000, 280, 67, -16), group(24_000, 270, 101, -25), group(30_000, 270, 119, -37), group(34_000, 280, 124, -46),
			group(39_000, 280, 112, -56),
		}},
	}
	for _, s := range b.Stations {
		if w, ok := want[s.Name]; ok {
			if d := cmp.Diff(w, s); d != "" {
				t.Errorf("%s (-want +got):\n%s", s.Name, d)
			}
			delete(want, s.Name)
		}
	}
	if len(want) != 0 {
		t.Errorf("not found: %v", want)
	}
}

func TestDecodeAloftGroupBadInput(t *testing.T) {
	for _, c := range []struct {
		code  string
		level abeam.Feet
	}{
		{"", 9_000}, {"2", 9_000}, {"243", 9_000}, {"24 5", 9_000}, {"24x5", 9_000}, {"２435", 9_000},
		{"0010", 9_000}, {"3735", 9_000}, {"5010", 9_000}, {"8710", 9_000}, {"9901", 9_000}, {"9800", 9_000}, {"0000", 9_000},
		{"2435+", 9_000}, {"2435+7", 9_000}, {"2435+007", 9_000}, {"243507", 9_000}, {"243507", 24_000}, {"2435 07", 9_000},
		{"2435-07", 30_000}, {"2435+07", 30_000}, {"24350", 30_000}, {"2435070", 30_000}, {"2435M7", 9_000},
		{"2435", 0}, {"2435", -1}, {"2435", abeam.Feet(nan)}, {"2435", abeam.Feet(inf)}, {"2435", 65_618},
		{strings.Repeat("2", 1_000_000), 9_000},
	} {
		l, err := wind.DecodeAloftGroup(c.code, c.level)
		var field *abeam.FieldError
		if l != (wind.AloftLevel{}) || !errors.Is(err, abeam.ErrInvalid) || !errors.As(err, &field) || len(err.Error()) > 300 {
			t.Errorf("%.20q at %v: %+v, %v", c.code, c.level, l, err)
		}
	}
}

const columns = "FT  3000    6000    9000   12000   18000   24000  30000  34000  39000\n"

// What each fault is called: the line, the group and the reason.
func TestDecodeAloftBulletinFaults(t *testing.T) {
	const abr = "ABR 1914 1716-09 1808-14 9900-18 3633-29 3562-39 359251 359859 840464\n"
	for _, c := range []struct {
		name, text string
		stations   int
		faults     []string // field, value, limit of each
	}{
		{"cut short in a group", columns + abr[:44], 0,
			[]string{`line 2, ABR at 24000 ft|"356"|four digits of wind, then the temperature if any`}},
		{"cut short between groups", columns + abr[:48], 0, []string{`line 2, ABR at 30000 ft|""|a group; the line ends before it`}},
		{"cut short at the name", columns + "AB", 0,
			[]string{`line 2|"AB"|a heading, or a station of three capital letters or digits and its groups`}},
		{"a name alone", columns + "ABR", 0, []string{`line 2, ABR at 3000 ft|""|a group; the line ends before it`}},
		{"a gap", columns + strings.Replace(abr, "9900-18", "       ", 1), 0,
			[]string{`line 2, ABR|"3633-29"|in the column of a level, with none missing but the lowest; it stands in column 34`}},
		{"out of its column", columns + strings.Replace(abr, " 1914", "  1914", 1), 0,
			[]string{`line 2, ABR|"1914"|in the column of a level, with none missing but the lowest; it stands in column 6`}},
		{"a group too many", columns + abr[:len(abr)-1] + " 840464", 0,
			[]string{`line 2, ABR|"840464"|in the column of a level, with none missing but the lowest; it stands in column 71`}},
		{"one bad group", columns + strings.Replace(abr, "1808-14", "1B08-14", 1) + "ABI" + abr[3:], 1,
			[]string{`line 2, ABR at 9000 ft|"1B08-14"|four digits of wind, then the temperature if any`}},
		{"small letters", strings.ToLower(columns + abr), 0, []string{
			`line 1|"ft  3000    6000    9000   12000   18000"...|a heading, or a station of three capital letters or digits and its groups`,
			`line 2|"abr 1914 1716-09 1808-14 9900-18 3633-29"...|a heading, or a station of three capital letters or digits and its groups`}},
		{"station twice", columns + abr + "\n" + abr, 1,
			[]string{`line 4, ABR|"ABR 1914 1716-09 1808-14 9900-18 3633-29"...|given once; it stands on line 2 too`}},
		{"bulletin twice", columns + abr + columns + abr, 1, []string{
			`line 3|"FT  3000    6000    9000   12000   18000"...|of one bulletin; this is a second heading`,
			`line 4|"ABR 1914 1716-09 1808-14 9900-18 3633-29"...|of one bulletin; a second heading stands on line 3`}},
		{"another bulletin's times", columns + abr + "DATA BASED ON 311200Z\n" + "ABI" + abr[3:], 1, []string{
			`line 3|"DATA BASED ON 311200Z"|of one bulletin; this is a second heading`,
			`line 4|"ABI 1914 1716-09 1808-14 9900-18 3633-29"...|of one bulletin; a second heading stands on line 3`}},
		{"no levels", abr, 0, []string{`line 1, ABR|"ABR 1914 1716-09 1808-14 9900-18 3633-29"...|below a line of levels, FT and the altitudes`}},
		{"levels that fall", "FT  6000    3000\n", 0, []string{`line 1|"FT  6000    3000"|FT and the levels in feet, ascending, each a column`}},
		{"levels that are none", "FT\nFT  x\n", 0, []string{
			`line 1|"FT"|FT and the levels in feet, ascending, each a column`, `line 2|"FT  x"|FT and the levels in feet, ascending, each a column`}},
		{"day 32", "DATA BASED ON 320000Z", 0, []string{`line 1|"DATA BASED ON 320000Z"|DATA BASED ON ddhhmmZ`}},
		{"hour 24", "VALID 310600Z   FOR USE 0200-2400Z. TEMPS NEG ABV 24000", 0,
			[]string{`line 1|"VALID 310600Z   FOR USE 0200-2400Z. TEMP"...|VALID ddhhmmZ FOR USE hhmm-hhmmZ. TEMPS NEG ABV 24000`}},
		{"other temperatures", "VALID 310600Z   FOR USE 0200-0900Z. TEMPS NEG ABV 18000", 0,
			[]string{`line 1|"VALID 310600Z   FOR USE 0200-0900Z. TEMP"...|VALID ddhhmmZ FOR USE hhmm-hhmmZ. TEMPS NEG ABV 24000`}},
		{"heading without an office", "FBUS31 310158", 0, []string{`line 1|"FBUS31 310158"|a heading like FBUS31 KWNO 310158`}},
		{"heading with a word too many", "FBUS31 KWNO 310158 AAA BBB", 0, []string{`line 1|"FBUS31 KWNO 310158 AAA BBB"|a heading like FBUS31 KWNO 310158`}},
		{"heading without a time", "FBUS31 KWNO 31015", 0, []string{`line 1|"FBUS31 KWNO 31015"|a heading like FBUS31 KWNO 310158`}},
		{"bytes", columns + "AB\x00 1914\n\xff\xfe\n", 0, []string{
			`line 2|"AB\x00 1914"|plain text; byte 0x00 stands in column 3`, `line 3|"\xff\xfe"|plain text; byte 0xff stands in column 1`}},
		{"tab", columns + "ABR\t1914", 0, []string{`line 2|"ABR\t1914"|plain text; byte 0x09 stands in column 4`}},
		{"long line", columns + "ABR " + strings.Repeat("1914 ", 20_000), 0,
			[]string{`line 2|"ABR 1914 1914 1914 1914 1914 1914 1914 1"...|at most 120 characters long`}},
		{"a note in the line", bulletinText(t, "aloft_older"), 1,
			[]string{`line 3, ABI|"(6000"|in the column of a level, with none missing but the lowest; it stands in column 5`}},
	} {
		b := decodeBulletin(t, c.text)
		var got []string
		for _, f := range b.Failed {
			var field *abeam.FieldError
			if !errors.As(f.Err, &field) || !errors.Is(f.Err, abeam.ErrInvalid) || field.Op != "wind.DecodeAloftBulletin" {
				t.Fatalf("%s: %v", c.name, f.Err)
			}
			got = append(got, fmt.Sprintf("%s|%v|%s", field.Field, field.Value, field.Limit))
		}
		if d := cmp.Diff(c.faults, got); d != "" || len(b.Stations) != c.stations {
			t.Errorf("%s: %d stations, faults (-want +got):\n%s", c.name, len(b.Stations), d)
		}
		if err := b.Err(); err == nil || strings.Count(err.Error(), "\n") != len(c.faults)-1 {
			t.Errorf("%s: Err %v", c.name, err)
		}
	}
}

// A bulletin that is amended says so in a fourth group of its heading (AAA, the first
// amendment). Source: WMO No. 386, Manual on the Global Telecommunication System, abbreviated
// headings (from memory).
func TestDecodeAloftBulletinAmended(t *testing.T) {
	b := decodeBulletin(t, "FBUS31 KWNO 310158 AAA\n"+columns+"ABR 1914 1716-09 1808-14 9900-18 3633-29 3562-39 359251 359859 840464\n")
	if len(b.Failed) > 0 || len(b.Stations) != 1 {
		t.Errorf("%d stations, %v", len(b.Stations), b.Failed)
	}
}

func TestDecodeAloftBulletinRefuses(t *testing.T) {
	for name, text := range map[string]string{
		"nothing": "", "blanks": " \r\n\n\t\n", "marks": "\x01\r\n\x03",
		"too large": columns + strings.Repeat("ABR 1914\n", wind.MaxBulletin/9+1),
	} {
		b, err := wind.DecodeAloftBulletin(text)
		if !cmp.Equal(b, wind.AloftBulletin{}) || !errors.Is(err, abeam.ErrInvalid) || len(err.Error()) > 300 {
			t.Errorf("%s: %+v, %v", name, b, err)
		}
	}
}

// The line ends of a transmission change nothing.
func TestDecodeAloftBulletinLineEnds(t *testing.T) {
	text := bulletinText(t, "aloft_2026-01-31")
	want := decodeBulletin(t, text)
	got := decodeBulletin(t, "\x01"+strings.ReplaceAll(text, "\n", " \r\r\n")+"\x03\r\n")
	// The mark in front of the first line is on it.
	if len(got.Failed) != 1 || got.Failed[0].Number != 1 {
		t.Errorf("failed: %v", got.Err())
	}
	if d := cmp.Diff(want.Stations, got.Stations); d != "" {
		t.Error(d)
	}
	got = decodeBulletin(t, "\x01\r\r\n"+strings.ReplaceAll(text, "\n", " \r\r\n")+"\x03")
	for i := range got.Stations {
		got.Stations[i].Line--
	}
	if d := cmp.Diff(want.Stations, got.Stations); d != "" || got.Failed != nil {
		t.Error(d, got.Err())
	}
}

// made writes a bulletin of n stations.
func made(n int) string {
	var b strings.Builder
	b.WriteString(columns)
	for i := range n {
		fmt.Fprintf(&b, "%c%c%c 1914 1716-09 1808-14 9900-18 3633-29 3562-39 359251 359859 840464\n", 'A'+i/676, 'A'+i/26%26, 'A'+i%26)
	}
	return b.String()
}

// One pass, a bounded number of allocations for each station.
func TestDecodeAloftBulletinAllocatesByTheStation(t *testing.T) {
	allocs := func(n int) float64 {
		text := made(n)
		return testing.AllocsPerRun(10, func() {
			if b, err := wind.DecodeAloftBulletin(text); err != nil || len(b.Stations) != n || b.Failed != nil {
				t.Fatalf("%d stations, %v", len(b.Stations), err)
			}
		})
	}
	at100, at200 := allocs(100), allocs(200)
	if more := (at200 - at100) / 100; more > 1.5 || at200 > 2.1*at100 {
		t.Errorf("%v allocations for 100 stations, %v for 200: %v for each more", at100, at200, more)
	}
}

func TestDayTime(t *testing.T) {
	b := decodeBulletin(t, bulletinText(t, "aloft_older"))
	if got := b.Valid.String(); got != "not said" {
		t.Errorf("a bulletin without times is valid %s", got)
	}
	// The first and the last day and minute that there are, and none beyond.
	b = decodeBulletin(t, "DATA BASED ON 010000Z\nVALID 312359Z   FOR USE 2359-0001Z. TEMPS NEG ABV 24000")
	if b.Failed != nil || b.BasedOn != (wind.DayTime{Day: 1}) || b.Valid != (wind.DayTime{Day: 31, Clock: 23*time.Hour + 59*time.Minute}) ||
		b.UseFrom != 23*time.Hour+59*time.Minute || b.UseTo != time.Minute {
		t.Errorf("%+v, %v", b, b.Err())
	}
	for _, bad := range []string{"000000", "320000", "012400", "010060", "01000", "0100000"} {
		if b := decodeBulletin(t, "DATA BASED ON "+bad+"Z"); b.BasedOn != (wind.DayTime{}) || len(b.Failed) != 1 {
			t.Errorf("based on %s: %+v", bad, b.BasedOn)
		}
	}
	if got := (wind.DayTime{Day: 3, Clock: 7*time.Hour + 5*time.Minute}).String(); got != "030705Z" {
		t.Error(got)
	}
}

func TestAloftStationProfileCrossesToMagnetic(t *testing.T) {
	s := wind.AloftStation{Levels: []wind.AloftLevel{group(3_000, 100, 20), group(6_000, 0, 0)}}
	p, err := s.Profile(abeam.Magnetic, 10)
	if err != nil {
		t.Fatal(err)
	}
	if w, err := p.At(3_000); err != nil || w != (wind.Wind{From: 90, Speed: 20}) {
		t.Errorf("%v, %v", w, err)
	}
	for name, bad := range map[string]func() (wind.Profile, error){
		"no north":  func() (wind.Profile, error) { return s.Profile(0, 10) },
		"variation": func() (wind.Profile, error) { return s.Profile(abeam.Magnetic, 181) },
		"no levels": func() (wind.Profile, error) { return wind.AloftStation{}.Profile(abeam.True, 0) },
	} {
		if p, err := bad(); p.Levels() != nil || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: %v, %v", name, p, err)
		}
	}
}
