//go:build js

package main

import "errors"

// serveCommand is known here only to say why it cannot be had.
type serveCommand struct {
	Addr string `hidden:""`
	Site string `hidden:""`
}

// Run refuses: a program in WebAssembly has no sockets.
func (serveCommand) Run() error {
	return errors.New("wheelroom: serve needs a network, which a WebAssembly program does not have")
}
