package entry

// most is the number of pieces of the longest entry: one for each phase.
const most = 8

// piece is a straight leg or a turn of an entry, in the units of frame.
type piece struct {
	x, y     float64 // where it starts
	from, to float64 // headings, equal on a straight leg
	gx, gy   float64 // velocity over the ground on a straight leg
	through  float64 // angle of a turn, 0 on a straight leg
	t        float64
	sense    int8 // of a turn: 1 with the pattern, -1 against it; 0 on a straight leg
	phase    Phase
}

// path lays pieces end to end from the fix and keeps how far they reach.
type path struct {
	pieces [most]piece
	n      int
	x, y   float64
	h      dir
	// The extremes of x and y.
	beyond, outbound, widest, astray float64
}

func (pa *path) reach(x, y float64) {
	pa.beyond, pa.outbound = max(pa.beyond, x), max(pa.outbound, -x)
	pa.widest, pa.astray = max(pa.widest, y), max(pa.astray, -y)
}

func (pa *path) add(phase Phase) *piece {
	pc := &pa.pieces[pa.n]
	pa.n++
	pc.phase, pc.x, pc.y, pc.from, pc.to = phase, pa.x, pa.y, pa.h.deg, pa.h.deg
	return pc
}

// turn flies a turn through an angle that ends on the heading to. On the way it is
// furthest along or abreast where its velocity that way vanishes: on the headings
// fr.top and -fr.top, and on the inbound heading and 180 less it.
func (pa *path) turn(fr *frame, phase Phase, to dir, sense, angle float64) {
	if angle == 0 {
		pa.h = to
		return
	}
	pc := pa.add(phase)
	pc.sense, pc.through, pc.t, pc.to = int8(sense), angle, angle*fr.perRate, to.deg
	for _, at := range [...]dir{
		fr.top, {-fr.top.deg, -fr.top.sin, fr.top.cos},
		fr.in, {180 - fr.in.deg, fr.in.sin, -fr.in.cos},
	} {
		for swept := through(pa.h, at, sense); swept < angle; swept += 360 {
			dx, dy := fr.turned(pa.h, at, sense, swept)
			pa.reach(pa.x+dx, pa.y+dy)
		}
	}
	dx, dy := fr.turned(pa.h, to, sense, angle)
	pa.x, pa.y, pa.h = pa.x+dx, pa.y+dy, to
	pa.reach(pa.x, pa.y)
}

// straight holds the heading for a time.
func (pa *path) straight(fr *frame, phase Phase, t float64) {
	pc := pa.add(phase)
	pc.gx, pc.gy = fr.over(pa.h)
	pc.t = t
	pa.x, pa.y = pa.x+pc.gx*t, pa.y+pc.gy*t
	pa.reach(pa.x, pa.y)
}
