package session

import (
	"slices"

	"wheelroom/lessons/script"
)

// results are what reports on lessons ask for.
var results = map[string]action{"asked": taking(func(a Asking, q struct{ Lessons []string }) (any, error) {
	counts := map[string]int{}
	for _, id := range q.Lessons {
		i := slices.IndexFunc(a.o.Lessons, func(l *script.Lesson) bool { return l.ID == id })
		if i < 0 {
			return nil, refuse("lesson.unknown-lesson", "found", id)
		}
		counts[id] = questions(a.o.Lessons[i])
	}
	return counts, nil
})}

// questions counts the items of a lesson that want an answer, without those for
// review.
func questions(l *script.Lesson) int {
	l.Open()
	n := 0
	for i := range l.Items[:l.Reviewed()-1] {
		if l.Items[i].Asks() {
			n++
		}
	}
	return n
}
