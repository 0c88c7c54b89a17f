package api

import "testing"

func TestBefore(t *testing.T) {
	for _, c := range []struct {
		p, q Place
		want bool
	}{
		{Place{3, 9}, Place{4, 1}, true},
		{Place{4, 1}, Place{3, 9}, false},
		{Place{3, 4}, Place{3, 5}, true},
		{Place{3, 5}, Place{3, 5}, true},
		{Place{3, 6}, Place{3, 5}, false},
	} {
		if got := c.p.before(c.q); got != c.want {
			t.Errorf("%v before %v: %v", c.p, c.q, got)
		}
	}
}
