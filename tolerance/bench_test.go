package tolerance

import (
	"bytes"
	"slices"
	"testing"
	"time"

	"github.com/holdingfix/abeam/hold"
	"github.com/holdingfix/abeam/wind"
)

// day is a log of about n samples at 10 Hz, as a file: laps without end.
func day(tb testing.TB, n int) []byte {
	plan := testPlan(tb, hold.Right, wind.Wind{From: 200, Speed: 15})
	plan.Step = 100 * time.Millisecond
	plan.Noise = Noise{Altitude: 20, IAS: 2, Heading: 1, Groundspeed: 1, Track: 1}
	lap := plan.Laps[2]
	plan.Laps = slices.Repeat([]PlannedLap{lap}, max(1, n/2380))
	var file bytes.Buffer
	log := logOf(tb, plan)
	if err := log.WriteCSV(&file); err != nil {
		tb.Fatal(err)
	}
	return file.Bytes()
}

// BenchmarkMillion reads a million samples, a day at 10 Hz, cuts and judges them in one
// pass, and a tenth of it. Run it with -cpu 1 for the time of one core.
func BenchmarkMillion(b *testing.B) {
	for _, size := range []struct {
		name string
		n    int
	}{{"day", 1_000_000}, {"tenth", 100_000}} {
		b.Run(size.name, func(b *testing.B) {
			file := day(b, size.n)
			plan := testPlan(b, hold.Right, wind.Wind{From: 200, Speed: 15})
			s, c := FAAInstrument(), Clearance{Pattern: plan.Pattern, Altitude: 7000, IAS: 105, Guidance: GPSTerminal()}
			b.ReportAllocs()
			var n int
			for b.Loop() {
				log, err := ReadCSV(bytes.NewReader(file), nil)
				if err != nil {
					b.Fatal(err)
				}
				d, err := NewDebrief(log, c, s)
				if err != nil || len(d.Flown.Laps) < 30 {
					b.Fatal(err, len(d.Flown.Laps))
				}
				n = len(log.Samples)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/sample")
			b.ReportMetric(float64(n), "samples")
		})
	}
}

// BenchmarkRatio reports what each step costs beside the reading of the file, and how the
// cost grows from a tenth of a day to a day: 1 where it is linear.
func BenchmarkRatio(b *testing.B) {
	file, tenth := day(b, 1_000_000), day(b, 100_000)
	plan := testPlan(b, hold.Right, wind.Wind{From: 200, Speed: 15})
	s, c := FAAInstrument(), Clearance{Pattern: plan.Pattern, Altitude: 7000, IAS: 105, Guidance: GPSTerminal()}
	var spent [5]time.Duration
	var small time.Duration
	var n, m int
	for b.Loop() {
		start := time.Now()
		lap := func(i int) {
			now := time.Now()
			spent[i] += now.Sub(start)
			start = now
		}
		log, err := ReadCSV(bytes.NewReader(file), nil)
		if err != nil {
			b.Fatal(err)
		}
		lap(0)
		f, err := Cut(log, c.Pattern)
		if err != nil {
			b.Fatal(err)
		}
		lap(1)
		if _, err := Judge(log, f, s, c); err != nil {
			b.Fatal(err)
		}
		lap(2)
		if _, err := EstimateWind(log, f.Span(), 14); err != nil {
			b.Fatal(err)
		}
		lap(3)
		if _, err := Infer(log); err != nil {
			b.Fatal(err)
		}
		lap(4)
		n += len(log.Samples)
		log, err = ReadCSV(bytes.NewReader(tenth), nil)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := NewDebrief(log, c, s); err != nil {
			b.Fatal(err)
		}
		small += time.Since(start)
		m += len(log.Samples)
	}
	b.ReportMetric(0, "ns/op")
	read := float64(spent[0])
	b.ReportMetric(float64(spent[1])/read, "cut/read")
	b.ReportMetric(float64(spent[2])/read, "judge/read")
	b.ReportMetric(float64(spent[3])/read, "wind/read")
	b.ReportMetric(float64(spent[4])/read, "infer/read")
	all := float64(spent[0]+spent[1]+spent[2]+spent[3]) / float64(n)
	b.ReportMetric(all/(float64(small)/float64(m)), "day/tenth")
}
