package reference

import (
	"strings"
	"testing"
	"testing/fstest"
)

const header = "id,class,source,place,figure,inputs,want,unit,tol,why\n"

// good is a row without a fault; every bad row below differs from it in one field.
const good = "X1,DERIVED,worked by hand,a + b,demo: sum,a=1 b=2.5,3.5,kt,0.05,half a unit of the last printed digit\n"

func table(text string) fstest.MapFS {
	return fstest.MapFS{"demo.csv": {Data: []byte(text)}}
}

func TestRead(t *testing.T) {
	rows, err := read(fstest.MapFS{
		"b.csv":      {Data: []byte(header + "X3,PUBLISHED,\"a manual, 2nd ed.\",,demo: name,,parallel,text,,as printed\n")},
		"a.csv":      {Data: []byte(header + good + "X2,MEMORY,from memory,,demo: sum,a=-1 b=north,070,deg,1e-9,rounding\n")},
		"readme.txt": {Data: []byte("no table")},
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 3 || rows[0].ID != "X1" || rows[1].ID != "X2" || rows[2].ID != "X3" {
		t.Fatalf("got %+v, want the rows X1, X2, X3", rows)
	}
	r := rows[0]
	if r.Table != "a" || r.Class != Derived || r.Source != "worked by hand" || r.Place != "a + b" || r.Figure != "demo: sum" ||
		r.Want != "3.5" || r.Unit != "kt" || r.Tol != 0.05 || r.Why != HalfUnit {
		t.Errorf("got %+v", r)
	}
	if b, err := r.Inputs.Number("b"); err != nil || b != 2.5 || !r.Inputs.Has("a") || r.Inputs.Has("c") {
		t.Errorf("got the inputs %v, b %v, %v", r.Inputs, b, err)
	}
	for _, key := range []string{"b", "c"} { // malformed, missing
		if x, err := rows[1].Inputs.Number(key); err == nil || !strings.Contains(err.Error(), key) {
			t.Errorf("the input %s is %v, %v", key, x, err)
		}
	}
	if r = rows[2]; r.Table != "b" || r.Source != "a manual, 2nd ed." || r.Want != "parallel" || r.Tol != 0 || len(r.Inputs) != 0 {
		t.Errorf("got %+v", r)
	}
}

func TestReadRefuses(t *testing.T) {
	for _, c := range []struct {
		name, row string
		message   string
	}{
		{"no id", ",DERIVED,s,p,f,a=1,1,kt,0.5,w", "has no id"},
		{"no class", "X2,,s,p,f,a=1,1,kt,0.5,w", "has no class"},
		{"no source", "X2,DERIVED,,p,f,a=1,1,kt,0.5,w", "has no source"},
		{"blank source", `X2,DERIVED,"  ",p,f,a=1,1,kt,0.5,w`, "has no source"},
		{"no figure", "X2,DERIVED,s,p,,a=1,1,kt,0.5,w", "has no figure"},
		{"no want", "X2,DERIVED,s,p,f,a=1,,kt,0.5,w", "has no want"},
		{"blank want", `X2,DERIVED,s,p,f,a=1," ",kt,0.5,w`, "has no want"},
		{"no text", "X2,DERIVED,s,p,f,a=1,,text,,w", "has no want"},
		{"no unit", "X2,DERIVED,s,p,f,a=1,1,,0.5,w", "has no unit"},
		{"no reason", "X2,DERIVED,s,p,f,a=1,1,kt,0.5,", "has no why"},
		{"unknown class", "X2,GUESSED,s,p,f,a=1,1,kt,0.5,w", `unknown class "GUESSED"`},
		{"class in small letters", "X2,derived,s,p,f,a=1,1,kt,0.5,w", `unknown class "derived"`},
		{"our own output", "X2,REGRESSION,s,p,f,a=1,1,kt,0.5,w", `unknown class "REGRESSION"`},
		{"input without a value", "X2,DERIVED,s,p,f,a=1 b,1,kt,0.5,w", `"b" is not key=value`},
		{"input with an empty value", "X2,DERIVED,s,p,f,a=1 b=,1,kt,0.5,w", `"b=" is not key=value`},
		{"input without a key", "X2,DERIVED,s,p,f,a=1 =2,1,kt,0.5,w", `"=2" is not key=value`},
		{"input twice", "X2,DERIVED,s,p,f,a=1 a=2,1,kt,0.5,w", "a is given twice"},
		{"input NaN", "X2,DERIVED,s,p,f,a=NaN,1,kt,0.5,w", `"a=NaN" is not finite`},
		{"input infinite", "X2,DERIVED,s,p,f,a=-Inf,1,kt,0.5,w", `"a=-Inf" is not finite`},
		{"input too large", "X2,DERIVED,s,p,f,a=1e999,1,kt,0.5,w", `"a=1e999" is not finite`},
		{"no tolerance", "X2,DERIVED,s,p,f,a=1,1,kt,,w", "tolerance"},
		{"tolerance 0", "X2,DERIVED,s,p,f,a=1,1,kt,0,w", "tolerance"},
		{"negative tolerance", "X2,DERIVED,s,p,f,a=1,1,kt,-0.5,w", "tolerance"},
		{"tolerance NaN", "X2,DERIVED,s,p,f,a=1,1,kt,NaN,w", "tolerance"},
		{"infinite tolerance", "X2,DERIVED,s,p,f,a=1,1,kt,Inf,w", "tolerance"},
		{"tolerance of half a circle", "X2,DERIVED,s,p,f,a=1,1,deg,180,w", "every direction is within"},
		{"tolerance in words", "X2,DERIVED,s,p,f,a=1,1,kt,half,w", "tolerance"},
		{"text with a tolerance", "X2,DERIVED,s,p,f,a=1,left,text,0.5,w", "a text has no tolerance"},
		{"text with the reason of a tolerance", "X2,DERIVED,s,p,f,a=1,left,text,," + HalfUnit, "a text has no tolerance"},
		{"more than half a unit", "X2,DERIVED,s,p,f,a=1,1.50,kt,0.05," + HalfUnit, "half a unit of the last digit of 1.50"},
		{"less than half a unit", "X2,DERIVED,s,p,f,a=1,-12,kt,0.05," + HalfUnit, "half a unit of the last digit of -12"},
		{"half a unit of no decimals", "X2,DERIVED,s,p,f,a=1,1e3,kt,0.5," + HalfUnit, "half a unit of the last digit of 1e3"},
		{"from memory alone", "X2,MEMORY,s,p,f,a=1,1,kt,0.5,w", `"X2": the figure "f" is checked only from memory`},
		{"want NaN", "X2,DERIVED,s,p,f,a=1,NaN,kt,0.5,w", "want"},
		{"want infinite", "X2,DERIVED,s,p,f,a=1,+Inf,kt,0.5,w", "want"},
		{"want too large", "X2,DERIVED,s,p,f,a=1,1e999,kt,0.5,w", "want"},
		{"want in words", "X2,DERIVED,s,p,f,a=1,about 3,kt,0.5,w", "want"},
		{"id twice", good, `"X1" is not unique`},
		{"a field short", "X2,DERIVED,s,p,f,a=1,1,kt,0.5", "wrong number of fields"},
		{"a field more", "X2,DERIVED,s,p,f,a=1,1,kt,0.5,w,x", "wrong number of fields"},
	} {
		rows, err := read(table(header + good + c.row))
		if err == nil || rows != nil || !strings.Contains(err.Error(), c.message) || !strings.Contains(err.Error(), "demo.csv") {
			t.Errorf("%s: got %v, %v, want an error that says %q and names the table", c.name, rows, err, c.message)
		}
	}
	// The table itself, and the message that names the line at fault.
	for name, text := range map[string]string{
		"empty":            "",
		"header alone":     header,
		"no header":        good + good,
		"another header":   strings.Replace(header, "why", "note", 1) + good,
		"a column missing": "id,class,source,place,figure,inputs,want,unit,tol\nX1,DERIVED,s,p,f,a=1,1,kt,0.5\n",
	} {
		if rows, err := read(table(text)); err == nil || rows != nil {
			t.Errorf("%s: got %v, %v", name, rows, err)
		}
	}
	if _, err := read(table(header + good + "X2,DERIVED,,p,f,,1,kt,0.5,w")); err == nil || !strings.Contains(err.Error(), "row 3") {
		t.Errorf("got %v, want the row 3 of the file", err)
	}
	if rows, err := read(fstest.MapFS{}); err == nil {
		t.Errorf("no tables gave %v", rows)
	}
}

// An id is unique over all tables, not within one.
func TestReadRefusesAnIDInTwoTables(t *testing.T) {
	_, err := read(fstest.MapFS{"a.csv": {Data: []byte(header + good)}, "b.csv": {Data: []byte(header + good)}})
	if err == nil || !strings.Contains(err.Error(), "b.csv") || !strings.Contains(err.Error(), "not unique") {
		t.Errorf("got %v", err)
	}
}

func TestRows(t *testing.T) {
	if _, err := Rows(); err != nil {
		t.Fatal(err)
	}
}

func TestInputs(t *testing.T) {
	if text, err := Bulletin("aloft_older"); err != nil || !strings.Contains(text, "FT ") {
		t.Errorf("got %.40q, %v", text, err)
	}
	if text, err := Track("nl_hold_01"); err != nil || !strings.HasPrefix(string(text), "t_s,lat,lon,") {
		t.Errorf("got %.40q, %v", text, err)
	}
	for _, name := range []string{"", "none", "../reference"} {
		if text, err := Bulletin(name); err == nil {
			t.Errorf("the bulletin %q is %.40q", name, text)
		}
		if text, err := Track(name); err == nil {
			t.Errorf("the track %q is %.40q", name, text)
		}
	}
}

// Every class says what it is, each something else, so that a reader of the list can tell
// evidence from recollection.
func TestMeaning(t *testing.T) {
	seen := map[string]Class{"unknown": "", "": ""}
	for _, c := range Classes() {
		m := c.Meaning()
		if other, ok := seen[m]; ok {
			t.Errorf("%s means %q, as %q does", c, m, other)
		}
		seen[m] = c
	}
	if m := Class("GUESSED").Meaning(); m != "unknown" {
		t.Errorf("a class that is none means %q", m)
	}
}
