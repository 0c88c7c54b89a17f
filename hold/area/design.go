package area

import (
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// The book's temperature and bank.
//
// Source: ICAO Doc 8168 Vol II I-4-3-7 and table I-2-3-1.
const (
	BookWarmer wind.Deviation = 15
	BookBank   abeam.Degrees  = 25
)

// Design is what an area is designed for. Speed and altitude are always given; a zero in
// any other field leaves it to the book, and [Design.Filled] writes out what that is.
type Design struct {
	IAS      abeam.Knots // the highest protected: above 0, its true airspeed at most wind.MaxTAS
	Altitude abeam.Feet  // the highest protected: hold.MinAltitude to hold.MaxAltitude

	// Warmer is how much warmer than the standard atmosphere the air is. Zero is the book's
	// ISA+15, [BookWarmer]; with StandardDay it is taken as it stands, so that StandardDay
	// alone asks for ISA+0.
	Warmer      wind.Deviation
	StandardDay bool

	// Outbound is the time of the outbound leg in still air. Zero is the altitude's: 1 minute
	// to 14,000 ft, 1.5 above, as [hold.ICAO] has it.
	Outbound time.Duration
	// Length is that of an outbound leg that ends at a distance and not at a time, as an
	// RNAV system flies it: above 0 and at most [hold.MaxLength], measured over the ground from the end
	// of the outbound turn. Such a leg has no Outbound, and no allowance for timing or
	// heading. Zero is a leg by time. A leg to a DME limit is designed by its time; the limit
	// is [Design.DMELimit].
	Length abeam.NM

	// Bank is that of the turns, whose rate is never above 3 deg/s. Zero is the book's 25
	// degrees, [BookBank]; the rule is [hold.ICAOTurn].
	Bank abeam.Degrees

	// Wind is the speed of a wind from any direction: above 0, at most [wind.MaxSpeed] and
	// below the true airspeed. Zero is the book's, [wind.OmnidirectionalWind]; Calm asks for
	// none.
	Wind abeam.Knots
	Calm bool

	Allowances Allowances
}

// Filled gives the design with all that it leaves to the book written out. Filled again it
// is the same.
//
// Source: ICAO Doc 8168 Vol II I-4-3-7 and table I-2-3-1 for what the book has; leg times
// from Vol I (secondary copies).
//
// Errors: [abeam.ErrInvalid] for a field out of the range given there, for Outbound and
// Length together, Wind with Calm, a timing allowance longer than the outbound leg, or a
// bank that turns slower than [hold.MinRate]; [abeam.ErrUnflyable] for a wind as strong as
// the true airspeed.
func (d Design) Filled() (Design, error) {
	d, _, _, err := d.filled("area.Design.Filled")
	return d, err
}

// filled is Filled with the factor K and the turn, which it has to find to check them.
func (d Design) filled(op string) (Design, float64, hold.Turning, error) {
	fail := func(err error) (Design, float64, hold.Turning, error) { return Design{}, 0, hold.Turning{}, err }
	if err := check.Above(op, "IAS", d.IAS, 0, wind.MaxTAS); err != nil {
		return fail(err)
	}
	if err := check.Within(op, "altitude", d.Altitude, hold.MinAltitude, hold.MaxAltitude); err != nil {
		return fail(err)
	}
	if d.Warmer == 0 && !d.StandardDay {
		d.Warmer = BookWarmer
	}
	if err := check.Within(op, "deviation", d.Warmer, -wind.MaxDeviation, wind.MaxDeviation); err != nil {
		return fail(err)
	}
	k, _ := wind.DesignFactor(d.Altitude, d.Warmer) // both are in its range
	tas := d.IAS * abeam.Knots(k)
	if err := check.Above(op, "TAS", tas, 0, wind.MaxTAS); err != nil {
		return fail(err)
	}
	var err error
	if d.Allowances, err = d.Allowances.filled(op); err != nil {
		return fail(err)
	}
	if err := d.fillLeg(op); err != nil {
		return fail(err)
	}
	turn, err := d.fillTurn(op, tas)
	if err != nil {
		return fail(err)
	}
	if err := d.fillWind(op, tas); err != nil {
		return fail(err)
	}
	return d, k, turn, nil
}

func (d *Design) fillLeg(op string) error {
	if d.Length != 0 {
		if d.Outbound != 0 {
			return check.Invalid(op, "outbound time", d.Outbound, "zero where the leg has a length")
		}
		return check.Above(op, "length", d.Length, 0, hold.MaxLength)
	}
	if d.Outbound == 0 {
		band, _ := hold.ICAO().LegTime(d.Altitude) // which is in range
		d.Outbound = band.Time
	}
	if d.Outbound < 0 || d.Outbound > hold.MaxLeg {
		return check.Invalid(op, "outbound time", d.Outbound, "above 0s and at most "+hold.MaxLeg.String())
	}
	if d.Allowances.Timing > d.Outbound {
		return check.Invalid(op, "timing", d.Allowances.Timing, "at most the outbound time of "+d.Outbound.String())
	}
	return nil
}

func (d *Design) fillTurn(op string, tas abeam.Knots) (hold.Turning, error) {
	rule := hold.ICAOTurn()
	if d.Bank == 0 {
		d.Bank = BookBank
	}
	if err := check.Above(op, "bank", d.Bank, 0, hold.MaxBank); err != nil {
		return hold.Turning{}, err
	}
	rule.Bank = d.Bank
	turn, err := rule.At(tas)
	if err != nil { // with the airspeed and the bank in range, the rate is not
		return hold.Turning{}, check.Invalid(op, "bank", d.Bank, "enough to turn at "+hold.MinRate.String()+" at the true airspeed")
	}
	return turn, nil
}

func (d *Design) fillWind(op string, tas abeam.Knots) error {
	switch {
	case d.Calm && d.Wind != 0:
		return check.Invalid(op, "wind", d.Wind, "zero where it is calm")
	case d.Calm:
		return nil
	case d.Wind == 0:
		d.Wind, _ = wind.OmnidirectionalWind(d.Altitude) // which is in range
	}
	if err := check.Above(op, "wind", d.Wind, 0, wind.MaxSpeed); err != nil {
		return err
	}
	if !(d.Wind < tas) {
		return check.Unflyable(op, "wind", d.Wind, "below the true airspeed of "+tas.String())
	}
	return nil
}
