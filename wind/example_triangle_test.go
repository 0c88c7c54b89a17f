package wind_test

import (
	"fmt"
	"time"

	"github.com/holdingfix/abeam/wind"
)

func ExampleSolveTrack() {
	t, err := wind.SolveTrack(315, 150, wind.Wind{From: 45, Speed: 30})
	fmt.Printf("track %.0f, groundspeed %.0f kt, drift %+.0f %v\n", t.Track, t.Groundspeed, t.Drift(), err)
	// Output: track 304, groundspeed 153 kt, drift -11 <nil>
}

func ExampleSolveWind() {
	t, err := wind.SolveWind(95, 130, 87, 160)
	fmt.Printf("wind from %03.0f at %.0f kt %v\n", t.Wind.From, t.Wind.Speed, err)
	// Output: wind from 057 at 36 kt <nil>
}

func ExampleSolveTAS() {
	t, err := wind.SolveTAS(265, 15, wind.Wind{From: 5, Speed: 3})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("heading %.1f, speed %.2f kt\n", t.Heading, t.TAS)
	// Output: heading 276.5, speed 14.78 kt
}

// The heading was read as well, which is one quantity more than the triangle needs.
func ExampleTriangle_Misclosure() {
	t, err := wind.SolveTAS(265, 15, wind.Wind{From: 5, Speed: 3})
	if err != nil {
		fmt.Println(err)
		return
	}
	t.Heading = 276
	fmt.Printf("misses closing by %.1f kt\n", t.Misclosure())
	// Output: misses closing by 0.1 kt
}

func ExampleSolveTASOnHeading() {
	t, err := wind.SolveTASOnHeading(340, 128, wind.Wind{From: 308, Speed: 32})
	fmt.Printf("track %.0f, TAS %.0f kt %v\n", t.Track, t.TAS, err)
	// Output: track 348, TAS 154 kt <nil>
}

func ExampleSolveSpeeds() {
	t, err := wind.SolveSpeeds(270, 280, wind.Wind{From: 207, Speed: 42})
	fmt.Printf("TAS %.0f kt, groundspeed %.0f kt %v\n", t.TAS, t.Groundspeed, err)
	// Output: TAS 231 kt, groundspeed 216 kt <nil>
}

// A wind square to one heading and along the other.
func ExampleWindFromDrifts() {
	w, err := wind.WindFromDrifts(100, wind.DriftSight{Heading: 360, Drift: 45}, wind.DriftSight{Heading: 90})
	fmt.Printf("wind from %.0f at %.0f kt %v\n", w.From, w.Speed, err)
	// Output: wind from 270 at 100 kt <nil>
}

// A lap flown at three degrees a second: 48 seconds outbound brought a minute
// inbound, with the nose 5 degrees to the right of the course.
func ExampleWindFromLap() {
	lap := wind.Lap{TAS: 120, Rate: 3, Outbound: 48 * time.Second, Inbound: time.Minute, Correction: 5}
	if err := lap.Validate(); err != nil {
		fmt.Println(err)
		return
	}
	w, err := wind.WindFromLap(360, lap)
	fmt.Printf("wind from %03.0f at %.1f kt %v\n", w.From, w.Speed, err)
	// Output: wind from 055 at 12.8 kt <nil>
}

func ExampleCoursesMadeGood() {
	w := wind.Wind{From: 270, Speed: 80}
	c, err := wind.CoursesMadeGood(40, w)
	if err != nil {
		fmt.Println(err)
		return
	}
	left, right := c.Edges()
	fmt.Printf("%.0f to %.0f, 100 in range: %v\n", left, right, c.Contains(100))
	fmt.Println(c.Check(180))
	// Output:
	// 60 to 120, 100 in range: true
	// wind.Courses.Check: course is 180°, must be right of 60.0° and left of 120.0°, near downwind: unflyable
}

func ExampleWind_Validate() {
	fmt.Println(wind.Wind{From: 90, Speed: -5}.Validate())
	// Output: wind.Wind.Validate: wind speed is -5 kt, must be from 0 kt to 400 kt: invalid input
}
