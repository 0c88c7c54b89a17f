package wind_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

// For any text: every line that is not blank is accounted for exactly once, what is
// decoded is in range and writes back to what was read, and the good lines alone
// decode without a fault.
func FuzzDecodeAloftBulletin(f *testing.F) {
	for _, name := range []string{"aloft_2026-01-31", "aloft_2026-01-31_first", "aloft_2026-04-15", "aloft_06", "aloft_older"} {
		f.Add(bulletinText(f, name))
	}
	f.Add("")
	f.Add("\x01\r\r\n000 \r\r\nFDUS11 KWNO 311200 COR\r\r\nFT  45000   53000\r\r\nABI 7406   751065\r\r\n\x03")
	f.Add(columns + "ABR 1914 1716-00 1808-14\nabi\n\xff\nABR\t1914\nFT\nFT  3000 3000\nDATA BASED ON 310000\nVALID\nFBUS31 KWNO")
	f.Add(strings.ToLower(columns) + columns + columns)
	f.Fuzz(func(t *testing.T, text string) {
		b, err := wind.DecodeAloftBulletin(text)
		blank := func(line string) bool { return strings.Trim(line, " \t\r\x01\x03") == "" }
		lines := strings.Split(text, "\n")
		if err != nil {
			if !errors.Is(err, abeam.ErrInvalid) || !cmp.Equal(b, wind.AloftBulletin{}) {
				t.Fatalf("%+v, %v", b, err)
			}
			if len(text) <= wind.MaxBulletin && slices.ContainsFunc(lines, func(l string) bool { return !blank(l) }) {
				t.Fatalf("refused: %v", err)
			}
			return
		}
		accounted := map[int]int{}
		good := map[int]string{}
		asRead := func(l wind.Line) {
			accounted[l.Number]++
			if lines[l.Number-1] != l.Text && strings.TrimRight(lines[l.Number-1], " \t\r") != l.Text {
				t.Errorf("line %d is %q, not %q", l.Number, lines[l.Number-1], l.Text)
			}
		}
		for _, l := range b.Heading {
			asRead(l)
			good[l.Number] = l.Text
		}
		for _, failed := range b.Failed {
			asRead(failed.Line)
			var field *abeam.FieldError
			if !errors.As(failed.Err, &field) || !errors.Is(failed.Err, abeam.ErrInvalid) ||
				!strings.HasPrefix(field.Field, fmt.Sprintf("line %d", failed.Number)) {
				t.Errorf("line %d: %v", failed.Number, failed.Err)
			}
		}
		for _, s := range b.Stations {
			accounted[s.Line]++
			good[s.Line] = lines[s.Line-1]
			checkStation(t, b, s, lines[s.Line-1])
		}
		for i, line := range lines {
			if want := 1; blank(line) && accounted[i+1] != 0 || !blank(line) && accounted[i+1] != want {
				t.Errorf("line %d, %q, is accounted for %d times", i+1, line, accounted[i+1])
			}
		}
		if (b.Err() == nil) != (len(b.Failed) == 0) {
			t.Errorf("%d failed, Err %v", len(b.Failed), b.Err())
		}
		checkGoodLines(t, b, good)
	})
}

func checkStation(t *testing.T, b wind.AloftBulletin, s wind.AloftStation, line string) {
	codes := []string{s.Name}
	for _, l := range s.Levels {
		w := l.Wind.Wind
		if !slices.Contains(b.Levels, l.Level) || l.Wind.North != abeam.True ||
			!(w.From >= 0 && w.From < 360) || !(w.Speed >= 0 && w.Speed <= 199) ||
			!(l.Temperature >= -99 && l.Temperature <= 99) || l.LightAndVariable && w != (wind.Wind{}) ||
			l.OrMore != (w.Speed == 199) || !l.HasTemperature && l.Temperature != 0 ||
			l.Level > wind.SignedTemperatures && l.Temperature > 0 {
			t.Errorf("%s: %+v", s.Name, l)
		}
		codes = append(codes, encode(l))
	}
	// -00 and +00 are one temperature.
	if got, want := strings.Join(codes, " "), strings.Join(strings.Fields(line), " "); got != strings.ReplaceAll(want, "-00", "+00") {
		t.Errorf("%q writes back to %q", want, got)
	}
	if _, err := s.Profile(abeam.Magnetic, 12); err != nil {
		t.Error(err)
	}
}

// encode writes a group back.
func encode(l wind.AloftLevel) string {
	tens, speed := (int(l.Wind.Wind.From)/10+35)%36+1, int(l.Wind.Wind.Speed)
	code := "9900"
	switch {
	case l.LightAndVariable:
	case speed >= 100:
		code = fmt.Sprintf("%02d%02d", tens+50, speed-100)
	default:
		code = fmt.Sprintf("%02d%02d", tens, speed)
	}
	switch {
	case !l.HasTemperature:
		return code
	case l.Level > wind.SignedTemperatures:
		return fmt.Sprintf("%s%02d", code, -int(l.Temperature))
	}
	return fmt.Sprintf("%s%+03d", code, int(l.Temperature))
}

func checkGoodLines(t *testing.T, b wind.AloftBulletin, good map[int]string) {
	if len(good) == 0 {
		return
	}
	var text strings.Builder
	for i := 1; len(good) > 0; i++ {
		if line, ok := good[i]; ok {
			text.WriteString(line + "\n")
			delete(good, i)
		}
	}
	again, err := wind.DecodeAloftBulletin(text.String())
	if err != nil || again.Failed != nil {
		t.Fatalf("the good lines alone: %v, %v", err, again.Err())
	}
	same := func(a, b []wind.AloftStation) bool {
		return slices.EqualFunc(a, b, func(a, b wind.AloftStation) bool { return a.Name == b.Name && slices.Equal(a.Levels, b.Levels) })
	}
	if !same(again.Stations, b.Stations) || again.Valid != b.Valid || again.BasedOn != b.BasedOn {
		t.Errorf("the good lines alone: %+v, all: %+v", again, b)
	}
}
