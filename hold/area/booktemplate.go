package area

import (
	"math"

	"github.com/holdingfix/abeam/internal/angle"
)

// template are the lines of the holding template by time, as they are remembered.
func (b *book) template() {
	put := func(name, formula string, value float64) float64 {
		return b.put(Memory, name, formula, b.length, 2, value)
	}
	v, w, t := b.v, b.drift, b.t
	put("ab", "5 v", 5*v)
	put("ac", "11 v", 11*v)
	put("gi1", "(t - 5) v", (t-5)*v)
	put("gi2", "(t + 21) v", (t+21)*v)
	e45 := b.put(Memory, "E45", "45 E", b.length, 3, 45*b.e)
	wb := put("Wb", "5 w'", 5*w)
	wc := put("Wc", "11 w'", 11*w)
	put("Wd", "Wc + E45", wc+e45)
	put("We", "Wc + 2 E45", wc+2*e45)
	put("Wf", "Wc + 3 E45", wc+3*e45)
	put("Wg", "Wc + 4 E45", wc+4*e45)
	put("Wh", "Wb + 4 E45", wb+4*e45)
	put("Wo", "Wb + 5 E45", wb+5*e45)
	put("Wp", "Wb + 6 E45", wb+6*e45)
	wi1 := put("Wi1", "(t + 6) w' + 4 E45", (t+6)*w+4*e45)
	wi2 := put("Wi2", "Wi1 + 14 w'", wi1+14*w)
	b.put(Derived, "Wi2 by time flown", "Wi1 + 26 w'", b.length, 2, wi1+26*w)
	put("Wj", "Wi2 + E45", wi2+e45)
	put("Wk", "Wi2 + 2 E45", wi2+2*e45)
	put("Wm", "Wi2 + 3 E45", wi2+3*e45)
	put("Wn3", "Wi1 + 4 E45", wi1+4*e45)
	put("Wn4", "Wi2 + 4 E45", wi2+4*e45)
	sin20, cos20 := angle.Sincos(20)
	put("XE", "2 r + (t + 15) v + (t + 26 + 195/R) w'", 2*b.r+(t+15)*v+(t+26+195/b.rate)*w)
	put("YE", "11 v cos 20 + r (1 + sin 20) + (t + 15) v tan 5 + (t + 26 + 125/R) w'",
		11*v*cos20+b.r*(1+sin20)+(t+15)*v*math.Tan(5*math.Pi/180)+(t+26+125/b.rate)*w)
}

// lengthEntry is the point E of a leg with a length.
func (b *book) lengthEntry() {
	sin20, cos20 := angle.Sincos(20)
	b.put(Published, "XE", "2 r + D + 11 v + (22 + 195/R) w'", b.length, 2,
		2*b.r+b.l+11*b.v+(22+195/b.rate)*b.drift)
	b.put(Published, "YE", "11 v cos 20 + r (1 + sin 20) + (22 + 125/R) w'", b.length, 2,
		11*b.v*cos20+b.r*(1+sin20)+(22+125/b.rate)*b.drift)
}
