package main

import "fmt"

// run prints the pure figures and the hash, for the native run to read.
func run() error {
	figures, err := pure()
	if err != nil {
		return err
	}
	for _, f := range figures {
		f.print("-wasm")
	}
	sum, err := hash()
	fmt.Printf("hash %016x\n", sum)
	return err
}
