package main

import (
	"encoding/xml"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"

	"github.com/holdingfix/abeam/examples/internal/program"
)

func atFix(t *testing.T, lat, lon string) string {
	t.Helper()
	text := strings.Replace(string(demo), "47.25", lat, 1)
	return scenarioFile(t, strings.Replace(text, "-120.5", lon, 1))
}

func TestGeoJSON(t *testing.T) {
	for _, lon := range []string{"-120.5", "179.999", "-179.999", "180"} {
		name := filepath.Join(t.TempDir(), "hold.geojson")
		if code, _, stderr := brief("-scenario", atFix(t, "47.25", lon), "-track", name); code != program.OK {
			t.Fatal(stderr)
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all, err := geojson.UnmarshalFeatureCollection(text)
		if err != nil || len(all.Features) != 3 {
			t.Fatalf("%d features, %v", len(all.Features), err)
		}
		lines, cut := all.Features[1].Geometry.(orb.MultiLineString)
		if want := lon != "-120.5"; cut != want {
			t.Fatalf("longitude %s: cut at the antimeridian: %v", lon, cut)
		}
		if !cut {
			lines = orb.MultiLineString{all.Features[1].Geometry.(orb.LineString)}
		}
		// No line jumps across the map, and its ends meet at the antimeridian.
		var length float64
		for i, line := range lines {
			for j := 1; j < len(line); j++ {
				length += metres(line[j-1], line[j])
				if math.Abs(line[j][0]-line[j-1][0]) > 1 {
					t.Errorf("longitude %s: from %v to %v", lon, line[j-1], line[j])
				}
			}
			if i > 0 {
				last, first := lines[i-1][len(lines[i-1])-1], line[0]
				if math.Abs(last[0]) != 180 || first[0] != -last[0] || first[1] != last[1] {
					t.Errorf("pieces end at %v and begin at %v", last, first)
				}
			}
		}
		// The lap of 3:43 at about 118 kt through the air is some 6 to 8 NM on the ground.
		if length < 6*1852 || length > 8*1852 {
			t.Errorf("longitude %s: a lap of %.0f m", lon, length)
		}
	}
}

func metres(a, b orb.Point) float64 {
	const earth = 6371000
	return earth * s2.LatLngFromDegrees(a[1], a[0]).Distance(s2.LatLngFromDegrees(b[1], b[0])).Radians()
}

func TestGPX(t *testing.T) {
	name := filepath.Join(t.TempDir(), "hold.gpx")
	if code, _, stderr := brief("-scenario", atFix(t, "47.25", "180"), "-track", name); code != program.OK {
		t.Fatal(stderr)
	}
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var file gpxFile
	if err := xml.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	if file.Version != "1.1" || len(file.Fixes) != 1 || file.Fixes[0].Name != "TARNO" || !strings.Contains(file.Notice, "NOT FOR NAVIGATION") ||
		len(file.Tracks) != 1 || len(file.Tracks[0].Segments) < 2 {
		t.Errorf("%+v", file)
	}
	for _, s := range file.Tracks[0].Segments {
		for _, p := range s.Points {
			// 7,000 ft is 2,133.6 m; longitudes are in [-180, 180).
			if math.Abs(p.Height-2133.6) > 1e-9 || !(p.Lon >= -180 && p.Lon < 180) || math.Abs(p.Lat-47.25) > 0.1 {
				t.Fatalf("point %+v", p)
			}
		}
	}
	for _, bad := range []string{"hold.kml", "hold"} {
		if code, _, stderr := brief("-track", bad); code != program.Usage || !strings.Contains(stderr, "-track") {
			t.Errorf("%s: exit %d, %s", bad, code, stderr)
		}
	}
}
