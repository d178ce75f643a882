package main

import (
	"bytes"
	"fmt"
	"slices"
)

// A screen is one view of the page beside the machine. Its markup is
// web/page/screens/NAME.html, its module web/page/js/screens/NAME.js, its
// name in the navigation the message "screens.NAME". Families are the first
// parts of the identities of its own messages.
type screen struct {
	name     string
	families []string
}

// screens are the screens there are, in the order of the navigation.
var screens = []screen{{"lessons", []string{"course"}}, {"building", []string{"editor"}}, {"circuit", []string{"circuit"}},
	{"compare", []string{"compare"}},
	{"drive", []string{"drive-screen"}}, {"winding", []string{"drive-screen", "winding-screen"}},
	{"ring", []string{"ring-screen", "drive-screen"}},
	{"takeaway", []string{"takeaway"}}, {"lesson-writer", []string{"writer", "editor"}},
	{"worksheet", []string{"worksheet"}}, {"results", []string{"results"}}}

// views are opened by the address alone, as ?view=NAME; their markup, words and
// modules are made in the same way.
var views = []screen{{"lecture", []string{"lecture"}}, {"exhibit", []string{"exhibit"}}}

// screens fills each screen's markup, its messages in front as JSON: the page
// fetches both at once when the screen is first opened.
func (s *site) screens(e edition, c content) error {
	for _, n := range slices.Concat(screens, views) {
		words, err := e.scripts(n.families...)
		if err != nil {
			return err
		}
		var head bytes.Buffer
		fmt.Fprintf(&head, "<script type=\"application/json\">%s</script>\n", words)
		if err := s.page(e, "screens/"+n.name+".html", c, head.Bytes()); err != nil {
			return fmt.Errorf("screen %s: %w", n.name, err)
		}
	}
	return nil
}
