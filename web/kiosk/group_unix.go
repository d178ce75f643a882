//go:build unix

package kiosk

import (
	"os/exec"
	"syscall"
)

// group has a browser and all that it starts end together.
func group(browser *exec.Cmd) { browser.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} }

// kill ends a browser and all that it has started, by force: one that hangs
// does not hear anything else.
func kill(browser *exec.Cmd) { syscall.Kill(-browser.Process.Pid, syscall.SIGKILL) }
