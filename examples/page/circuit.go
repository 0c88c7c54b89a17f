// Page is the hold in a web page: the library as a WebAssembly module, called by a plain
// HTML form. Circuit.go is the library at work, module.go what the page calls, page.html
// the page; the rest puts them into one file that needs nothing beside it and no server.
//
//	page                     builds the page into hold.html, with the go command
//	page -out mine.html      into another file
//
// The module alone, for a page of your own, which needs lib/wasm/wasm_exec.js of the Go
// that built it:
//
//	GOOS=js GOARCH=wasm go build -o hold.wasm ./page
//
// The program exits with 2 for flags it cannot use and with 1 for a page that cannot be
// built or written.
//
// NOT FOR NAVIGATION. The clearance, the chart, the aircraft manual, local rules and
// licensed practice come first.
package main

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/form"
	"github.com/holdingfix/abeam/examples/internal/reply"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// circuit is the library at work: the fields of the form in, the lap that closes out.
func circuit(f *form.Form) (reply.Answer, error) {
	course, turns := form.Read[abeam.Bearing](f, "inbound_deg"), form.Read[hold.Turn](f, "turns")
	leg, tas := form.Read[form.Seconds](f, "leg_s"), form.Read[abeam.Knots](f, "tas_kt")
	from, speed := form.Read[abeam.Bearing](f, "wind_from_deg"), form.Read[abeam.Knots](f, "wind_kt")
	if err := f.Err(); err != nil {
		return reply.Answer{}, err
	}
	pattern, err := hold.NewPattern(hold.Fix{}, course, turns, hold.TimedInbound(time.Duration(leg)))
	if err != nil {
		return reply.Answer{}, err
	}
	turn, err := hold.FAA().Turns.At(tas)
	if err != nil {
		return reply.Answer{}, err
	}
	c, err := pattern.Circuit(hold.Flight{TAS: tas, Rate: turn.Rate, Wind: wind.Wind{From: from, Speed: speed}})
	if err != nil {
		return reply.Answer{}, err
	}
	return reply.To(pattern, c, nil), nil
}
