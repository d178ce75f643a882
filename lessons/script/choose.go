package script

import (
	"strings"

	"wheelroom/physics/phrase"
)

// An Option is one answer offered. Whether it is right is for the machine to
// say.
type Option struct {
	ID       string // "a", "b", … in the order of the file
	Text     Prose
	Claim    Claim
	Because  Prose // why it is right or wrong
	Tempting bool  // what most would say who have not met this before
}

// Option returns the option with that identity, or nil.
func (it *Item) Option(id string) *Option {
	for i := range it.Options {
		if it.Options[i].ID == id {
			return &it.Options[i]
		}
	}
	return nil
}

// chosen is the form of choose-one and choose-several: the identities of the
// options chosen, in their order.
type chosen struct {
	options []Option
	several bool
}

// Tidy takes options in any order.
func (c *chosen) Tidy(answer string) (string, bool) {
	words := strings.Fields(answer)
	var ids []string
	for i := range c.options {
		if has(words, c.options[i].ID) {
			ids = append(ids, c.options[i].ID)
		}
	}
	if len(ids) != len(words) || len(ids) > 1 && !c.several {
		return "", false
	}
	return strings.Join(ids, " "), true
}

// Whole: at least one is to be chosen.
func (c *chosen) Whole(answer string) bool { return answer != "" }

// Truth is every option that holds; of choose-one the first.
func (c *chosen) Truth(l *Log) (string, bool) {
	var ids []string
	for i := range c.options {
		if c.options[i].Claim.Holds(l) && (c.several || len(ids) == 0) {
			ids = append(ids, c.options[i].ID)
		}
	}
	return strings.Join(ids, " "), len(ids) > 0
}

// Class is Right or Other: each option has its own explanation.
func (c *chosen) Class(answer string, l *Log) string {
	if truth, ok := c.Truth(l); ok && truth == answer {
		return Right
	}
	return Other
}

// Classes is none, since options explain themselves.
func (c *chosen) Classes(*Log) []string { return nil }

// Say is empty: options are worded by their texts.
func (c *chosen) Say(string) phrase.Phrase { return phrase.Phrase{} }
