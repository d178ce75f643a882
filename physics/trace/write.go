package trace

import (
	"bufio"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// WriteCSV writes rows as CSV with the heading time_s,signal,value.
func WriteCSV(w io.Writer, rows []Row) error {
	c := csv.NewWriter(w)
	if err := c.Write([]string{"time_s", "signal", "value"}); err != nil {
		return err
	}
	for _, r := range rows {
		if err := c.Write([]string{seconds(r.TimeS), r.Signal, r.Value}); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

func seconds(t float64) string { return strconv.FormatFloat(t, 'f', 3, 64) }

// WriteVCD writes rows as a value change dump with a time unit of 1 ms. 0 and
// 1 are wires, metres are reals, and words ("above", "open", a floor) are
// strings, which common viewers show though the standard leaves them out.
func WriteVCD(w io.Writer, rows []Row) error {
	b := bufio.NewWriter(w)
	fmt.Fprintln(b, "$timescale 1 ms $end")
	fmt.Fprintln(b, "$scope module lift $end")
	ids := map[string]string{}
	kinds := map[string]string{}
	for _, r := range rows {
		if _, ok := ids[r.Signal]; ok {
			continue
		}
		id := identifier(len(ids))
		ids[r.Signal], kinds[r.Signal] = id, kind(r)
		size := map[string]int{"wire": 1, "real": 64, "string": 1}[kinds[r.Signal]]
		// A point in a reference name is not allowed everywhere.
		fmt.Fprintf(b, "$var %s %d %s %s $end\n", kinds[r.Signal], size, id, strings.ReplaceAll(r.Signal, ".", "_"))
	}
	fmt.Fprintln(b, "$upscope $end\n$enddefinitions $end")
	last := int64(-1)
	for _, r := range rows {
		if ms := int64(math.Round(r.TimeS * 1000)); ms != last {
			fmt.Fprintf(b, "#%d\n", ms)
			last = ms
		}
		switch id := ids[r.Signal]; kinds[r.Signal] {
		case "wire":
			fmt.Fprintf(b, "%s%s\n", r.Value, id)
		case "real":
			fmt.Fprintf(b, "r%s %s\n", r.Value, id)
		default:
			fmt.Fprintf(b, "s%s %s\n", r.Value, id)
		}
	}
	return b.Flush()
}

// kind is a signal's type of variable, told by its name.
func kind(r Row) string {
	switch {
	case strings.HasPrefix(r.Signal, "car."):
		return "real"
	case strings.HasPrefix(r.Signal, "direction."), r.Signal == "stop", r.Signal == "door":
		return "string"
	}
	return "wire"
}

// identifier spells the nth short code from the printable characters.
func identifier(n int) string {
	const first, count = '!', '~' - '!' + 1
	code := ""
	for {
		code += string(rune(first + n%count))
		if n /= count; n == 0 {
			return code
		}
		n--
	}
}
