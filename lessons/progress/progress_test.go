package progress_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/lessons/progress"
)

// due lists the days from the first of a February on which a lesson finished
// that day is due, if it is reviewed on the days given.
func due(reviewed ...int) (days []int) {
	var p progress.Progress
	p.Note("x", []progress.Answer{{Item: 1, Right: true}}, progress.Finished, day(1))
	for d := 1; d <= 40; d++ {
		l := p.Find("x")
		if l.Due(day(d)) {
			days = append(days, d)
		}
		for _, r := range reviewed {
			if r == d {
				p.Note("x", nil, progress.Reviewed, day(d))
			}
		}
	}
	return days
}

func day(n int) string {
	// February of 2026 has 28 days.
	if n > 28 {
		return "2026-03-" + two(n-28)
	}
	return "2026-02-" + two(n)
}

func two(n int) string { return string([]byte{byte('0' + n/10), byte('0' + n%10)}) }

func TestReviewsComeAfterOneThreeAndSevenDays(t *testing.T) {
	assert.Equal(t, []int{2, 4, 8}, due(2, 4, 8))
}

// Whoever comes late has the same gap before the next: two days between the
// first and the second, four between the second and the third.
func TestALateReviewKeepsTheNextGap(t *testing.T) {
	assert.Equal(t, []int{2, 3, 4, 5, 6, 8, 12}, due(6, 8, 12))
	assert.Equal(t, []int{2, 4, 5, 6, 7, 8, 9, 10, 14}, due(2, 10, 14))
}

// Reviewing before the day changes nothing, and neither does doing it twice.
func TestAReviewCountsOnceAndOnItsDay(t *testing.T) {
	assert.Equal(t, []int{2, 4, 8}, due(1, 2, 3, 4, 5, 6, 7, 8, 9))
}

func TestDaysGoOverMonthsAndLeapYears(t *testing.T) {
	l := progress.Lesson{ID: "x", Finished: "2028-02-28"}
	next, ok := l.Next()
	assert.True(t, ok)
	assert.Equal(t, "2028-02-29", next)
	l.Reviews = []string{"2028-02-29"}
	next, _ = l.Next()
	assert.Equal(t, "2028-03-02", next)
}

func TestNothingIsDueBeforeTheEnd(t *testing.T) {
	var p progress.Progress
	p.Note("x", nil, progress.Begun, "2026-02-01")
	assert.Empty(t, p.Lessons, "a lesson that was looked into is not begun")
	p.Note("x", []progress.Answer{{Item: 2, Right: false, Sure: 3}, {Item: 1, Right: true}}, progress.Begun, "2026-02-01")
	l := p.Find("x")
	assert.False(t, l.Due("2027-01-01"))
	assert.Equal(t, []int{1, 2}, []int{l.Answers[0].Item, l.Answers[1].Item})
	p.Note("x", []progress.Answer{{Item: 2, Right: true}}, progress.Begun, "2026-02-02")
	again := p.Find("x")
	assert.True(t, again.Answers[1].Right, "the last answer counts")
	assert.Len(t, again.Answers, 2)
}

func TestWhatIsWrittenIsRead(t *testing.T) {
	var p progress.Progress
	p.Note("one", []progress.Answer{{Item: 1, Right: true, Sure: 2}}, progress.Finished, "2026-02-01")
	p.Note("one", []progress.Answer{{Item: 6, Right: true}}, progress.Reviewed, "2026-02-02")
	p.Note("two", []progress.Answer{{Item: 1}}, progress.Begun, "2026-02-02")
	back, err := progress.Read(p.Write())
	require.NoError(t, err)
	assert.Equal(t, p, back)
	nothing, err := progress.Read("")
	require.NoError(t, err)
	assert.Empty(t, nothing.Lessons)
}

func hostile() []string {
	return []string{
		"x", "[]", "null", "1", `{"version":2,"lessons":[]}`, `{"version":1,"lessons":[{"id":""}]}`,
		`{"version":1,"lessons":[],"name":"somebody"}`,
		`{"version":1,"lessons":[{"id":"a"},{"id":"a"}]}`,
		`{"version":1,"lessons":[{"id":"a","finished":"soon"}]}`,
		`{"version":1,"lessons":[{"id":"a","finished":"2026-02-30"}]}`,
		`{"version":1,"lessons":[{"id":"a","answers":[{"item":0,"day":"2026-01-01"}]}]}`,
		`{"version":1,"lessons":[{"id":"a","answers":[{"item":1,"day":"2026-01-01","sure":9}]}]}`,
		`{"version":1,"lessons":[{"id":"a","reviews":["2026-01-01"]}]}`,
		`{"version":1,"lessons":[{"id":"<script>alert(1)</script><script>alert(1)</script>"}]}`,
		`{"version":1,"lessons":[]} {"version":1,"lessons":[]}`,
		strings.Repeat("[", 100000), strings.Repeat(" ", 2<<20) + "{}",
	}
}

func TestWhatIsNotProgressIsRefused(t *testing.T) {
	for _, text := range hostile() {
		p, err := progress.Read(text)
		assert.ErrorIs(t, err, progress.ErrNot, text[:min(len(text), 80)])
		assert.Empty(t, p.Lessons)
	}
}

func FuzzRead(f *testing.F) {
	for _, text := range hostile() {
		f.Add(text)
	}
	f.Add(`{"version":1,"lessons":[{"id":"a","answers":[{"item":1,"right":true,"day":"2026-01-01"}],"finished":"2026-01-01","reviews":["2026-01-02"]}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		p, err := progress.Read(text)
		if err != nil {
			return
		}
		p.Note("b", []progress.Answer{{Item: 1}}, progress.Finished, "2026-05-05")
		for i := range p.Lessons {
			p.Lessons[i].Next()
		}
		if _, err := progress.Read(p.Write()); err != nil && len(p.Lessons) <= 1000 {
			t.Errorf("what was read cannot be read again: %s", p.Write())
		}
	})
}
