// Package trial says how hard the tests are to try: few random cases by
// default, many where somebody has the time.
package trial

import (
	"os"
	"strconv"
)

// Runs returns how many cases a property test is to try where n are usual:
// n times the setting WHEELROOM_RUNS, a whole number; unset means once.
func Runs(n int) int {
	if k, err := strconv.Atoi(os.Getenv("WHEELROOM_RUNS")); err == nil && k > 0 {
		return n * k
	}
	return n
}
