package lift

import (
	"os"
	"strconv"
)

// multiplier is the setting WHEELROOM_RUNS: how many times the usual number
// of cases a property test tries. Unset means once.
func multiplier() int {
	if n, err := strconv.Atoi(os.Getenv("WHEELROOM_RUNS")); err == nil && n > 0 {
		return n
	}
	return 1
}
