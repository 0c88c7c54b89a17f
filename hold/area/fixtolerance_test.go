package area

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// encloses tells whether a place is in a polygon, with room for rounding.
func encloses(corners []hold.Point, x, y float64) bool {
	p := hold.Point{Along: abeam.NM(x), Abreast: abeam.NM(y)}
	for i, c := range corners {
		if bend(c, corners[(i+1)%len(corners)], p) < -1e-9 {
			return false
		}
	}
	return true
}

// wantQuadrilateral: four corners of a convex polygon around the fix, in the documented sense.
func wantQuadrilateral(t *testing.T, f FixTolerance) []hold.Point {
	t.Helper()
	c := f.Corners()
	if len(c) != 4 || f.Radius() != 0 || !encloses(c, 0, 0) {
		t.Fatalf("%v, radius %v", c, f.Radius())
	}
	for i := range c {
		if !(bend(c[i], c[(i+1)%4], c[(i+2)%4]) > 0) {
			t.Fatalf("%v does not turn one way at %d", c, i)
		}
	}
	return c
}

func TestExactFix(t *testing.T) {
	var f FixTolerance
	if f.Corners() != nil || f.Radius() != 0 {
		t.Errorf("%v, %v", f.Corners(), f.Radius())
	}
}

func TestDiscAndRNAV(t *testing.T) {
	for _, radius := range []abeam.NM{1e-9, 2.5, MaxTolerance} {
		f, err := Disc(radius)
		if err != nil || f.Radius() != radius || f.Corners() != nil {
			t.Errorf("%v, %v", f, err)
		}
	}
	f, err := RNAV(0.8, 1)
	if err != nil {
		t.Fatal(err)
	}
	want := []hold.Point{{Along: 0.8, Abreast: -1}, {Along: 0.8, Abreast: 1}, {Along: -0.8, Abreast: 1}, {Along: -0.8, Abreast: -1}}
	got := wantQuadrilateral(t, f)
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%v, want %v", got, want)
		}
	}
	got[0] = hold.Point{} // the caller's own
	if f.Corners()[0] != want[0] {
		t.Error("the corners are shared")
	}
	if _, err := RNAV(MaxTolerance, MaxTolerance); err != nil {
		t.Error(err)
	}
}

// Paths over the station: in at the edge of the cone within the entry accuracy, on a track
// within the tracking accuracy, through it. All of them are in the quadrilateral and in the
// disc, the extreme ones touch the sides, and the ends are touched too.
func TestOverheadEnclosesEveryPath(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for _, o := range []Overhead{OverheadVOR(), OverheadNDB(), {Cone: 60, Entry: 30, Tracking: 30}, {Cone: 30, Entry: 1e-6, Tracking: 10}} {
		const height = 10000
		radius, err := o.Radius(height)
		if err != nil {
			t.Fatal(err)
		}
		z := float64(radius)
		f, err := o.OnCourse(height)
		if err != nil {
			t.Fatal(err)
		}
		c := wantQuadrilateral(t, f)
		least := math.Inf(1) // distance of a path from a side
		path := func(entry, track float64) {
			sin, cos := math.Sincos(entry * math.Pi / 180)
			x, y := -z*cos, z*sin
			tSin, tCos := math.Sincos(track * math.Pi / 180)
			length := -2 * (x*tCos + y*tSin) // of the chord
			for i := range 51 {
				s := length * float64(i) / 50
				px, py := x+s*tCos, y+s*tSin
				if !encloses(c, px, py) || math.Hypot(px, py) > z+1e-9 {
					t.Fatalf("%+v: %v, %v is outside", o, px, py)
				}
				side := float64(bend(c[1], c[2], hold.Point{Along: abeam.NM(px), Abreast: abeam.NM(py)})) /
					math.Hypot(float64(c[2].Along-c[1].Along), float64(c[2].Abreast-c[1].Abreast))
				least = min(least, side)
			}
		}
		entry, tracking := float64(o.Entry), float64(o.Tracking)
		for range 300 {
			path((2*random.Float64()-1)*entry, (2*random.Float64()-1)*tracking)
		}
		path(entry, tracking)
		path(0, 0)
		if math.Abs(least) > 1e-9 {
			t.Errorf("%+v: the side is %v from the nearest path", o, least)
		}
		if c[0].Along != radius || c[2].Along != -radius || c[0].Abreast != -c[1].Abreast || c[2].Abreast != -c[3].Abreast {
			t.Errorf("%+v: %v in a cone of %v", o, c, radius)
		}
		disc, err := o.AnyDirection(height)
		if err != nil || disc.Radius() != radius || disc.Corners() != nil {
			t.Errorf("%+v: %v, %v", o, disc, err)
		}
	}
}

// 0.164 x 10 x tan 50 and tan 40, by a calculator. The angles: ICAO Doc 8168 Vol II I-2-2-4,
// PUBLISHED.
func TestOverheadRadius(t *testing.T) {
	if OverheadVOR() != (Overhead{50, 5, 5}) || OverheadNDB() != (Overhead{40, 15, 5}) {
		t.Error(OverheadVOR(), OverheadNDB())
	}
	for o, want := range map[Overhead]float64{OverheadVOR(): 1.95447589, OverheadNDB(): 1.37612339} {
		if z, err := o.Radius(10000); err != nil || math.Abs(float64(z)-want) > 1e-8 {
			t.Errorf("%+v: %v, %v", o, z, err)
		}
	}
	// At the limits of what is accepted.
	for _, o := range []Overhead{{MaxCone, MaxHeading, MaxHeading}, {1e-9, 1e-9, 1e-9}} {
		if _, err := o.OnCourse(hold.MaxAltitude - hold.MinAltitude); err != nil {
			t.Error(err)
		}
	}
}

// Places whose radial and whose DME reading are within the tolerances are in the
// quadrilateral; its sides are the radials off by 5.2 degrees.
func TestVORDMEEnclosesEveryPlace(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for _, c := range []struct {
		station  hold.Station
		altitude abeam.Feet
	}{
		{hold.Station{Course: hold.Toward, Fix: 30, Elevation: 1000}, 14000},
		{hold.Station{Course: hold.Away, Fix: 30, Elevation: 1000}, 14000},
		{hold.Station{Course: hold.Away, Fix: 8}, 40000},
	} {
		f, err := VORDME(c.station, c.altitude)
		if err != nil {
			t.Fatal(err)
		}
		corners := wantQuadrilateral(t, f)
		height := float64(c.altitude-c.station.Elevation) * 0.3048 / 1852
		fix := float64(c.station.Fix)
		ground := func(reading float64) float64 { return math.Sqrt(reading*reading - height*height) }
		sign := -1.0 // of the way from the station to the fix
		if c.station.Course == hold.Away {
			sign = 1
		}
		tolerance := 0.25 + 0.0125*fix
		place := func(reading, off float64) (x, y float64) {
			sin, cos := math.Sincos(off * math.Pi / 180)
			return sign * (ground(reading)*cos - ground(fix)), ground(reading) * sin
		}
		for range 500 {
			x, y := place(fix+(2*random.Float64()-1)*tolerance, (2*random.Float64()-1)*5.2)
			if !encloses(corners, x, y) {
				t.Fatalf("%+v: %v, %v", c, x, y)
			}
		}
		for _, off := range []float64{-5.2, 5.2} {
			if x, y := place(fix, off*1.0001); encloses(corners, x, y) {
				t.Errorf("%+v: %v, %v is within the sides", c, x, y)
			}
		}
		if x, y := place(fix+tolerance*1.0001, 0); encloses(corners, x, y) {
			t.Errorf("%+v: %v, %v is within the far end", c, x, y)
		}
		nearX, nearY := place(fix-tolerance, 5.2)
		found := false
		for _, p := range corners {
			found = found || math.Hypot(float64(p.Along)-nearX, float64(p.Abreast)-nearY) < 1e-9
		}
		if !found {
			t.Errorf("%+v: no corner of %v is on the near arc", c, corners)
		}
	}
}

// A place is in the quadrilateral if it is on both radials within their accuracies.
func TestIntersectionIsWhatBothRadialsAllow(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for _, c := range [][2]Radial{
		{{Station: 0, Distance: 30, Accuracy: VORTracking}, {Station: 90, Distance: 20, Accuracy: VORCrossing}},
		{{Station: 180, Distance: 12, Accuracy: VORTracking}, {Station: -60, Distance: 45, Accuracy: VORCrossing}},
		{{Station: 0, Distance: 25, Accuracy: VORTracking}, {Station: -135, Distance: 10, Accuracy: VORCrossing}},
		{{Station: 180, Distance: 25, Accuracy: 3}, {Station: 330, Distance: 40, Accuracy: 2}},
	} {
		f, err := Intersection(c[0], c[1])
		if err != nil {
			t.Fatal(err)
		}
		corners := wantQuadrilateral(t, f)
		on := func(r Radial, x, y float64) float64 { // degrees off, as a share of the accuracy
			sx, sy := r.place()
			off := math.Atan2(y-sy, x-sx)*180/math.Pi - float64(r.Station) - 180
			return math.Abs(math.Remainder(off, 360)) / float64(r.Accuracy)
		}
		inside := 0
		for range 4000 {
			x, y := 16*random.Float64()-8, 16*random.Float64()-8
			worst := max(on(c[0], x, y), on(c[1], x, y))
			if math.Abs(worst-1) < 1e-6 {
				continue
			}
			if got := encloses(corners, x, y); got != (worst < 1) {
				t.Fatalf("%+v: %v, %v is %v of the accuracy off: %v", c, x, y, worst, got)
			}
			if worst < 1 {
				inside++
			}
		}
		if inside < 20 {
			t.Errorf("%+v: only %d places inside", c, inside)
		}
	}
}

func TestFixToleranceErrors(t *testing.T) {
	nan, inf := abeam.NM(math.NaN()), abeam.NM(math.Inf(1))
	over := abeam.NM(math.Nextafter(50, 51))
	ahead := Radial{Station: 0, Distance: 30, Accuracy: 5.2}
	square := Radial{Station: 90, Distance: 20, Accuracy: 4.5}
	station := hold.Station{Course: hold.Toward, Fix: 30}
	type result struct {
		f   FixTolerance
		err error
	}
	of := func(f FixTolerance, err error) result { return result{f, err} }
	check := func(kind error, op, field string, results ...result) {
		t.Helper()
		for i, r := range results {
			wantFieldError(t, field, r.err, kind, op, field)
			if r.f.Corners() != nil || r.f.Radius() != 0 {
				t.Errorf("%s %d: %v with the error", field, i, r.f)
			}
		}
	}
	check(abeam.ErrInvalid, "area.Disc", "radius", of(Disc(0)), of(Disc(-1)), of(Disc(nan)), of(Disc(inf)), of(Disc(over)))
	check(abeam.ErrInvalid, "area.RNAV", "along-track tolerance", of(RNAV(0, 1)), of(RNAV(-1, 1)), of(RNAV(nan, 1)), of(RNAV(over, 1)))
	check(abeam.ErrInvalid, "area.RNAV", "cross-track tolerance", of(RNAV(1, 0)), of(RNAV(1, -1)), of(RNAV(1, nan)), of(RNAV(1, over)))
	for _, bad := range []float64{0, -1, math.NaN(), 81} {
		angle := abeam.Degrees(bad)
		o := OverheadVOR()
		o.Cone = angle
		check(abeam.ErrInvalid, "area.Overhead.OnCourse", "cone", of(o.OnCourse(5000)))
		check(abeam.ErrInvalid, "area.Overhead.AnyDirection", "cone", of(o.AnyDirection(5000)))
		o = OverheadVOR()
		o.Entry = angle
		check(abeam.ErrInvalid, "area.Overhead.OnCourse", "entry accuracy", of(o.OnCourse(5000)))
		o = OverheadVOR()
		o.Tracking = angle
		check(abeam.ErrInvalid, "area.Overhead.OnCourse", "tracking accuracy", of(o.OnCourse(5000)))
		far := bad
		if bad == 81 {
			far = 67618
		}
		check(abeam.ErrInvalid, "area.Overhead.OnCourse", "height", of(OverheadVOR().OnCourse(abeam.Feet(far))))
		z, err := OverheadVOR().Radius(abeam.Feet(far))
		if z != 0 {
			t.Errorf("%v with the error", z)
		}
		wantFieldError(t, "height", err, abeam.ErrInvalid, "area.Overhead.Radius", "height")
	}
	check(abeam.ErrInvalid, "hold.Station.Validate", "station course", of(VORDME(hold.Station{Fix: 30}, 5000)))
	for _, altitude := range []abeam.Feet{-2001, 65618, abeam.Feet(nan)} {
		check(abeam.ErrInvalid, "area.VORDME", "altitude", of(VORDME(station, altitude)))
	}
	near, far := station, station
	near.Fix, far.Fix = 0.2, 499
	check(abeam.ErrInvalid, "hold.GroundDistance", "slant range", of(VORDME(near, 0)), of(VORDME(far, 0)))
	near.Fix = 2.1 // its tolerance of 0.276 takes it below the height of 11,500 ft, 1.89 NM
	check(abeam.ErrUnflyable, "hold.GroundDistance", "slant range", of(VORDME(near, 11500)))
	for _, reading := range []abeam.NM{-1, 501, nan} {
		d, err := DMETolerance(reading)
		wantFieldError(t, "reading", err, abeam.ErrInvalid, "area.DMETolerance", "DME reading")
		if d != 0 {
			t.Errorf("%v with the error", d)
		}
	}
	with := func(r Radial, set func(r *Radial)) Radial { set(&r); return r }
	for _, bad := range []float64{0, -1, math.NaN(), 501} {
		set := func(r *Radial) { r.Distance = abeam.NM(bad) }
		check(abeam.ErrInvalid, "area.Intersection", "inbound radial distance", of(Intersection(with(ahead, set), square)))
		check(abeam.ErrInvalid, "area.Intersection", "crossing radial distance", of(Intersection(ahead, with(square, set))))
		set = func(r *Radial) { r.Accuracy = abeam.Degrees(bad) }
		check(abeam.ErrInvalid, "area.Intersection", "inbound radial accuracy", of(Intersection(with(ahead, set), square)))
		check(abeam.ErrInvalid, "area.Intersection", "crossing radial accuracy", of(Intersection(ahead, with(square, set))))
	}
	for _, bad := range []float64{-361, 361, math.NaN()} {
		set := func(r *Radial) { r.Station = abeam.Degrees(bad) }
		check(abeam.ErrInvalid, "area.Intersection", "inbound radial station", of(Intersection(with(ahead, set), square)))
		check(abeam.ErrInvalid, "area.Intersection", "crossing radial station", of(Intersection(ahead, with(square, set))))
	}
	for _, crossing := range []Radial{
		ahead, // the same radial
		{Station: 180, Distance: 20, Accuracy: 4}, // its reciprocal
		{Station: 9.6, Distance: 20, Accuracy: 4.5},
		{Station: 170.4, Distance: 20, Accuracy: 4.5},
		{Station: 90, Distance: 1, Accuracy: 4.5},    // the station on the radial, within its accuracy
		{Station: 9.71, Distance: 20, Accuracy: 4.5}, // the corner is beyond range
	} {
		check(abeam.ErrUnflyable, "area.Intersection", "crossing radial", of(Intersection(ahead, crossing)))
	}
	// The same on the other side, and the widest that is accepted.
	for _, angle := range []abeam.Degrees{30, -30, 360, -360} {
		r := square
		r.Station = angle
		if _, err := Intersection(Radial{Station: 90, Distance: 500, Accuracy: 1}, r); err != nil {
			t.Errorf("%v: %v", angle, err)
		}
	}
	if _, err := Intersection(Radial{Station: 0, Distance: 20, Accuracy: MaxHeading}, Radial{Station: 90, Distance: 20, Accuracy: MaxHeading}); err != nil {
		t.Error(err)
	}
}
