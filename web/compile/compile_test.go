package compile_test

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/web/compile"
)

// The small manner is smaller, and both make programs that say the same.
func TestSmallIsSmaller(t *testing.T) {
	size := func(m compile.Manner) int64 {
		out := filepath.Join(t.TempDir(), "program.wasm")
		c := m.Go("build", "-o", out, "../measure")
		text, err := c.CombinedOutput()
		require.NoError(t, err, string(text))
		info, err := os.Stat(out)
		require.NoError(t, err)
		f, err := os.Open(out)
		require.NoError(t, err)
		defer f.Close()
		head, err := io.ReadAll(io.LimitReader(f, 4))
		require.NoError(t, err)
		assert.True(t, bytes.Equal(head, []byte("\x00asm")), "a program for the browser")
		return info.Size()
	}
	assert.Less(t, size(compile.Small), size(compile.Fast))
}
