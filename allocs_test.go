package abeam_test

import (
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

// Where results go, so that no computation is removed as unused.
var (
	sink    float64
	sinkErr error
)

func TestArithmeticAllocatesNothing(t *testing.T) {
	x := 371.5
	b, d, v := abeam.Bearing(70), abeam.Degrees(-12.5), abeam.Variation(4)
	buf := make([]byte, 0, 64)
	for name, f := range map[string]func(){
		"NewBearing":          func() { sink = float64(abeam.NewBearing(x)) },
		"Bearing.Add":         func() { sink = float64(b.Add(d)) },
		"Bearing.Sub":         func() { sink = float64(b.Sub(abeam.Bearing(x))) },
		"Bearing.Reciprocal":  func() { sink = float64(b.Reciprocal()) },
		"NewDegrees":          func() { sink = float64(abeam.NewDegrees(x)) },
		"Degrees.Rounded":     func() { sink = float64(d.Rounded()) },
		"Degrees.Abs":         func() { sink = float64(d.Abs()) },
		"Knots.In":            func() { sink = float64(abeam.Knots(x).In(time.Minute)) },
		"NM.Metres":           func() { sink = abeam.NM(x).Metres() },
		"Feet.Metres":         func() { sink = abeam.Feet(x).Metres() },
		"Feet.NM":             func() { sink = float64(abeam.Feet(x).NM()) },
		"Variation.True":      func() { sink = float64(v.True(b)) },
		"Variation.Magnetic":  func() { sink = float64(v.Magnetic(b)) },
		"Variation.Cross":     func() { b, sinkErr = v.Cross(b, abeam.True, abeam.Magnetic) },
		"Bearing.AppendText":  func() { buf, sinkErr = b.AppendText(buf[:0]) },
		"Degrees.AppendText":  func() { buf, sinkErr = d.AppendText(buf[:0]) },
		"Knots.AppendText":    func() { buf, sinkErr = abeam.Knots(x).AppendText(buf[:0]) },
		"ParseBearing, valid": func() { b, sinkErr = abeam.ParseBearing("070.5°") },
	} {
		if n := testing.AllocsPerRun(100, f); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
		if sinkErr != nil {
			t.Errorf("%s: %v", name, sinkErr)
		}
	}
}
