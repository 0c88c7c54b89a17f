package wind_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
	"github.com/holdingfix/abeam/wind"
)

// Below sea level the pressure is above that of the scale of CAS, which ends at the speed of
// sound at sea level: no CAS of that speed or more goes in or comes out.
func TestCASStaysBelowSoundAtSeaLevel(t *testing.T) {
	sound := standardAir(t, 0, 0).SpeedOfSound()
	deep := standardAir(t, -5_000, 0)
	var field *abeam.FieldError
	if v, err := deep.TASFromCAS(sound); v != 0 || !errors.As(err, &field) || field.Field != "CAS" {
		t.Errorf("CAS of %v: %v, %v", sound, v, err)
	}
	// Where the Mach number is just so that the CAS reaches the end, by halves, and every
	// number beside it.
	for altitude := abeam.Feet(-5_000); altitude < 0; altitude += 100 {
		air := standardAir(t, altitude, 0)
		lo, hi := 0.9, 1.0
		for range 60 {
			m := (lo + hi) / 2
			if _, err := air.CASFromMach(wind.Mach(m)); err == nil {
				lo = m
			} else {
				hi = m
			}
		}
		ended := false
		for m, i := lo-20e-16, 0; i < 40; m, i = math.Nextafter(m, 2), i+1 {
			cas, err := air.CASFromMach(wind.Mach(m))
			ended = ended || err != nil
			if err == nil && !(cas < sound && cas > sound-1e-9) {
				t.Errorf("at %v M%.17g gives a CAS of %.17g", altitude, m, float64(cas))
			}
		}
		if !ended {
			t.Errorf("at %v no end of CAS near M%v", altitude, lo)
		}
	}
	// The error tells the CAS that it would have been: by hand, M0.99 has an impact pressure of
	// 0.87106, at 1.19441 atmospheres (5,000 ft below) of 1.0404 atmospheres, which at sea level
	// is M1.0630, 703.16 kt.
	_, err := deep.CASFromMach(0.99)
	if !errors.As(err, &field) || field.Field != "CAS" || !near.Equal(field.Value.(abeam.Knots), 703.16, 0.05) {
		t.Errorf("M0.99: %v", err)
	}
}

// Every wind that a group can tell, written by the rule and read back: tens of degrees, with
// 50 added from 100 kt, the speed less 100.
func TestDecodeAloftGroupEveryWind(t *testing.T) {
	for tens := 1; tens <= 36; tens++ {
		for speed := range 200 {
			code := fmt.Sprintf("%02d%02d", tens, speed)
			if speed >= 100 {
				code = fmt.Sprintf("%02d%02d", tens+50, speed-100)
			}
			l, err := wind.DecodeAloftGroup(code, 9_000)
			want := wind.Wind{From: abeam.NewBearing(float64(10 * tens)), Speed: abeam.Knots(speed)}
			if err != nil || l.Wind.Wind != want || l.OrMore != (speed == 199) || l.LightAndVariable {
				t.Errorf("%s: %+v, %v", code, l, err)
			}
		}
	}
}

// A bulletin and a line as long as they may be.
func TestDecodeAloftBulletinLongest(t *testing.T) {
	text := columns + "ABR 1914 1716-09 1808-14 9900-18 3633-29 3562-39 359251 359859 840464\n"
	text += strings.Repeat(" ", wind.MaxBulletin-len(text))
	if b := decodeBulletin(t, text); len(b.Stations) != 1 || b.Failed != nil {
		t.Errorf("%d bytes: %+v, %v", len(text), b.Stations, b.Err())
	}
	longest := strings.Repeat("x", wind.MaxBulletinLine)
	for line, want := range map[string]string{longest: "a heading, or a station", longest + "x": "characters long"} {
		b := decodeBulletin(t, line)
		if err := b.Err(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("a line of %d: %v", len(line), err)
		}
	}
}

// The characters at the ends of what is plain text, and of what names a station.
func TestDecodeAloftBulletinCharacters(t *testing.T) {
	const groups = " 1914 1716-09 1808-14 9900-18 3633-29 3562-39 359251 359859 840464"
	for line, want := range map[string]string{
		"~" + groups: "a heading, or a station", "\x7f" + groups: "plain text", " ~": "a heading, or a station", "\x1f": "plain text",
		"A@B" + groups: "a heading, or a station", "A[B" + groups: "a heading, or a station",
		"A/B" + groups: "a heading, or a station", "A:B" + groups: "a heading, or a station",
	} {
		if err := decodeBulletin(t, columns+line).Err(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", line, err)
		}
	}
	for _, name := range []string{"AZ0", "Z9A", "009"} {
		if b := decodeBulletin(t, columns+name+groups); len(b.Stations) != 1 || b.Stations[0].Name != name {
			t.Errorf("%s: %+v, %v", name, b.Stations, b.Err())
		}
	}
	if b := decodeBulletin(t, "909\n"+columns); len(b.Heading) != 2 || b.Failed != nil {
		t.Errorf("a sequence number with a 9: %+v, %v", b.Heading, b.Err())
	}
}

// Levels that are none: at the ground, twice, beyond the atmosphere, in a column without room
// for a group.
func TestDecodeAloftBulletinLevels(t *testing.T) {
	for _, line := range []string{"FT     0    3000", "FT  3000    3000", "FT  3000   65618", "FT 9", "FT 3 9"} {
		if b := decodeBulletin(t, line); b.Levels != nil || len(b.Failed) != 1 {
			t.Errorf("%q: %v", line, b.Levels)
		}
	}
	b := decodeBulletin(t, "FT  3000   65617\nABR 1914 1716")
	if b.Failed != nil || len(b.Levels) != 2 || b.Levels[1] != wind.MaxPressureAltitude {
		t.Errorf("%v, %v", b.Levels, b.Err())
	}
	// A group belongs to the level under whose figure it stands, not to the blank before.
	b = decodeBulletin(t, "FT  3000    6000\nABR     2435+07")
	if b.Stations != nil || len(b.Failed) != 1 {
		t.Errorf("a group over the blank between two levels: %+v", b.Stations)
	}
	b = decodeBulletin(t, "FT  3000    6000\nABR      2435+07")
	if b.Failed != nil || len(b.Stations) != 1 || len(b.Stations[0].Levels) != 1 || b.Stations[0].Levels[0].Level != 6_000 {
		t.Errorf("a group right after it: %+v, %v", b.Stations, b.Err())
	}
}

// What was read is shown to 40 characters.
func TestQuotedInput(t *testing.T) {
	for n, want := range map[int]string{40: strings.Repeat("x", 40) + `"`, 41: strings.Repeat("x", 40) + `"...`} {
		_, err := wind.DecodeAloftGroup(strings.Repeat("x", n), 9_000)
		if err == nil || !strings.Contains(err.Error(), `"`+want+",") {
			t.Errorf("%d characters: %v", n, err)
		}
	}
}

// Pressures of the isothermal layer, by the formulas of ISO 2533 at 40 digits outside of the
// library (DERIVED).
func TestPressureAboveTheTropopause(t *testing.T) {
	for altitude, want := range map[abeam.Feet]wind.Hectopascals{50_000: 115.972414, 60_000: 71.7162768} {
		air := standardAir(t, altitude, 0)
		if got := air.Pressure(); !near.Equal(got, want, 5e-7) {
			t.Errorf("%v: %v, want %v", altitude, got, want)
		}
		if got := air.Temperature(); !near.Equal(got, -56.5, 1e-9) {
			t.Errorf("%v: %v, want -56.5 °C", altitude, got)
		}
	}
}
