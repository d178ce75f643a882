package document

import (
	"math"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"wheelroom/physics/phrase"
)

// Why a written value is no number.
const (
	notNumber   = "number"
	notDecimal  = "decimal" // 0x10, 1_000, 010: numbers to some readers only
	notPoint    = "point"   // 4,2
	notWhole    = "whole"
	notUnquoted = "unquoted"
)

// number reads a plain decimal figure, with exponent appended to it, and says
// why it is none.
func number(n ast.Node, exponent string) (float64, string) {
	s, ok := asScalar(n)
	switch {
	case !ok:
		return 0, notNumber
	case s.quoted && decimal(s.text):
		return 0, notUnquoted
	case s.quoted:
		return 0, notNumber
	case !decimal(s.text):
		if strings.Count(s.text, ",") == 1 && decimal(strings.Replace(s.text, ",", ".", 1)) {
			return 0, notPoint
		}
		if !isText(n) {
			return 0, notDecimal
		}
		return 0, notNumber
	}
	text := s.text
	if exponent != "" && strings.ContainsAny(text, "eE") {
		// A figure with an exponent of its own cannot take a second one.
		v, err := strconv.ParseFloat(text, 64)
		scale, _ := strconv.ParseFloat("1"+exponent, 64)
		if err != nil {
			return 0, notNumber
		}
		return v * scale, ""
	}
	v, err := strconv.ParseFloat(text+exponent, 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, notNumber
	}
	return v, ""
}

// whole reads a plain whole figure and says why it is none.
func whole(n ast.Node) (int, string) {
	if _, err := number(n, ""); err != "" {
		return 0, err
	}
	s, _ := asScalar(n)
	v, err := strconv.ParseInt(s.text, 10, 32)
	if err != nil {
		return 0, notWhole
	}
	return int(v), ""
}

// decimal reports whether s is a figure everybody reads alike: sign, digits
// without leading zeros, fraction, exponent.
func decimal(s string) bool {
	if strings.HasPrefix(s, "+") || strings.HasPrefix(s, "-") {
		s = s[1:]
	}
	digits := func() int {
		n := 0
		for n < len(s) && s[n] >= '0' && s[n] <= '9' {
			n++
		}
		s = s[n:]
		return n
	}
	zero := strings.HasPrefix(s, "0")
	if n := digits(); n == 0 || zero && n > 1 {
		return false
	}
	if strings.HasPrefix(s, ".") {
		s = s[1:]
		if digits() == 0 {
			return false
		}
	}
	if strings.HasPrefix(s, "e") || strings.HasPrefix(s, "E") {
		s = s[1:]
		if strings.HasPrefix(s, "+") || strings.HasPrefix(s, "-") {
			s = s[1:]
		}
		if digits() == 0 {
			return false
		}
	}
	return s == ""
}

// remedy says how to write what was meant.
func remedy(why string, n ast.Node) phrase.Phrase {
	s, _ := asScalar(n)
	switch why {
	case notUnquoted:
		return phrase.Of("document.remedy-no-quotes", "text", excerpt(s.text))
	case notPoint:
		return phrase.Of("document.remedy-point", "text", excerpt(strings.Replace(s.text, ",", ".", 1)))
	case notDecimal:
		return phrase.Of("document.remedy-decimal")
	}
	return phrase.Phrase{}
}
