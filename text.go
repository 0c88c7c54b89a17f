package abeam

import (
	"math"
	"strconv"
	"strings"
)

// appendNumber writes the shortest decimal that reads back as the same float64.
func appendNumber(dst []byte, x float64, unit string) []byte {
	return append(strconv.AppendFloat(dst, x, 'f', -1, 64), unit...)
}

func formatNumber(x float64, unit string) string { return string(appendNumber(nil, x, unit)) }

func appendFinite(dst []byte, op, field string, x float64, unit string) ([]byte, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil, invalid(op, field, x, "finite")
	}
	return appendNumber(dst, x, unit), nil
}

func unmarshalNumber[T ~float64](dst *T, op, field string, text []byte, unit string) error {
	x, err := parseNumber(op, field, string(text), "a finite number, in "+unit, unit)
	if err == nil {
		*dst = T(x)
	}
	return err
}

// parseNumber reads a plain decimal: digits, a point, a sign. The wider forms of
// strconv (hexadecimal, exponents, underscores, "inf") are nothing that people
// write on a kneeboard, and a slip of the keyboard must not become one.
func parseNumber(op, field, s, limit, unit string) (float64, error) {
	t := strings.TrimSpace(s)
	t = strings.TrimSpace(strings.TrimSuffix(t, unit))
	plain := t != "" && !strings.ContainsFunc(t, func(r rune) bool {
		return (r < '0' || r > '9') && r != '.' && r != '-' && r != '+'
	})
	x, err := strconv.ParseFloat(t, 64)
	if !plain || err != nil || math.IsInf(x, 0) {
		return 0, invalid(op, field, given(s), limit)
	}
	return x, nil
}

// given words a text for an error: quoted, so that the error stays one line of
// valid UTF-8 whatever was read, and short when the input is a whole file.
func given(s string) string {
	const most = 40
	if len(s) > most {
		s = s[:most] + "..."
	}
	return strconv.Quote(s)
}
