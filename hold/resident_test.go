package hold

import (
	"os"
	"strings"
)

// peakResident is the largest resident set of the process so far, where the system tells.
func peakResident() string {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return "peak resident set not known"
	}
	for line := range strings.Lines(string(status)) {
		if name, size, ok := strings.Cut(line, ":"); ok && name == "VmHWM" {
			return "peak resident set " + strings.TrimSpace(size)
		}
	}
	return "peak resident set not known"
}
