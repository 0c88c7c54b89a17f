package form

import (
	"errors"
	"net/url"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

func query(t *testing.T, text string) *Form {
	t.Helper()
	values, err := url.ParseQuery(text)
	if err != nil {
		t.Fatal(err)
	}
	return Query("demo", values, "course", "turns", "tas_kt", "leg_s")
}

func TestRead(t *testing.T) {
	f := query(t, "course=075&turns=left&tas_kt=118.5&leg_s=1.5")
	course, turn := Read[abeam.Bearing](f, "course"), Read[hold.Turn](f, "turns")
	tas, leg := Read[abeam.Knots](f, "tas_kt"), Read[Seconds](f, "leg_s")
	if course != 75 || turn != hold.Left || tas != 118.5 || time.Duration(leg) != 1500*time.Millisecond || f.Err() != nil {
		t.Errorf("%v, %v, %v, %v, %v", course, turn, tas, leg, f.Err())
	}
	if f.Text("course") != "075" || f.Err() != nil || f.Text("wind") != "" || f.Err() == nil {
		t.Errorf("the text itself: %v", f.Err())
	}
}

func TestRefused(t *testing.T) {
	for text, want := range map[string]string{
		"":                                       "demo: course is missing, must be given: invalid input",
		"course=":                                "demo: course is missing, must be given: invalid input",
		"course=361":                             `demo: course is "361", must be a number from 0 to 360, in degrees: invalid input`,
		"course=75&turns=up":                     "demo: turns is up, must be right or left: invalid input",
		"course=75&turns=left&tas_kt":            "demo: tas_kt is missing, must be given: invalid input",
		"course=75&turns=left&tas_kt=NaN":        `demo: tas_kt is "NaN", must be a finite number, in kt: invalid input`,
		"course=75&turns=left&tas_kt=9&leg_s=-1": `demo: leg_s is "-1", must be a number from 0 to 3600: invalid input`,
		"course=75&turns=left&tas_kt=9&leg_s=1e300": `demo: leg_s is "1e300", must be a number from 0 to 3600: invalid input`,
		"course=75&turns=left&tas_kt=9&leg_s=NaN":   `demo: leg_s is "NaN", must be a number from 0 to 3600: invalid input`,
		"course=75&course=76":                       "demo: course is given more than once, must be given once: invalid input",
		"tas=9":                                     "demo: tas is unknown, must be one of course, turns, tas_kt, leg_s: invalid input",
	} {
		f := query(t, text)
		course, turn := Read[abeam.Bearing](f, "course"), Read[hold.Turn](f, "turns")
		tas, leg := Read[abeam.Knots](f, "tas_kt"), Read[Seconds](f, "leg_s")
		if err := f.Err(); err == nil || err.Error() != want || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%q: %v, want %s (%v %v %v %v)", text, err, want, course, turn, tas, leg)
		}
		if leg != 0 {
			t.Errorf("%q: read %v after an error", text, leg)
		}
	}
}
