package main

import (
	"encoding/json"
	"math"
	"testing"
)

// The margin is what the template leaves: less for a faster flight in the same template,
// and in a calm the same for the exact lap and that of the rule of thumb, which are one.
func TestProtected(t *testing.T) {
	protected := func(args ...string) Protected {
		t.Helper()
		var b Briefing
		_, out, stderr := brief(append(args, "-json")...)
		if err := json.Unmarshal([]byte(out), &b); err != nil {
			t.Fatal(stderr, err)
		}
		return b.Protected
	}
	slow, fast := protected("-airspeed", "110"), protected("-airspeed", "200")
	if !(*slow.Exact > *fast.Exact && *fast.Exact > 0) {
		t.Errorf("margins %v at 110 KIAS, %v at 200", *slow.Exact, *fast.Exact)
	}
	calm := protected("-wind", "000/0")
	if math.Abs(*calm.Exact-*calm.Thumb) > 1e-6 || *calm.Reach <= 0 || *calm.Entry <= 0 {
		t.Errorf("%+v", calm)
	}
	if out := protected("-airspeed", "180", "-altitude", "1000"); out.IAS != 200 {
		t.Errorf("drawn for %v, the limit at 1,000 ft is 200", out.IAS)
	}
}
