//go:build !js

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"wheelroom/web/compile"
)

// The size of an Ebitengine v2.10.4 program that draws one line of text with
// GoXFace, brotli 11, measured with Go 1.26.8.
const lineOfTextMB = 2.40

// run prints every figure: natively, in WebAssembly under Node, the sizes of
// the built site, and those of the page in a browser.
func run() error {
	figures, err := pure()
	if err != nil {
		return err
	}
	for _, f := range figures {
		f.print("-native")
	}
	proofs, err := proofTimes()
	if err != nil {
		return err
	}
	frame, err := frameAllocations()
	if err != nil {
		return err
	}
	for _, f := range append(proofs, frame) {
		f.print("")
	}
	if err := inNode(); err != nil {
		return err
	}
	if err := size(); err != nil {
		return err
	}
	return inBrowser()
}

// inNode runs this program built for js/wasm and compares the hashes.
func inNode() error {
	runner, err := compile.Runner()
	if err != nil {
		return err
	}
	c := compile.Small.Go("run", "-exec="+runner, "./web/measure")
	c.Stderr = os.Stderr
	out, err := c.Output()
	if err != nil {
		return err
	}
	lines, theirs, found := bytes.Cut(out, []byte("hash "))
	if !found {
		return fmt.Errorf("no hash from WebAssembly")
	}
	os.Stdout.Write(lines)
	ours, err := hash()
	if err != nil {
		return err
	}
	same := figure{"same-hash-native-and-wasm", 0, "yes=1"}
	if strings.TrimSpace(string(theirs)) == fmt.Sprintf("%016x", ours) {
		same.value = 1
	}
	same.print("")
	return nil
}

// size compares the program, compressed, with the least that draws text.
func size() error {
	info, err := os.Stat("web/dist/stage.wasm.br")
	if err != nil {
		return fmt.Errorf("%w (make site builds it)", err)
	}
	mb := float64(info.Size()) / 1e6
	figure{"program-brotli", mb, "MB"}.print("")
	figure{"program-brotli-to-a-line-of-text", mb / lineOfTextMB, "times"}.print("")
	return nil
}

// inBrowser builds the empty program to compare with and lets the browser's
// script measure both.
func inBrowser() error {
	const out = "web/check/out"
	for _, c := range []*exec.Cmd{
		exec.Command("go", "build", "-o", out+"/wheelroom", "./web/cmd/wheelroom"),
		compile.Fast.Go("build", "-tags=measure", "-o", out+"/empty/empty.wasm", "./web/measure/empty"),
	} {
		c.Stderr = os.Stderr
		if err := c.Run(); err != nil {
			return err
		}
	}
	for name, from := range map[string]string{
		"wasm_exec.js": "web/dist/frame/wasm_exec.js",
		"index.html":   "web/measure/empty/index.html",
		"start.js":     "web/measure/empty/start.js",
	} {
		text, err := os.ReadFile(from)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(out, "empty", name), text, 0o644); err != nil {
			return err
		}
	}
	c := exec.Command("node", "figures.mjs")
	c.Dir = "web/check"
	c.Stdout, c.Stderr = os.Stdout, os.Stderr
	return c.Run()
}
