package session

import (
	"encoding/json"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
	"wheelroom/lessons/exhibit"
	"wheelroom/lessons/script"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// openExhibit returns a session with the scenes, as the view has set it.
func openExhibit(t *testing.T) *Session {
	t.Helper()
	o := Options{Words: phrase.Phrase.String, Buildings: open(t).o.Buildings, Lessons: open(t).o.Lessons}
	for _, f := range exhibit.Files() {
		o.Scenes = append(o.Scenes, script.Later(script.Contents{ID: f.ID}, func() *script.Lesson {
			scene, problems := script.Read(f.ID, f.Text, shipped)
			require.False(t, document.Failed(problems), "%v", problems)
			return scene
		}))
	}
	s, err := New(o)
	require.NoError(t, err)
	exhibitSays(t, s, "mode")
	return s
}

func exhibitSays(t *testing.T, s *Session, what string) any {
	t.Helper()
	value, err := s.Screen(&figure.Paper, "exhibit", what, []byte("{}"))
	require.NoError(t, err)
	return value
}

func TestScenesAreNoPartOfTheCourse(t *testing.T) {
	s := openExhibit(t)
	list := exhibitSays(t, s, "scenes").(ExhibitScenes)
	assert.Equal(t, exhibit.Attract, list.Attract)
	require.Len(t, list.Scenes, len(exhibit.IDs()))
	for i, scene := range list.Scenes {
		assert.Equal(t, exhibit.IDs()[i], scene.ID)
		assert.NotEmpty(t, scene.Title)
		for _, l := range s.Lessons() {
			assert.NotEqual(t, scene.ID, l.ID)
		}
	}
	assert.Len(t, s.Lessons(), len(s.o.Lessons))
}

// playLoop runs the scene that attracts once, as the view does.
func playLoop(t *testing.T, s *Session) (parts []string) {
	t.Helper()
	require.NoError(t, s.LessonDo("open", exhibit.Attract+"/1"))
	for s.tutor.Phase() != tutor.Explained {
		require.NoError(t, s.Run())
		for s.running {
			s.Tick(0.05)
			s.Moving()
		}
		parts = append(parts, string(s.lit()))
	}
	return parts
}

// Each sentence is about the part whose event ended its stretch, and that part
// is in the picture.
func TestWhatASentenceIsAboutIsLit(t *testing.T) {
	s := openExhibit(t)
	assert.Empty(t, s.lit())
	assert.Equal(t, []string{"", "stop", "lamp.1", "relay.stop", "stop", "door"}, playLoop(t, s))
}

// An exhibit runs for days: after twenty rounds a session has kept no more
// than after two.
func TestRoundsLeaveNothingBehind(t *testing.T) {
	s := openExhibit(t)
	size := func() (record int, heap uint64) {
		text, err := json.Marshal(s.Record())
		require.NoError(t, err)
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return len(text), m.HeapAlloc
	}
	var record [2]int
	var heap [2]uint64
	for i, rounds := range []int{2, 18} {
		for range rounds {
			playLoop(t, s)
		}
		record[i], heap[i] = size()
	}
	assert.Equal(t, record[0], record[1])
	// A round that was kept would be some hundreds of kilobytes.
	assert.Less(t, float64(heap[1]), float64(heap[0])+200e3)
}
