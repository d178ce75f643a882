package script

// Contents is what a list shows of a lesson, and what other lessons have to
// know of it, before it is read.
type Contents struct {
	ID      string
	Title   string
	Level   Level
	Group   string
	Items   int // without those for review
	Reviews int
	Words   []string // of the trade, that it teaches
	// Language is that of its texts where it is another than the reader's, else "".
	Language string
}

// Contents returns the lesson's contents, whether it has been read or not.
func (l *Lesson) Contents() Contents {
	if l.later != nil {
		return l.contents
	}
	c := Contents{ID: l.ID, Title: l.Title, Level: l.Level, Group: l.Group,
		Items: l.Reviewed() - 1, Reviews: len(l.Items) - l.Reviewed() + 1, Language: l.Language}
	for _, t := range l.Terms {
		c.Words = append(c.Words, t.Word)
	}
	return c
}

// Later returns a lesson that is read when it is first opened: reading a whole
// course takes longer than anybody waits for one lesson. Until then it has its
// contents and its identity alone. read must give the lesson of the contents.
func Later(c Contents, read func() *Lesson) *Lesson {
	return &Lesson{ID: c.ID, contents: c, later: read}
}

// Open reads the lesson if that has not been done.
func (l *Lesson) Open() {
	if l.later != nil {
		*l = *l.later()
	}
}
