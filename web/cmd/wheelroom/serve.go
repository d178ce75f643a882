//go:build !js

package main

import (
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"time"

	"wheelroom/web"
	"wheelroom/web/serve"
)

// serveCommand serves the site until it is stopped.
type serveCommand struct {
	Addr string `default:"127.0.0.1:8080" placeholder:"HOST:PORT"`
	Site string `default:"web/dist"`
}

// Run listens, prints the page's address and serves.
func (c serveCommand) Run(out io.Writer) error {
	site := web.Dist
	if site == nil {
		site = os.DirFS(c.Site)
	}
	if _, err := fs.Stat(site, "index.html"); err != nil {
		return fmt.Errorf("wheelroom: no page in %s: build it with \"make site\"", c.Site)
	}
	listener, err := net.Listen("tcp", c.Addr)
	if err != nil {
		return fmt.Errorf("wheelroom: %w", err)
	}
	fmt.Fprintf(out, "http://%s/\n", listener.Addr())
	server := &http.Server{Handler: serve.Handler(site), ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 2 * time.Minute}
	return server.Serve(listener)
}
