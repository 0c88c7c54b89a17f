package main

import (
	"math"
	"time"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam/examples/internal/whole"
	"github.com/holdingfix/abeam/hold"
)

// writeTrack writes the exact circuit on WGS-84 for a map, whole or not at all.
func (b *Briefing) writeTrack(name, format string) error {
	write := b.geoJSON
	if format == "gpx" {
		write = b.gpx
	}
	data, err := write()
	if err != nil {
		return err
	}
	return whole.Write(name, data)
}

// groundStep is the time between two points: at 265 KIAS a turn bends by less than 3
// degrees between them.
const groundStep = time.Second

// ground gives a circuit as places, cut where it crosses the antimeridian: at +-180
// degrees of longitude one piece ends and the next begins on the other side.
func (b *Briefing) ground(c hold.Circuit) ([][]s2.LatLng, error) {
	positions, err := c.Positions(b.task.pattern.Fix(), groundStep)
	if err != nil {
		return nil, err
	}
	pieces := [][]s2.LatLng{nil}
	var last s2.LatLng
	for s, at := range positions {
		if s.Time > 0 && math.Abs(at.Lng.Degrees()-last.Lng.Degrees()) > 180 {
			side := math.Copysign(180, last.Lng.Degrees())
			across := at.Lng.Degrees() + math.Copysign(360, side) // at, counted on from last
			share := (side - last.Lng.Degrees()) / (across - last.Lng.Degrees())
			lat := last.Lat.Degrees() + share*(at.Lat.Degrees()-last.Lat.Degrees())
			end := len(pieces) - 1
			pieces[end] = append(pieces[end], s2.LatLngFromDegrees(lat, side))
			pieces = append(pieces, []s2.LatLng{s2.LatLngFromDegrees(lat, -side)})
		}
		end := len(pieces) - 1
		pieces[end] = append(pieces[end], at)
		last = at
	}
	return pieces, nil
}

// degrees gives longitude and latitude to the 8th decimal, a millimetre.
func degrees(at s2.LatLng) (lon, lat float64) {
	round := func(x float64) float64 { return math.Round(x*1e8) / 1e8 }
	return round(at.Lng.Degrees()), round(at.Lat.Degrees())
}
