package tolerance

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/near"
)

// A file without a usable line is an error at the first line that went wrong, whatever was found
// before about its header, and how it went wrong.
func TestPlaceOfAnUnusableFile(t *testing.T) {
	const head = "time_s,lat,lon,note\n" // whose fourth column is not read, which is a finding of line 1
	for text, place := range map[string]string{
		head + "x,50,8,\n":            "line 2, column 1",
		head + "1,50,x,\n":            "line 2, column 6",
		head + "1,50\n":               "line 2, column 5",
		head + "1,50":                 "line 2, column 5",
		head + "1,50\n1,x,8,\n":       "line 2, column 5",
		head + "\n1,,8,\n1,x,8,\n":    "line 3, column 1",
		head:                          "line 2, column 1",
		head + "# nothing\n":          "line 3, column 1",
		"time_s,track_deg,lat,lon\n":  "line 2, column 1",
		"\x00,time_s,lat,lon\n,1,2,3": "line 1, column 1",
		"time_s,\x00,lat,lon\n1,,2,3": "line 1, column 8",
	} {
		log, err := ReadCSV(strings.NewReader(text), nil)
		var e *abeam.FieldError
		if !errors.As(err, &e) || !errors.Is(err, abeam.ErrInvalid) || e.Field != place || log.Samples != nil {
			t.Errorf("%q: %v, want %s", text, err, place)
		}
	}
}

// Fields are parted by what the header has most of, by commas where others are as many.
func TestSeparators(t *testing.T) {
	for _, tc := range []struct {
		header, line string
		unread       int
	}{
		{"time_s,lat,lon,a;b;c;", "1,50,8,", 1},
		{"time_s;lat;lon;a,b,c,", "1;50;8;", -1}, // as many commas: the header is none
		{"time_s;lat;lon;a,b,c", "1;50;8;", 1},
		{"time_s\tlat\tlon\ta;b;c", "1\t50\t8\t", 1},
		{"time_s;lat;lon;a\tb\tc\t", "1;50;8;", 1},
		{"\"time_s\",lat,lon", "\"1\",50,8", 0}, // quoted from the first byte on
		{"time_s,lat,lon,\"a,b\"", "1,50,8,\"x,y\"", 1},
	} {
		log, err := ReadCSV(strings.NewReader(tc.header+"\n"+tc.line+"\n"), nil)
		if tc.unread < 0 {
			if !errors.Is(err, abeam.ErrInvalid) {
				t.Errorf("%q: %v", tc.header, err)
			}
			continue
		}
		if err != nil || len(log.Samples) != 1 || len(log.Findings) != tc.unread || log.Samples[0].Lat != 50 || log.Samples[0].Time != time.Second {
			t.Errorf("%q: %+v, %v", tc.header, log, err)
		}
	}
}

// Where the lines of a file are more than the number of a line can count, it stays at the most.
func TestNumberOfALine(t *testing.T) {
	number := func(line int) int32 {
		c := csvReader{line: line, columns: []column{{quantity: Latitude, unit: units["deg"]}, {quantity: Longitude, unit: units["deg"]}, {quantity: Time, unit: units["s"]}}}
		c.record([][]byte{[]byte("50"), []byte("8"), []byte("1")})
		if len(c.log.Samples) != 1 {
			t.Fatalf("%+v", c.log)
		}
		return c.log.Samples[0].Line
	}
	most := math.MaxInt32
	for line, want := range map[int]int32{7: 7, most - 1: math.MaxInt32 - 1, most: math.MaxInt32} {
		if got := number(line); got != want {
			t.Errorf("line %d: %d", line, got)
		}
	}
	if strconv.IntSize > 32 { // where lines can be more
		if got := number(most + 1); got != math.MaxInt32 {
			t.Errorf("a line more: %d", got)
		}
	}
}

// A message keeps 60 bytes of what a file holds.
func TestTruncate(t *testing.T) {
	long := strings.Repeat("x", 60)
	for in, want := range map[string]string{"": "", long: long, long + "y": long + "...", long[1:] + "°": long[1:] + "?..."} {
		if got := truncate(in); got != want {
			t.Errorf("%q: %q", in, got)
		}
	}
}

// A unit stands behind the name: "Min altitude" is none in minutes, and no altitude either. A
// north stands anywhere.
func TestUnitsBehindTheName(t *testing.T) {
	for header, q := range map[string]Quantity{
		"Min altitude (ft)": 0, "ft altitude": 0, "Altitude (ft)": Altitude, "True track [deg]": Track, "magnetic heading, deg": Heading, "deg heading magnetic": 0,
	} {
		if c, fault := readHeader(header); c.quantity != q || (fault == "") != (q != 0) {
			t.Errorf("%q: %+v, %q", header, c, fault)
		}
	}
}

// A number may carry its own unit, whatever its last digit and with a point at its end; what is
// not of the kind of its column is no number. A metre is 1/0.3048 ft.
func TestNumbersWithUnits(t *testing.T) {
	for cell, feet := range map[string]float64{
		"9m": 9 / 0.3048, "0 m": 0, "914.9 m": 914.9 / 0.3048, "100. m": 100 / 0.3048, "3000ft": 3000, "FL95": -1, "95 fl": 9500, "-10 m": -10 / 0.3048, "10 kt": -1, "m": -1, "10 x": -1,
	} {
		log := readText(t, "time_s,lat,lon,alt_ft\n1,50,8,"+cell+"\n")
		s := log.Samples[0]
		if s.Has.Has(Altitude) != (feet != -1) || feet != -1 && !near.Equal(float64(s.Altitude), feet, 1e-9) {
			t.Errorf("%q: %+v, %v", cell, s, log.Findings)
		}
	}
}

// Civil times count from the first, up to 4 10^9 s to either side of it; what is beyond is found
// with its place.
func TestCivilTimesWithinACentury(t *testing.T) {
	start := time.Date(2026, 7, 3, 17, 42, 5, 0, time.UTC)
	const most = 4_000_000_000
	for seconds, read := range map[int64]bool{60: true, most: true, most + 1: false, -most: true, -most - 1: false} {
		text := fmt.Sprintf("lat,lon,time_utc\n50,8,%s\n50,8,%s\n", start.Format(time.RFC3339), start.Add(time.Duration(seconds)*time.Second).Format(time.RFC3339))
		log := readText(t, text)
		f := found(log, BadValue)
		if (f.Kind == 0) != read || !read && (f.Line != 3 || f.Column != 6 || !strings.Contains(f.Text, "is not within 4e+09 s of the start")) {
			t.Errorf("%d s: %v", seconds, log.Findings)
		}
		// Before the start it is read, and out of order.
		if (found(log, OutOfOrder).Kind != 0) != (read && seconds < 0) || (len(log.Samples) == 2) != (read && seconds > 0) {
			t.Errorf("%d s: %+v", seconds, log)
		}
	}
}

// A log is valid on the edges of the globe, not beyond them, and with finite values.
func TestSamplesThatCanBe(t *testing.T) {
	beyond := func(x float64) float64 { return math.Nextafter(x, 2*x) }
	for name, tc := range map[string]struct {
		change func(*Sample)
		field  string
	}{
		"north pole":     {func(s *Sample) { s.Lat = 90 }, ""},
		"south pole":     {func(s *Sample) { s.Lat = -90 }, ""},
		"east":           {func(s *Sample) { s.Lon = 180 }, ""},
		"west":           {func(s *Sample) { s.Lon = -180 }, ""},
		"beyond north":   {func(s *Sample) { s.Lat = beyond(90) }, "position of sample 1"},
		"beyond south":   {func(s *Sample) { s.Lat = beyond(-90) }, "position of sample 1"},
		"beyond east":    {func(s *Sample) { s.Lon = beyond(180) }, "position of sample 1"},
		"beyond west":    {func(s *Sample) { s.Lon = beyond(-180) }, "position of sample 1"},
		"no latitude":    {func(s *Sample) { s.Lat = math.NaN() }, "position of sample 1"},
		"no longitude":   {func(s *Sample) { s.Lon = math.NaN() }, "position of sample 1"},
		"large":          {func(s *Sample) { s.Altitude, s.CDI = 1e300, -1e300 }, ""},
		"altitude":       {func(s *Sample) { s.Altitude = abeam.Feet(math.Inf(1)) }, "sample 1"},
		"airspeed":       {func(s *Sample) { s.IAS = abeam.Knots(math.NaN()) }, "sample 1"},
		"heading":        {func(s *Sample) { s.Heading = abeam.Bearing(beyond(1e300)) }, "sample 1"},
		"groundspeed":    {func(s *Sample) { s.Groundspeed = abeam.Knots(math.Inf(-1)) }, "sample 1"},
		"track":          {func(s *Sample) { s.Track = abeam.Bearing(math.NaN()) }, "sample 1"},
		"deviation":      {func(s *Sample) { s.CDI = beyond(-1e300) }, "sample 1"},
		"same time":      {func(s *Sample) { s.Time = 0 }, "time of sample 1"},
		"later":          {func(s *Sample) { s.Time = 1 }, ""},
		"earlier":        {func(s *Sample) { s.Time = -1 }, "time of sample 1"},
		"both infinite":  {func(s *Sample) { s.IAS, s.Groundspeed = abeam.Knots(math.Inf(1)), abeam.Knots(math.Inf(-1)) }, "sample 1"},
		"nothing at all": {func(s *Sample) {}, ""},
	} {
		log := timed(0, 1, 2)
		tc.change(&log.Samples[1])
		err := log.validate("test")
		var e *abeam.FieldError
		if (err == nil) != (tc.field == "") || err != nil && (!errors.As(err, &e) || e.Field != tc.field || e.Op != "test") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A log has what at least half of its samples have, and an empty log has nothing.
func TestQuantitiesOfALog(t *testing.T) {
	for _, tc := range []struct {
		with, of int
		has      bool
	}{{0, 0, false}, {0, 1, false}, {1, 1, true}, {1, 2, true}, {1, 3, false}, {2, 3, true}, {2, 4, true}} {
		log := &Log{Samples: make([]Sample, tc.of)}
		for i := range tc.with {
			log.Samples[i].set(CDI, 0)
		}
		if got := log.Has(); got != map[bool]Quantities{true: Quantities(CDI)}[tc.has] {
			t.Errorf("%d of %d: %v", tc.with, tc.of, got)
		}
	}
	// What is no quantity has no name in the list.
	if got := Quantities(Time | CDI | lastQuantity | 1<<15).String(); got != "time, course deviation" {
		t.Error(got)
	}
}
