package timing

import "testing"

// The seeds of the cells are the outputs of SplitMix64. Source: the first five for the seed
// 1234567, as many implementations of it give them (from memory); that they come out to the
// last of 64 bits is the check of the memory too.
func TestSeedsAreSplitMix64(t *testing.T) {
	for n, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821} {
		if got := mix(1234567, uint64(n)); got != want {
			t.Errorf("output %d: %d, want %d", n, got, want)
		}
	}
}
