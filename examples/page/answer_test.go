package main

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/examples/internal/reply"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

const asked = "inbound_deg=075&turns=right&leg_s=60&tas_kt=118&wind_from_deg=131&wind_kt=19"

func decode[T any](t *testing.T, text string) (value T) {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(&value); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	return value
}

// The answer is what the library computes for the same hold, put in by hand.
func TestAnswer(t *testing.T) {
	p, err := hold.NewPattern(hold.Fix{}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	c, err := p.Circuit(hold.Flight{TAS: 118, Rate: hold.StandardRate, Wind: wind.Wind{From: 131, Speed: 19}})
	if err != nil {
		t.Fatal(err)
	}
	got := decode[reply.Answer](t, answer(asked))
	if got.Circuit != reply.Of(c) || got.Course != 75 || got.Turns != hold.Right || got.Caution != program.Caution || len(got.Notes) != 0 {
		t.Errorf("got %+v, want %+v", got, reply.Of(c))
	}
	into := decode[reply.Answer](t, answer(strings.NewReplacer("=131", "=75", "=19", "=30").Replace(asked)))
	if len(into.Notes) != 1 || into.Notes[0] != hold.AbeamInTurn.String() {
		t.Errorf("into the wind: notes %q", into.Notes)
	}
}

func TestRefused(t *testing.T) {
	for change, want := range map[string]string{
		"=19 =190":       "wind speed is 190 kt, must be below the TAS of 118 kt",
		"=60 =0":         "inbound leg is 0s, must be",
		"=60 =":          "leg_s is missing, must be given",
		"=60 =1m":        `leg_s is "1m", must be a number from 0 to 3600`,
		"=075 =400":      `inbound_deg is "400", must be a number from 0 to 360, in degrees`,
		"=right =around": "turns is around, must be right or left",
		"tas_kt tas":     "tas is unknown, must be one of inbound_deg",
	} {
		from, to, _ := strings.Cut(change, " ")
		got := decode[reply.Refusal](t, answer(strings.Replace(asked, from, to, 1)))
		if said := got.Field + " is " + got.Value + ", must be " + got.Limit; !strings.HasPrefix(said, want) || got.Caution != program.Caution {
			t.Errorf("%s: %+v, want %s", change, got, want)
		}
	}
	if got := decode[reply.Refusal](t, answer("%zz")); got.Error == "" {
		t.Errorf("a broken query: %+v", got)
	}
}
