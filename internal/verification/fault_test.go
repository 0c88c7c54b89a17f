package verification

import (
	"maps"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/reference"
	"github.com/holdingfix/abeam/timing"
)

// A row that is at fault says what is wrong with it, and the first of several wrongs.
func TestFaultsAreSaid(t *testing.T) {
	circuit := reference.Inputs{"inbound": "360", "turn": "right", "leg": "60", "tas": "120", "rate": "3", "from": "0", "wind": "0"}
	p, err := hold.NewPattern(hold.Fix{}, 0, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	windows, err := timing.DepartureWindows(p, hold.Flight{TAS: 120, Rate: 3}, timing.WithinPattern(p), time.Hour)
	if err != nil {
		t.Fatal(err)
	}
	track := reference.Inputs{"track": "nl_hold_01"}
	for _, c := range []struct {
		figure string
		base   reference.Inputs
		more   reference.Inputs
		want   string // in the error; none wanted where it is empty
	}{
		{"timing: laps to settle", circuit, reference.Inputs{"wind": "20", "gain": "0.5", "share": "0.01"}, ""},
		{"timing: laps to settle", circuit, reference.Inputs{"wind": "20", "gain": "5", "share": "0.01"}, "does not settle"},
		{"timing: laps to settle", circuit, reference.Inputs{"wind": "20", "gain": "1.5", "share": "0.01"}, "does not settle"},
		{"timing: laps to settle", circuit, reference.Inputs{"wind": "20", "gain": "0.5", "share": "0.01", "tas": "-1"}, "TAS"},
		{"timing: last outbound of a departure", circuit, reference.Inputs{"asked": "180"}, ""},
		{"timing: last outbound of a departure", circuit, reference.Inputs{"asked": "100"}, "no lap fits"},
		{"timing: last outbound of a departure", circuit, reference.Inputs{"asked": "-1"}, "asked"},
		{"timing: departure window from", circuit, reference.Inputs{"window": "0"}, ""},
		{"timing: departure window from", circuit, reference.Inputs{"window": strconv.Itoa(len(windows) - 1)}, ""},
		{"timing: departure window from", circuit, reference.Inputs{"window": strconv.Itoa(len(windows))}, "no window"},
		{"timing: departure window from", circuit, reference.Inputs{"window": "-1"}, "no window -1"},
		{"timing: departure window from", circuit, reference.Inputs{"window": "0", "tas": "-1"}, "TAS"},
		{"timing: departure window from", circuit, reference.Inputs{"window": "0", "leg": "-1"}, "inbound leg is -1s"},
		{"timing: departure window from", circuit, reference.Inputs{"window": "0", "inbound": "x", "leg": "-1"}, `inbound="x"`},
		{"track: passage of the fix", track, reference.Inputs{"passage": "0"}, "passage=0"},
		{"track: passage of the fix", track, reference.Inputs{"passage": "1"}, ""},
		{"track: passage of the fix", track, reference.Inputs{"passage": "x"}, `"x"`},
	} {
		row := reference.Row{Figure: c.figure, Unit: "s", Want: "0", Inputs: maps.Clone(c.base)}
		maps.Copy(row.Inputs, c.more)
		res := recompute(row, Figures()[c.figure])
		if (res.Err == nil) != (c.want == "") || res.Err != nil && !strings.Contains(res.Err.Error(), c.want) {
			t.Errorf("%s with %v: %+v, %v; want %q", c.figure, c.more, res.Got, res.Err, c.want)
		}
	}
}
