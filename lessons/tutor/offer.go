package tutor

import (
	"slices"

	"wheelroom/lessons/script"
)

// Offer adds a lesson to those that can be opened, in the place of one with
// its identity. A lesson that is open goes on as it was.
func (t *Tutor) Offer(lesson *script.Lesson) {
	lessons := slices.Clone(t.lessons)
	if i := slices.IndexFunc(lessons, func(l *script.Lesson) bool { return l.ID == lesson.ID }); i >= 0 {
		lessons[i] = lesson
	} else {
		lessons = append(lessons, lesson)
	}
	t.lessons = lessons
}
