package hold

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
)

// Both sides of every boundary, to the last representable altitude.
func TestBoundariesAreExact(t *testing.T) {
	for _, tc := range []struct {
		rules     Rules
		at        abeam.Feet
		low, high string
	}{
		{FAA(), 6000, "200 KIAS", "230 KIAS"},
		{FAA(), 14000, "230 KIAS", "265 KIAS"},
		{FAA210(), 6000, "200 KIAS", "210 KIAS"},
		{FAA210(), 14000, "210 KIAS", "265 KIAS"},
		{ICAO(), 14000, "230 KIAS", "240 KIAS"},
		{ICAO(), 20000, "240 KIAS", "265 KIAS"},
		{ICAO(), 34000, "265 KIAS", "M 0.83"},
		{ICAOEarlier(), 6000, "210 KIAS", "220 KIAS"},
		{ICAOTurbulence(), 14000, "280 KIAS", "the lesser of 280 KIAS and M 0.80"},
		{ICAOTurbulence(), 34000, "the lesser of 280 KIAS and M 0.80", "M 0.83"},
		{ICAOEarlier(), 14000, "220 KIAS", "240 KIAS"},
		{ICAOEarlier(), 20000, "240 KIAS", "265 KIAS"},
		{ICAOEarlier(), 34000, "265 KIAS", "M 0.83"},
		{Canada(), 6000, "200 KIAS", "230 KIAS"},
		{Canada(), 14000, "230 KIAS", "265 KIAS"},
		{CanadaShuttle(), 6000, "310 KIAS", "310 KIAS"},
		{Australia(), 14000, "230 KIAS", "240 KIAS"},
		{Australia(), 20000, "240 KIAS", "265 KIAS"},
		{Australia(), 34000, "265 KIAS", "265 KIAS"},
		{AustraliaCategoryAB(), 14000, "170 KIAS", "240 KIAS"},
		{ICAOHelicopter(), 6000, "100 KIAS", "170 KIAS"},
		{FAACopter(), 6000, "200 KIAS", "230 KIAS"},
	} {
		below := abeam.Feet(math.Nextafter(float64(tc.at), 0))
		above := abeam.Feet(math.Nextafter(float64(tc.at), 1e9))
		for altitude, want := range map[abeam.Feet]string{below: tc.low, tc.at: tc.low, above: tc.high} {
			band, err := tc.rules.SpeedLimit(altitude)
			if err != nil || band.Limit.String() != want || band.Source == "" {
				t.Errorf("%v at %v: %+v, %v, want %s", tc.rules, float64(altitude), band, err, want)
			}
		}
	}
	for _, r := range []Rules{FAA(), ICAO(), ICAOTurbulence(), Canada(), CanadaShuttle(), Australia(), ICAOHelicopter(), FAACopter()} {
		for altitude, want := range map[abeam.Feet]time.Duration{
			14000: time.Minute, abeam.Feet(math.Nextafter(14000, 15000)): 90 * time.Second,
		} {
			if band, err := r.LegTime(altitude); err != nil || band.Time != want {
				t.Errorf("%v at %v: %+v, %v", r, altitude, band, err)
			}
		}
	}
}

func TestRulesErrors(t *testing.T) {
	for _, altitude := range []abeam.Feet{abeam.Feet(math.NaN()), abeam.Feet(math.Inf(1)), -2001, 65618} {
		if _, err := FAA().SpeedLimit(altitude); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("speed limit at %v: %v", altitude, err)
		}
		if _, err := ICAO().LegTime(altitude); !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("leg time at %v: %v", altitude, err)
		}
	}
	_, speed := Rules{}.SpeedLimit(5000)
	_, leg := Rules{}.LegTime(5000)
	for _, err := range []error{speed, leg} {
		var field *abeam.FieldError
		if !errors.Is(err, abeam.ErrInvalid) || !errors.As(err, &field) || field.Field != "rules" {
			t.Errorf("no rules: %v", err)
		}
	}
	// Bands that end below the altitude.
	low := FAA()
	low.Speeds = low.Speeds[:1]
	var field *abeam.FieldError
	if _, err := low.SpeedLimit(6001); !errors.As(err, &field) || field.Field != "altitude" {
		t.Errorf("above all bands: %v", err)
	}
	// One caller's change must not reach another's rules.
	r := FAA()
	r.Speeds[0].Limit.IAS = 1
	if band, _ := FAA().SpeedLimit(1000); band.Limit.IAS != 200 {
		t.Error("rules share their bands")
	}
}

func TestTurnErrors(t *testing.T) {
	nan := math.NaN()
	for name, err := range map[string]error{
		"rate TAS":      second(RateAtBank(0, 20)),
		"rate TAS NaN":  second(RateAtBank(abeam.Knots(nan), 20)),
		"bank 0":        second(RateAtBank(120, 0)),
		"bank 61":       second(RateAtBank(120, 61)),
		"bank NaN":      second(RateAtBank(120, abeam.Degrees(nan))),
		"bank TAS":      second(BankAtRate(-1, 3)),
		"bank rate":     second(BankAtRate(120, 0)),
		"radius TAS":    second(Radius(801, 3)),
		"radius rate":   second(Radius(120, Rate(nan))),
		"rule empty":    second(TurnRule{}.At(120)),
		"rule TAS":      second(FAATurn().At(0)),
		"rule bank":     second(TurnRule{Bank: 61}.At(120)),
		"rule too fast": second(TurnRule{Bank: 60}.At(10)),
		"rule rate":     second(TurnRule{Rate: 31}.At(120)),
	} {
		if !errors.Is(err, abeam.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func second[T any](_ T, err error) error { return err }

// At 3 deg/s the bank grows with the airspeed until the bank limit takes over; there
// the two agree.
func TestTurnRuleHandsOver(t *testing.T) {
	for _, rule := range []TurnRule{FAATurn(), FAAFlightDirectorTurn(), ICAOTurn()} {
		last := abeam.Degrees(0)
		byBank := false
		for tas := abeam.Knots(60); tas <= 500; tas++ {
			turn, err := rule.At(tas)
			if err != nil {
				t.Fatal(err)
			}
			if turn.Bank > rule.Bank+1e-12 || turn.Rate > rule.Rate || turn.Bank < last-1e-12 {
				t.Fatalf("%v at %v: %+v", rule, tas, turn)
			}
			if byBank && !turn.ByBank {
				t.Fatalf("%v at %v: back to the rate", rule, tas)
			}
			if turn.ByBank == (turn.Rate == rule.Rate) {
				t.Fatalf("%v at %v: %+v", rule, tas, turn)
			}
			last, byBank = turn.Bank, turn.ByBank
		}
		if !byBank {
			t.Errorf("%v: the bank limit never governs", rule)
		}
	}
}
