package document_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
)

func TestEntry(t *testing.T) {
	cases := []struct {
		name, why string
		data      string
		ask       func(e *document.Entry) any
		want      any
		faults    []string
	}{
		{"text", "the common case", "k: a b\n", func(e *document.Entry) any { return e.Text("k") }, "a b", nil},
		{"text of a number", "is the number as written", "k: 010\n", func(e *document.Entry) any { return e.Text("k") }, "010", nil},
		{"text, absent", "what is not there is no fault", "x: 1\n", func(e *document.Entry) any { e.Get("x"); return e.Text("k") }, "", nil},
		{"text, null", "as if absent", "k: ~\n", func(e *document.Entry) any { return e.Text("k") }, "", nil},
		{"text, null in quotes", "is text", "k: 'null'\n", func(e *document.Entry) any { return e.Text("k") }, "null", nil},
		{"text, blank", "who leaves it so has not said what to say", "k: ''\n", func(e *document.Entry) any { return e.Text("k") }, "",
			[]string{`f.yaml:1:1: "k" of a thing has no value; wanted a value`}},
		{"text, a list", "a list has no text, and is not taken for its first item", "k: [a]\n", func(e *document.Entry) any { return e.Text("k") }, "",
			[]string{`f.yaml:1:4: "k" of a thing must be a single value; found a list`}},
		{"need, absent", "at the mapping", "x: 1\n", func(e *document.Entry) any { e.Get("x"); return e.Need("k") == nil }, true,
			[]string{`f.yaml:1:1: a thing needs the key "k"; wanted k`}},
		{"need, null", "at the key", "x: 1\nk:\n", func(e *document.Entry) any { e.Get("x"); return e.Need("k") == nil }, true,
			[]string{`f.yaml:2:1: "k" of a thing has no value; wanted a value`}},
		{"need text, blank", "blanks are no text", "k: ' '\n", func(e *document.Entry) any { return e.NeedText("k") }, "",
			[]string{`f.yaml:1:1: "k" of a thing has no value; wanted a value`}},
		{"need text, a mapping", "said once", "k: {a: 1}\n", func(e *document.Entry) any { return e.NeedText("k") }, "",
			[]string{`f.yaml:1:4: "k" of a thing must be a single value; found a mapping`}},
		{"bool", "the common case", "k: true\n", func(e *document.Entry) any { return e.Bool("k") }, true, nil},
		{"bool, false", "as plain as true", "k: false\n", func(e *document.Entry) any { return e.Bool("k") }, false, nil},
		{"bool, absent", "what is not there is not so", "{}\n", func(e *document.Entry) any { return e.Bool("k") }, false, nil},
		{"bool, yes", "not YAML's many words for it", "k: yes\n", func(e *document.Entry) any { return e.Bool("k") }, false,
			[]string{`f.yaml:1:4: "k" of a thing must be true or false; found "yes"; wanted true or false`}},
		{"bool, True", "the nearest is named", "k: True\n", func(e *document.Entry) any { return e.Bool("k") }, false,
			[]string{`f.yaml:1:4: "k" of a thing must be true or false; found "True"; wanted true or false; did you mean "true"?`}},
		{"bool, in quotes", "is text", "k: 'true'\n", func(e *document.Entry) any { return e.Bool("k") }, false,
			[]string{`f.yaml:1:4: "k" of a thing must be true or false; found "true"; wanted true or false; did you mean "true"?`}},
		{"items", "the common case", "k: [a, b]\n", func(e *document.Entry) any { return len(e.Items("k")) }, 2, nil},
		{"items, absent", "what is not there is no fault", "{}\n", func(e *document.Entry) any { return len(e.Items("k")) }, 0, nil},
		{"items, a single value", "one item is not taken for a list of one", "k: a\n", func(e *document.Entry) any { return len(e.Items("k")) }, 0,
			[]string{`f.yaml:1:4: "k" of a thing must be a list; found "a"; wanted a list, each item after a dash`}},
		{"unknown key", "with what is known, and the nearest", "whne: 1\n", func(e *document.Entry) any { e.Get("when"); e.Get("answer"); e.Get("when"); return nil }, nil,
			[]string{`f.yaml:1:1: unknown key "whne" in a thing; found "whne"; wanted when or answer; did you mean "when"?`}},
		{"unknown keys", "each, in file order", "b: 1\na: 1\n", func(e *document.Entry) any { return nil }, nil,
			[]string{`f.yaml:1:1: unknown key "b" in a thing; found "b"`, `f.yaml:2:1: unknown key "a" in a thing; found "a"`}},
		{"a list", "nothing further is said of an entry that is none", "[a]\n", func(e *document.Entry) any { e.Need("k"); return e.NeedText("l") }, "",
			[]string{`f.yaml:1:1: a thing must be keys with values; found a list; wanted lines such as "key: value" under it`}},
		{"null", "a mapping of which nothing was written is not an empty one", "~\n", func(e *document.Entry) any { return e.Get("k") == nil }, true,
			[]string{`f.yaml:1:1: a thing must be keys with values; found "~"; wanted lines such as "key: value" under it`}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			root, faults := document.Read("f.yaml", []byte(c.data), document.Limits{})
			require.NoError(t, faults.Err())
			e := root.Entry("a thing", &faults)
			require.Empty(t, cmp.Diff(c.want, c.ask(e)), c.why)
			e.Done()
			var said []string
			for _, d := range faults {
				require.NotEmpty(t, d.Code)
				said = append(said, d.Error())
			}
			require.Empty(t, cmp.Diff(c.faults, said), c.why)
		})
	}
}

// TestUnknownKey holds the fields that others build on.
func TestUnknownKey(t *testing.T) {
	root, faults := document.Read("f.yaml", []byte("answr: 1\n"), document.Limits{})
	e := root.Entry("a rule", &faults)
	e.Get("answer")
	e.Done()
	want := diagnostic.List{{
		Place: diagnostic.Place{File: "f.yaml", Line: 1, Column: 1}, Width: 5, Code: "unknown-key",
		Message: `unknown key "answr" in a rule`, Found: `"answr"`, Wanted: "answer", Nearest: "answer",
	}}
	require.Empty(t, cmp.Diff(want, faults))
}

// TestLongUnknownKey holds that the nearest is sought for what may be a key, and not
// for a text of any length.
func TestLongUnknownKey(t *testing.T) {
	for length, want := range map[int]bool{100: true, 101: false} {
		root, faults := document.Read("f.yaml", []byte(strings.Repeat("k", length)+": 1\n"), document.Limits{})
		e := root.Entry("a rule", &faults)
		e.Get(strings.Repeat("k", 99))
		e.Done()
		require.Equal(t, want, faults[0].Nearest != "", "%d letters", length)
	}
}

// TestKey holds that a key's own place can be had, and that it counts as asked.
func TestKey(t *testing.T) {
	root, faults := document.Read("f.yaml", []byte("a: 1\n'b': ~\n"), document.Limits{})
	e := root.Entry("a thing", &faults)
	require.Equal(t, "f.yaml:2:1", e.Key("b").Place().String())
	require.Equal(t, 3, e.Key("b").Width())
	require.Nil(t, e.Key("c"))
	e.Done()
	require.Len(t, faults, 1, "only a was not asked for")
	require.Equal(t, "b or c", faults[0].Wanted)
}

// TestRefusedNodeIsQuiet holds that what Read refused is not reported again.
func TestRefusedNodeIsQuiet(t *testing.T) {
	root, faults := document.Read("f.yaml", []byte("a: &x {b: 1}\nk: *x\n"), document.Limits{})
	require.Len(t, faults, 2, "the anchor and the alias")
	e := root.Entry("a thing", &faults)
	e.Get("a")
	require.NotNil(t, e.Need("k"))
	e.Text("k")
	e.NeedText("k")
	e.Bool("k")
	e.Items("k")
	inner := e.Get("k").Entry("another", &faults)
	inner.Need("b")
	inner.Done()
	e.Done()
	require.Len(t, faults, 2, "nothing was added")

	(*document.Node)(nil).Entry("nothing", &faults).Need("k")
	require.Len(t, faults, 2, "a nil node was reported where it went missing")
}

func ExampleNode_Entry() {
	data := []byte("rule: GRID-PANEL\nwehn: base == panel\n")
	root, faults := document.Read("rules.yaml", data, document.Limits{})
	e := root.Entry("a rule", &faults)
	fmt.Println(e.NeedText("rule"))
	e.NeedText("when")
	e.Done()
	_ = faults.Render(os.Stdout, func(string) ([]byte, bool) { return data, true })
	// Output:
	// GRID-PANEL
	// rules.yaml:2:1: unknown key "wehn" in a rule [unknown-key]
	//       2 | wehn: base == panel
	//         | ^~~~
	//   found:   "wehn"
	//   wanted:  rule or when
	//   did you mean "when"?
}

func ExampleNode_At() {
	root, _ := document.Read("rules.yaml", []byte("when: >\n  base == panel &&\n  cover > 4\n"), document.Limits{})
	when := root.Fields()[0].Value
	fmt.Printf("%q\n", when.Text())
	fmt.Println(when.At(17)) // the c of cover
	// Output:
	// "base == panel && cover > 4\n"
	// rules.yaml:3:3
}
