package main

import (
	"bytes"
	"net/url"

	"github.com/holdingfix/abeam/examples/internal/form"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/examples/internal/reply"
)

// answer takes the fields of the form as a query and gives the circuit, or why there is
// none, as JSON.
func answer(query string) string {
	var said any
	values, err := url.ParseQuery(query)
	if err == nil {
		said, err = circuit(form.Query("page", values, "inbound_deg", "turns", "leg_s", "tas_kt", "wind_from_deg", "wind_kt"))
	}
	if err != nil {
		said = reply.Refuse(err)
	}
	var text bytes.Buffer
	if err := program.WriteJSON(&text, said); err != nil {
		return "" // no figure of an answer is infinite, which is what JSON cannot say
	}
	return text.String()
}
