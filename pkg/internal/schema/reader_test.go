package schema_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/schema"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
)

// sample is a file that has every key, and how its kind of file is read.
type sample struct {
	name, file string
	schema     *schema.Schema
	read       func(data []byte) error
	// words are the codes of words that the schema knows too.
	words []diagnostic.Code
	// slow reports whether reading takes milliseconds.
	slow bool
}

// everyChange is the environment variable that asks for every change; without
// it, a fifth of the replaced values is tried where reading is slow.
const everyChange = "GROUNDRULE_EVERY_CHANGE"

func samples(t *testing.T) []sample {
	chapter, older := sampleFile(t, "chapter.yaml"), sampleFile(t, "older.yaml")
	base := fstest.MapFS{"chapter.yaml": {Data: chapter}}
	chapterOf := func(data []byte) error {
		_, err := engine.Open(fstest.MapFS{"chapter.yaml": {Data: data}}, engine.Setup{})
		return err
	}
	amendmentOf := func(data []byte) error {
		layer := rulebook.Layer{FS: fstest.MapFS{"amendment.yaml": {Data: data}, "older.yaml": {Data: older}}}
		asOf, err := rulebook.ParseDate("2026-06-01")
		require.NoError(t, err)
		_, err = engine.Open(base, engine.Setup{AsOf: asOf, Amendments: []rulebook.Layer{layer}})
		return err
	}
	textsOf := func(data []byte) error {
		_, err := engine.Open(base, engine.Setup{Amendments: []rulebook.Layer{{FS: fstest.MapFS{"texts.yaml": {Data: data}}}}})
		return err
	}
	jobOf := func(data []byte) error { _, err := words(t).Read("job.yaml", data); return err }
	book, err := groundrule.Open(base)
	require.NoError(t, err)
	trialOf := func(data []byte) error {
		trials, err := trial.Load(rulebook.Layer{FS: fstest.MapFS{"trial.yaml": {Data: data}}})
		if err == nil {
			_, err = trial.Run(context.Background(), inside.Rules(book), trials, trial.Options{}) // it reads the values, of the kinds of the rulebook
		}
		return err
	}
	pricesOf := func(data []byte) error { _, err := takeoff.ReadPrices("prices.yaml", data); return err }
	return []sample{
		{"chapter", "chapter.yaml", schema.Chapter(), chapterOf, nil, true},
		{"amendment", "amendment.yaml", schema.Amendment(), amendmentOf, nil, true},
		{"texts", "texts.yaml", schema.Texts(), textsOf, nil, false},
		{"job", "../../../site/testdata/job.yaml", schema.Job(words(t)), jobOf, []diagnostic.Code{site.CodeWord}, false},
		{"other job", "job_other.yaml", schema.Job(words(t)), jobOf, []diagnostic.Code{site.CodeWord}, false},
		{"trial", "trial.yaml", schema.Trial(nil), trialOf, nil, false},
		{"prices", "../../../takeoff/testdata/prices.yaml", schema.Prices(), pricesOf, nil, false},
	}
}

func sampleFile(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", name))
	require.NoError(t, err)
	return data
}

// structural are the codes of faults that a schema must find too: of keys,
// shapes and closed lists, not of what values mean.
var structural = []diagnostic.Code{
	document.CodeUnknownKey, document.CodeMissingKey, document.CodeMissingValue, document.CodeNotMapping, document.CodeNotList,
	document.CodeNotSingle, document.CodeNotBool, document.CodeNotNumber, document.CodeEmpty,
	trial.CodeNothing,
	"not-a-name", "not-a-date", "not-a-text", "unclear-change", "unclear-check", "unknown-tag", "unknown-take", "unknown-standing", "unknown-failing",
}

func codesOf(err error) []diagnostic.Code {
	var list diagnostic.List
	var out []diagnostic.Code
	if errors.As(err, &list) {
		for _, d := range list {
			out = append(out, d.Code)
		}
	}
	return out
}

// change is one thing changed in a sample.
type change struct {
	what string
	// path is that of the mapping or list that is changed.
	path string
	data []byte
	// without is the key that was taken out, added that an unknown one was put in.
	without string
	added   bool
}

// unknownKey is one that no file has.
const unknownKey = "zzz_unknown"

// changes makes every change of a sample: in each mapping a key more, each key
// taken out, each value replaced by one of every shape.
func changes(t *testing.T, data []byte) []change {
	t.Helper()
	var root yaml.Node
	require.NoError(t, yaml.Unmarshal(data, &root))
	var out []change
	add := func(c change) {
		text, err := yaml.Marshal(&root)
		require.NoError(t, err)
		c.data = text
		out = append(out, c)
	}
	var visit func(n *yaml.Node, path string)
	visit = func(n *yaml.Node, path string) {
		step := 1
		if n.Kind == yaml.MappingNode {
			step = 2
			kept := n.Content
			n.Content = append(slices.Clone(kept), scalar("!!str", unknownKey), scalar("!!str", "x"))
			add(change{what: "a key more", path: path, added: true})
			n.Content = kept
		}
		for i := step - 1; i < len(n.Content); i += step {
			at := path + "/" + name(n, i)
			kept := n.Content[i]
			for _, other := range replacements() {
				n.Content[i] = other.node
				add(change{what: at + " is " + other.what, path: path})
			}
			n.Content[i] = kept
			if step == 2 {
				all := n.Content
				n.Content = slices.Concat(all[:i-1], all[i+1:])
				add(change{what: "without " + at, path: path, without: all[i-1].Value})
				n.Content = all
			}
			visit(kept, at)
		}
	}
	visit(root.Content[0], "")
	return out
}

func name(n *yaml.Node, i int) string {
	if n.Kind == yaml.MappingNode {
		return n.Content[i-1].Value
	}
	return strconv.Itoa(i)
}

type replacement struct {
	what string
	node *yaml.Node
}

func scalar(tag, text string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: tag, Value: text}
}

func replacements() []replacement {
	some := func(kind yaml.Kind, content ...*yaml.Node) *yaml.Node {
		return &yaml.Node{Kind: kind, Content: content}
	}
	blank := scalar("!!str", "")
	blank.Style = yaml.DoubleQuotedStyle
	return []replacement{
		{"a word", scalar("!!str", "frobnicate")}, {"a number", scalar("!!int", "7")}, {"true", scalar("!!bool", "true")},
		{"nothing", scalar("!!null", "")}, {"blank", blank}, {"a date", scalar("!!timestamp", "2026-05-01")},
		{"no such day", scalar("!!str", "2026-13-01")},
		{"an empty list", some(yaml.SequenceNode)}, {"a list", some(yaml.SequenceNode, scalar("!!str", "x"))},
		{"an empty mapping", some(yaml.MappingNode)}, {"a mapping", some(yaml.MappingNode, scalar("!!str", "x"), scalar("!!str", "y"))},
	}
}

// The samples are read without fault, so that whatever is wrong after a change
// came by the change.
func TestSamples(t *testing.T) {
	for _, s := range samples(t) {
		data := sampleFile(t, s.file)
		require.NoError(t, s.read(data), s.name)
		require.Empty(t, validate(s.schema, instance(t, data)).faults, s.name)
	}
}

// A schema takes what the reader takes, and finds every fault of structure that
// the reader finds; it knows the same keys, and needs the same.
func TestSchemaAgreesWithReader(t *testing.T) {
	for _, s := range samples(t) {
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			refused, faulty := 0, 0
			for i, c := range changes(t, sampleFile(t, s.file)) {
				if s.slow && os.Getenv(everyChange) == "" && !c.added && c.without == "" && i%5 != 0 {
					continue
				}
				err := s.read(c.data)
				v := validate(s.schema, instance(t, c.data))
				codes := codesOf(err)
				found := slices.ContainsFunc(codes, func(code diagnostic.Code) bool {
					return slices.Contains(structural, code) || slices.Contains(s.words, code)
				})
				switch {
				case excepted[c.what] != "":
				case err == nil && len(v.faults) > 0:
					t.Errorf("%s: the reader takes it, the schema does not: %v", c.what, v.faults)
				case found && len(v.faults) == 0:
					t.Errorf("%s: the schema takes it, the reader does not: %v", c.what, err)
				}
				if s.name != "texts" || c.path == "" { // which texts an entry has, the reader alone knows
					agreeOnKeys(t, c, err, v)
				}
				if err != nil {
					refused++
				}
				if found {
					faulty++
				}
			}
			t.Logf("the reader refuses %d changes, %d of them for their structure", refused, faulty)
			require.Positive(t, faulty)
		})
	}
}

// excepted are the changes on which a schema and its reader differ, and why.
var excepted = map[string]string{
	"/decisions/base_lift/table/rows/LIFT-THIN/1 is a list":        "the schema does not know which column answers",
	"/decisions/base_lift/table/rows/LIFT-THICK/cells/1 is a list": "the same",
}

// agreeOnKeys holds the keys that a schema declares for a mapping to those that
// the reader asks for.
func agreeOnKeys(t *testing.T, c change, err error, v *validator) {
	t.Helper()
	d := v.keys[c.path]
	var list diagnostic.List
	errors.As(err, &list)
	if c.added {
		i := slices.IndexFunc(list, func(d *diagnostic.Diagnostic) bool { return d.Code == document.CodeUnknownKey })
		if i < 0 {
			return // a mapping of names, in which any key may stand
		}
		asked := strings.Split(strings.Replace(list[i].Wanted, " or ", ", ", 1), ", ")
		if d == nil {
			t.Errorf("%s: the schema declares no keys at %q", c.what, c.path)
			return
		}
		if strings.HasPrefix(c.path, "/retire/") || strings.HasPrefix(c.path, "/move/") {
			return // what is named may be of any sort; the reader tells the keys of the one that it is of
		}
		keys := slices.Compact(slices.Sorted(slices.Values(d.keys)))
		if i := slices.IndexFunc(keys, func(k string) bool { return !slices.Contains(asked, k) }); strings.HasSuffix(c.path, "/with") && i >= 0 {
			asked = append(asked, keys[i]) // the name is looked for only where it is there
		}
		if strings.HasSuffix(c.path, "/set") { // what is set keeps its name
			asked = slices.DeleteFunc(asked, func(k string) bool { return k == "rule" })
		}
		slices.Sort(asked)
		if diff := cmp.Diff(asked, keys); diff != "" {
			t.Errorf("keys at %q (-reader +schema):\n%s", c.path, diff)
		}
	}
	if c.path == "" && (c.without == "amendment" || c.without == "texts") {
		return // without it, the file is a chapter
	}
	if c.path == "" && c.without == "chapter" { // without it, one thing is said of the file
		if !strings.Contains(err.Error(), "this is not a rule file") {
			t.Errorf("%s: %v", c.what, err)
		}
		return
	}
	if c.without != "" && d != nil && !d.either && slices.Contains(d.keys, c.without) {
		missing := slices.ContainsFunc(list, func(d *diagnostic.Diagnostic) bool {
			return d.Code == document.CodeMissingKey && (d.Wanted == c.without || strings.HasPrefix(d.Message, c.without+" ") || strings.Contains(d.Message, "."+c.without+" "))
		})
		if needed := slices.Contains(d.needed, c.without); needed != missing && !(missing && len(v.faults) > 0) { // a key may be needed only where others are there
			t.Errorf("%s: needed by the schema %v, missed by the reader %v: %v", c.what, needed, missing, err)
		}
	}
}

// A name is a name for the schema where it is one for the reader.
func TestNames(t *testing.T) {
	s := samples(t)[0]
	text := string(sampleFile(t, s.file))
	for _, name := range strings.Fields("true false null in as break const continue else for function if import let loop package namespace return var void while " +
		"and or not has all map this type size matches dyn list int double string plain A_1 _x a.b a.b.c a..b .a a. 1a a-b a:b a/b ä") {
		data := []byte(strings.Replace(text, "  handbook:\n", "  '"+name+"':\n", 1))
		refused := slices.Contains(codesOf(s.read(data)), "not-a-name")
		found := slices.ContainsFunc(validate(s.schema, instance(t, data)).faults, func(f string) bool { return strings.HasPrefix(f, "/sources/"+name+":") })
		require.Equal(t, refused, found, name)
	}
}
