package check

import (
	"io/fs"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/phrase"
)

// computed are the messages whose identities are put together in a way that
// cannot be seen from the words of the code.
var computed = regexp.MustCompile(`^(` + strings.Join([]string{
	`command\.help-.+`,                 // by the names of commands and their options
	`about\.caution-.+-why`,            // the reason beside each caution
	`why\.(above|below)-contact`,       // by the pole of a switch
	`drive\.(light|heavy)-wheel`,       // by the side of a comparison
	`match\.(unexplained|motion)-.+`,   // by the lamp's edge; by the motion
	`document\.(number|text|list)-.+`,  // by what a value is and how it is off
	`stage\.pressed-(up|down|car)`,     // by the button
	`page\.(call-button|call|lamp)-.+`, // by the button; by a signal's state
	`page\.(contact|switch)-.+`,        // by a signal's state
}, "|") + `)$`)

// families are those whose messages are named after parts, whose names are
// made of words.
var families = []string{"link.", "said.", "part."}

var token = regexp.MustCompile(`[a-z0-9][a-z0-9.-]*`)

// Every message is one the code can ask for: its identity stands there, or can
// be put together from a beginning and words that do.
func TestNoMessageLiesUnused(t *testing.T) {
	written := map[string]bool{}
	for _, room := range []string{"assets", "game", "lessons", "physics", "web"} {
		require.NoError(t, fs.WalkDir(os.DirFS("../.."), room, func(name string, entry fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if entry.IsDir() {
				switch name {
				case "web/dist", "web/check":
					return fs.SkipDir
				}
				return nil
			}
			switch path.Ext(name) {
			case ".go", ".js", ".html":
			default:
				return nil
			}
			if strings.HasSuffix(name, "_test.go") {
				return nil
			}
			text, err := os.ReadFile(path.Join("../..", name))
			for _, word := range token.FindAllString(string(text), -1) {
				written[word] = true
			}
			return err
		}))
	}
	var made func(words string) bool
	made = func(words string) bool {
		if written[words] {
			return true
		}
		for i := 1; i < len(words)-1; i++ {
			if words[i] == '-' && written[words[:i]] && made(words[i+1:]) {
				return true
			}
		}
		return false
	}
	var used func(id string) bool
	used = func(id string) bool {
		if yes, not := strings.CutSuffix(id, "-not"); written[id] || not && used(yes) {
			return true
		}
		for i := len(id) - 1; i > 0; i-- {
			if end := id[i-1]; end != '-' && end != '.' || !written[id[:i]] {
				continue
			}
			if written[id[i:]] || made(id[i:]) && (id[i-1] == '-' || slices.Contains(families, id[:i])) {
				return true
			}
		}
		return computed.MatchString(id)
	}
	words, err := phrase.ReadCatalogue(assets.Words("en")...)
	require.NoError(t, err)
	for _, id := range words.IDs() {
		assert.True(t, used(id), "nothing asks for the message %s", id)
	}
	assert.False(t, used("lecture.nothing-asks-for-this"))
}
