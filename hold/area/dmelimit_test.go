package area

import (
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
)

// The example of ICAO Doc 8168 Vol II Diagram I-4-3-App C-15, PUBLISHED: 30 NM, 220 KIAS, 14,000
// ft, 35 NM; 35.013 worked without rounding outside the library.
func TestDMELimit(t *testing.T) {
	station := hold.Station{Course: hold.Toward, Fix: 30}
	d := Design{IAS: 220, Altitude: 14000}
	limit, err := d.DMELimit(station)
	if err != nil || limit.Charted != 35 || math.Abs(float64(limit.Exact)-35.013) > 0.0005 {
		t.Errorf("%+v, %v", limit, err)
	}
	// By the same leg as a length it is the same, and the height is that above the station.
	byLength := d
	byLength.Length = given(d.Lines()).L
	same, err := byLength.DMELimit(station)
	if err != nil || math.Abs(float64(same.Exact-limit.Exact)) > 1e-9 {
		t.Errorf("%+v, %v", same, err)
	}
	station.Elevation = 2000
	l := given(d.Lines())
	want, err := hold.DesignDMELimit(30, l.TAS, l.Rate, 12000, time.Minute)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := d.DMELimit(station); err != nil || got != want || got == limit {
		t.Errorf("%+v, %v, want %+v", got, err, want)
	}
}

func TestDMELimitErrors(t *testing.T) {
	good := Design{IAS: 220, Altitude: 14000}
	for name, c := range map[string]struct {
		design  Design
		station hold.Station
		kind    error
		op      string
		field   string
	}{
		"station":   {good, hold.Station{Fix: 30}, abeam.ErrInvalid, "hold.Station.Validate", "station course"},
		"away":      {good, hold.Station{Course: hold.Away, Fix: 30}, abeam.ErrInvalid, "area.Design.DMELimit", "station course"},
		"design":    {Design{}, hold.Station{Course: hold.Toward, Fix: 30}, abeam.ErrInvalid, "area.Design.Lines", "IAS"},
		"too near":  {good, hold.Station{Course: hold.Toward, Fix: 2}, abeam.ErrUnflyable, "hold.DesignDMELimit", "fix DME"},
		"too low":   {good, hold.Station{Course: hold.Toward, Fix: 30, Elevation: 14001}, abeam.ErrInvalid, "hold.DesignDMELimit", "height"},
		"over 1 h":  {Design{IAS: 220, Altitude: 14000, Length: 400}, hold.Station{Course: hold.Toward, Fix: 30}, abeam.ErrInvalid, "hold.DesignDMELimit", "outbound time"},
		"the fix 0": {good, hold.Station{Course: hold.Toward}, abeam.ErrInvalid, "hold.DesignDMELimit", "fix DME"},
	} {
		limit, err := c.design.DMELimit(c.station)
		wantFieldError(t, name, err, c.kind, c.op, c.field)
		if limit != (hold.DesignLimit{}) {
			t.Errorf("%s: %+v with the error", name, limit)
		}
	}
}
