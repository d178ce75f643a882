package document

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"wheelroom/physics/phrase"
)

// Bounds on what is read at all. A building of 32 floors has some 600 tokens,
// a long lesson some thousands. The parser's time grows with the square of
// the keys of one mapping; at the bound that is a twentieth of a second.
const (
	MaxBytes  = 1 << 20
	maxTokens = 10_000
	maxDepth  = 24
)

// parse turns a text into its top mapping, or returns nil and why not.
// Problems of form (anchors, tags, doubled keys …) leave the mapping usable.
func parse(text []byte) (*ast.MappingNode, []Problem) {
	if len(text) > MaxBytes {
		return nil, at(1, 1, phrase.Of("document.too-long", "limit", MaxBytes>>20))
	}
	if line, col, ok := firstNotUTF8(text); ok {
		return nil, at(line, col, phrase.Of("document.not-utf8"))
	}
	tokens := lexer.Tokenize(plainLines(text))
	if len(tokens) > maxTokens {
		p := tokens[maxTokens].Position
		return nil, at(p.Line, p.Column, phrase.Of("document.too-many-values"))
	}
	if t := tooDeep(tokens); t != nil {
		return nil, at(t.Position.Line, t.Position.Column, phrase.Of("document.too-deep", "limit", maxDepth))
	}
	file, problem := parseTokens(tokens)
	if problem != nil {
		return nil, []Problem{*problem}
	}
	body, problems := onlyBody(file)
	if body == nil {
		return nil, problems
	}
	root := asMapping(bare(body))
	if root == nil {
		line, col := position(body)
		return nil, at(line, col, phrase.Of("document.not-a-mapping", "found", found(body)))
	}
	f := form{}
	f.node(body, "", 0)
	return root, f.problems
}

func at(line, col int, p phrase.Phrase) []Problem {
	return []Problem{{Line: line, Col: col, Phrase: p}}
}

// plainLines drops a byte order mark and makes every line end a line feed;
// the lexer counts a carriage return after a comment as a line of its own.
func plainLines(text []byte) string {
	s := strings.TrimPrefix(string(text), "\ufeff")
	s = strings.ReplaceAll(s, "\r\n", "\n")
	return strings.ReplaceAll(s, "\r", "\n")
}

func firstNotUTF8(text []byte) (line, col int, found bool) {
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRune(text[i:])
		if r == utf8.RuneError && n <= 1 {
			start := bytes.LastIndexByte(text[:i], '\n') + 1
			return 1 + bytes.Count(text[:i], []byte{'\n'}), 1 + utf8.RuneCount(text[start:i]), true
		}
		i += n
	}
	return 0, 0, false
}

// tooDeep returns the token that opens one level too many. The parser itself
// has no bound: it takes time with the square of the depth, and the stack of a
// browser would overflow.
func tooDeep(tokens token.Tokens) *token.Token {
	flow, marks := 0, 0
	var blocks []int // columns of the blocks that are open
	for _, t := range tokens {
		column := 0
		switch t.Type {
		case token.MappingStartType, token.SequenceStartType:
			flow++
		case token.MappingEndType, token.SequenceEndType:
			flow--
		case token.TagType, token.AnchorType:
			marks++ // each wraps the value behind it
		case token.SequenceEntryType, token.MappingKeyType:
			column = t.Position.Column
		case token.MappingValueType:
			if t.Prev != nil {
				column = t.Prev.Position.Column // the key's
			}
		}
		if column > 0 && flow <= 0 {
			for len(blocks) > 0 && blocks[len(blocks)-1] >= column {
				blocks = blocks[:len(blocks)-1]
			}
			blocks = append(blocks, column)
		}
		if max(flow, 0)+len(blocks) > maxDepth || marks > maxDepth {
			return t
		}
	}
	return nil
}

// parseTokens runs the parser. A text that makes the library itself stumble
// is a text we cannot read, never a reason to stop the program.
func parseTokens(tokens token.Tokens) (file *ast.File, problem *Problem) {
	defer func() {
		if recover() != nil {
			file, problem = nil, &Problem{Line: 1, Col: 1, Phrase: phrase.Of("document.syntax")}
		}
	}()
	file, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err == nil {
		return file, nil
	}
	problem = &Problem{Line: 1, Col: 1, Phrase: phrase.Of("document.syntax")}
	if e, ok := err.(interface{ GetToken() *token.Token }); ok && e.GetToken() != nil && e.GetToken().Position != nil {
		problem.Line, problem.Col = e.GetToken().Position.Line, e.GetToken().Position.Column
	}
	if e, ok := err.(interface{ GetMessage() string }); ok {
		problem.Phrase = syntax(e.GetMessage())
	}
	return nil, problem
}

// syntaxMessages turns the parser's sentences into ours, by what they contain.
var syntaxMessages = []struct{ contains, id string }{
	{"end character of", "document.syntax-quote"},
	{"sequence end token", "document.syntax-bracket"},
	{"map end token", "document.syntax-brace"},
	{"flow mapping end", "document.syntax-brace"},
	{"must be followed by", "document.syntax-comma"},
	{"',' or ", "document.syntax-comma"},
	{"cannot start any token", "document.syntax-tab"},
	{"tab character", "document.syntax-tab"},
	{"unknown escape", "document.syntax-escape"},
	{"mapping value is not allowed", "document.syntax-colon"},
	{"value is not allowed in this context", "document.syntax-value"},
	{"non-map value is specified", "document.syntax-value"},
	{"unexpected key name", "document.syntax-value"},
}

func syntax(message string) phrase.Phrase {
	for _, m := range syntaxMessages {
		if strings.Contains(message, m.contains) {
			return phrase.Of(m.id)
		}
	}
	return phrase.Of("document.syntax")
}

// onlyBody returns the one document of a file.
func onlyBody(file *ast.File) (ast.Node, []Problem) {
	var body ast.Node
	for _, d := range file.Docs {
		if d.Body == nil {
			continue
		}
		line, col := position(d.Body)
		if _, ok := d.Body.(*ast.DirectiveNode); ok {
			return nil, at(line, col, phrase.Of("document.directive"))
		}
		if body != nil {
			return nil, at(line, col, phrase.Of("document.several"))
		}
		body = d.Body
	}
	if body == nil {
		return nil, at(1, 1, phrase.Of("document.empty"))
	}
	return body, nil
}
