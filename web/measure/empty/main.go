//go:build measure

// Command empty is the least Ebitengine program: its frame rate is what the
// stage's is measured against.
package main

import "github.com/hajimehoshi/ebiten/v2"

type empty struct{}

func (empty) Update() error              { return nil }
func (empty) Draw(screen *ebiten.Image)  {}
func (empty) Layout(w, h int) (int, int) { return w, h }

func main() {
	if err := ebiten.RunGameWithOptions(empty{}, &ebiten.RunGameOptions{DisableHiDPI: true}); err != nil {
		panic(err)
	}
}
