package tolerance

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/holdingfix/abeam/internal/check"
)

// GPX is the namespace of GPX 1.1.
const gpxNamespace = "http://www.topografix.com/GPX/1/1"

// ReadGPX reads the track points of a GPX 1.1 file: latitude and longitude (WGS-84),
// time (UTC) and elevation (metres). All segments of all tracks make one log; waypoints
// and routes are none. GPX 1.1 has no speed and no course: a mapping, which may be nil,
// names the elements within extensions that hold them.
//
// Errors: [abeam.ErrInvalid], naming line and column, for what is no XML at the start,
// no GPX 1.1, or has no track point that can be used, or more than [MaxSamples]; the
// error of r as it is. A file that breaks off is read up to there, with a finding.
func ReadGPX(r io.Reader, m Mapping) (Log, error) { return readGPX(r, m, MaxSamples) }

func readGPX(r io.Reader, m Mapping, most int) (Log, error) {
	const op = "tolerance.ReadGPX"
	in := &faulty{Reader: r}
	g := gpxReader{in: in, xml: xml.NewDecoder(in), op: op, most: most, columns: map[string]column{}}
	g.xml.CharsetReader = func(charset string, _ io.Reader) (io.Reader, error) {
		return nil, fmt.Errorf("the character set %q is not read, only UTF-8", truncate(charset))
	}
	for name, c := range m {
		col, err := c.resolve(op, name)
		if err != nil {
			return Log{}, err
		}
		g.columns[name] = col
		switch col.quantity {
		case Heading:
			g.log.HeadingNorth = col.north
		case Track:
			g.log.TrackNorth = col.north
		}
	}
	if err := g.root(); err != nil {
		return Log{}, err
	}
	if err := g.points(); err != nil {
		return Log{}, err
	}
	if len(g.log.Samples) == 0 {
		line, at := g.xml.InputPos()
		return Log{}, check.Invalid(op, fmt.Sprintf("line %d, column %d", line, at), "no usable track point", "a track with points that have a time")
	}
	g.log.tidy()
	return g.log, nil
}

// faulty keeps the error of a reader apart from those of the XML.
type faulty struct {
	io.Reader
	err error
}

func (f *faulty) Read(p []byte) (int, error) {
	n, err := f.Reader.Read(p)
	if err != nil && !errors.Is(err, io.EOF) {
		f.err = err
	}
	return n, err
}

type gpxReader struct {
	in      *faulty
	xml     *xml.Decoder
	op      string
	most    int // points
	columns map[string]column
	cells   cellReader
	log     Log
	unread  map[string]bool
}

// root takes the first element, which must be that of GPX 1.1.
func (g *gpxReader) root() error {
	for {
		token, err := g.xml.Token()
		line, at := g.xml.InputPos()
		if err != nil {
			if g.in.err != nil {
				return g.in.err
			}
			return check.Invalid(g.op, fmt.Sprintf("line %d, column %d", line, at), truncate(err.Error()), "a GPX 1.1 file")
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if e.Name.Local != "gpx" || e.Name.Space != gpxNamespace {
			return check.Invalid(g.op, fmt.Sprintf("line %d, column %d", line, at), truncate(e.Name.Space+" "+e.Name.Local), "the element gpx of "+gpxNamespace)
		}
		return nil
	}
}

// points reads to the end of the file, or to where it breaks off.
func (g *gpxReader) points() error {
	var (
		point  *Sample
		column int
		text   strings.Builder
		long   bool // the text is longer than is read
		path   = []string{"gpx"}
	)
	for {
		token, err := g.xml.Token()
		line, at := g.xml.InputPos()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			if g.in.err != nil {
				return g.in.err
			}
			g.log.find(Finding{Kind: Truncated, Line: line, Column: at}, "%s: nothing is read from here on", truncate(err.Error()))
			if point != nil {
				g.log.Unused++
			}
			return nil
		}
		switch e := token.(type) {
		case xml.StartElement:
			if len(path) >= 64 {
				return check.Invalid(g.op, fmt.Sprintf("line %d, column %d", line, at), truncate(e.Name.Local), "nested at most 64 deep")
			}
			path = append(path, e.Name.Local)
			text.Reset()
			long = false
			if e.Name.Local == "trkpt" && e.Name.Space == gpxNamespace && point == nil {
				if len(g.log.Samples) == g.most {
					return check.Invalid(g.op, fmt.Sprintf("line %d, column %d", line, at), "another point", fmt.Sprintf("at most %d", g.most))
				}
				point, column = &Sample{Line: int32(min(line, math.MaxInt32))}, at
				g.attributes(point, e, line, at)
			}
		case xml.CharData:
			if long = long || text.Len()+len(e) > MaxLine; point != nil && !long {
				text.Write(e)
			}
		case xml.EndElement:
			path = path[:len(path)-1]
			if point == nil {
				continue
			}
			if e.Name.Local == "trkpt" && e.Name.Space == gpxNamespace {
				g.finish(point, column)
				point = nil
				continue
			}
			if long {
				g.log.find(Finding{Kind: BadValue, Line: line, Column: at}, "the element %q is longer than %d bytes: not used", truncate(e.Name.Local), MaxLine)
				text.Reset()
				long = false
				continue
			}
			// A point stands in some element, so there is one around what is in it.
			g.element(point, path[len(path)-1], e.Name.Local, text.String(), line, at)
			text.Reset()
		}
	}
}

func (g *gpxReader) attributes(s *Sample, e xml.StartElement, line, at int) {
	for _, a := range e.Attr {
		q := names[a.Name.Local]
		if q != Latitude && q != Longitude {
			continue
		}
		col := column{quantity: q, unit: units["deg"], name: a.Name.Local}
		g.cells.read(&g.log, s, &col, []byte(a.Value), line, at)
	}
}

// element reads what stands in an element of a track point, or deeper in its extensions.
func (g *gpxReader) element(s *Sample, parent, name, text string, line, at int) {
	col := column{name: name}
	switch {
	case parent == "trkpt" && name == "time":
		col.quantity, col.unit = Time, units["utc"]
	case parent == "trkpt" && name == "ele":
		col.quantity, col.unit = Altitude, units["m"]
	case parent == "trkpt":
		return // the other elements of the standard say how a fix was taken
	default:
		mapped, ok := g.columns[name]
		if !ok {
			if strings.TrimSpace(text) != "" && len(g.unread) < 100 && !g.unread[name] {
				if g.unread == nil {
					g.unread = map[string]bool{}
				}
				g.unread[name] = true
				g.log.find(Finding{Kind: UnreadColumn, Line: line, Column: at}, "the extension %q is not read: no mapping names it", truncate(name))
			}
			return
		}
		col = mapped
	}
	g.cells.read(&g.log, s, &col, []byte(text), line, at)
}

func (g *gpxReader) finish(s *Sample, column int) {
	if !s.Has.Has(Time | Latitude | Longitude) {
		g.log.find(Finding{Kind: BadLine, Line: int(s.Line), Column: column}, "a track point without time or position: not used")
		g.log.Unused++
		return
	}
	g.log.Samples = append(g.log.Samples, *s)
}
