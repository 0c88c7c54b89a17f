package main

import (
	"encoding/json"

	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"

	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/hold"
)

// geoJSON gives the fix and the circuits as RFC 7946, lines cut at the antimeridian as
// its 3.1.9 asks.
func (b *Briefing) geoJSON() ([]byte, error) {
	all := geojson.NewFeatureCollection()
	fix := geojson.NewFeature(orbPoint(b.task.pattern.Fix().Position))
	fix.Properties = geojson.Properties{"name": b.Hold.Fix, "kind": "fix", "caution": program.Caution}
	all.Append(fix)
	for _, c := range []struct {
		kind    string
		circuit hold.Circuit
	}{{"exact", b.exact}, {"still air", b.still}} {
		pieces, err := b.ground(c.circuit)
		if err != nil {
			return nil, err
		}
		lines := make(orb.MultiLineString, len(pieces))
		for i, piece := range pieces {
			for _, at := range piece {
				lines[i] = append(lines[i], orbPoint(at))
			}
		}
		var shape orb.Geometry = lines
		if len(lines) == 1 {
			shape = lines[0]
		}
		f := geojson.NewFeature(shape)
		f.Properties = geojson.Properties{
			"name": b.Hold.Fix, "kind": c.kind, "altitude_ft": b.Hold.Altitude, "lap_s": c.circuit.Lap.Seconds(), "caution": program.Caution,
		}
		all.Append(f)
	}
	return json.MarshalIndent(all, "", " ")
}

func orbPoint(at s2.LatLng) orb.Point {
	lon, lat := degrees(at)
	return orb.Point{lon, lat}
}
