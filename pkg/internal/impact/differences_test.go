package impact_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/impact"
	"example.com/groundrule/pkg/site"
)

// told is what a table wants of an edit.
type told struct {
	ID        string
	Done      impact.Done
	WordsOnly bool
	Fields    []impact.Field
}

func changed(id string, wordsOnly bool, fields ...impact.Field) told {
	return told{id, impact.Changed, wordsOnly, fields}
}

func bears(name, before, after string) impact.Field {
	return impact.Field{Name: name, Before: before, After: after, Bears: true}
}

func words(name, before, after string) impact.Field {
	return impact.Field{Name: name, Before: before, After: after}
}

// editsOf lists the edits between two rulebooks.
func editsOf(t *testing.T, before, after *engine.Book) []impact.Edit {
	var out []impact.Edit
	for _, e := range run(t, before, after, func(func(*site.Site, error) bool) {}).Edits {
		out = append(out, e.Edit)
	}
	return out
}

func TestDifferences(t *testing.T) {
	for _, c := range []struct {
		name, why string
		edits     []edit
		want      []told
	}{
		{"none", "the same text has no edits", nil, nil},
		{"setting", "its value is what decides", []edit{{"value: 4 in", "value: 5 in"}}, []told{changed("setting base_least", false, bears("value", "4 in", "5 in"))}},
		{"setting by a hair", "two values that read the same are told apart", []edit{{"cover:\n    value: 6 in", "cover:\n    value: 6.0000001 in"}},
			[]told{changed("setting cover", false, bears("value", "0.1524 m", "0.15240000254000002 m"))}},
		{"limit", "it binds whoever amends, and no answer", []edit{{"at_least: 4 in", "at_least: 3 in"}}, []told{changed("setting base_least", true, words("at_least", "4 in", "3 in"))}},
		{"because", "words only", []edit{{"because: It is cheap.", "because: Cheap."}}, []told{changed("rule MAT-WANTED", true, words("because", "It is cheap.", "Cheap."))}},
		{"rule", "its condition and its answer", []edit{{"when: yields\n        answer: mesh", "when: yields && wheels\n        answer: felt"}},
			[]told{changed("rule MAT-SOFT", false, bears("when", "yields", "yields && wheels"), bears("answer", "mesh", "felt"))}},
		{"standing", "it is told, and decides nothing", []edit{{"standing: measured", "standing: correlated"}}, []told{changed("rule STRENGTH-READ", true, words("standing", "measured", "correlated"))}},
		{"rule by another name", "one is new and one is gone", []edit{{"- rule: MAT-WANTED", "- rule: MAT-CHEAP"}},
			[]told{{"rule MAT-CHEAP", impact.Added, false, nil}, {"rule MAT-WANTED", impact.Removed, false, nil}}},
		{"take", "the way of choosing", []edit{{"take: largest", "take: smallest"}}, []told{changed("decision base_need", false, bears("take", "largest", "smallest"))}},
		{"order of rules", "the first that holds answers", []edit{
			{"      - rule: SLAB-WHEELS\n        when: wheels\n        answer: thick_slab\n        because: Wheels break thin slabs.\n        source: practice\n", ""},
			{"because: Enough for feet.\n        source: practice\n", "because: Enough for feet.\n        source: practice\n      - rule: SLAB-WHEELS\n        when: wheels\n        answer: thick_slab\n        because: Wheels break thin slabs.\n        source: practice\n"}},
			[]told{changed("decision slab_laid", false, bears("order of rules", "SLAB-WHEELS, SLAB-FOOT", "SLAB-FOOT, SLAB-WHEELS"))}},
		{"terms", "a yes or no, and a value", []edit{{"value: use != foot", "value: use == car_driveway"}, {"value: inches(1) * 2", "value: inches(3)"}},
			[]told{changed("term wheels", false, bears("value", "use != foot", "use == car_driveway")), changed("term extra", false, bears("value", "inches(1) * 2", "inches(3)"))}},
		{"material", "its property, and its label", []edit{{"label: thin slab", "label: slim slab"}, {"height: 50 mm", "height: 60 mm"}},
			[]told{changed("material thin_slab", false, words("label", "thin slab", "slim slab"), bears("height", "1.97 in", "2.36 in"))}},
		{"word", "its label is on every sheet, and no answer depends on it", []edit{{"felt: felt", "felt: wool felt"}}, []told{changed("word felt", true, words("label", "felt", "wool felt"))}},
		{"word added", "an answer may be it", []edit{{"mesh: mesh}", "mesh: mesh, straw: straw}"}}, []told{{"word straw", impact.Added, false, nil}}},
		{"what a word is of", "the vocabulary, and a property of a kind", []edit{{"about: what lies between", "about: all that lies between"}, {"about: how thick it is", "about: how high it is"}},
			[]told{changed("vocabulary mat_kind", true, words("about", "what lies between soil and stone", "all that lies between soil and stone")),
				changed("vocabulary slab", true, words("about height", "how thick it is", "how high it is"))}},
		{"course", "when it is laid, and what an attribute is taken from", []edit{{"when: mat_laid != no_mat", "when: mat_laid == mesh"}, {"{strength: strength, tell: to_tell}", "{strength: strength}"}},
			[]told{changed("course subgrade", false, bears("attribute tell", "to_tell", "")), changed("course mat", false, bears("when", "mat_laid != no_mat", "mat_laid == mesh"))}},
		{"order of courses", "what lies on what", []edit{{"  - course: mat\n    label: Mat\n    is: mat_layer\n    when: mat_laid != no_mat\n    because: It lies there.\n    source: practice\n    attributes: {kind: mat_laid}\n", ""},
			{"\nchecks:", "  - course: mat\n    label: Mat\n    is: mat_layer\n    when: mat_laid != no_mat\n    because: It lies there.\n    source: practice\n    attributes: {kind: mat_laid}\n\nchecks:"}},
			[]told{changed("order of courses", false, bears("order of courses", "subgrade, mat, base, slabs", "subgrade, base, slabs, mat"))}},
		{"checks", "what is wanted, and what failing does", []edit{{"at_least: mm(40)\n    failing: stop", "at_most: mm(40)\n    failing: caution"}, {"holds: base_thickness >= inches(5)", "holds: base_thickness >= inches(6)"}},
			[]told{changed("check SLAB-THICK", false, bears("holds", "slab_height >= mm(40)", "slab_height <= mm(40)"), bears("failing", "stop", "caution")),
				changed("check BASE-DEEP", false, bears("holds", "base_thickness >= inches(5)", "base_thickness >= inches(6)"))}},
		{"caution and refusal", "when they are given", []edit{{"- caution: SOFT\n    when: yields", "- caution: SOFT\n    when: yields && wheels"}, {"when: use == truck_yard", "when: use in [truck_yard, collector_street]"}},
			[]told{changed("caution SOFT", false, bears("when", "yields", "yields && wheels")), changed("refusal TRUCKS", false, bears("when", "use == truck_yard", "use in [truck_yard, collector_street]"))}},
		{"source", "one edit, not one of every rule that rests on it", []edit{{"clause: table 1", "clause: table 2"}}, []told{changed("source leaflet", true, words("clause", "table 1", "table 2"))}},
		{"clause of a rule", "the rule's own", []edit{{"because: Soft ground needs a mesh.\n        source: leaflet", "because: Soft ground needs a mesh.\n        source: leaflet, page 3"}},
			[]told{changed("rule MAT-SOFT", true, words("source", "leaflet", "leaflet, page 3"))}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []told
			for _, e := range editsOf(t, garden(t), garden(t, c.edits...)) {
				got = append(got, told{e.ID, e.Done, e.WordsOnly, e.Fields})
				stands := !slices.Contains([]impact.Entry{"source", "vocabulary", impact.OrderEntry}, e.Entry)
				require.Equal(t, stands && e.Done != impact.Added, e.Before != nil, "where it stood")
				require.Equal(t, stands && e.Done != impact.Removed, e.After != nil, "where it stands")
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
}

// What not every rulebook has is compared too.
func TestDifferencesOfWhatIsRare(t *testing.T) {
	bank := edit{"kinds:\n  slab:", "edge_kinds:\n  bank: {label: bank, about: earth, loosely: [soil], properties: {holds_pavers: false}, because: told, source: practice}\n\n" +
		"kinds:\n  edge_kind:\n    about: what lies beyond\n    properties: {holds_pavers: {is: bool, about: whether it stays}}\n  slab:"}
	for _, c := range []struct {
		name, why string
		there     edit // that both rulebooks have
		edit      edit
		want      told
	}{
		{"edge kind", "what holds the pavers", bank,
			edit{"holds_pavers: false", "holds_pavers: true"}, changed("edge_kind bank", false, bears("holds_pavers", "no", "yes"))},
		{"what people say", "a job that says it can be read, or not any more", bank,
			edit{"loosely: [soil]", "also: [mound]"}, changed("edge_kind bank", false, bears("also", "", "mound"), bears("loosely", "soil", ""))},
		{"property with a reason of its own", "its reason and its source are its own", edit{"properties: {height: 50 mm}", "properties: {height: {value: 50 mm, because: So it is cut., source: leaflet}}"},
			edit{"because: So it is cut.", "because: So it is sawn."}, changed("material thin_slab", true, words("because of height", "So it is cut.", "So it is sawn."))},
		{"limit of a decision", "whoever answers is held to it", edit{"        because: Enough for feet.\n        source: practice\n", "        because: Enough for feet.\n        source: practice\n    limits:\n      - {limit: SLAB-ONE, none_of: [thick_slab], when: use == truck_yard, because: told, source: practice}\n"},
			edit{"none_of: [thick_slab]", "none_of: [thin_slab]"}, changed("limit SLAB-ONE", false, bears("none_of", "thick_slab", "thin_slab"))},
		{"promise", "it holds whoever amends, and no answer", edit{"\nrefusals:\n", "\npromises:\n  - promise: DEEP\n    always: base_thickness >= inches(3)\n    because: told\n    source: practice\n\nrefusals:\n"},
			edit{"always: base_thickness >= inches(3)", "always: base_thickness >= inches(4)"}, changed("promise DEEP", true, words("always", "base_thickness >= inches(3)", "base_thickness >= inches(4)"))},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := editsOf(t, garden(t, c.there), garden(t, c.there, c.edit))
			require.Len(t, got, 1, c.why)
			require.Empty(t, cmp.Diff(c.want, told{got[0].ID, got[0].Done, got[0].WordsOnly, got[0].Fields}), c.why)
		})
	}
}

// The other way round, what was added is removed.
func TestDifferencesTurnRound(t *testing.T) {
	book := garden(t, edit{"value: 4 in", "value: 5 in"}, edit{"- rule: MAT-WANTED", "- rule: MAT-CHEAP"})
	there := editsOf(t, garden(t), book)
	back := editsOf(t, book, garden(t))
	require.Len(t, there, 3)
	require.Len(t, back, 3)
	round := map[impact.Done]impact.Done{impact.Added: impact.Removed, impact.Removed: impact.Added, impact.Changed: impact.Changed}
	turned := 0
	for _, e := range there {
		for _, f := range back {
			if e.ID == f.ID {
				turned++
				require.Equal(t, round[e.Done], f.Done)
				require.Equal(t, e.After, f.Before)
				require.Equal(t, e.Before, f.After)
			}
		}
	}
	require.Equal(t, 3, turned)
}
