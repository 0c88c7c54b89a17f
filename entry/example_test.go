package entry_test

import (
	"fmt"
	"time"

	"github.com/holdingfix/abeam/entry"
	"github.com/holdingfix/abeam/hold"
)

func ExampleRules_Choose() {
	p, err := hold.NewPattern(hold.Fix{Ident: "TARNO"}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		fmt.Println(err)
		return
	}
	rule := entry.FAA()
	d, err := rule.Choose(p, 188)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v, %.0f degrees from the edge to %v (%v, %v)\n", d.Entry, d.Margin, d.Alternative, rule, rule.Source())
	// Output: teardrop, 3 degrees from the edge to direct (FAA, AIM 5-3-8 j.3, j.8(d))
}

func ExamplePublished() {
	p, err := hold.NewPattern(hold.Fix{Ident: "TARNO"}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, kind := range []entry.Kind{entry.Direct, entry.Teardrop, entry.Parallel} {
		pr, err := entry.Published(p, kind, 200, time.Minute)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: turn %v through %.0f to %.0f, %v, then %v\n", kind, pr.First, pr.Through, pr.Heading, pr.Time, pr.Return)
	}
	// Output:
	// direct: turn right through 55 to 255, 1m0s, then right
	// teardrop: turn right through 25 to 225, 1m0s, then right
	// parallel: turn right through 55 to 255, 1m0s, then left
}

func ExampleKind() {
	text, err := entry.Parallel.MarshalText()
	fmt.Println(string(text), err)
	var k entry.Kind
	fmt.Println(k)
	fmt.Println(k.UnmarshalText([]byte("teardrop")), k)
	// Output:
	// parallel <nil>
	// none
	// <nil> teardrop
}
