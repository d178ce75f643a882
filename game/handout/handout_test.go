package handout

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/assets/words/long"
	"wheelroom/game/figure"
	"wheelroom/lessons/course"
	"wheelroom/lessons/script"
	"wheelroom/lessons/sheet"
	"wheelroom/physics/building"
	"wheelroom/physics/phrase"
)

func buildings(id string) (*building.Plan, []string) {
	var known []string
	for _, b := range assets.Buildings() {
		known = append(known, b.ID)
		if b.ID == id {
			plan, _ := building.Read(b.ID, b.Text)
			return &plan, nil
		}
	}
	return nil, known
}

func catalogue(t *testing.T) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(assets.Words("en")...)
	require.NoError(t, err)
	return c
}

// sheets keeps what made has made: playing the course takes seconds.
var sheets = map[string]*sheet.Sheet{}

// made returns the sheet of a lesson of the course.
func made(t *testing.T, f course.File, words *phrase.Catalogue) *sheet.Sheet {
	t.Helper()
	if s := sheets[f.Name]; s != nil {
		return s
	}
	l, problems := script.Read(f.Name, f.Text, buildings)
	require.NotNil(t, l, "%s: %v", f.Name, problems)
	s, err := sheet.Make(l, words.Text)
	require.NoError(t, err, f.Name)
	sheets[f.Name] = s
	return s
}

// Every lesson of the course comes to paper: each item a page with caution and
// exact link, each kind of question with room for its answer, every word there.
func TestCourseOnPaper(t *testing.T) {
	words := catalogue(t)
	kinds := map[script.Kind]string{
		script.ChooseOne: `class="letters"`, script.ChooseSeveral: `class="letters"`, script.PointAtPart: `class="letters"`,
		script.FaultyPart: `class="letters"`, script.OrderStops: `class="boxes"`, script.SetSwitches: `class="stands"`,
		script.ReadNumber: `class="number"`, script.LampOut: `class="timeline"`,
	}
	for _, f := range course.Files() {
		s := made(t, f, words)
		text := Pages(s, Options{Words: words.Text, Address: "https://example.org/lift/", Answers: true})
		pages := strings.Split(text, `<table class="sheet"`)[1:]
		require.Len(t, pages, len(s.Items)+1, f.Name)
		for i := range s.Items {
			assert.Contains(t, pages[i], `href="https://example.org/lift/#lesson=`+s.ID+`&amp;item=`, f.Name)
			assert.Contains(t, pages[i], "authorised, competent people", f.Name)
			if room := kinds[s.Items[i].Asked.Kind]; room != "" {
				assert.Contains(t, pages[i], room, "%s, item %d", f.Name, i+1)
				outcome := s.Items[i].Told.Outcome
				require.NotNil(t, outcome, "%s, item %d", f.Name, i+1)
				assert.NotContains(t, pages[i], words.Text(phrase.Of("sheet.right", "answer", "")), "the answer is on another sheet")
				assert.True(t, s.Items[i].Told.Verdict.Right, "%s, item %d", f.Name, i+1)
			}
		}
	}
	assert.Empty(t, words.Missing())
}

// In the pictures no label touches anything and none is cut by the edge, in any
// language.
func TestPicturesAreClear(t *testing.T) {
	var tongues []*phrase.Catalogue
	for _, tag := range long.Languages() {
		c, err := phrase.ReadCatalogue(long.Of(tag)...)
		require.NoError(t, err)
		tongues = append(tongues, c)
	}
	for _, f := range course.Files() {
		s := made(t, f, catalogue(t))
		for i := range s.Items {
			for _, tongue := range tongues {
				whole := Picture(s.Items[i].Machine, tongue.Text)
				for _, clash := range whole.Clashes(0) {
					// A name may touch the box it names, and two lamps that are lit
					// at once share one row of the chart.
					own := clash.Text.Part == clash.Other.Part
					lamps := strings.HasPrefix(clash.Text.Part, "lamp.") && strings.HasPrefix(clash.Other.Part, "lamp.")
					assert.True(t, own || lamps, "%s, %s, item %d: %v", tongue.Language(), f.Name, i+1, clash)
				}
				for k := range whole.Items {
					if it := &whole.Items[k]; it.Shape == figure.Text {
						b := whole.Bounds(it)
						assert.True(t, b.X0 >= 0 && b.Y0 >= 0 && b.X1 <= pictureW && b.Y1 <= pictureH, "%s, %s: %q is cut", tongue.Language(), f.Name, it.Text)
					}
				}
			}
		}
	}
}

// Copied without colours, every line still stands out from the paper. The
// contrast of a grey is that of the colour it comes from, since both have one
// luminance; 7 to 1 is the enhanced contrast of WCAG 2.2, 1.4.6.
func TestInkNeedsNoColour(t *testing.T) {
	for role := figure.Ink; role < figure.Lamp; role++ {
		assert.GreaterOrEqual(t, figure.Contrast(Ink[role], Ink[figure.Ground]), 7.0, "role %d", role)
	}
}

// A set writes each picture once, however many copies use it, and its key
// stands behind.
func TestSetSharesItsPictures(t *testing.T) {
	words := catalogue(t)
	s := made(t, course.Files()[0], words)
	text := Pages(s, Options{Words: words.Text, Copies: 5, Seed: 3, Answers: true})
	assert.Equal(t, len(s.Items), strings.Count(text, `<g id="picture-`))
	assert.Equal(t, 5*len(s.Items), strings.Count(text, `class="picture"`))
	assert.Equal(t, 5*len(s.Items)+2, strings.Count(text, `class="sheet"`))
	assert.Contains(t, text, `<table class="key">`)
	assert.NotContains(t, text, "style=")
}

// What a lesson says is text, whatever it looks like.
func TestTextsAreNotMarkup(t *testing.T) {
	words := catalogue(t)
	s := *made(t, course.Files()[0], words)
	s.Title = `<script>alert(1)</script>`
	var b strings.Builder
	require.NoError(t, Write(&b, &s, Options{Words: words.Text, Language: "en"}))
	assert.NotContains(t, b.String(), "<script")
}
