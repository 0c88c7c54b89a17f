package main

import (
	"fmt"
	"io"

	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/internal/reference"
)

// markdown writes the page that CHECKS.md is.
func markdown(w io.Writer, s summary, others string) {
	fmt.Fprintf(w, `# What is checked against what

%s

%d %s. Written by
`+"`go -C examples run ./checks -markdown`; `-rows` prints every figure"+`.

| figures | class | |
|---:|---|---|
`, program.Caution, s.figures, s.heading())
	for _, c := range reference.Classes() {
		fmt.Fprintf(w, "| %d | %s | %s |\n", s.classes[c], c, c.Meaning())
	}
	fmt.Fprintf(w, "\n%s %s\n\n| source | class | figures | worst deviation | of tolerance |\n|---|---|---:|---|---:|\n", reading, others)
	for i, l := range s.lines {
		source := l.source
		if i > 0 && s.lines[i-1].source == source {
			source = ""
		}
		deviation, part := l.worstOf()
		fmt.Fprintf(w, "| %s | %s | %d | %s | %s |\n", source, l.class, l.figures, deviation, part)
	}
}
