package paper

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

// every is a sheet with every kind of block.
func every() *Block {
	whole := Part("", "Patio",
		Text("Dig 9 in."), Warn("Stop at water.").Led("Stop"), Note("By the book."),
		Part("steps", "Steps",
			Box("1", "Dig", Note("To the string.")), Box("", "Sweep"),
			Item("Loose"), Item("Read on").Leads("steps"),
			Rows([]string{"What", "How much"}, [][]string{{"Dense-graded sand", "1 cu yd"}, {"", "2 | 3"}}),
			Write("Found"),
			Figure(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><title>A</title></svg>`, "Stone under sand"),
			Part("deep", "Deeper", Item("In it")),
		),
		Part("empty", "Empty", Part("", "Also empty")))
	whole.Under[3].Folds = true
	whole.Under[3].Breaks = true
	whole.Under[3].Under[2].Mark = "7"
	return whole
}

func TestForms(t *testing.T) {
	for _, c := range []struct {
		name, why string
		write     func(io.Writer, *Block, int) error
		want      string
	}{
		{"markdown", "every kind of block, a list as one list, and no part that says nothing", WriteMarkdown, `# Patio

Dig 9 in.

> **Stop:** Stop at water.

By the book.

<a id="steps"></a>

## Steps

- [ ] 1. Dig

  To the string.

- [ ] Sweep
- 7\. Loose
- [Read on](#steps)

| What | How much |
| --- | --- |
| Dense-graded sand | 1 cu yd |
|  | 2 \| 3 |

Found ________________________________________

*Stone under sand*

<a id="deep"></a>

### Deeper

- In it
`},
		{"text", "the same; its parts are headed in capitals, and the figure is left out", WriteText, `Patio
Dig 9 in.
! Stop: Stop at water.
By the book.

STEPS
[ ]  1. Dig
        To the string.
[ ] Sweep
 7. Loose
- Read on
What               How much
Dense-graded sand  1 cu yd
                   2 | 3
Found __________________________________________________________________________

Deeper
- In it
`},
		{"html", "the same; a part with an ID that folds, boxes drawn, cells that know their column", WriteHTML, `<h1>Patio</h1>
<p>Dig <span class="whole">9 in</span>.</p>
<p class="warn"><strong>Stop:</strong> Stop at water.</p>
<p class="note">By the book.</p>
<details open="open" class="breaks" id="steps">
<summary><h2>Steps</h2></summary>
<ul class="list">
<li><span class="box"></span><span class="no">1.</span><div>Dig
<p class="note">To the string.</p>
</div></li>
<li><span class="box"></span><div>Sweep</div></li>
<li><span class="no">7.</span><div>Loose</div></li>
<li><span class="dash"></span><div><a href="#steps">Read on</a></div></li>
</ul>
<table role="table">
<thead role="rowgroup">
<tr role="row"><th scope="col" role="columnheader">What</th><th scope="col" role="columnheader" class="short">How much</th></tr>
</thead>
<tbody role="rowgroup">
<tr role="row"><th scope="row" role="rowheader" data-label="What">Dense-graded sand</th><td role="cell" class="short" data-label="How much">1 cu yd</td></tr>
<tr role="row"><td role="cell"></td><td role="cell" class="short" data-label="How much">2 | 3</td></tr>
</tbody>
</table>
<p class="write"><span>Found</span><i></i></p>
<figure>
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><title>A</title></svg>
<figcaption>Stone under sand</figcaption>
</figure>
<section id="deep">
<h3>Deeper</h3>
<ul class="list">
<li><span class="dash"></span><div>In it</div></li>
</ul>
</section>
</details>
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b strings.Builder
			require.NoError(t, c.write(&b, every(), 0))
			got := b.String()
			if c.name == "html" {
				requireXML(t, got)
				_, got, _ = strings.Cut(got, "<main class=\"sheet\">\n")
				got, _, _ = strings.Cut(got, "</main>")
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
			full := errors.New("full")
			require.ErrorIs(t, c.write(broken{full}, every(), 0), full, "the error is the writer's")
		})
	}
}

// TestText holds how wide text is written, and how far in what stands under something.
func TestText(t *testing.T) {
	for _, c := range []struct {
		name, why string
		columns   int
		sheet     *Block
		want      string
	}{
		{"paragraph", "three words of nine letters take 29 columns, so the third goes below", 28,
			Text("abcdefghi abcdefghi abcdefghi"), "abcdefghi abcdefghi\nabcdefghi\n"},
		{"just as wide", "29 columns hold them", 29,
			Text("abcdefghi abcdefghi abcdefghi"), "abcdefghi abcdefghi abcdefghi\n"},
		{"under an item", "a note begins below the text of its item, behind the dash and its space", 80,
			Item("Dig", Text("To the string."), Item("Deeper", Text("With a spade."))), "- Dig\n  To the string.\n  - Deeper\n    With a spade.\n"},
		{"under a box", "four columns of box and four of number", 80,
			Box("12", "Dig", Note("To the string.")), "[ ] 12. Dig\n        To the string.\n"},
		{"under a paragraph", "two columns further in", 80,
			Text("Dig").Add(Text("To the string.").Add(Warn("Not below."))), "Dig\n  To the string.\n    ! Not below.\n"},
		{"a part in a part", "its heading has no indent, wherever it stands", 80,
			Part("", "Patio", Part("", "Steps", Part("", "Deeper", Text("Dig")))), "Patio\n\nSTEPS\n\nDeeper\nDig\n"},
		{"table, just as wide", "5 + 2 + 20 columns are 27", 27,
			Rows(nil, [][]string{{"Stone", "crushed, two by thre"}}), "Stone  crushed, two by thre\n"},
		{"table, one column less", "the last column gives way, and no other", 26,
			Rows(nil, [][]string{{"Stone", "crushed, two by thre"}, {"Sand", "washed"}}), "Stone  crushed, two by\n       thre\nSand   washed\n"},
		{"table, the widest in turn", "of 16 and 14 columns in 26 the wider gives way, then both: 12 and 12 with 2 between", 26,
			Rows(nil, [][]string{{"abcdefgh abcdefg", "abcdefg abcdef"}, {"a", "b"}}), "abcdefgh      abcdefg\nabcdefg       abcdef\na             b\n"},
		{"table, narrowest", "no column is made narrower than 12, so that the line is longer than asked for", 10,
			Rows(nil, [][]string{{"abcdef hijklm", "b"}}), "abcdef        b\nhijklm\n"},
		{"table, head", "a head is as wide as the longest of its column, or makes it so", 80,
			Rows([]string{"Material", "How much"}, [][]string{{"Sand", "2"}}), "Material  How much\nSand      2\n"},
		{"table, three columns", "two gaps: 12 + 2 + 2 + 2 + 3 = 21", 21,
			Rows(nil, [][]string{{"abcdefg abcde", "cd", "efg"}}), "abcdefg       cd  efg\nabcde\n"},
		{"table, under an item", "its indent is taken off the width: of 29 it has 27", 29,
			Item("Take", Rows(nil, [][]string{{"Stone", "crushed, two by thre"}})), "- Take\n  Stone  crushed, two by thre\n"},
		{"table, under an item, one column less", "of 28 it has 26", 28,
			Item("Take", Rows(nil, [][]string{{"Stone", "crushed, two by thre"}})), "- Take\n  Stone  crushed, two by\n         thre\n"},
		{"table, letters", "letters are counted, not bytes", 80,
			Rows(nil, [][]string{{"½ in", "a"}, {"1 in", "b"}}), "½ in  a\n1 in  b\n"},
		{"to write", "the line goes on to the edge: 20 - 6 = 14", 20,
			Write("Found"), "Found ______________\n"},
		{"to write, no room", "there are 10 columns at least to write on", 12,
			Write("Found"), "Found __________\n"},
		{"to write, under an item", "the indent is taken off: 20 - 2 - 6 = 12", 20,
			Item("Dig", Write("Found")), "- Dig\n  Found ____________\n"},
		{"to write, letters", "letters are counted, not bytes: 20 - 2 = 18", 20,
			Write("é"), "é __________________\n"},
		{"figure", "it is said by the rest of the sheet, and what stands under it is kept", 80,
			Figure("<svg/>", "Stone").Add(Text("Dig")), "  Dig\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b strings.Builder
			require.NoError(t, WriteText(&b, c.sheet, c.columns))
			require.Empty(t, cmp.Diff(c.want, b.String()), c.why)
		})
	}
}

// TestShort holds how long a cell may be that is kept on one line: 14 letters.
func TestShort(t *testing.T) {
	for _, c := range []struct {
		name, why string
		head      []string
		cells     []string
		short     bool
	}{
		{"14 letters", "the limit itself", nil, []string{"abcdefghijklmn", "a"}, true},
		{"15 letters", "one cell is enough, in whichever row", nil, []string{"a", "abcdefghijklmno"}, false},
		{"letters, not bytes", "a fraction is one letter", nil, []string{"½bcdefghijklmn"}, true},
		{"head", "it counts as well", []string{"x", "abcdefghijklmno"}, []string{"a"}, false},
		{"head of 14", "it is short", []string{"x", "abcdefghijklmn"}, []string{"a"}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			var rows [][]string
			for _, cell := range c.cells {
				rows = append(rows, []string{"abcdefghijklmnop", cell})
			}
			var b strings.Builder
			require.NoError(t, WriteHTML(&b, Part("", "A", Rows(c.head, rows)), 0))
			_, table, _ := strings.Cut(b.String(), "<table")
			require.Equal(t, c.short, strings.Contains(table, `class="short"`), c.why)
		})
	}
}

// TestListsInMarkdown holds where a list ends: only items next to one another are one list.
func TestListsInMarkdown(t *testing.T) {
	for _, c := range []struct {
		name, why string
		sheet     *Block
		want      string
	}{
		{"items", "one list", Part("", "A", Item("a"), Item("b")), "# A\n\n- a\n- b\n"},
		{"a paragraph between", "two lists, each below a blank line", Part("", "A", Item("a"), Text("b"), Item("c")), "# A\n\n- a\n\nb\n\n- c\n"},
		{"a place to go to", "it ends the list before it, and is ended by what follows", Part("", "A", Item("a"), &Block{Is: IsText, ID: "x", Text: "b"}), "# A\n\n- a\n\n<a id=\"x\"></a>\n\nb\n"},
		{"a figure to go to", "the list does not go on behind it", Part("", "A", Item("a"), &Block{Is: IsFigure, ID: "x", Text: "b"}, Item("c")), "# A\n\n- a\n\n<a id=\"x\"></a>\n\n*b*\n\n- c\n"},
		{"seven deep", "there are six depths of headings", Part("", "1", Part("", "2", Part("", "3", Part("", "4", Part("", "5", Part("", "6", Part("", "7", Text("x")))))))),
			"# 1\n\n## 2\n\n### 3\n\n#### 4\n\n##### 5\n\n###### 6\n\n###### 7\n\nx\n"},
		{"one line", "one place to write is one line", Write("Found"), "Found " + strings.Repeat("_", 40) + "\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b strings.Builder
			require.NoError(t, WriteMarkdown(&b, c.sheet, 0))
			require.Empty(t, cmp.Diff(c.want, b.String()), c.why)
		})
	}
}

type broken struct{ err error }

func (b broken) Write([]byte) (int, error) { return 0, b.err }

func requireXML(t *testing.T, text string) {
	t.Helper()
	for in := xml.NewDecoder(strings.NewReader(text)); ; {
		if _, err := in.Token(); err == io.EOF {
			return
		} else {
			require.NoError(t, err)
		}
	}
}

// TestPlain holds that Markdown takes what a person wrote for text.
func TestPlain(t *testing.T) {
	for _, c := range []struct{ name, why, text, want string }{
		{"words", "nothing is escaped that needs it not", "Dig 9.5 in (2-3/8), then | wait.", "Dig 9.5 in (2-3/8), then | wait."},
		{"markup", "marks of strength, code, links, tags, headings, entities", "`a` *b* _c_ [d](javascript:e) <f> # ~g~ &lt;", "\\`a\\` \\*b\\* \\_c\\_ \\[d\\](javascript:e) \\<f\\> \\# \\~g\\~ \\&lt;"},
		{"list", "a line that begins as an item of a list", "- a", `\- a`},
		{"numbered", "the same with a number", "12. a", `12\. a`},
		{"number", "a number with a fraction begins no list", "12.5 in", "12.5 in"},
		{"rule", "a line of dashes would be a rule", "--- a", `\--- a`},
		{"address", "some readers make links of addresses", "https://a www.b c@d", `https\://a www\.b c\@d`},
		{"unbroken", "a space at which no line is broken stays one", "1\u00a0000", "1\u00a0000"},
		{"lines", "no text goes on in a line of its own", "a\n\n# b\tc", `a \# b c`},
	} {
		t.Run(c.name, func(t *testing.T) { require.Empty(t, cmp.Diff(c.want, Plain(c.text)), c.why) })
	}
}

// TestAnchor holds that an ID has nothing in it that ends an attribute or a link.
func TestAnchor(t *testing.T) {
	require.Equal(t, "stone_need", Anchor("stone_need"))
	require.Equal(t, "Front-walk-2", Anchor(`Front  walk" <2>`))
	blocks := Within("walk-", Part("a", "A", Item("b").Leads("a"), nil))
	require.Equal(t, []string{"walk-a", "walk-a", ""}, []string{blocks[0].ID, blocks[0].Under[0].To, blocks[0].Under[0].ID})
}
