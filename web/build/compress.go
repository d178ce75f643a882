package main

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"text/tabwriter"

	"github.com/andybalholm/brotli"
)

// A file smaller than this fits in one packet either way.
const smallest = 1400

// compress lays a .br and a .gz beside every file worth it: text and the
// programs. Fonts are compressed already.
func (s *site) compress(quality int) error {
	return filepath.WalkDir(s.out, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		switch filepath.Ext(path) {
		case ".html", ".css", ".js", ".json", ".svg", ".wasm":
		default:
			return nil
		}
		content, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if len(content) < smallest {
			// It may have been larger before.
			return errors.Join(remove(path+".br"), remove(path+".gz"))
		}
		var br, gz bytes.Buffer
		b := brotli.NewWriterOptions(&br, brotli.WriterOptions{Quality: quality, LGWin: 22})
		if err := squeeze(b, content); err != nil {
			return err
		}
		level := gzip.BestCompression
		if quality < 11 {
			level = gzip.BestSpeed
		}
		g, err := gzip.NewWriterLevel(&gz, level)
		if err != nil {
			return err
		}
		if err := squeeze(g, content); err != nil {
			return err
		}
		if err := os.WriteFile(path+".br", br.Bytes(), 0o644); err != nil {
			return err
		}
		return os.WriteFile(path+".gz", gz.Bytes(), 0o644)
	})
}

// remove deletes a file if it is there.
func remove(path string) error {
	if err := os.Remove(path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// squeeze writes all of content through w and closes it.
func squeeze(w io.WriteCloser, content []byte) error {
	if _, err := w.Write(content); err != nil {
		return err
	}
	return w.Close()
}

// report prints the sizes of the programs and of everything else together.
func (s *site) report(w io.Writer) error {
	var rest int64
	err := filepath.WalkDir(s.out, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		switch filepath.Ext(path) {
		case ".br", ".gz", ".wasm":
		default:
			rest += info.Size()
		}
		return nil
	})
	if err != nil {
		return err
	}
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, p := range programs {
		for _, suffix := range []string{"", ".br", ".gz"} {
			info, err := os.Stat(filepath.Join(s.out, p.file+suffix))
			if err != nil {
				return err
			}
			fmt.Fprintf(t, "%s%s\t%.2f MB\n", p.file, suffix, float64(info.Size())/1e6)
		}
	}
	fmt.Fprintf(t, "everything else\t%.2f MB\n", float64(rest)/1e6)
	return t.Flush()
}
