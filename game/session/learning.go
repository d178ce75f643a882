package session

import (
	"slices"

	"wheelroom/lessons/progress"
	"wheelroom/lessons/script"
	"wheelroom/lessons/tutor"
)

// The lessons' screen. What a learner has done is kept by the page and comes
// along as text with every question, and so does the day: the session keeps
// neither.
func init() {
	screens["lessons"] = map[string]action{
		"list": taking(listLessons),
		"note": taking(noteLesson),
		"read": taking(readProgress),
	}
}

// learning is what a page hands in: the progress it keeps, "" for none, and the
// day where the learner is.
type learning struct {
	Kept  string `json:"kept"`
	Today string `json:"today"`
}

// read takes the progress and the day in.
func (l learning) read() (progress.Progress, error) {
	p, err := progress.Read(l.Kept)
	if err != nil {
		return p, refuse("lesson.bad-progress")
	}
	if !progress.IsDay(l.Today) {
		return p, refuse("stage.bad-arguments", "question", "today")
	}
	return p, nil
}

// A Group is one part of the course as a list shows it.
type Group struct {
	ID      string    `json:"id"`
	Lessons []Learned `json:"lessons"`
}

// Learned is one lesson and what has been done in it.
type Learned struct {
	LessonTitle
	Answered int    `json:"answered"` // items of the lesson, those for review left out
	Right    int    `json:"right"`    // of them, at the last answer
	Finished string `json:"finished"` // day, "" before
	Due      bool   `json:"due"`      // for review
	Next     string `json:"next"`     // day of the next review, "" for none
	Reviewed int    `json:"reviewed"` // times
}

// listLessons lists the course by its groups.
func listLessons(a Asking, args learning) (any, error) {
	p, err := args.read()
	if err != nil {
		return nil, err
	}
	titles := a.Lessons()
	groups := []Group{}
	for _, id := range script.Groups() {
		g := Group{ID: id, Lessons: []Learned{}}
		for _, t := range titles {
			if t.Group == id {
				g.Lessons = append(g.Lessons, learned(t, &p, args.Today))
			}
		}
		if len(g.Lessons) > 0 {
			groups = append(groups, g)
		}
	}
	return groups, nil
}

func learned(t LessonTitle, p *progress.Progress, today string) Learned {
	done := p.Find(t.ID)
	l := Learned{LessonTitle: t, Finished: done.Finished, Due: done.Due(today), Reviewed: len(done.Reviews)}
	for _, a := range done.Answers {
		if a.Item > t.Items {
			continue
		}
		l.Answered++
		if a.Right {
			l.Right++
		}
	}
	l.Next, _ = done.Next()
	return l
}

// noteLesson enters what became of the open lesson's items so far and returns
// the progress to be kept.
func noteLesson(a Asking, args learning) (any, error) {
	p, err := args.read()
	if err != nil {
		return nil, err
	}
	if lesson := a.tutor.Lesson(); lesson != nil {
		note(&p, lesson, a.tutor.Results(), args.Today)
	}
	return p.Write(), nil
}

// note: a lesson is finished when all its questions have been answered, on
// whatever days, and reviewed when those for review have been at one sitting.
func note(p *progress.Progress, lesson *script.Lesson, results []tutor.Result, today string) {
	now, ever := map[int]bool{}, map[int]bool{}
	for _, a := range p.Find(lesson.ID).Answers {
		ever[a.Item] = true
	}
	var answers []progress.Answer
	for _, r := range results {
		if r.Chosen != "" {
			answers = append(answers, progress.Answer{Item: r.Item, Right: r.Right, Sure: r.Sure})
			now[r.Item], ever[r.Item] = true, true
		}
	}
	stage := progress.Begun
	if all(lesson, ever, false) {
		stage = progress.Finished
		if lesson.Reviewed() <= len(lesson.Items) && all(lesson, now, true) {
			stage = progress.Reviewed
		}
	}
	p.Note(lesson.ID, answers, stage, today)
}

// all reports whether every question of the lesson, or every one for review,
// is among the answered.
func all(lesson *script.Lesson, answered map[int]bool, review bool) bool {
	return !slices.ContainsFunc(numbers(lesson, review), func(n int) bool { return !answered[n] })
}

// numbers are the items that ask, counted from 1.
func numbers(lesson *script.Lesson, review bool) []int {
	var list []int
	for i := range lesson.Items {
		if it := &lesson.Items[i]; it.Asks() && it.Review == review {
			list = append(list, i+1)
		}
	}
	return list
}

// readProgress reads what a learner brings along in a file and returns it as
// it is to be kept.
func readProgress(_ Asking, args struct {
	Text string `json:"text"`
}) (any, error) {
	p, err := progress.Read(args.Text)
	if err != nil {
		return nil, refuse("lesson.bad-progress")
	}
	return p.Write(), nil
}
