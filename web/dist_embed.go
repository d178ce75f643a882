//go:build dist

// Package web holds the finished site, built into the program.
package web

import (
	"embed"
	"io/fs"
)

//go:embed all:dist
var files embed.FS

// Dist is the finished site.
var Dist fs.FS = site()

func site() fs.FS {
	sub, err := fs.Sub(files, "dist")
	if err != nil {
		panic("web: " + err.Error())
	}
	return sub
}
