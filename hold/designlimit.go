package hold

import (
	"math"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/wind"
)

// DesignLimit is the DME limit of an outbound leg as procedure design computes it.
type DesignLimit struct {
	Exact abeam.NM
	// Charted is Exact rounded to a whole mile: up, but down where the fraction is below
	// 0.25 to 14,000 ft, below 0.5 above.
	Charted abeam.NM
}

// DesignDMELimit is the DME limit that gives an outbound leg of a time in still air, for
// a hold inbound toward the station whose fix is at a DME distance:
//
//	DL = sqrt((Ds + ds)² + 4 r² + 0.027 h²),  Ds = sqrt(D² - 0.027 h²),  ds = V t
//
// with r the radius of turn and h the height above the station in thousands of feet,
// 0.027 h² its square in NM², rounded from 0.02709. The time is 1 minute to 14,000 ft,
// 1.5 above (see [Rules.LegTime]); the airspeed that of [wind.DesignTAS].
//
// Source: ICAO Doc 8168 Vol II (2006) I-4-3, Appendix C-13 and Diagram C-15, whose example
// is 30 NM, 220 KIAS, 14,000 ft: 35 NM.
//
// Fix is above 0 and at most [MaxLength], the time above 0 and at most [MaxLeg].
//
// Errors: [abeam.ErrInvalid] for input out of range; [abeam.ErrUnflyable] for a reading
// over the fix smaller than the height.
func DesignDMELimit(fix abeam.NM, tas abeam.Knots, rate Rate, height abeam.Feet, outbound time.Duration) (DesignLimit, error) {
	const op = "hold.DesignDMELimit"
	if err := check.Above(op, "fix DME", fix, 0, MaxLength); err != nil {
		return DesignLimit{}, err
	}
	if err := check.Above(op, "TAS", tas, 0, wind.MaxTAS); err != nil {
		return DesignLimit{}, err
	}
	if err := check.Within(op, "rate of turn", rate, MinRate, MaxRate); err != nil {
		return DesignLimit{}, err
	}
	if err := check.Within(op, "height", height, 0, MaxAltitude); err != nil {
		return DesignLimit{}, err
	}
	if !(outbound > 0 && outbound <= MaxLeg) {
		return DesignLimit{}, check.Invalid(op, "outbound time", outbound, "above 0s and at most "+MaxLeg.String())
	}
	d, h := float64(fix), float64(height)/1000
	up := math.Sqrt(0.027 * h * h)
	if !(d >= up) {
		return DesignLimit{}, belowHeight(op, "fix DME", fix, abeam.NM(up))
	}
	r := float64(tas) / (20 * math.Pi * float64(rate))
	along := math.Sqrt((d-up)*(d+up)) + float64(tas)*outbound.Hours()
	exact := math.Sqrt(along*along + 4*r*r + up*up)
	charted := math.Ceil(exact)
	down := 0.25
	if height > 14000 {
		down = 0.5
	}
	if whole := math.Floor(exact); exact-whole < down {
		charted = whole
	}
	return DesignLimit{Exact: abeam.NM(exact), Charted: abeam.NM(charted)}, nil
}
