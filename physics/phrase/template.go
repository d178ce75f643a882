package phrase

import (
	"errors"
	"strings"
)

// A template is a message's text cut at its slots.
type template []part

// A part is some text and the slot that follows it, "" at the end.
type part struct{ text, slot string }

// cut reads a text with slots in braces: "{count} calls". There is no way to
// write a brace itself, so that a page's formatter stays one replacement.
func cut(text string) (template, error) {
	var t template
	for text != "" {
		open := strings.IndexAny(text, "{}")
		if open < 0 {
			return append(t, part{text: text}), nil
		}
		end := strings.IndexByte(text, '}')
		if text[open] == '}' || end < 0 {
			return nil, errors.New("brace without its partner")
		}
		slot := text[open+1 : end]
		if !isSlot(slot) {
			return nil, errors.New("slot {" + slot + "} wants lower-case letters, digits and dashes")
		}
		t = append(t, part{text: text[:open], slot: slot})
		text = text[end+1:]
	}
	return t, nil
}

// String puts the text together again.
func (t template) String() string {
	var b strings.Builder
	for _, p := range t {
		b.WriteString(p.text)
		if p.slot != "" {
			b.WriteString("{" + p.slot + "}")
		}
	}
	return b.String()
}

func isSlot(s string) bool {
	return s != "" && strings.Trim(s, "abcdefghijklmnopqrstuvwxyz0123456789-") == ""
}
