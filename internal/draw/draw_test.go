package draw

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/holdingfix/abeam"
)

// sample draws by the seeds 0 to n-1, so that the tests below see the same values every run.
func sample[T any](g *rapid.Generator[T], n int) []T {
	all := make([]T, n)
	for i := range all {
		all[i] = g.Example(i)
	}
	return all
}

// A generator that draws from half of its range would leave half of it untested in silence.
func TestUniform(t *testing.T) {
	var tenths [10]int
	var lowest, highest bool
	for _, x := range sample(Uniform(-3, 5), 4000) {
		if !(x >= -3 && x <= 5) {
			t.Fatalf("%v is outside of -3 to 5", x)
		}
		tenths[min(int((x+3)/8*10), 9)]++
		lowest, highest = lowest || x == -3, highest || x == 5
	}
	if !lowest || !highest {
		t.Errorf("ends drawn: %v, %v", lowest, highest)
	}
	if slices.Min(tenths[:]) < 100 {
		t.Errorf("tenths of the range drawn %v times", tenths)
	}
}

func TestBearing(t *testing.T) {
	all := sample(Bearing(), 4000)
	var tenths, between bool
	for _, b := range all {
		if !(b >= 0 && b < 360) {
			t.Fatalf("%v is no bearing", b)
		}
		tenth := math.Round(float64(b)*10) / 10
		tenths = tenths || float64(b) == tenth && tenth != math.Trunc(tenth)
		between = between || math.Abs(float64(b)-tenth) > 0.01
	}
	if !tenths || !between {
		t.Errorf("tenths drawn: %v; more than tenths: %v", tenths, between)
	}
	for _, b := range []abeam.Bearing{0, 90, 180, 270, 70, 250, 1e-9, 360 - 1e-9} {
		if !slices.Contains(all, b) {
			t.Errorf("%v was not drawn", b)
		}
	}
}

func drawn[T comparable](t *testing.T, all []T, want ...T) {
	t.Helper()
	for _, x := range want {
		if !slices.Contains(all, x) {
			t.Errorf("%v was not drawn", x)
		}
	}
}

func TestAngle(t *testing.T) {
	all := sample(Angle(), 4000)
	drawn(t, all, 0, 180, -180, 720, -720, math.Nextafter(180, 0), math.Nextafter(180, 1e3), math.Nextafter(-180, -1e3),
		math.MaxFloat64, -math.MaxFloat64, 1e-20, -1e-20)
	if !slices.ContainsFunc(all, func(x float64) bool { return x == 0 && math.Signbit(x) }) {
		t.Error("negative zero was not drawn")
	}
	// Of tenths, and of what lies between them, each from one end of three turns to the other.
	var tenths, between []float64
	for _, x := range all {
		if tenth := math.Round(x*10) / 10; math.Abs(x) > 1080 {
			continue
		} else if x != tenth {
			between = append(between, x)
		} else if x != math.Trunc(x) {
			tenths = append(tenths, x)
		}
	}
	for name, xs := range map[string][]float64{"tenths": tenths, "between": between} {
		if len(xs) < 200 || slices.Min(xs) > -1000 || slices.Max(xs) < 1000 {
			t.Errorf("%s: %d from %v to %v", name, len(xs), slices.Min(xs), slices.Max(xs))
		}
	}
	for _, d := range sample(Degrees(), 4000) {
		if !(d > -180 && d <= 180) {
			t.Fatalf("%v is no difference", d)
		}
	}
}

func TestVariation(t *testing.T) {
	all := sample(Variation(), 4000)
	drawn(t, all, 0, 180, -180, 1e-300, -1e-300, 0.5, -0.5)
	near, far := map[bool]int{}, map[bool]int{}
	for _, v := range all {
		switch size := math.Abs(float64(v)); {
		case !(size <= 180):
			t.Fatalf("%v is no variation", v)
		case size > 1 && size < 30:
			near[v > 0]++
		case size > 30 && size < 180:
			far[v > 0]++
		}
	}
	if near[true] < 200 || near[false] < 200 || far[true] < 200 || far[false] < 200 {
		t.Errorf("of the size that occurs %v, of others %v, by east", near, far)
	}
}

func TestFinite(t *testing.T) {
	var small, huge bool
	for _, x := range sample(Finite(), 4000) {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatal(x)
		}
		small, huge = small || math.Abs(x) < 1e-200, huge || math.Abs(x) > 1e200
	}
	if !small || !huge {
		t.Errorf("small ones drawn: %v, huge ones: %v", small, huge)
	}
}

func TestSpeeds(t *testing.T) {
	for _, tas := range sample(TAS(), 1000) {
		if !(tas >= 60 && tas <= 500) {
			t.Fatalf("a TAS of %v", tas)
		}
	}
	var calm, strongest, between bool
	for _, w := range sample(Wind(200, 0.4), 1000) {
		if err := w.Validate(); err != nil || w.Speed > 80 {
			t.Fatalf("%v: %v", w, err)
		}
		calm, strongest, between = calm || w.Speed == 0, strongest || w.Speed == 80, between || w.Speed > 20 && w.Speed < 60
	}
	if !calm || !strongest || !between {
		t.Errorf("calm drawn: %v, the strongest: %v, between: %v", calm, strongest, between)
	}
}
