package tolerance

import (
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
)

// slanting is a teardrop by hand, to a fix passed at 10 s, of a hold inbound due north: over
// the fix on a track of 110, from 20 s on out on a track of 150, 30 degrees to the holding
// side, where it gets from 0.1 to 1 NM abreast until the turn back at 80 s. The next passage
// is at 200 s. For a left-hand pattern it is mirrored.
func slanting(t *testing.T, turn hold.Turn, variation abeam.Variation) *cutter {
	t.Helper()
	p, err := hold.NewPattern(hold.Fix{Position: s2.LatLngFromDegrees(50, 8), Variation: variation}, variation.Magnetic(0), turn, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	const n = 201
	c := &cutter{motion: &motion{t: make([]float64, n), course: make([]float64, n)}, pattern: p, x: make([]float64, n), y: make([]float64, n)}
	for i := range n {
		c.t[i] = float64(i)
		if c.course[i] = 110; i >= 20 {
			c.course[i], c.y[i] = 150, min(1, 0.1+0.9*float64(i-20)/59)
		}
	}
	c.list = []stretch{{from: 80, to: 140, angle: 200}}
	return c
}

// mirror puts a cutter of a right-hand pattern on the other side.
func (c *cutter) mirror() {
	for i := range c.course {
		c.course[i] = -c.course[i]
	}
	for i := range c.list {
		c.list[i].angle = -c.list[i].angle
	}
}

// Every threshold between the entries, from both sides and on either side of the course.
func TestEntryAtTheThresholds(t *testing.T) {
	arrive := func(course float64) func(c *cutter) {
		return func(c *cutter) {
			for i := range 20 {
				c.course[i] = course
			}
		}
	}
	back := func(angle float64) func(c *cutter) {
		return func(c *cutter) { c.list[0].angle = angle }
	}
	abreast := func(start, end float64) func(c *cutter) {
		return func(c *cutter) { c.y[20], c.y[79] = start, end }
	}
	// The roll out at 15 s, on the course but for an angle.
	nearly := func(course float64) func(c *cutter) {
		return func(c *cutter) {
			for i := 15; i < 20; i++ {
				c.course[i] = course
			}
			c.y[20] = 0.6
		}
	}
	for name, tc := range map[string]struct {
		change func(c *cutter)
		want   entry.Kind
	}{
		"as it is":                     {func(*cutter) {}, entry.Teardrop},
		"a turn at the fix, below 100": {arrive(50.5), entry.Teardrop},
		"a turn at the fix of 100":     {arrive(50), entry.Direct},
		"a turn the other way":         {arrive(200), entry.Teardrop},
		"back by 45":                   {back(45), entry.Teardrop},
		"back by less than 45":         {back(below(45)), entry.Direct},
		"back against it by 90":        {back(-90), entry.Direct},
		"back against it by more":      {back(below(-90)), entry.Parallel},
		"begun below half":             {abreast(below(0.5), 1), entry.Teardrop},
		"begun at half":                {abreast(0.5, 1), entry.Direct},
		"ended on the course":          {abreast(-1, 0), entry.Direct},
		"ended off the course":         {abreast(-1, 1e-9), entry.Teardrop},
		"on course within 20 degrees":  {nearly(130), entry.Teardrop},
		"not within 20 degrees":        {nearly(below(130)), entry.Direct},
		"on course before the fix": {func(c *cutter) {
			arrive(150)(c)
			c.y[9] = 0.9 // before it there is no outbound leg
		}, entry.Teardrop},
		"no turn between":   {func(c *cutter) { c.list = []stretch{{0, 19, 100}, {150, 251, 200}} }, entry.None},
		"no turn":           {func(c *cutter) { c.list = nil }, entry.None},
		"a turn after it":   {func(c *cutter) { c.list = append(c.list, stretch{150, 251, -200}) }, entry.Teardrop},
		"against it in two": {func(c *cutter) { c.list = []stretch{{80, 110, -60}, {120, 160, -95}} }, entry.Parallel},
	} {
		for _, turn := range []hold.Turn{hold.Right, hold.Left} {
			c := slanting(t, turn, 14)
			tc.change(c)
			if turn == hold.Left {
				c.mirror()
			}
			var f Flown
			c.enter(&f, 10, 200)
			heading := c.pattern.Inbound().Add(abeam.Degrees(c.course[10]))
			if f.Entry.Kind != tc.want || f.Entry.Span != (Span{10 * time.Second, 200 * time.Second}) || f.Entry.Heading.Sub(heading).Abs() > 1e-9 {
				t.Errorf("%s, %v turns: %+v, want %v", name, turn, f.Entry, tc.want)
			}
		}
	}
}
