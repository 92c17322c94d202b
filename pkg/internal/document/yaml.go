package document

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/diagnostic"
)

// readYAML parses the file with the YAML parser and refuses what is not wanted.
func readYAML(o *original, limits Limits, faults *diagnostic.List) *Node {
	if at := forbiddenCharacter(o.data); at >= 0 {
		d := faults.Addf(o.place(at), CodeBadCharacter, "the file holds a character that no text file should")
		r, _ := utf8.DecodeRuneInString(o.data[at:])
		d.Found, d.Wanted = fmt.Sprintf("%U", r), "the file without it"
		return nil
	}
	first, second, err := parseYAML([]byte(o.data))
	if err != nil {
		reportSyntax(o, limits, err, faults)
		return nil
	}
	if first == nil || second == nil && first.Content[0].ShortTag() == "!!null" && first.Content[0].Value == "" {
		faults.Addf(o.whole(), CodeEmpty, "the file is empty")
		return nil
	}
	c := converter{guard: guard{origin: o, limits: limits, faults: faults}, cursor: newCursor(o.data), tagged: map[int]bool{}}
	root := c.convert(first.Content[0], 1)
	if second != nil && root != nil {
		c.cursor.seek(second.Line-1, second.Column-1)
		d := faults.Addf(o.at(c.cursor), CodeSeveral, "a second document starts here")
		d.Wanted = "one document in a file"
	}
	return root
}

// parseYAML returns the first document of the data and, if there is one, the
// second; neither if there is none. The parser hands on a panic of its own as
// an error here: data that a stranger wrote must not stop the program.
func parseYAML(data []byte) (first, second *yaml.Node, err error) {
	defer func() {
		if r := recover(); r != nil {
			first, second, err = nil, nil, fmt.Errorf("yaml: the parser gave up: %v", r)
		}
	}()
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	next := func() (*yaml.Node, error) {
		var n yaml.Node
		if err := decoder.Decode(&n); errors.Is(err, io.EOF) {
			return nil, nil
		} else if err != nil {
			return nil, err
		}
		if n.Kind != yaml.DocumentNode || len(n.Content) == 0 {
			return nil, nil
		}
		return &n, nil
	}
	if first, err = next(); first == nil || err != nil {
		return nil, nil, err
	}
	if second, err = next(); err != nil {
		return nil, nil, err
	}
	return first, second, nil
}

// forbiddenCharacter returns the offset of the first character that YAML allows
// nowhere in a file, or -1. A byte order mark may stand at the start, where it
// has been taken off; anywhere else it is a character that nobody sees.
func forbiddenCharacter(s string) int {
	return strings.IndexFunc(s, func(r rune) bool {
		switch {
		case r == '\t' || r == '\n' || r == '\r' || r >= 0x20 && r <= 0x7E || r == 0x85:
			return false
		case r >= 0xA0 && r <= 0xFFFD || r >= 0x10000:
			return r == 0xFEFF
		}
		return true
	})
}

// converter makes nodes of the parser's nodes.
type converter struct {
	guard
	cursor cursor
	tagged map[int]bool // offsets of tags that have been reported
}

// convert makes a node of y and all below it. It is nil if a limit was passed,
// which ends the reading.
func (c *converter) convert(y *yaml.Node, depth int) *Node {
	c.cursor.seek(y.Line-1, y.Column-1)
	n := c.origin.node(c.cursor)
	if !c.within(n, len(y.Value), depth) {
		return nil
	}
	if c.refuse(n, y); y.Kind == yaml.ScalarNode && c.tagged[n.offset] {
		return n // its text is not what was meant
	}
	switch y.Kind {
	case yaml.MappingNode:
		n.shape = Mapping
		if !c.mapping(n, y, depth) {
			return nil
		}
	case yaml.SequenceNode:
		n.shape = Sequence
		n.items = make([]*Node, 0, len(y.Content))
		for _, item := range y.Content {
			child := c.convert(item, depth+1)
			if child == nil {
				return nil
			}
			n.items = append(n.items, child)
		}
	case yaml.ScalarNode:
		n.shape, n.text, n.style = Scalar, y.Value, styleOf(y)
	}
	return n
}

func styleOf(y *yaml.Node) style {
	switch {
	case y.Style&yaml.DoubleQuotedStyle != 0:
		return doubleQuoted
	case y.Style&yaml.SingleQuotedStyle != 0:
		return singleQuoted
	case y.Style&yaml.LiteralStyle != 0:
		return literal
	case y.Style&yaml.FoldedStyle != 0:
		return folded
	}
	return plain
}

// refuse reports what YAML has and these files may not.
func (c *converter) refuse(n *Node, y *yaml.Node) {
	if y.Kind == yaml.AliasNode {
		d := c.faults.Addf(n.Place(), CodeAlias, "an alias may not be used")
		d.Found, d.Wanted = "*"+y.Value, "what it stands for, written out"
		d.Width = 1 + len([]rune(y.Value))
		return
	}
	if y.Anchor != "" {
		d := c.faults.Addf(n.Place(), CodeAnchor, "an anchor may not be used")
		d.Found = "&" + y.Anchor
		d.Repaired = n.repaired(strings.Contains(n.origin.data, "*"+y.Anchor))
	}
	// A lone ! leaves no trace in the node but its place.
	lone := strings.HasPrefix(n.origin.data[n.offset:], "!")
	if (y.Style&yaml.TaggedStyle != 0 || lone) && !c.tagged[n.offset] {
		c.tagged[n.offset] = true
		d := c.faults.Addf(n.Place(), CodeTag, "a tag may not be used")
		if d.Found = y.Tag; lone && y.Style&yaml.TaggedStyle == 0 {
			d.Found = "!"
		}
		d.Repaired = n.repaired(strings.HasPrefix(n.origin.data[n.offset:], "!!"))
	}
}

// mapping fills in the fields of n, without those whose key is refused.
func (c *converter) mapping(n *Node, y *yaml.Node, depth int) bool {
	first := map[string]*Node{}
	for i := 0; i+1 < len(y.Content); i += 2 {
		key := c.convert(y.Content[i], depth+1)
		if key == nil {
			return false
		}
		merge := y.Content[i].Tag == "!!merge" && key.style == plain
		good := checkKey(key, merge, first, c.faults)
		value := c.convert(y.Content[i+1], depth+1)
		if value == nil {
			return false
		}
		if good {
			n.fields = append(n.fields, Field{Key: key, Value: value})
		}
	}
	return true
}

// checkKey reports whether the key may stand, and remembers it.
func checkKey(key *Node, merge bool, first map[string]*Node, faults *diagnostic.List) bool {
	switch {
	case key.shape == NoShape: // an alias, which has been reported
		return false
	case key.shape != Scalar || key.text == "" && key.style == plain:
		d := faults.Addf(key.Place(), CodeKeyNotText, "a key must be text")
		d.Found = key.describe()
		return false
	case merge:
		d := faults.Addf(key.Place(), CodeMergeKey, "a merge key may not be used")
		d.Found, d.Wanted, d.Width = "<<", "the keys it brings in, written out", 2
		return false
	}
	if earlier := first[key.text]; earlier != nil {
		d := faults.Addf(key.Place(), CodeDuplicateKey, "the key %s is written twice", quote(key.text))
		d.Width = key.Width()
		d.Related = []diagnostic.Related{{Place: earlier.Place(), Message: "first written here"}}
		return false
	}
	first[key.text] = key
	return true
}
