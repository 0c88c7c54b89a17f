package holds

import (
	"strings"
	"testing"
)

func TestRows(t *testing.T) {
	published, err := Published()
	if err != nil {
		t.Fatal(err)
	}
	coded, err := Coded()
	if err != nil {
		t.Fatal(err)
	}
	anomalies, err := Anomalies()
	if err != nil {
		t.Fatal(err)
	}
	if len(published) != 7863 || len(coded) != 8500 || len(anomalies) != 98 {
		t.Errorf("%d published, %d coded, %d anomalies", len(published), len(coded), len(anomalies))
	}
	ids := map[string]bool{}
	for _, h := range published {
		if ids[h.ID] || (h.Turn != "L" && h.Turn != "R") || h.Lat.Given != h.Lon.Given || h.NavLat.Given != h.NavLon.Given {
			t.Errorf("%+v", h)
		}
		ids[h.ID] = true
	}
	for _, h := range coded {
		if ids[h.ID] || (h.Turn != "L" && h.Turn != "R") || h.Minutes.Given == h.Miles.Given {
			t.Errorf("%+v", h)
		}
		ids[h.ID] = true
	}
	for _, a := range anomalies {
		if !ids[a.ID] || a.Reason == "" {
			t.Errorf("%+v is of no row", a)
		}
	}
}

func TestBadRows(t *testing.T) {
	row := func(r *record) Number { return Number{r.number("a"), r.maybe("b").Given || r.text("c") != ""} }
	for text, want := range map[string]string{
		"a,b,c\n1,,x\n":       "",
		"a,b,c\n1,,x\nq,,x\n": "line 3",
		"a,b,c\n1,q,x\n":      "line 2",
		"a,b\n1,\n":           "no column c",
		"a,b,c\n1\n":          "fields",
	} {
		rows, err := parse(strings.NewReader(text), row)
		if want == "" {
			if err != nil || len(rows) != 1 {
				t.Errorf("%q: %v, %v", text, rows, err)
			}
			continue
		}
		if err == nil || rows != nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, %v, want %s", text, rows, err, want)
		}
	}
	if _, err := read([]byte("not compressed"), row); err == nil {
		t.Error("read what is not compressed")
	}
}

// The azimuth of some published rows is a word; it must not pass for a number.
func TestNumeric(t *testing.T) {
	rows, err := parse(strings.NewReader("a\n073.5\nN/A\n"), func(r *record) Number { return r.numeric("a") })
	if err != nil || len(rows) != 2 || rows[0] != (Number{73.5, true}) || rows[1].Given {
		t.Errorf("%v, %v", rows, err)
	}
}
