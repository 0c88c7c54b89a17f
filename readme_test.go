package abeam_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// The code example of README.md, between the marks, is this body.
func Example_readme() {
	// README begins
	// Hold at a fix on the inbound course 075, right turns, 1 minute inbound.
	pattern, err := hold.NewPattern(hold.Fix{Ident: "TARNO"}, 75, hold.Right, hold.TimedInbound(time.Minute))
	if err != nil {
		fmt.Println(err)
		return
	}
	circuit, err := pattern.Circuit(hold.Flight{
		TAS: 118, Rate: hold.StandardRate, Wind: wind.Wind{From: 131, Speed: 19},
	})
	if err != nil {
		fmt.Println(err) // names the field, its value and its limit
		return
	}
	fmt.Printf("inbound heading %s, outbound heading %s for %.0f s by the clock\n",
		circuit.InboundHeading.ThreeFigures(), circuit.OutboundHeading.ThreeFigures(), circuit.Clock.Seconds())
	// README ends

	// Output: inbound heading 083, outbound heading 226 for 42 s by the clock
}

func TestReadmeShowsTheExample(t *testing.T) {
	source, err := os.ReadFile("readme_test.go")
	if err != nil {
		t.Fatal(err)
	}
	_, body, _ := strings.Cut(string(source), "\t// README begins\n")
	body, output, _ := strings.Cut(body, "\t// README ends\n")
	if body == "" {
		t.Fatal("the marks are gone")
	}
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	if code := strings.ReplaceAll("\n"+body, "\n\t", "\n"); !strings.Contains(string(readme), code) {
		t.Errorf("README.md does not hold this code:\n%s", code)
	}
	_, output, _ = strings.Cut(output, "// Output: ")
	output, _, _ = strings.Cut(output, "\n")
	if output == "" || !strings.Contains(string(readme), output) {
		t.Errorf("README.md does not hold the output %q", output)
	}
}
