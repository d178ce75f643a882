//go:build !unix

package kiosk

import "os/exec"

func group(*exec.Cmd) {}

// kill ends a browser by force.
func kill(browser *exec.Cmd) { browser.Process.Kill() }
