package diagnostic_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares got with a file of testdata.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), string(got)))
}

// files are what the cases quote from.
var files = map[string]string{
	"rules.yaml": "chapter: geogrid\nrules:\n  - rule: GRID-PANEL\n    when: base == pannel\n    answer: no_grid\n",
	"tabs.yaml":  "\twhen:\tbase == pannel\n",
	"wide.yaml":  "about: 砂利の base pannel # é\ne\u0301: pannel\n",
	"long.yaml":  "start " + strings.Repeat("word ", 60) + "pannel " + strings.Repeat("tail ", 60) + "end\n",
	"crlf.yaml":  "\ufeffone\r\ntwo pannel\r\nthree\rfour pannel",
	"evil.yaml":  "when: \x1b[31mred\u202epannel\n",
}

func source(file string) ([]byte, bool) {
	s, ok := files[file]
	return []byte(s), ok
}

type renderCase struct {
	name string
	why  string
	list diagnostic.List
}

func list(d ...*diagnostic.Diagnostic) diagnostic.List { return d }

func fault(p diagnostic.Place, width int) *diagnostic.Diagnostic {
	return &diagnostic.Diagnostic{Place: p, Width: width, Code: "unknown-name", Message: "no base is called pannel"}
}

func renderCases() []renderCase {
	full := fault(at("rules.yaml", 4, 19), 6)
	full.Found, full.Wanted, full.Nearest = `"pannel"`, "a kind of base", "panel"
	full.Related = []diagnostic.Related{
		{Place: at("rules.yaml", 1, 10), Message: "in this chapter"},
		{Place: at("absent.yaml", 7, 2), Message: "where the kinds of base are"},
	}
	hostile := fault(at("evil.yaml", 1, 16), 6)
	hostile.Message = "no base is called \x1b[31mred"
	hostile.Found = "two\nlines"
	return []renderCase{
		{"full", "everything that a diagnostic may hold; a file that is not to be had is named only", list(full)},
		{"sorted", "in file order, whatever the order of finding", list(fault(at("rules.yaml", 5, 5), 6), fault(at("rules.yaml", 1, 1), 7))},
		{"places", "no line, no column, a line below the end, a column past the end, a width past the end, a width of 0", list(
			fault(at("rules.yaml", 0, 0), 0), fault(at("rules.yaml", 2, 0), 0), fault(at("rules.yaml", 99, 1), 1),
			fault(at("rules.yaml", 3, 500), 3), fault(at("rules.yaml", 4, 19), 500), fault(at("rules.yaml", 4, 11), 0),
			fault(at("rules.yaml", 5, 20), 1), fault(at("rules.yaml", 6, 1), 1))},
		{"tabs", "a tab moves what follows to a stop, and the mark with it", list(fault(at("tabs.yaml", 1, 16), 6), fault(at("tabs.yaml", 1, 1), 1))},
		{"wide", "wide characters take two columns, combining ones none", list(
			fault(at("wide.yaml", 1, 17), 6), fault(at("wide.yaml", 1, 8), 4), fault(at("wide.yaml", 2, 5), 6))},
		{"long", "a long line is cut about the mark: within, at its start, at its end", list(
			fault(at("long.yaml", 1, 307), 6), fault(at("long.yaml", 1, 1), 5), fault(at("long.yaml", 1, 614), 3),
			fault(at("long.yaml", 1, 617), 1), fault(at("long.yaml", 1, 0), 1), fault(at("long.yaml", 1, 10), 400))},
		{"breaks", "lines end in CR LF, CR or LF, and a byte order mark is no character", list(
			fault(at("crlf.yaml", 1, 1), 3), fault(at("crlf.yaml", 2, 5), 6), fault(at("crlf.yaml", 4, 6), 6))},
		{"hostile", "what a file holds must not act on the terminal", list(hostile)},
		{"empty", "nothing to say", nil},
	}
}

func TestRender(t *testing.T) {
	for _, c := range renderCases() {
		t.Run(c.name, func(t *testing.T) {
			var b bytes.Buffer
			require.NoError(t, c.list.Render(&b, source))
			for _, r := range b.String() {
				require.True(t, r == '\n' || unicode.IsGraphic(r), "%q in the output", r)
			}
			golden(t, c.name+".txt", b.Bytes())
		})
	}
}

// TestRenderMark holds that the mark is under the word, by columns counted here
// and not by the golden file.
func TestRenderMark(t *testing.T) {
	for _, c := range []struct {
		name, why string
		place     diagnostic.Place
	}{
		{"plain", "nothing moves the mark", at("rules.yaml", 4, 19)},
		{"tabs", "a tab is wider than its one character", at("tabs.yaml", 1, 16)},
		{"long", "the line is cut before the word, and the mark moves with it", at("long.yaml", 1, 307)},
		{"crlf", "two signs end the line before, and are one end", at("crlf.yaml", 2, 5)},
		{"cr", "a CR alone ends a line as well", at("crlf.yaml", 4, 6)},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b bytes.Buffer
			require.NoError(t, list(fault(c.place, 6)).Render(&b, source))
			lines := strings.Split(b.String(), "\n")
			require.Equal(t, strings.Index(lines[1], "pannel"), strings.Index(lines[2], "^~~~~~"), b.String())
			require.LessOrEqual(t, len(lines[1]), 120)
		})
	}
}

func TestRenderWithoutSource(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, list(fault(at("rules.yaml", 4, 19), 6)).Render(&b, nil))
	require.Equal(t, "rules.yaml:4:19: no base is called pannel [unknown-name]\n", b.String())
}

func TestRenderAsksOnce(t *testing.T) {
	asked := 0
	l := list(fault(at("rules.yaml", 4, 1), 1), fault(at("rules.yaml", 2, 1), 1), nil)
	require.NoError(t, l.Render(&bytes.Buffer{}, func(string) ([]byte, bool) { asked++; return nil, false }))
	require.Equal(t, 1, asked, "a file may be slow to come by")
	require.Equal(t, 4, l[0].Place.Line, "the list is left as it was")
}

func TestWriteJSONLines(t *testing.T) {
	for _, c := range renderCases() {
		if c.name != "full" && c.name != "sorted" && c.name != "hostile" {
			continue
		}
		t.Run(c.name, func(t *testing.T) {
			var b bytes.Buffer
			require.NoError(t, c.list.WriteJSONLines(&b))
			golden(t, c.name+".jsonl", b.Bytes())
			lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
			require.Len(t, lines, len(c.list))
			back := make(diagnostic.List, len(lines))
			for i, line := range lines {
				require.NoError(t, json.Unmarshal([]byte(line), &back[i]))
			}
			c.list.Sort()
			require.Empty(t, cmp.Diff(c.list, back), "what is written can be read back")
		})
	}
}

// full is a writer with no room.
type full struct{}

var errFull = errors.New("no room")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriterFails(t *testing.T) {
	l := list(fault(at("rules.yaml", 4, 19), 6))
	require.ErrorIs(t, l.Render(full{}, source), errFull)
	require.ErrorIs(t, l.WriteJSONLines(full{}), errFull)
}

// FuzzRender holds that no line and no place brings a panic, or a control
// character to the terminal.
func FuzzRender(f *testing.F) {
	for _, s := range files {
		f.Add(s, 1, 5, 3)
	}
	f.Add("", -1, -1, -1)
	f.Fuzz(func(t *testing.T, text string, line, column, width int) {
		d := fault(at("f", line, column), width)
		d.Found = text
		var b bytes.Buffer
		err := list(d).Render(&b, func(string) ([]byte, bool) { return []byte(text), true })
		require.NoError(t, err)
		for _, r := range b.String() {
			require.True(t, r == '\n' || unicode.IsGraphic(r), "%q in the output", r)
		}
	})
}
