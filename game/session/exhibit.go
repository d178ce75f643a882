package session

import (
	"wheelroom/game/scene"
	"wheelroom/physics/lift"
)

// exhibited is what the view for an exhibition asks for. Its scenes are
// lessons of one item, opened and answered like any other; the view leaves out
// the question what was seen.
var exhibited = map[string]action{
	"mode": taking(func(a Asking, _ struct{}) (any, error) {
		a.picture.Lecture, a.picture.Picture = true, scene.Mechanism
		a.scene = nil
		a.Whole()
		a.looked++
		a.touch()
		return nil, nil
	}),
	"scenes": taking(func(a Asking, _ struct{}) (any, error) { return a.scenes(), nil }),
	"seen": taking(func(a Asking, _ struct{}) (any, error) {
		return nil, a.LessonDo("observe", a.tutor.Panel().Chosen)
	}),
	"lit": taking(func(a Asking, _ struct{}) (any, error) { return a.lit(), nil }),
}

// ExhibitScenes are the scenes there are.
type ExhibitScenes struct {
	Attract string         `json:"attract"` // the one that asks nothing, "" for none
	Scenes  []ExhibitScene `json:"scenes"`  // in the order in which they are offered
}

// An ExhibitScene is one that asks.
type ExhibitScene struct {
	ID    string `json:"id"`
	Title string `json:"title"`
}

// scenes lists the exhibit's scenes; for their titles they are read.
func (s *Session) scenes() ExhibitScenes {
	list := ExhibitScenes{Scenes: []ExhibitScene{}}
	for i, l := range s.o.Scenes {
		if i == 0 {
			list.Attract = l.ID
			continue
		}
		l.Open()
		list.Scenes = append(list.Scenes, ExhibitScene{l.ID, l.Title})
	}
	return list
}

// lit is the part whose event ended the stretch of the lesson that was run
// last: the one its sentence is about. It is "" before the first is over, and
// where a stretch ends by time.
func (s *Session) lit() lift.Part {
	l := s.tutor.Lesson()
	if l == nil {
		return ""
	}
	p := s.tutor.Panel()
	if p.Segment == 0 {
		return ""
	}
	return l.Items[p.Item-1].Segments[p.Segment-1].Until.Part()
}
