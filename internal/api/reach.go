package api

import (
	"fmt"
	"slices"
	"strings"
)

// Reached gives the names of the functions of which a coverage profile says that a part
// was run.
func Reached(funcs []Func, profile string) (map[string]bool, error) {
	inFile := map[string][]Func{}
	for _, f := range funcs {
		inFile[f.File] = append(inFile[f.File], f)
	}
	reached := map[string]bool{}
	for line := range strings.Lines(profile) {
		if strings.HasPrefix(line, "mode:") {
			continue
		}
		file, block, ok := strings.Cut(line, ":")
		var from, to Place
		var statements, count int
		if _, err := fmt.Sscanf(block, "%d.%d,%d.%d %d %d", &from.Line, &from.Column, &to.Line, &to.Column, &statements, &count); err != nil || !ok {
			return nil, fmt.Errorf("the profile has the line %q: %w", line, err)
		}
		for _, f := range inFile[file] {
			if count > 0 && f.From.before(from) && from.before(f.To) {
				reached[f.Name] = true
			}
		}
	}
	return reached, nil
}

// Complaints names every function that is neither reached nor excused with a reason,
// and every excuse without a need.
func Complaints(funcs []Func, reached map[string]bool, excused map[string]string) []string {
	var all []string
	known := map[string]bool{}
	for _, f := range funcs {
		known[f.Name] = true
		if _, ok := excused[f.Name]; !ok && !reached[f.Name] {
			all = append(all, f.Name+" is reached by no reference row and no Example with an output")
		}
	}
	for name, reason := range excused {
		switch {
		case !known[name]:
			all = append(all, name+" is excused but does not exist")
		case reached[name]:
			all = append(all, name+" is excused but reached")
		case reason == "":
			all = append(all, name+" is excused without a reason")
		}
	}
	slices.Sort(all)
	return all
}
