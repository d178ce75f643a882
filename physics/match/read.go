package match

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"wheelroom/physics/phrase"
)

// The words of a file that are no lamps and no states of one. No floor's name
// is as long.
const (
	departWord = "depart"
	arriveWord = "arrive"
)

var heading = []string{"time_s", "lamp", "state"}

// Read reads an observation as CSV with the heading time_s,lamp,state: lamp is
// a floor's name, state on or off. A row may also say depart or arrive, with
// the floor's name beside it, or nothing ("" or "-"). Everything that is wrong is returned,
// in the order of the rows; with any problem the observation is nil.
func Read(text []byte, floors []string) (*Observation, []Problem) {
	var o Observation
	var out []Problem
	add := func(row int, id string, slots ...any) {
		out = append(out, Problem{Row: row, Say: phrase.Of("match."+id, append([]any{"row", row}, slots...)...)})
	}
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))))
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = true
	r.ReuseRecord = true
	lastRow, lastS := 0, math.Inf(-1)
	for n := 0; ; n++ {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			if n == 0 {
				add(1, "heading", "heading", strings.Join(heading, ","))
			}
			break
		}
		var broken *csv.ParseError
		if errors.As(err, &broken) {
			add(broken.StartLine, "quotes")
			break
		}
		row, _ := r.FieldPos(0)
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		switch {
		case n == 0:
			if !slices.Equal(cells, heading) {
				add(row, "heading", "heading", strings.Join(heading, ","))
				return nil, out
			}
			continue
		case n > mostRows:
			add(row, "too-long", "most", mostRows)
			return nil, out
		case len(cells) == 2 && (cells[1] == departWord || cells[1] == arriveWord):
			cells = append(cells, "")
		case len(cells) != len(heading):
			add(row, "cells", "count", len(cells), "wanted", len(heading))
			continue
		}
		timeS, err := strconv.ParseFloat(cells[0], 64)
		if err != nil || !(timeS >= 0 && timeS <= LongestS) {
			add(row, "time", "found", shown(cells[0]), "most", phrase.Num(LongestS, 0))
			continue
		}
		if timeS < lastS {
			add(row, "time-backwards", "time", seconds(timeS), "before", seconds(lastS), "other", lastRow)
		}
		lastRow, lastS = row, timeS
		if mark, beside := marked(cells); mark != "" {
			o.mark(mark, beside, row, timeS, floors, add)
			continue
		}
		floor := slices.Index(floors, cells[1])
		if floor < 0 {
			add(row, "unknown-lamp", "found", shown(cells[1]), "lamps", strings.Join(floors, ", "))
		}
		if cells[2] != "on" && cells[2] != "off" {
			add(row, "state", "found", shown(cells[2]))
		} else if floor >= 0 {
			o.Edges = append(o.Edges, Edge{Row: row, TimeS: timeS, Floor: floor, On: cells[2] == "on"})
		}
	}
	if len(out) == 0 {
		out = o.Check(floors)
	}
	if len(out) > 0 {
		return nil, out
	}
	return &o, nil
}

// marked returns the word of a row that is no lamp's, and what stands beside it.
func marked(cells []string) (word, beside string) {
	for i, other := range [...]int{1: 2, 2: 1} {
		if i > 0 && (cells[i] == departWord || cells[i] == arriveWord) {
			return cells[i], cells[other]
		}
	}
	return "", ""
}

// mark notes a departure or an arrival.
func (o *Observation) mark(word, beside string, row int, timeS float64, floors []string, add func(int, string, ...any)) {
	floor := -1
	if beside != "" && beside != "-" && beside != word {
		if floor = slices.Index(floors, beside); floor < 0 {
			add(row, "unknown-lamp", "found", shown(beside), "lamps", strings.Join(floors, ", "))
		}
	}
	to := &o.Depart
	if word == arriveWord {
		to = &o.Arrive
	}
	if *to != nil {
		add(row, "mark-twice", "word", word, "other", (*to).Row)
		return
	}
	*to = &Mark{Row: row, TimeS: timeS, Floor: floor}
}

// shown is a cell as a message shows it: in one line, and not for ever.
func shown(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "?"))
	if r := []rune(s); len(r) > 24 {
		return string(r[:24]) + "…"
	}
	return s
}

func itoa(n int) string { return strconv.Itoa(n) }
