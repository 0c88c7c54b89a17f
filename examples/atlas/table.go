package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/holdingfix/abeam"
	"github.com/holdingfix/abeam/timing"
)

type file struct {
	name string
	data []byte
}

// files makes all of them in memory: nothing is written until all of it is there.
func (a *atlas) files(ctx context.Context) ([]file, error) {
	table, err := a.table()
	if err != nil {
		return nil, err
	}
	tiles, err := a.tiles()
	if err != nil {
		return nil, err
	}
	all := []file{{"table.csv", table}, {"maps.csv", tiles}}
	type picture struct {
		name string
		draw func(format string) ([]byte, error)
	}
	pictures := []picture{{"convergence", a.convergence}, {"comparison", a.comparison}}
	for i := range a.wide.Outcomes {
		o := &a.wide.Outcomes[i]
		pictures = append(pictures, picture{"map-" + slug(o.Strategy), func(format string) ([]byte, error) { return a.heatMaps(o, format) }})
	}
	drawn := make([]file, 2*len(pictures))
	errs := make([]error, len(drawn))
	var next atomic.Int64
	var wait sync.WaitGroup
	for range max(1, min(a.workers(), len(drawn))) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(drawn) && ctx.Err() == nil; i = int(next.Add(1)) - 1 {
				p, format := pictures[i/2], [2]string{"png", "svg"}[i%2]
				drawn[i].name = p.name + "." + format
				if drawn[i].data, errs[i] = p.draw(format); errs[i] != nil {
					errs[i] = fmt.Errorf("%s: %w", p.name, errs[i])
				}
			}
		})
	}
	wait.Wait()
	if err := errors.Join(ctx.Err(), errors.Join(errs...)); err != nil {
		return nil, err
	}
	return append(all, drawn...), nil
}

func (a *atlas) workers() int {
	if a.study.Workers > 0 {
		return a.study.Workers
	}
	return runtime.GOMAXPROCS(0)
}

// slug makes a file name of a strategy's name.
func slug(name string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(name) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(r)
		} else {
			gap = true
		}
	}
	return b.String()
}

func num(x float64, digits int) string { return strconv.FormatFloat(x, 'f', digits, 64) }

// table is one row for each grid, strategy and lap.
func (a *atlas) table() ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	rows := [][]string{{
		"grid", "strategy", "lap", "laps_flown", "inbound_error_median_s", "inbound_error_95_s", "inbound_bias_median_s",
		"across_median_nm", "across_95_nm", "non_holding_side_share", "settled_within_5_s_share", "settled_within_10_s_share", "trials_failed",
	}}
	for _, set := range append([]timing.Results{a.wide}, a.sets...) {
		for _, o := range set.Outcomes {
			in5, in10 := uint64(0), uint64(0)
			for i, l := range o.Laps {
				in5, in10 = in5+o.Within5[i], in10+o.Within10[i]
				n := float64(max(1, l.Inbound.N()))
				trials := float64(max(1, o.Trials))
				rows = append(rows, []string{
					set.Grid, o.Strategy, strconv.Itoa(i + 1), strconv.FormatUint(l.Inbound.N(), 10),
					num(l.Inbound.AbsQuantile(0.5), 1), num(l.Inbound.AbsQuantile(0.95), 1), num(l.Inbound.Quantile(0.5), 1),
					num(l.Across.AbsQuantile(0.5), 2), num(l.Across.AbsQuantile(0.95), 2), num(float64(l.Astray)/n, 4),
					num(float64(in5)/trials, 4), num(float64(in10)/trials, 4), strconv.FormatUint(o.Failed, 10),
				})
			}
		}
	}
	if err := w.WriteAll(rows); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// tiles are the figures behind the heat maps.
func (a *atlas) tiles() ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	rows := [][]string{{"strategy", "wind_angle_deg", "wind_share_of_tas", "laps", "mean_inbound_error_s", "mean_across_nm"}}
	for i := range a.wide.Outcomes {
		o := &a.wide.Outcomes[i]
		for angle := -170; angle <= 180; angle += timing.MapAngle {
			for k := range timing.MapShares {
				share := float64(k) * timing.MapShareBy
				inbound, across, n := o.Map.At(abeam.Degrees(angle), share)
				if n == 0 {
					continue
				}
				rows = append(rows, []string{
					o.Strategy, strconv.Itoa(angle), num(share, 3), strconv.FormatUint(n, 10), num(inbound, 2), num(float64(across), 3),
				})
			}
		}
	}
	if err := w.WriteAll(rows); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
