package main

import (
	"bytes"
	"errors"
	"net/http"
	"net/url"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/form"
	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/examples/internal/reply"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

const path = "/circuit"

func handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET "+path, serve)
	return mux
}

// serve answers one request: 200 with the circuit, 400 for what cannot be used, 422 for
// a flight that no aeroplane can fly, and never half an answer.
func serve(w http.ResponseWriter, r *http.Request) {
	status := http.StatusOK
	var answer any
	asked, err := read(r)
	if err == nil {
		answer, err = asked.answer()
	}
	switch {
	case errors.Is(err, abeam.ErrInvalid):
		status, answer = http.StatusBadRequest, reply.Refuse(err)
	case err != nil:
		status, answer = http.StatusUnprocessableEntity, reply.Refuse(err)
	}
	var body bytes.Buffer
	if err := program.WriteJSON(&body, answer); err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	w.Write(body.Bytes()) // who has hung up needs no answer
}

// read takes the request from its query.
func read(r *http.Request) (request, error) {
	values, err := url.ParseQuery(r.URL.RawQuery)
	if err != nil {
		return request{}, &abeam.FieldError{Op: "server", Field: "query", Value: r.URL.RawQuery, Limit: "a query as HTML forms write it", Err: abeam.ErrInvalid}
	}
	inWords, names := values.Has("clearance"), []string{"tas_kt", "altitude_ft", "wind_from_deg", "wind_kt"}
	if inWords {
		names = append(names, "clearance")
	} else {
		names = append(names, "inbound_deg", "turns")
	}
	f := form.Query("server", values, names...)
	var asked request
	if inWords {
		asked.clearance = f.Text("clearance")
	} else {
		asked.course, asked.turns = form.Read[abeam.Bearing](f, "inbound_deg"), form.Read[hold.Turn](f, "turns")
	}
	asked.tas, asked.altitude = form.Read[abeam.Knots](f, "tas_kt"), form.Read[abeam.Feet](f, "altitude_ft")
	asked.wind = wind.Wind{From: form.Read[abeam.Bearing](f, "wind_from_deg"), Speed: form.Read[abeam.Knots](f, "wind_kt")}
	return asked, f.Err()
}
