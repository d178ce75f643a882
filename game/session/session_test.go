package session

import (
	"encoding/json"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/lessons/course"
	"wheelroom/lessons/script"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// open returns a session with what ships, its phrases bare.
func open(t *testing.T) *Session {
	t.Helper()
	return openWith(t, phrase.Phrase.String)
}

func openWith(t *testing.T, words func(phrase.Phrase) string) *Session {
	t.Helper()
	o := Options{Words: words}
	for _, b := range assets.Buildings() {
		o.Buildings = append(o.Buildings, Building(b))
	}
	contents := course.Contents()
	for i, f := range course.Files() {
		o.Lessons = append(o.Lessons, script.Later(contents[i], func() *script.Lesson {
			lesson, problems := script.Read(f.Name, f.Text, shipped)
			require.False(t, document.Failed(problems), "%v", problems)
			return lesson
		}))
	}
	s, err := New(o)
	require.NoError(t, err)
	return s
}

func shipped(id string) (*building.Plan, []string) {
	for _, b := range assets.Buildings() {
		if b.ID == id {
			plan, _ := building.Read(b.ID, b.Text)
			return &plan, nil
		}
	}
	return nil, nil
}

func TestStartsPausedAndAtRest(t *testing.T) {
	s := open(t)
	assert.False(t, s.Tick(1), "time stands until Run")
	assert.Zero(t, s.Clock().TimeS)
	assert.Equal(t, "tidemill-house", s.Building().ID)
	require.NoError(t, s.Step())
	assert.Zero(t, s.Clock().TimeS, "nothing happens at rest, so a step waits for nothing")
	assert.Equal(t, "stage.at-rest", s.Clock().Said)
}

func TestSpeedsLetThatMuchTimePass(t *testing.T) {
	for _, speed := range Speeds {
		s := open(t)
		require.NoError(t, s.Speed(speed))
		require.NoError(t, s.Run())
		for range 60 {
			s.Tick(1.0 / 60)
		}
		assert.InDelta(t, speed, s.Clock().TimeS, 0.006, "one second of the viewer's, to the machine's step")
	}
	assert.Error(t, open(t).Speed(3))
}

// However time is let pass, the machine comes to the same state.
func TestTicksAndLeapsComeToTheSame(t *testing.T) {
	run := func(speed float64) uint64 {
		s := open(t)
		require.NoError(t, s.Call("3"))
		require.NoError(t, s.Call("1"))
		require.NoError(t, s.Speed(speed))
		require.NoError(t, s.Run())
		for s.Clock().TimeS < 24-1e-9 {
			s.Tick(1.0 / 64)
		}
		return s.Machine().Hash()
	}
	leap := open(t)
	require.NoError(t, leap.Call("3"))
	require.NoError(t, leap.Call("1"))
	require.NoError(t, leap.Advance(24))
	assert.Equal(t, leap.Machine().Hash(), run(1))
	assert.Equal(t, leap.Machine().Hash(), run(16))
}

func TestEveryStepSaysSomethingNew(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("2"))
	last := s.Clock()
	for s.Snapshot().Car.Stop != "2" {
		require.NoError(t, s.Step())
		now := s.Clock()
		require.Greater(t, now.SaidCount, last.SaidCount)
		require.GreaterOrEqual(t, now.TimeS, last.TimeS)
		last = now
	}
	assert.False(t, s.Clock().Running)
}

func TestRefusalsChangeNothing(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("1"))
	require.NoError(t, s.Advance(3))
	before, hash := s.Clock(), s.Machine().Hash()
	for name, err := range map[string]error{
		"no such floor":    s.Call("9"),
		"no such building": s.Open("castle"),
		"backwards":        s.Advance(-1),
		"a year":           s.Advance(3e7),
		"no such picture":  s.View("cellar"),
		"no such part":     s.Choose("relay.sideways"),
		"nothing chosen":   s.Press(),
		"no lesson open":   s.LessonDo("commit", ""),
	} {
		require.Error(t, err, name)
		assert.NotEmpty(t, Phrase(err).ID, name)
	}
	assert.Equal(t, before, s.Clock())
	assert.Equal(t, hash, s.Machine().Hash())
}

func TestBadFileLeavesTheMachine(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("4"))
	require.NoError(t, s.Advance(5))
	hash := s.Machine().Hash()
	err := s.Load([]byte("name: X\nfloors:\n  - {name: G, height_m: 0}\nlift: {car_kilos: 3}\n"))
	var f FileError
	require.ErrorAs(t, err, &f)
	assert.GreaterOrEqual(t, len(f.Problems), 2, "all that is wrong, at once")
	assert.Equal(t, hash, s.Machine().Hash())
	assert.Equal(t, "tidemill-house", s.Building().ID)
}

func TestResetGoesBackToTheStart(t *testing.T) {
	s := open(t)
	hash := s.Machine().Hash()
	require.NoError(t, s.Call("4"))
	require.NoError(t, s.Advance(7))
	require.NoError(t, s.Reset())
	assert.Equal(t, hash, s.Machine().Hash())
}

// A record played elsewhere comes to the same state at any moment, also one
// between two points of the machine's grid, where a step ends.
func TestRecordBringsTheSameStateBack(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	s := open(t)
	floors := s.Building().Floors
	for range 12 {
		require.NoError(t, s.Call(floors[random.IntN(len(floors))].Name))
		require.NoError(t, s.Advance(random.Float64()*4))
		for range random.IntN(5) {
			require.NoError(t, s.Step())
		}
		text, err := json.Marshal(s.Record())
		require.NoError(t, err)
		var r Record
		require.NoError(t, json.Unmarshal(text, &r))
		other := open(t)
		require.NoError(t, other.Restore(r))
		require.Equal(t, s.Machine().Hash(), other.Machine().Hash())
		assert.Equal(t, s.Snapshot(), other.Snapshot())
		assert.Equal(t, s.Building(), other.Building())
	}
}

func TestBadRecordLeavesTheSession(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("4"))
	require.NoError(t, s.Advance(5))
	good := s.Record()
	hash := s.Machine().Hash()
	for name, spoil := range map[string]func(*Record){
		"no building": func(r *Record) { r.Text = "" },
		"speed":       func(r *Record) { r.Speed = 5 },
		"input":       func(r *Record) { r.Inputs[0].Part = "button.9" },
		"lesson":      func(r *Record) { r.Lesson.Lesson = "no-such-lesson"; r.Lesson.Item = 1 },
	} {
		r := good
		r.Inputs = append(r.Inputs[:0:0], good.Inputs...)
		spoil(&r)
		assert.Error(t, s.Restore(r), name)
		assert.Equal(t, hash, s.Machine().Hash(), name)
	}
}

// The picture has the shape of its place, however small that is: nothing of
// the place is left unpainted.
func TestThePictureHasTheShapeOfItsPlace(t *testing.T) {
	s := open(t)
	for _, place := range [][2]float64{{950, 570}, {296, 350}, {1200, 200}, {40, 30}} {
		s.Size(place[0], place[1])
		still := s.Still()
		assert.InDelta(t, place[0]/place[1], still.Width/still.Height, 1e-9)
		assert.GreaterOrEqual(t, still.Width, 320-1e-9)
		assert.GreaterOrEqual(t, still.Height, 240-1e-9)
	}
}

func TestKeyFramesChangeThePictureSeldom(t *testing.T) {
	looked := func(frames bool) int {
		s := open(t)
		s.KeyFrames(frames)
		require.NoError(t, s.Call("3"))
		require.NoError(t, s.Run())
		before := s.Looked()
		for range 600 {
			s.Tick(1.0 / 60)
		}
		return s.Looked() - before
	}
	assert.LessOrEqual(t, looked(true), 20, "ten seconds at two a second")
	assert.Greater(t, looked(false), 500)
}

func TestNothingIsAllocatedBetweenEvents(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("5"))
	require.NoError(t, s.Run())
	for range 60 * 4 {
		s.Tick(1.0 / 60)
		s.Moving()
	}
	events := len(s.Machine().Events())
	allocated := testing.AllocsPerRun(20, func() {
		s.Tick(1.0 / 600)
		s.Moving()
	})
	require.Len(t, s.Machine().Events(), events, "the stretch is quiet")
	assert.Zero(t, allocated)
}

// A file that reads but cannot be built is refused with the place of what is
// wrong, and the machine stays; one that would work badly says so.
func TestLoadAsksTheParts(t *testing.T) {
	s := open(t)
	before := s.Building()
	err := s.Load([]byte("version: 1\nname: Clash\nfloors:\n  - {name: G, height_m: 0}\n  - {name: \"1\", height_m: 2.4}\n  - {name: \"2\", height_m: 9.4}\nselector: {terminals_per_floor: 1.2}\n"))
	var faults FileError
	require.ErrorAs(t, err, &faults)
	require.NotEmpty(t, faults.Problems)
	assert.Equal(t, 7, faults.Problems[0].Line)
	assert.Equal(t, before, s.Building())

	require.NoError(t, s.Load([]byte("version: 1\nname: Weak\nfloors:\n  - {name: G, height_m: 0}\n  - {name: \"1\", height_m: 4}\nbrake: {torque_nm: 20}\n")))
	assert.NotEmpty(t, s.Building().Warnings)
}
