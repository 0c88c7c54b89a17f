// Server answers holds over HTTP: a clearance in words or a course and a turn, an airspeed
// and a wind in the query of a GET, the circuit that closes with its notes as JSON in the
// answer. Circuit.go is the library at work; the rest is what a server needs.
//
//	server                            on the loopback address only
//	server -listen 127.0.0.1:9000     on another port
//
//	curl 'http://127.0.0.1:8075/circuit?inbound_deg=075&turns=right&tas_kt=118&altitude_ft=7000&wind_from_deg=131&wind_kt=19'
//	curl -G http://127.0.0.1:8075/circuit -d tas_kt=118 -d altitude_ft=7000 -d wind_from_deg=131 -d wind_kt=19 \
//	    --data-urlencode 'clearance=HOLD WEST OF TARNO ON THE 255 RADIAL'
//
// Input that cannot be used is answered with 400, a flight that no aeroplane can fly with
// 422, both with the field, its value and its limit. The program exits with 2 for flags it
// cannot use and with 1 for an address it cannot listen on; an interrupt ends it when the
// requests at hand are answered.
//
// NOT FOR NAVIGATION. The clearance, the chart, the aircraft manual, local rules and
// licensed practice come first.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"time"

	"github.com/holdingfix/abeam/examples/internal/program"
)

// sample is a query to begin with.
const sample = "inbound_deg=075&turns=right&tas_kt=118&altitude_ft=7000&wind_from_deg=131&wind_kt=19"

func main() {
	program.Run(run)
}

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	p := program.New("server", "answers holds over HTTP, the circuit as JSON.", stdout, stderr)
	address := p.Flags.String("listen", "127.0.0.1:8075", "the `address` and port to listen on")
	if code, ok := p.Parse(args); !ok {
		return code
	}
	listener, err := net.Listen("tcp", *address)
	if err != nil {
		return p.Fail(program.Failed, err)
	}
	if code := p.Print(fmt.Appendf(nil, "%s\nhttp://%[2]s%[3]s, such as\nhttp://%[2]s%[3]s?%[4]s\n", program.Caution, listener.Addr(), path, sample)); code != program.OK {
		listener.Close()
		return code
	}
	const patience = 10 * time.Second
	server := http.Server{Handler: handler(), ReadTimeout: patience, WriteTimeout: patience, MaxHeaderBytes: 16 << 10}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err = <-ended:
	case <-ctx.Done():
		wait, cancel := context.WithTimeout(context.Background(), patience)
		defer cancel()
		err = server.Shutdown(wait)
	}
	if err != nil && !errors.Is(err, http.ErrServerClosed) {
		return p.Fail(program.Failed, err)
	}
	return program.OK
}
