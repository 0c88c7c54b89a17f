package timing

import (
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
)

// FullDiscrepancy gives the next outbound time from the last lap, correcting by the
// whole error of the inbound time:
//
//	next = last - (inbound - target), never below 0
//
// A lap that took 60 s out and 50 s in against a target of 60 s asks for 70 s.
//
// Source: CNATRA P-871 p77, P-801 p135. Each time is 0 to [hold.MaxLeg], the target
// above 0.
//
// Errors: [abeam.ErrInvalid] for a time out of range.
func FullDiscrepancy(last, inbound, target time.Duration) (time.Duration, error) {
	return discrepancy("timing.FullDiscrepancy", last, inbound, target, 1)
}

// HalfDiscrepancy gives the next outbound time from the last lap, correcting by half
// the error of the inbound time:
//
//	next = last - (inbound - target)/2, never below 0
//
// A lap that took 60 s out and 84 s in against a target of 60 s asks for 48 s.
//
// Source: common practice. Ranges and errors as [FullDiscrepancy].
func HalfDiscrepancy(last, inbound, target time.Duration) (time.Duration, error) {
	return discrepancy("timing.HalfDiscrepancy", last, inbound, target, 2)
}

func discrepancy(op string, last, inbound, target, share time.Duration) (time.Duration, error) {
	for _, v := range []struct {
		field string
		d     time.Duration
		least time.Duration
	}{{"last outbound time", last, 0}, {"inbound time", inbound, 0}, {"target", target, 1}} {
		if !(v.d >= v.least && v.d <= hold.MaxLeg) {
			return 0, check.Invalid(op, v.field, v.d, "from "+v.least.String()+" to "+hold.MaxLeg.String())
		}
	}
	return max(0, last-(inbound-target)/share), nil
}
