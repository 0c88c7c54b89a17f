package tolerance

import (
	"bytes"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

// Times are written in full, places to 1e-7 degrees and the rest to a hundredth; what a sample has
// not is an empty field, and what none has no column.
func TestWrittenFigures(t *testing.T) {
	log := timed(0, 0, 0)
	for i, at := range []time.Duration{0, 1234 * time.Millisecond, 100 * time.Second} {
		log.Samples[i].Time = at
	}
	log.HeadingNorth = abeam.True
	log.Samples[0].Lat, log.Samples[0].Lon = 12.34567891, -179.99999996
	log.Samples[1].set(Altitude, 1234.567)
	log.Samples[2].set(Heading, 7)
	log.Samples[2].set(CDI, -0.125)
	var file bytes.Buffer
	if err := log.WriteCSV(&file); err != nil {
		t.Fatal(err)
	}
	const want = `time_s,lat_deg,lon_deg,altitude_ft,heading_true_deg,cdi_fullscale
0,12.3456789,-180.0000000,,,
1.234,0.0000000,0.0000000,1234.57,,
100,0.0000000,0.0000000,,7.00,-0.12
`
	if got := file.String(); got != want {
		t.Errorf("%s", got)
	}
}
