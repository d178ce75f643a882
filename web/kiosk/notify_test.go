//go:build unix

package kiosk_test

import (
	"net"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/web/kiosk"
)

// sd_notify(3): one datagram to the socket named in NOTIFY_SOCKET.
func TestNotify(t *testing.T) {
	t.Setenv("NOTIFY_SOCKET", "")
	require.NoError(t, kiosk.Notify(kiosk.Ready), "nobody asked")

	name := filepath.Join(t.TempDir(), "socket")
	socket, err := net.ListenUnixgram("unixgram", &net.UnixAddr{Name: name, Net: "unixgram"})
	require.NoError(t, err)
	defer socket.Close()
	t.Setenv("NOTIFY_SOCKET", name)
	for _, state := range []string{"READY=1", "WATCHDOG=1", "STOPPING=1"} {
		require.NoError(t, kiosk.Notify(state))
		got := make([]byte, 64)
		n, err := socket.Read(got)
		require.NoError(t, err)
		assert.Equal(t, state, string(got[:n]))
	}
	t.Setenv("NOTIFY_SOCKET", name+"-none")
	assert.Error(t, kiosk.Notify(kiosk.Ready))
}
