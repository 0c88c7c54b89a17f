package tolerance

// Debrief is all that can be said of one flown hold.
type Debrief struct {
	Flown     Flown
	Judgement Judgement
	// Wind is the estimate over the hold. Where there is none, NoWind says why, and with it
	// go Exact, Corrections and Advice.
	Wind        WindEstimate
	NoWind      string
	Exact       Exact
	Corrections []LapCorrection
	Advice      []Advice
}

// NewDebrief cuts, estimates, judges and advises in one.
//
// Errors: those of [Cut] and [Judge]. A wind that cannot be told is none: the reason is in
// the debrief.
func NewDebrief(l Log, c Clearance, s Standard) (Debrief, error) {
	f, err := Cut(l, c.Pattern)
	if err != nil {
		return Debrief{}, err
	}
	d := Debrief{Flown: f}
	if d.Judgement, err = Judge(l, f, s, c); err != nil {
		return Debrief{}, err
	}
	if err := d.air(l); err != nil {
		d.Wind, d.Exact, d.Corrections, d.Advice = WindEstimate{}, Exact{}, nil, nil
		d.NoWind = err.Error()
	}
	return d, nil
}

// air is what rests on the wind.
func (d *Debrief) air(l Log) (err error) {
	f := d.Flown
	if d.Wind, err = EstimateWind(l, f.Span(), f.Pattern.Fix().Variation); err != nil {
		return err
	}
	if d.Exact, err = ExactLap(f, d.Wind); err != nil {
		return err
	}
	if d.Corrections, err = Corrections(f, d.Exact); err != nil || len(d.Corrections) == 0 {
		return err // without a whole lap there is a wind, but nothing to compare
	}
	d.Advice, err = Advise(f, d.Exact, d.Corrections)
	return err
}
