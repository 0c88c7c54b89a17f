// Brief turns a holding clearance and a wind into a hold flown right: what the
// clearance means, the speed limit and when to slow, the entry, the first lap by the
// rules of thumb beside the exact answer, the laps until the expected time, the reports
// and the cautions.
//
//	brief                              the built-in invented scenario
//	brief -clearance "hold ..."        the built-in scenario with the clearance as heard
//	brief -scenario mine.json          another; demo.json beside this file is the form
//	brief -wind 270/35 -turns left     the scenario with a few values changed
//	brief -plot hold.svg               draws it, .svg or .png
//	brief -track hold.geojson          writes its ground track, .geojson or .gpx
//	brief -json                        the same figures as JSON
//
// It exits with 2 for input it cannot use and with 1 for a hold that cannot be computed
// or a file that cannot be written.
//
// NOT FOR NAVIGATION. The clearance, the chart, the aircraft manual, local rules and
// licensed practice come first.
package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"strconv"
	"strings"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/jsonfile"
	"github.com/holdingfix/abeam/examples/internal/program"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	p := program.New("brief", "briefs a hold, from a clearance in words and a wind to what is flown.", stdout, stderr)
	scenario := p.Flags.String("scenario", "", "a scenario `file` in JSON (default: a built-in invented one)")
	asJSON := p.Flags.Bool("json", false, "print JSON instead of text")
	plot := p.Flags.String("plot", "", "draw the hold to a `file`, .svg or .png")
	track := p.Flags.String("track", "", "write the ground track to a `file`, .geojson or .gpx")
	var change changes
	p.Flags.StringVar(&change.clearance, "clearance", "", "the clearance in `words`")
	p.Flags.StringVar(&change.wind, "wind", "", "wind as `from/kt`, in the scenario's north of the wind")
	p.Flags.StringVar(&change.airspeed, "airspeed", "", "holding airspeed in `KIAS`")
	p.Flags.StringVar(&change.altitude, "altitude", "", "altitude in `feet`")
	p.Flags.StringVar(&change.course, "course", "", "inbound course in `degrees`")
	p.Flags.StringVar(&change.turns, "turns", "", "turns `right or left`")
	p.Flags.StringVar(&change.heading, "heading", "", "heading at the fix in `degrees`")
	p.Flags.StringVar(&change.efc, "efc", "", "`time` to expect further clearance, as 18:05")
	if code, ok := p.Parse(args); !ok {
		return code
	}
	draw, err := formatOf("-plot", *plot, "svg", "png")
	if err != nil {
		return p.Fail(program.Usage, err)
	}
	ground, err := formatOf("-track", *track, "geojson", "gpx")
	if err != nil {
		return p.Fail(program.Usage, err)
	}
	s, err := jsonfile.Read[Scenario]("scenario", *scenario, demo)
	if err != nil {
		return p.Fail(program.Usage, err)
	}
	if err := change.apply(&s); err != nil {
		return p.Fail(program.Usage, err)
	}
	t, err := s.task()
	var b *Briefing
	if err == nil {
		b, err = newBriefing(t)
	}
	if err != nil {
		return p.Refuse(err)
	}
	// Everything is computed before anything is written.
	var out bytes.Buffer
	if *asJSON {
		if err := program.WriteJSON(&out, b); err != nil {
			return p.Fail(program.Failed, err)
		}
	} else {
		b.writeText(&out)
	}
	if *plot != "" {
		if err := b.plot(*plot, draw); err != nil {
			return p.Fail(program.Failed, err)
		}
	}
	if *track != "" {
		if err := b.writeTrack(*track, ground); err != nil {
			return p.Fail(program.Failed, err)
		}
	}
	return p.Print(out.Bytes())
}

// changes are the values people change most, as they were typed; empty is unchanged.
type changes struct {
	clearance, wind, airspeed, altitude, course, turns, heading, efc string
}

func (c changes) apply(s *Scenario) error {
	number := func(flag, text string, into *float64) error {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return field("-"+flag, text, "a number")
		}
		*into = x
		return nil
	}
	pointer := func(flag, text string, into **float64) error {
		x := new(float64)
		if err := number(flag, text, x); err != nil {
			return err
		}
		*into = x
		return nil
	}
	bearing := func(flag, text string, into **float64) error {
		b, err := abeam.ParseBearing(text)
		if err != nil {
			return field("-"+flag, text, "a number from 0 to 360")
		}
		x := float64(b)
		*into = &x
		return nil
	}
	if c.wind != "" {
		from, kt, ok := strings.Cut(c.wind, "/")
		if !ok {
			return field("-wind", c.wind, "a direction and a speed as 270/35")
		}
		if err := errors.Join(bearing("wind", from, &s.Air.Wind.From), pointer("wind", kt, &s.Air.Wind.Speed)); err != nil {
			return err
		}
	}
	for _, one := range []struct {
		flag, text string
		set        func(flag, text string) error
	}{
		{"airspeed", c.airspeed, func(flag, text string) error { return number(flag, text, &s.Aircraft.Holding) }},
		{"altitude", c.altitude, func(flag, text string) error { return pointer(flag, text, &s.Air.Altitude) }},
		{"heading", c.heading, func(flag, text string) error { return bearing(flag, text, &s.Arrival.Heading) }},
		{"clearance", c.clearance, func(_, text string) error { s.Clearance = text; return nil }},
		{"course", c.course, func(flag, text string) error {
			return errors.Join(s.spell(), bearing(flag, text, &s.Hold.Inbound))
		}},
		{"turns", c.turns, func(_, text string) error {
			if err := s.spell(); err != nil {
				return err
			}
			if err := s.Hold.Turns.UnmarshalText([]byte(text)); err != nil {
				return field("-turns", text, "right or left")
			}
			return nil
		}},
		{"efc", c.efc, func(_, text string) error { err := s.spell(); s.Arrival.EFC = text; return err }},
	} {
		if one.text == "" {
			continue
		}
		if err := one.set(one.flag, one.text); err != nil {
			return err
		}
	}
	return nil
}
