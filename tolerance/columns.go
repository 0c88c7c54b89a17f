package tolerance

import (
	"strings"
	"unicode"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
)

// Column says what a column of a log holds. Unit is one of
//
//	time         s, ms, min; utc for a date and time as 2026-07-03T17:42:05Z
//	angles       deg, rad
//	altitude     ft, m, fl
//	speeds       kt, mps, kmh, mph
//	deviation    fullscale, pct
//
// North is for headings and tracks.
type Column struct {
	Quantity Quantity
	Unit     string
	North    abeam.North
}

// Mapping names the columns of a log whose header the reader does not know, by the
// text of the header with blanks trimmed; in GPX, by the local name of an element
// within extensions. What it does not name is read as without it.
type Mapping map[string]Column

// column is a Column resolved.
type column struct {
	quantity Quantity // 0: not read
	unit     unit
	north    abeam.North
	name     string
}

// names by the letters and digits of a header without its unit and north.
var names = map[string]Quantity{
	"t": Time, "time": Time, "elapsed": Time, "timestamp": Time,
	"lat": Latitude, "latitude": Latitude,
	"lon": Longitude, "lng": Longitude, "long": Longitude, "longitude": Longitude,
	"alt": Altitude, "altitude": Altitude, "ele": Altitude, "elevation": Altitude,
	"ias": IAS, "airspeed": IAS, "indicatedairspeed": IAS,
	"hdg": Heading, "heading": Heading,
	"gs": Groundspeed, "groundspeed": Groundspeed,
	"trk": Track, "track": Track,
	"cdi": CDI, "coursedeviation": CDI,
}

var norths = map[string]abeam.North{"true": abeam.True, "mag": abeam.Magnetic, "magnetic": abeam.Magnetic}

// readHeader understands a header cell: a name, behind its first word a unit, and a north
// anywhere, parted by anything that is no letter or digit, as in "Ground speed (kt)",
// "heading_magnetic_deg", "t_s"; "Min altitude (ft)" is no altitude. What is wrong with it
// is said in fault.
func readHeader(text string) (c column, fault string) {
	c.name = strings.TrimSpace(text)
	tokens := strings.FieldsFunc(spelled.Replace(strings.ToLower(c.name)), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	name := ""
	for i, token := range tokens {
		if n, ok := norths[token]; ok {
			c.north = n
			continue
		}
		if u, ok := units[token]; ok && i > 0 {
			c.unit = u
			continue
		}
		name += token
	}
	q, ok := names[name]
	if !ok {
		return c, "no quantity of this name is known"
	}
	if c.unit.dimension == noDimension {
		switch q {
		case Latitude, Longitude:
			c.unit = units["deg"]
		case Time:
			c.unit = units["utc"]
		default:
			return c, "the header gives no unit"
		}
	}
	if !c.unit.fits(q) {
		return c, "the unit is not one of " + q.String()
	}
	if q == Heading && c.north == 0 {
		return c, "the header does not say whether true or magnetic"
	}
	c.quantity = q
	return c, ""
}

func (u unit) fits(q Quantity) bool {
	return u.dimension == q.dimension() || q == Time && u.dimension == civilTime
}

// resolve is a column of a Mapping.
func (c Column) resolve(op, header string) (column, error) {
	u := units[strings.ToLower(c.Unit)]
	if c.Quantity.dimension() == noDimension || !u.fits(c.Quantity) {
		return column{}, check.Invalid(op, "mapping of "+header, c.Unit, "a quantity in one of its units")
	}
	if (c.Quantity == Heading || c.Quantity == Track) && c.North != abeam.True && c.North != abeam.Magnetic {
		return column{}, check.Invalid(op, "mapping of "+header, c.North, "true or magnetic")
	}
	return column{quantity: c.Quantity, unit: u, north: c.North, name: header}, nil
}
