package check

import (
	"errors"
	"math"
	"testing"

	"github.com/holdingfix/abeam"
)

func TestKinds(t *testing.T) {
	for _, c := range []struct {
		make func(op, field string, value any, limit string) error
		kind error
		want string
	}{
		{Invalid, abeam.ErrInvalid, "hold.Demo: TAS is 900 kt, must be at most 800 kt: invalid input"},
		{Unflyable, abeam.ErrUnflyable, "hold.Demo: TAS is 900 kt, must be at most 800 kt: unflyable"},
		{NoConvergence, abeam.ErrNoConvergence, "hold.Demo: TAS is 900 kt, must be at most 800 kt: no convergence"},
	} {
		err := c.make("hold.Demo", "TAS", abeam.Knots(900), "at most 800 kt")
		if got := err.Error(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
		for _, kind := range []error{abeam.ErrInvalid, abeam.ErrUnflyable, abeam.ErrNoConvergence} {
			if got := errors.Is(err, kind); got != (kind == c.kind) {
				t.Errorf("errors.Is(%v, %v) is %v", err, kind, got)
			}
		}
		fe, ok := errors.AsType[*abeam.FieldError](err)
		if !ok || fe.Op != "hold.Demo" || fe.Field != "TAS" || fe.Value != abeam.Knots(900) || fe.Limit != "at most 800 kt" {
			t.Errorf("got %#v", fe)
		}
	}
}

func TestBounds(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	within := func(v float64) error { return Within("hold.Demo", "speed", abeam.Knots(v), 0, 400) }
	above := func(v float64) error { return Above("hold.Demo", "speed", abeam.Knots(v), 0, 400) }
	finite := func(v float64) error { return Finite("hold.Demo", "speed", abeam.Knots(v)) }
	for _, c := range []struct {
		name  string
		check func(float64) error
		v     float64
		want  string // empty: accepted
	}{
		{"Within", within, 0, ""}, {"Within", within, math.Copysign(0, -1), ""}, {"Within", within, 400, ""}, {"Within", within, 5e-324, ""},
		{"Within", within, -5e-324, "within"}, {"Within", within, math.Nextafter(400, inf), "within"},
		{"Within", within, nan, "within"}, {"Within", within, inf, "within"}, {"Within", within, -inf, "within"},
		{"Above", above, 5e-324, ""}, {"Above", above, 400, ""},
		{"Above", above, 0, "above"}, {"Above", above, math.Copysign(0, -1), "above"}, {"Above", above, math.Nextafter(400, inf), "above"},
		{"Above", above, nan, "above"}, {"Above", above, inf, "above"}, {"Above", above, -inf, "above"},
		{"Finite", finite, 0, ""}, {"Finite", finite, math.MaxFloat64, ""}, {"Finite", finite, -math.MaxFloat64, ""},
		{"Finite", finite, nan, "finite"}, {"Finite", finite, inf, "finite"}, {"Finite", finite, -inf, "finite"},
	} {
		err := c.check(c.v)
		if c.want == "" {
			if err != nil {
				t.Errorf("%s refused %v: %v", c.name, c.v, err)
			}
			continue
		}
		limit := map[string]string{"within": "from 0 kt to 400 kt", "above": "above 0 kt and at most 400 kt", "finite": "finite"}[c.want]
		want := "hold.Demo: speed is " + abeam.Knots(c.v).String() + ", must be " + limit + ": invalid input"
		if err == nil || err.Error() != want || !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s(%v) gave %v, want %q", c.name, c.v, err, want)
		}
	}
}
