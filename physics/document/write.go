package document

import (
	"strconv"
	"strings"
	"unicode"
)

// Write returns the document that Read turns into the variables' present
// values: every declared key in its order, one way of writing each value.
func Write(declare func(m *Mapping)) []byte {
	w := &writing{}
	declare(&Mapping{pass: w})
	return []byte(w.out.String())
}

// writing is the pass over one mapping being written, as a block at an indent.
type writing struct {
	out    strings.Builder
	indent string
}

func (w *writing) given(string) bool { return true }
func (w *writing) need([]string)     {}

func (w *writing) line(key, value string) {
	w.out.WriteString(w.indent + key + ":")
	if value != "" {
		w.out.WriteString(" " + value)
	}
	w.out.WriteString("\n")
}

func (w *writing) value(f Field, variable any) {
	switch v := variable.(type) {
	case *float64:
		w.line(f.Key, figure(*v, f.Limit))
	case **float64:
		if *v != nil {
			w.line(f.Key, figure(**v, f.Limit))
		}
	case *int:
		w.line(f.Key, strconv.Itoa(*v))
	case *bool:
		w.line(f.Key, strconv.FormatBool(*v))
	case *string:
		w.line(f.Key, quoted(*v))
	case *[]string:
		entries := make([]string, len(*v))
		for i, s := range *v {
			entries[i] = quoted(s)
		}
		w.line(f.Key, "["+listed(entries)+"]")
	}
}

func (w *writing) either(shared, first, second Field, a, b *float64) {
	if *a == *b {
		w.value(shared, a)
		return
	}
	w.value(first, a)
	w.value(second, b)
}

func (w *writing) mapping(f Field, declare func(p pass)) {
	inner := &writing{indent: w.indent + "  "}
	declare(inner)
	if inner.out.Len() == 0 {
		return
	}
	w.line(f.Key, "")
	w.out.WriteString(inner.out.String())
}

// list writes each entry as a block whose first line carries the dash.
func (w *writing) list(f Field, size int, _ func(n int), entry func(i int, p pass)) {
	if size == 0 && f.Limit.Min == 0 {
		return // may be left out
	}
	if size == 0 {
		w.line(f.Key, "[]")
		return
	}
	w.line(f.Key, "")
	for i := range size {
		inner := &writing{indent: w.indent + "    "}
		entry(i, inner)
		text := inner.out.String()
		if flow, ok := flowed(text, inner.indent); ok {
			w.out.WriteString(w.indent + "  - " + flow + "\n")
			continue
		}
		w.out.WriteString(w.indent + "  - " + strings.TrimPrefix(text, inner.indent))
	}
}

// flowed puts a block of a few short lines on one line, in braces.
func flowed(block, indent string) (string, bool) {
	lines := strings.Split(strings.TrimSuffix(block, "\n"), "\n")
	length := 0
	for i, l := range lines {
		lines[i] = strings.TrimPrefix(l, indent)
		length += len(lines[i])
		if strings.HasPrefix(lines[i], " ") || strings.HasSuffix(l, ":") {
			return "", false
		}
	}
	if length > 60 {
		return "", false
	}
	return "{" + strings.Join(lines, ", ") + "}", true
}

// figure spells v in the unit of the file with the fewest digits that read
// back as v. Thousandths are made by moving the point in the spelling.
func figure(v float64, l Limit) string {
	if !l.Milli {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	mantissa, exp, ok := strings.Cut(strconv.FormatFloat(v, 'e', -1, 64), "e")
	n, err := strconv.Atoi(exp)
	if !ok || err != nil {
		return mantissa // not a finite number; the reader refuses it
	}
	return unscientific(mantissa, n+3)
}

// unscientific writes mantissa × 10^exp without an exponent.
func unscientific(mantissa string, exp int) string {
	sign := ""
	if strings.HasPrefix(mantissa, "-") {
		sign, mantissa = "-", mantissa[1:]
	}
	head, tail, _ := strings.Cut(mantissa, ".")
	digits, point := head+tail, len(head)+exp
	switch {
	case point <= 0:
		digits, point = strings.Repeat("0", 1-point)+digits, 1
	case point > len(digits):
		digits += strings.Repeat("0", point-len(digits))
	}
	head = strings.TrimLeft(digits[:point], "0")
	if head == "" {
		head = "0"
	}
	if tail = strings.TrimRight(digits[point:], "0"); tail != "" {
		tail = "." + tail
	}
	return sign + head + tail
}

// quoted spells a text: bare where no reader could take it for anything else,
// in double quotes otherwise.
func quoted(s string) string {
	plain := s != "" && unicode.IsLetter([]rune(s)[0])
	for _, r := range s {
		plain = plain && (unicode.IsLetter(r) || unicode.IsDigit(r) || r == ' ' || r == '-')
	}
	if plain && !strings.HasSuffix(s, " ") && !reserved(s) {
		return s
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// reserved reports whether some reader of YAML takes the bare word for
// something other than a text.
func reserved(s string) bool {
	switch strings.ToLower(s) {
	case "true", "false", "yes", "no", "on", "off", "y", "n", "null":
		return true
	}
	return false
}
