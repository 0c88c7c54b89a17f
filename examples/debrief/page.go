package main

import (
	"bytes"
	_ "embed"
	"html/template"

	"github.com/holdingfix/abeam/tolerance"
)

//go:embed page.html
var pageText string

// The template asks for nothing but what is in it: no script, no font, no picture from
// elsewhere.
var pageTemplate = template.Must(template.New("page").Funcs(template.FuncMap{
	"clock": clock, "bearing": bearing, "signed": signed,
}).Parse(pageText))

// page is the report as one file that needs nothing beside it.
func (r *Report) page(log tolerance.Log, d tolerance.Debrief) ([]byte, error) {
	c := d.Judgement.Clearance
	// The drawings are made here, of numbers and escaped names.
	view := struct {
		*Report
		Map    template.HTML
		Strips []template.HTML
	}{Report: r, Map: template.HTML(r.mapOf(log, d))}
	for _, s := range []string{
		r.stripOf(log, d, tolerance.AltitudeItem, tolerance.Altitude, func(s *tolerance.Sample) float64 { return float64(s.Altitude) }, float64(c.Altitude)),
		r.stripOf(log, d, tolerance.AirspeedItem, tolerance.IAS, func(s *tolerance.Sample) float64 { return float64(s.IAS) }, float64(c.IAS)),
		r.inboundStrip(d),
	} {
		if s != "" {
			view.Strips = append(view.Strips, template.HTML(s))
		}
	}
	var out bytes.Buffer
	err := pageTemplate.Execute(&out, view)
	return out.Bytes(), err
}

// HoldWords, EntryWords, WindWords and NotAnExaminer are the sentences of the terminal.
func (r *Report) HoldWords() string      { return r.Hold.words() }
func (r *Report) EntryWords() string     { return r.Entry.words() }
func (r *Report) ProtectedWords() string { return r.Protected.words() }
func (r *Report) WindWords() string      { return r.windWords() }
func (r *Report) NotAnExaminer() string  { return notAnExaminer }

// LimitWords and Met are an item's figures as the terminal shows them.
func (i Item) LimitWords() string { return i.limitWords() }
func (i Item) Met() string        { return i.met() }

// MetWords adds what was measured where nothing is judged.
func (i Item) MetWords() string { return i.metWords() }

// WorstWords, LimitWords and Where are an excursion's.
func (e Excursion) WorstWords() string { return e.amount(e.Worst) }
func (e Excursion) LimitWords() string { return e.amount(e.Limit) }
func (e Excursion) Where() string      { return e.where() }
