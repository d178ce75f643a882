//go:build !dist

// Package web holds the finished site when it is built into a program with
// the tag dist; without the tag it holds nothing.
package web

import "io/fs"

// Dist is the finished site, or nil where it is not built in.
var Dist fs.FS
