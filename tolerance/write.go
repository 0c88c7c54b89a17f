package tolerance

import (
	"io"
	"strconv"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// WriteCSV writes the samples as a file that [ReadCSV] reads back: every quantity that
// a sample has, with its unit and north in the header. Positions are to 1e-7 degrees (a
// centimetre), other values to a hundredth of their unit.
func (l *Log) WriteCSV(w io.Writer) error {
	const op = "tolerance.Log.WriteCSV"
	var all Quantities
	for i := range l.Samples {
		all |= l.Samples[i].Has
	}
	if all.Has(Heading) && l.HeadingNorth != abeam.True && l.HeadingNorth != abeam.Magnetic {
		return check.Invalid(op, "heading north", l.HeadingNorth, "true or magnetic")
	}
	header := "time_s,lat_deg,lon_deg"
	trackNorth := l.TrackNorth
	if trackNorth != abeam.Magnetic {
		trackNorth = abeam.True
	}
	columns := []struct {
		q    Quantity
		name string
		of   func(*Sample) float64
	}{
		{Altitude, "altitude_ft", func(s *Sample) float64 { return float64(s.Altitude) }},
		{IAS, "ias_kt", func(s *Sample) float64 { return float64(s.IAS) }},
		{Heading, "heading_" + l.HeadingNorth.String() + "_deg", func(s *Sample) float64 { return float64(s.Heading) }},
		{Groundspeed, "groundspeed_kt", func(s *Sample) float64 { return float64(s.Groundspeed) }},
		{Track, "track_" + trackNorth.String() + "_deg", func(s *Sample) float64 { return float64(s.Track) }},
		{CDI, "cdi_fullscale", func(s *Sample) float64 { return s.CDI }},
	}
	for _, c := range columns {
		if all.Has(c.q) {
			header += "," + c.name
		}
	}
	line := []byte(header + "\n")
	for i := range l.Samples {
		if _, err := w.Write(line); err != nil {
			return err
		}
		s := &l.Samples[i]
		line = strconv.AppendFloat(line[:0], s.Time.Seconds(), 'f', -1, 64)
		line = strconv.AppendFloat(append(line, ','), s.Lat, 'f', 7, 64)
		line = strconv.AppendFloat(append(line, ','), s.Lon, 'f', 7, 64)
		for _, c := range columns {
			if !all.Has(c.q) {
				continue
			}
			line = append(line, ',')
			if s.Has.Has(c.q) {
				line = strconv.AppendFloat(line, c.of(s), 'f', 2, 64)
			}
		}
		line = append(line, '\n')
	}
	_, err := w.Write(line)
	return err
}
