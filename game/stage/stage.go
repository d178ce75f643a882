// Package stage runs a session on the screen with Ebitengine: time passes with
// its ticks, and the picture is drawn only when something in it has changed.
// Pointer and keys belong to whoever shows the stage.
package stage

import (
	"time"

	"github.com/hajimehoshi/ebiten/v2"

	"wheelroom/game/figure"
	"wheelroom/game/paint"
	"wheelroom/game/scene"
	"wheelroom/game/session"
)

// A Stage is a session on the screen. It is an ebiten.Game.
type Stage struct {
	session *session.Session
	painter *paint.Painter
	palette func() *figure.Palette
	changed func()

	width, height int                // of the screen, device pixels
	took          [256]time.Duration // of the last frames, a ring
	frame         int                // counts them
	update        time.Duration      // of the frame begun

	// What the screen shows; when all are as they were nothing is drawn.
	drawn struct {
		scene   *scene.Scene
		palette *figure.Palette
		scale   float64
		lens    session.Lens
		looked  int
		width   int
		height  int
	}
}

// New puts a session on the stage. palette is asked before each drawing;
// changed is called when a page around the stage has something new to show.
// The fonts are TrueType.
func New(s *session.Session, palette func() *figure.Palette, changed func(), regular, bold []byte) (*Stage, error) {
	p, err := paint.New(regular, bold)
	if err != nil {
		return nil, err
	}
	return &Stage{session: s, painter: p, palette: palette, changed: changed}, nil
}

// Run opens the stage and returns when it is closed. The page gives the canvas
// device pixels and scales it itself, so Ebitengine must not.
func (s *Stage) Run() error {
	ebiten.SetScreenClearedEveryFrame(false)
	return ebiten.RunGameWithOptions(s, &ebiten.RunGameOptions{DisableHiDPI: true})
}

// Update lets one tick pass.
func (s *Stage) Update() error {
	start := time.Now()
	s.session.Tick(1.0 / float64(ebiten.TPS()))
	if s.session.Changed() {
		s.changed()
	}
	s.update += time.Since(start)
	return nil
}

// Took returns what the last frames' updates and drawing took of the
// processor, at most 256 of them.
func (s *Stage) Took() []time.Duration { return s.took[:min(s.frame, len(s.took))] }

// Draw brings the screen up to the session, and leaves it alone when it is.
func (s *Stage) Draw(screen *ebiten.Image) {
	start := time.Now()
	defer func() {
		s.took[s.frame%len(s.took)] = s.update + time.Since(start)
		s.frame, s.update = s.frame+1, 0
	}()
	sc, palette, scale, looked, lens := s.session.Scene(), s.palette(), s.scale(), s.session.Looked(), s.session.Lens()
	d := &s.drawn
	still := d.scene != sc || d.palette != palette || d.scale != scale || d.lens != lens
	if !still && d.looked == looked && d.width == s.width && d.height == s.height {
		return
	}
	d.scene, d.palette, d.scale, d.lens, d.looked, d.width, d.height = sc, palette, scale, lens, looked, s.width, s.height
	// The scene moves before what stands still is taken: a tall building's
	// window may have followed the car.
	moving := s.session.Moving()
	if still {
		s.painter.SetStill(s.session.Still(), scale, palette)
	}
	s.painter.Draw(screen, moving)
}

// Layout takes the canvas as it is.
func (s *Stage) Layout(width, height int) (int, int) {
	s.width, s.height = max(width, 1), max(height, 1)
	return s.width, s.height
}

// scale is device pixels to a unit of the picture.
func (s *Stage) scale() float64 {
	f := s.session.Scene().Still()
	return min(float64(s.width)/f.Width, float64(s.height)/f.Height)
}
