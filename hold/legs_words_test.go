package hold

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/wind"
)

// What is refused names the range in the measure of the leg, and which way it must change.
func TestLegErrorsInTheirMeasure(t *testing.T) {
	timed, length := "above 0s and at most "+MaxLeg.String(), "above 0 NM and at most "+MaxLength.String()
	for _, tc := range []struct {
		leg   Leg
		limit string
	}{
		{TimedInbound(0), timed}, {TimedOutbound(0), timed}, {LengthInbound(0), length}, {LengthOutbound(0), length},
	} {
		_, err := NewPattern(Fix{}, 0, Right, tc.leg)
		if at, ok := errors.AsType[*abeam.FieldError](err); !ok || at.Limit != tc.limit {
			t.Errorf("%v: %v, want %s", tc.leg, err, tc.limit)
		}
	}
	// With a tailwind above half the airspeed no outbound leg of a minute gets clear of the
	// drift of the turns, and one of 0.8 NM does not at 50 kt: 50 x 60 s each way is 0.83 NM.
	for _, tc := range []struct {
		leg   Leg
		speed abeam.Knots
		limit string
	}{
		{TimedOutbound(time.Minute), 65, "longer: "},
		{LengthOutbound(0.8), 50, "farther from the fix: "},
	} {
		_, err := legPattern(t, tc.leg).Circuit(Flight{TAS: 120, Rate: 3, Wind: wind.Wind{From: 180, Speed: tc.speed}})
		if at, ok := errors.AsType[*abeam.FieldError](err); !ok || !errors.Is(err, abeam.ErrUnflyable) || !strings.HasPrefix(at.Limit, tc.limit) {
			t.Errorf("%v: %v, want %s", tc.leg, err, tc.limit)
		}
	}
}

// The limit lies beyond the fix or short of it, by the last bit, and within the range.
func TestLimitAtItsEnds(t *testing.T) {
	tiny := after(abeam.NM(0))
	for _, tc := range []struct {
		course     StationCourse
		fix, limit abeam.NM
		want       bool
	}{
		{Toward, 10, after(abeam.NM(10)), true}, {Toward, 10, 10, false}, {Toward, 10, before(abeam.NM(10)), false},
		{Toward, 10, MaxLength, true}, {Toward, 10, after(MaxLength), false},
		{Toward, 0, tiny, true}, {Toward, 0, 0, false}, {Toward, MaxLength, MaxLength, false},
		{Away, 10, before(abeam.NM(10)), true}, {Away, 10, 10, false}, {Away, 10, after(abeam.NM(10)), false},
		{Away, 10, tiny, true}, {Away, 10, 0, false}, {Away, 10, -tiny, false},
		{Away, MaxLength, before(MaxLength), true}, {Away, MaxLength, MaxLength, false}, {Away, 0, 0, false}, {Away, tiny, tiny, false},
	} {
		_, err := NewPattern(Fix{}, 0, Right, DMELimit(Station{Course: tc.course, Fix: tc.fix}, tc.limit))
		at, refused := errors.AsType[*abeam.FieldError](err)
		if refused == tc.want || refused && (!errors.Is(err, abeam.ErrInvalid) || at.Field != "DME limit") {
			t.Errorf("%v, fix %v, limit %v: %v", tc.course, tc.fix, tc.limit, err)
		}
	}
}
