package language

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

func TestWordsOfAText(t *testing.T) {
	for _, c := range []struct {
		name, why, text string
		want            []string
	}{
		{"name", "one word", "yields", []string{"yields"}},
		{"dots", "each beginning may be the name", "soil.dcp.hammer == light", []string{"light", "soil", "soil.dcp", "soil.dcp.hammer"}},
		{"spaces", "a dot is a dot", "slab_laid . height", []string{"slab_laid", "slab_laid.height"}},
		{"twice", "each once", "a < b && b < a", []string{"a", "b"}},
		{"part of a word", "a word is whole", "base_least + base_least_driveway", []string{"base_least", "base_least_driveway"}},
		{"texts", "what is in quotes names nothing", "'soft ground' + \"x\" + r'y'", nil},
		{"numbers", "a unit behind a number is no name", "4in + inches(4)", []string{"inches"}},
		{"broken", "what cannot be parsed has its words all the same", "a && (b ||", []string{"a", "b"}},
		{"nothing", "an empty text has none", "", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Empty(t, cmp.Diff(c.want, Words(c.text)), c.why)
		})
	}
}

// TestSigns holds how a text is split: n is a name, # a number, t a text and o an open
// one, s a sign, b a bracket and ? what no expression has; each with where it begins.
func TestSigns(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"names and numbers", "aZ_09 z.A", "n0:aZ_09 n6:z s7:. n8:A"},
		{"numbers", "0.5 .9 1e5 1e+5 1E-5 4in 1.", "#0:0.5 #4:.9 #7:1e5 #11:1e+5 #16:1E-5 #21:4in #25:1 s26:."},
		{"no exponent", "1e+ 1+5", "#0:1e s2:+ #4:1 s5:+ #6:5"},
		{"signs of two", "==!=<=>=&&||=&|", "s0:== s2:!= s4:<= s6:>= s8:&& s10:|| ?12:= ?13:& ?14:|"},
		{"signs of one", "<>!+-*/%?:,.", "s0:< s1:> s2:! s3:+ s4:- s5:* s6:/ s7:% s8:? s9:: s10:, s11:."},
		{"brackets", "()[]{}", "b0:( b1:) b2:[ b3:] b4:{ b5:}"},
		{"spaces", "\t\n\r\fa \u00a0", "n4:a ?6:\u00a0"},
		{"a remark", "a // b\nc / d//", "n0:a n7:c s9:/ n11:d"},
		{"texts", `'a"' "b'"`, `t0:'a"' t5:"b'"`},
		{"a quote behind a backslash", `'a\'b' c`, `t0:'a\'b' n7:c`},
		{"a plain backslash", `r'a\' c`, `t0:r'a\' n6:c`},
		{"bytes", `b'a\'' B"b" c'd'`, `t0:b'a\'' t7:B"b" n12:c t13:'d'`},
		{"plain bytes", `br'\' bR'\' Br'\' BR'\' rb'\' rB'\' Rb'\' RB'\' R'\'`, `t0:br'\' t6:bR'\' t12:Br'\' t18:BR'\' t24:rb'\' t30:rB'\' t36:Rb'\' t42:RB'\' t48:R'\'`},
		{"three quotes", "'''a'b\nc''' d", "t0:'''a'b\nc''' n12:d"},
		{"an empty text", "'' a", "t0:'' n3:a"},
		{"open at the end", "a 'b", "n0:a o2:'b"},
		{"open at the end of a line", "'b\nc", "o0:'b n3:c"},
		{"open behind a backslash", `'b\`, `o0:'b\`},
		{"three open", "'''a''", "o0:'''a''"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, s := range scan(c.text) {
				got = append(got, fmt.Sprintf("%c%d:%s", "n#tosb?"[s.kind], s.start, s.text))
				require.Equal(t, s.start+len([]rune(s.text)), s.stop)
			}
			require.Equal(t, c.want, strings.Join(got, " "))
		})
	}
}

func TestPartners(t *testing.T) {
	for _, c := range []struct {
		name, text string
		pairs      map[int]int
		lone       []int
	}{
		{"nested", "(a[b]{c})", map[int]int{0: 8, 8: 0, 2: 4, 4: 2, 5: 7, 7: 5}, nil},
		{"not closed", "(a[b]", map[int]int{2: 4, 4: 2}, []int{0}},
		{"not opened", "a)", map[int]int{}, []int{1}},
		{"of another kind", "(a]b)", map[int]int{0: 4, 4: 0}, []int{2}},
		{"two of each", ")](", map[int]int{}, []int{0, 1, 2}},
	} {
		pairs, lone := partners(scan(c.text))
		var at []int
		for _, l := range lone {
			at = append(at, l.start)
		}
		require.Equal(t, c.pairs, pairs, c.name)
		require.Equal(t, c.lone, at, c.name)
	}
}

// TestLikeLetter holds both ends of the letters that are as wide as two, and both sides
// of them.
func TestLikeLetter(t *testing.T) {
	for text, want := range map[string]string{
		"\uFF01": "!", "\uFF5E": "~", "\uFF00": "", "\uFF5F": "", "\uFF21\uFF5A": "Az",
		"\u0430": "a", "\u0391": "A", "\u2010": "-", "a": "", "": "", "\u0430\u4e00": "", "\u4e00": "",
	} {
		require.Equal(t, want, likeLetter(text), "%+q", text)
	}
	require.Equal(t, "a", numbered("a"))
	require.Equal(t, "\u007f", numbered("\u007f"), "the last that needs no number")
	require.Equal(t, "\u0080b\u4e00 (U+0080 U+4E00)", numbered("\u0080b\u4e00"))
}

func TestSignsAroundAPlace(t *testing.T) {
	l := layOut("ab.cd + e.f.g")
	for _, c := range []struct {
		at            int
		before, after string
	}{{0, "", "ab"}, {1, "", "."}, {2, "ab", "."}, {3, ".", "cd"}, {5, "cd", "+"}, {6, "cd", "+"}, {7, "+", "e"}, {13, "g", ""}} {
		before, found := l.before(c.at)
		require.Equal(t, c.before, before.text, "before %d", c.at)
		require.Equal(t, c.before != "", found)
		after, found := l.after(c.at)
		require.Equal(t, c.after, after.text, "after %d", c.at)
		require.Equal(t, c.after != "", found)
	}
	for _, c := range [][4]int{{2, 1, 0, 5}, {11, 2, 8, 13}, {11, 1, 10, 13}, {9, 1, 8, 11}, {6, 1, -1, -1}, {99, 1, -1, -1}} {
		start, stop := l.dotted(c[0], c[1])
		require.Equal(t, [2]int{c[2], c[3]}, [2]int{start, stop}, "the dot at %d, behind %d", c[0], c[1])
	}
}

// TestWritten holds how an expression writes what stands as in a setting.
func TestWritten(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"a unit", "6 in", "inches(6)"},
		{"its other spelling", "6 inches", "inches(6)"},
		{"at once", `6"`, "inches(6)"},
		{"decimals", "150.5 mm", "mm(150.5)"},
		{"a fraction", "6-1/2 in", "inches(6.5)"},
		{"feet with inches", "4 ft 6 in", "inches(54)"},
		{"below 0", "-5 C", "celsius(-5)"},
		{"a share", "12 %", "percent(12)"},
		{"spaces around", " 6 in ", "inches(6)"},
		{"a number", "6", "6"},
		{"with decimals", "6.50", "6.5"},
		{"below 0, a number", "-6", "-6"},
		{"a word", "panel", "panel"},
		{"a text", "at least 6 in", "at least 6 in"},
		{"nothing", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, Written(c.text)) })
	}
}
