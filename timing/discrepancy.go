package timing

import (
	"math"
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/internal/check"
	"github.com/holdingfix/abeam/internal/clock"
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

// Proportional gives the next outbound time from the last lap, in proportion to the inbound
// time:
//
//	next = last x target/inbound
//
// A lap that took 60 s out and 90 s in against a target of 60 s asks for 40 s. An outbound
// time of 0 stays 0.
//
// Source: common practice. Each time is 0 to [hold.MaxLeg], the target and the inbound time
// above 0; an answer above [hold.MaxLeg] is brought down to it.
//
// Errors: [abeam.ErrInvalid] for a time out of range.
func Proportional(last, inbound, target time.Duration) (time.Duration, error) {
	const op = "timing.Proportional"
	if err := checkTimes(op, last, inbound, target, 1); err != nil {
		return 0, err
	}
	d, _ := clock.Duration(math.Min(last.Seconds()*(target.Seconds()/inbound.Seconds()), hold.MaxLeg.Seconds()))
	return d, nil
}

func discrepancy(op string, last, inbound, target, share time.Duration) (time.Duration, error) {
	if err := checkTimes(op, last, inbound, target, 0); err != nil {
		return 0, err
	}
	return max(0, last-(inbound-target)/share), nil
}

func checkTimes(op string, last, inbound, target, leastInbound time.Duration) error {
	for _, v := range []struct {
		field string
		d     time.Duration
		least time.Duration
	}{{"last outbound time", last, 0}, {"inbound time", inbound, leastInbound}, {"target", target, 1}} {
		if !(v.d >= v.least && v.d <= hold.MaxLeg) {
			return check.Invalid(op, v.field, v.d, "from "+v.least.String()+" to "+hold.MaxLeg.String())
		}
	}
	return nil
}
