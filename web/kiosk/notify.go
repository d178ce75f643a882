package kiosk

import (
	"net"
	"os"
)

// What systemd is told (sd_notify(3)).
const (
	Ready    = "READY=1"
	Watchdog = "WATCHDOG=1"
	Stopping = "STOPPING=1"
)

// Notify tells systemd how the service stands: one datagram to the socket that
// it names in NOTIFY_SOCKET. Where none is named there is nobody to be told.
func Notify(state string) error {
	name := os.Getenv("NOTIFY_SOCKET")
	if name == "" {
		return nil
	}
	socket, err := net.Dial("unixgram", name) // a name that begins with @ is an abstract one
	if err != nil {
		return err
	}
	defer socket.Close()
	_, err = socket.Write([]byte(state))
	return err
}
