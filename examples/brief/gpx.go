package main

import (
	"encoding/xml"

	"github.com/golang/geo/s2"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/examples/internal/program"
)

// The parts of GPX 1.1 (topografix.com/GPX/1/1) that a circuit needs.
type gpxFile struct {
	XMLName xml.Name   `xml:"http://www.topografix.com/GPX/1/1 gpx"`
	Version string     `xml:"version,attr"`
	Creator string     `xml:"creator,attr"`
	Notice  string     `xml:"metadata>desc"`
	Fixes   []gpxPoint `xml:"wpt"`
	Tracks  []gpxTrack `xml:"trk"`
}

type gpxPoint struct {
	Lat    float64 `xml:"lat,attr"`
	Lon    float64 `xml:"lon,attr"`
	Height float64 `xml:"ele"` // metres
	Name   string  `xml:"name,omitempty"`
}

type gpxTrack struct {
	Name     string       `xml:"name"`
	Segments []gpxSegment `xml:"trkseg"`
}

type gpxSegment struct {
	Points []gpxPoint `xml:"trkpt"`
}

// gpx gives the fix and the exact circuit as GPX 1.1, without times: it is a plan.
func (b *Briefing) gpx() ([]byte, error) {
	height := abeam.Feet(b.Hold.Altitude).Metres()
	point := func(at s2.LatLng, name string) gpxPoint {
		lon, lat := degrees(at)
		if lon == 180 { // the format excludes it
			lon = -180
		}
		return gpxPoint{Lat: lat, Lon: lon, Height: height, Name: name}
	}
	file := gpxFile{
		Version: "1.1", Creator: "brief", Notice: program.Caution,
		Fixes: []gpxPoint{point(b.task.pattern.Fix().Position, b.Hold.Fix)},
	}
	pieces, err := b.ground(b.exact)
	if err != nil {
		return nil, err
	}
	track := gpxTrack{Name: b.Hold.Fix + " exact"}
	for _, piece := range pieces {
		var s gpxSegment
		for _, at := range piece {
			s.Points = append(s.Points, point(at, ""))
		}
		track.Segments = append(track.Segments, s)
	}
	file.Tracks = []gpxTrack{track}
	data, err := xml.MarshalIndent(file, "", " ")
	if err != nil {
		return nil, err
	}
	return append([]byte(xml.Header), append(data, '\n')...), nil
}
