package tolerance

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam/internal/geodesy"
)

// eastward is a log along the equator at a groundspeed in knots, of n samples.
func eastward(n int, step time.Duration, knots float64) *Log {
	log := &Log{}
	for i := range n {
		_, lon, _ := geodesy.Direct(0, 8, 90, knots*step.Hours()*float64(i)*1852)
		log.Samples = append(log.Samples, Sample{Time: time.Duration(i) * step, Lon: lon, Has: Quantities(Time | Latitude | Longitude)})
	}
	return log
}

// with puts a value into every sample.
func (l *Log) with(q Quantity, x float64) *Log {
	for i := range l.Samples {
		l.Samples[i].set(q, x)
	}
	return l
}

// The positions move at the recorded speed within 15 percent either way, or it is found.
func TestSpeedContradictsFrom15Percent(t *testing.T) {
	for ratio, found := range map[float64]bool{
		0.85: true, math.Nextafter(0.85, 1): false, 1: false, math.Nextafter(1.15, 1): false, 1.15: true, 0.5: true, 2.5: true,
	} {
		var log Log
		if log.speedContradicts(ratio); (len(log.Findings) == 1) != found {
			t.Errorf("%v: %v", ratio, log.Findings)
		}
	}
}

// Units taken for others are recognised by the ratio of what each makes of 100 kt, within 4
// percent; the nearest is named where two are that near. 100 kt are 51.4444 m/s, 185.2 km/h and
// 115.0779 mph (a statute mile is 1609.344 m); a radian is 57.29578 degrees.
func TestUnitsRecognised(t *testing.T) {
	const unknown = "a unit of one of them is wrong"
	for _, tc := range []struct {
		ratio float64
		says  string
	}{
		{100 / 51.4444, "m/s read as knots"}, {51.4444 / 100, "knots read as m/s"}, {100 / 185.2, "km/h read as knots"},
		{185.2 / 100, "knots read as km/h"}, {51.4444 / 185.2, "km/h read as m/s"}, {57.29578, "degrees where they are read as radians"},
		{1 / 57.29578, "radians where they are read as degrees"},
		{1.039 * 51.4444 / 185.2, "km/h read as m/s"}, {1.041 * 51.4444 / 185.2, unknown}, {0.961 * 51.4444 / 185.2, "km/h read as m/s"}, {0.959 * 51.4444 / 185.2, unknown},
		// mph are so near to knots that only slow ones are told: 0.845 is 2.8 percent short of 0.869.
		{0.845, "mph read as knots"},
		// Between 0.514444 and 0.539957 either is near: 2.4 and 2.4 percent at 0.527, and so on.
		{0.526, "knots read as m/s"}, {0.529, "km/h read as knots"}, {1.89, "knots read as km/h"}, {1.91, "m/s read as knots"},
		{0.7, unknown}, {3, unknown},
	} {
		var log Log
		log.speedContradicts(tc.ratio)
		if f := found(log, WrongUnit); !strings.HasSuffix(f.Text, tc.says) || !strings.Contains(f.Text, fmt.Sprintf("%.3g times", tc.ratio)) {
			t.Errorf("%v: %v, want %q", tc.ratio, log.Findings, tc.says)
		}
	}
}

// Twenty comparisons are enough, nineteen are not; so for speeds as for tracks.
func TestEnoughToCompare(t *testing.T) {
	for n, want := range map[int]int{21: 1, 20: 0} {
		for name, log := range map[string]*Log{
			"speed": eastward(n, 10*time.Second, 100).with(Groundspeed, 50), "track": eastward(n, 10*time.Second, 100).with(Track, 100),
		} {
			if log.contradictions(); len(log.Findings) != want {
				t.Errorf("%s of %d samples: %v", name, n, log.Findings)
			}
		}
	}
}

// A track is found to contradict from more than four degrees on, either side.
func TestTrackContradictsFromFourDegrees(t *testing.T) {
	for track, says := range map[float64]string{90: "", 94: "", 94.01: "lies 4 degrees from", 86: "", 85.99: "lies -4 degrees from", 110: "lies 20 degrees from"} {
		log := eastward(30, 10*time.Second, 100).with(Track, track)
		log.contradictions()
		if f := found(*log, WrongUnit); (len(log.Findings) == 0) != (says == "") || !strings.Contains(f.Text, says) {
			t.Errorf("%v: %v", track, log.Findings)
		}
	}
}

// In a turn the chord points along the mean of the tracks at its ends: at 3 deg/s over two
// seconds that is three degrees from either.
func TestTrackInATurn(t *testing.T) {
	log := &Log{}
	// A circle of 1 NM around a place on the equator, to the right: at the azimuth a from the
	// middle the track is a + 90.
	for i := range 60 {
		azimuth := math.Mod(float64(i)*6, 360)
		lat, lon, _ := geodesy.Direct(0, 8, azimuth, 1852)
		s := Sample{Time: time.Duration(i) * 2 * time.Second, Lat: lat, Lon: lon, Has: Quantities(Time | Latitude | Longitude)}
		s.set(Track, math.Mod(azimuth+90, 360))
		log.Samples = append(log.Samples, s)
	}
	if log.contradictions(); len(log.Findings) != 0 {
		t.Errorf("%v", log.Findings)
	}
}

// Positions are compared far enough apart that their rounding does not count: ten samples a
// second at 100 kt, rounded to 0.022 NM, show steps of 0 and 0.022 NM, the latter at 792 kt.
func TestComparedFarApart(t *testing.T) {
	log := eastward(600, time.Second/10, 100).with(Groundspeed, 100)
	const grid = 0.022 / 60
	for i := range log.Samples {
		s := &log.Samples[i]
		s.Lon = grid * math.Round(s.Lon/grid)
	}
	if log.contradictions(); len(log.Findings) != 0 {
		t.Errorf("%v", log.Findings)
	}
	// Slow, it is compared with what is sixty samples further on, 6.1 s after the first: at 11.81 kt
	// 0.02001 NM away, at 11.79 kt 0.01998. From 0.02 NM on that is enough.
	for knots, want := range map[float64]int{20: 2, 11.81: 2, 11.79: 0, 2: 0} {
		log = eastward(600, time.Second/10, knots).with(Groundspeed, 100).with(Track, 180)
		if log.contradictions(); len(log.Findings) != want {
			t.Errorf("%v kt: %v", knots, log.Findings)
		}
	}
}

// Over more than a minute longer than a gap nothing is compared. Samples come a second apart, and
// in twos with a hole between; only beside the holes are speeds recorded, half of what they are.
func TestNotComparedOverAHole(t *testing.T) {
	for hole, want := range map[time.Duration]int{70 * time.Second: 1, 70*time.Second + time.Millisecond: 0} {
		log := &Log{}
		now := time.Duration(0)
		for range 25 {
			for k := range 6 {
				_, lon, _ := geodesy.Direct(0, 8, 90, 400*now.Hours()*1852)
				s := Sample{Time: now, Lon: lon, Has: Quantities(Time | Latitude | Longitude)}
				if k == 0 || k == 5 {
					s.set(Groundspeed, 200)
				}
				log.Samples = append(log.Samples, s)
				now += time.Second
			}
			now += hole - time.Second
		}
		if log.contradictions(); len(log.Findings) != want {
			t.Errorf("%v: %v", hole, log.Findings)
		}
	}
}

// Speeds of a knot and less are none to compare.
func TestNoSpeedRecorded(t *testing.T) {
	for knots, want := range map[float64]int{0: 0, 1: 0, 1.01: 1} {
		log := eastward(30, 10*time.Second, 100).with(Groundspeed, knots)
		if log.contradictions(); len(log.Findings) != want {
			t.Errorf("%v kt: %v", knots, log.Findings)
		}
	}
}
