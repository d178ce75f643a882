//go:build js

// Command wasm is the program in the page's frame.
package main

func main() {}
