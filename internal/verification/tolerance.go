package verification

import (
	"github.com/holdingfix/abeam/tolerance"
)

var toleranceFigures = map[string]Figure{
	"tolerance: airspeed over":   func(in *Reader) (Value, error) { return number(in.standard().Airspeed.Over), nil },
	"tolerance: airspeed under":  func(in *Reader) (Value, error) { return number(in.standard().Airspeed.Under), nil },
	"tolerance: altitude over":   func(in *Reader) (Value, error) { return number(in.standard().Altitude.Over), nil },
	"tolerance: altitude under":  func(in *Reader) (Value, error) { return number(in.standard().Altitude.Under), nil },
	"tolerance: heading over":    func(in *Reader) (Value, error) { return number(in.standard().Heading.Over), nil },
	"tolerance: heading under":   func(in *Reader) (Value, error) { return number(in.standard().Heading.Under), nil },
	"tolerance: course scale":    func(in *Reader) (Value, error) { return number(in.standard().Course.Scale), nil },
	"tolerance: course degrees":  func(in *Reader) (Value, error) { return number(in.standard().Course.Degrees), nil },
	"guidance: full scale angle": func(in *Reader) (Value, error) { return number(in.guidance().Angle), nil },
	"guidance: full scale":       func(in *Reader) (Value, error) { return number(in.guidance().Distance), nil },
	"tolerance: figures for leg time and leaving": func(in *Reader) (Value, error) {
		s := in.standard()
		if s.LegTime.Set() || s.LegLength.Set() || s.Arrival.Set() {
			return Value{Text: "given"}, s.Validate()
		}
		return Value{Text: "none"}, s.Validate()
	},
}

func (r *Reader) standard() tolerance.Standard {
	return choose(r, "standard", map[string]tolerance.Standard{
		"faa-instrument": tolerance.FAAInstrument(), "faa-atp": tolerance.FAAAirlineTransport(),
		"eu-instrument": tolerance.EUInstrument(), "eu-engine-out": tolerance.EUInstrumentEngineOut(), "eu-en-route": tolerance.EUEnRoute(),
	})
}

func (r *Reader) guidance() tolerance.Guidance {
	return choose(r, "guidance", map[string]tolerance.Guidance{
		"vor": tolerance.VORRadial(0), "localizer": tolerance.Localizer(5), "gps-en-route": tolerance.GPSEnRoute(),
		"waas-en-route": tolerance.WAASEnRoute(), "gps-terminal": tolerance.GPSTerminal(), "gps-approach": tolerance.GPSApproach(),
	})
}
