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
			Write("Found", 2),
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

____________________________________________________________

*Stone under sand*

<a id="deep"></a>

### Deeper

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
<p class="write"><i></i></p>
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
