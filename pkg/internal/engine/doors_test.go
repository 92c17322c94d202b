package engine

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/rulebook"
)

// house is a rulebook with an entry of each sort, called "have" or HAVE.
const house = `chapter: house
about: One of each.
sources:
  have: {document: A Printed Book, known: seen}
vocabularies:
  have_words: {about: words, because: told, source: practice, words: {word_have: word, other: other}}
  course_kind: {about: courses, because: told, source: practice, words: {stone: stone}}
  quantity_kind: {about: quantities, because: told, source: practice, words: {material: material}}
  client_part: {about: parts, because: told, source: practice, words: {of_course: of a course}}
kinds:
  kind_have: {about: things, properties: {width: {is: length, about: how wide}}}
  load_case: {about: loads, properties: {width: {is: length, about: how wide}}}
  base_type: {about: bases, properties: {width: {is: length, about: how wide}}}
  soil_word: {about: soils, properties: {width: {is: length, about: how wide}}}
  compactor_type: {about: compactors, properties: {width: {is: length, about: how wide}}}
  edge_kind: {about: edges, properties: {width: {is: length, about: how wide}}}
load_cases:
  load_have: {label: load, because: told, source: practice, properties: {width: 2 in}}
  load_spare: {label: spare, because: told, source: practice, properties: {width: 3 in}}
base_types:
  base_have: {label: base, because: told, source: practice, properties: {width: 2 in}}
  base_spare: {label: spare, because: told, source: practice, properties: {width: 3 in}}
soil_names:
  soil_have: {label: soil, because: told, source: practice, properties: {width: 2 in}}
  soil_spare: {label: spare, because: told, source: practice, properties: {width: 3 in}}
edge_kinds:
  edge_have: {label: edge, because: told, source: practice, properties: {width: 2 in}}
  edge_spare: {label: spare, because: told, source: practice, properties: {width: 3 in}}
compactors:
  machine_have: {label: machine, because: told, source: practice, properties: {width: 2 in}}
  machine_spare: {label: spare, because: told, source: practice, properties: {width: 3 in}}
materials:
  material_have: {kind: kind_have, label: thing, because: told, source: practice, properties: {width: 2 in}}
  material_spare: {kind: kind_have, label: spare, because: told, source: practice, properties: {width: 3 in}}
questions:
  question_have: {asks: How far, answers: length, presumed: {value: 2 in, because: told, confirm: Ask.}, because: told, source: practice}
  question_other: {asks: How far, answers: length, because: told, source: practice}
settings:
  setting_have: {value: 4 in, because: told, source: practice}
terms:
  term_have: {is: length, about: a length, value: inches(2), because: told, source: practice}
decisions:
  decision_have:
    asks: How deep?
    answers: length
    take: largest
    rules:
      - {rule: RULE-HAVE, answer: setting_have, because: told, source: practice}
      - {rule: RULE-OTHER, answer: inches(1), because: told, source: practice}
    limits:
      - {limit: LIMIT-HAVE, at_least: inches(1), because: told, source: practice}
courses:
  - {course: course_have, label: Course, is: stone, because: told, source: practice, attributes: {thickness: decision_have}}
  - {course: course_other, label: Other, is: stone, because: told, source: practice, attributes: {thickness: decision_have}}
checks:
  - {check: CHECK-HAVE, asks: "Is it?", holds: decision_have > inches(0), failing: caution, says: Look., because: told, source: practice}
  - {check: CHECK-OTHER, asks: "Is it?", holds: decision_have > inches(0), failing: caution, says: Look., because: told, source: practice}
cautions:
  - {caution: CAUTION-HAVE, says: Mind., source: practice}
  - {caution: CAUTION-OTHER, says: Mind., source: practice}
refusals:
  - {refusal: REFUSAL-HAVE, when: decision_have > inches(90), says: Too deep., who: An engineer., source: practice}
  - {refusal: REFUSAL-OTHER, when: decision_have > inches(91), says: Too deep., who: An engineer., source: practice}
steps:
  - {step: STEP-HAVE, course: course_other, says: Dig., because: told, source: practice}
  - {step: STEP-OTHER, course: stone, says: Lay., hold: Look., because: told, source: practice}
tolerances:
  - {tolerance: TOLERANCE-HAVE, says: Level., measure: With a rod., because: told, source: practice}
  - {tolerance: TOLERANCE-OTHER, says: Level., measure: With a rod., because: told, source: practice}
quantities:
  - {quantity: QUANTITY-HAVE, about: stone, kind: material, amount: decision_have, step: inches(1), counted_in: inch, item: "'stone'", because: told, source: practice}
  - {quantity: QUANTITY-OTHER, about: stone, kind: material, amount: cu_yd(3), weighs: pcf(140), because: told, source: practice}
stops:
  - {stop: STOP-HAVE, finds: Water., does: Stop., calls: An engineer., because: told, source: practice}
  - {stop: STOP-OTHER, finds: Roots., does: Stop., calls: An arborist., because: told, source: practice}
options:
  - {option: OPTION-HAVE, about: a base, gives: More., lacks: Less., takes: {decision_have: inches(9)}, because: told, source: practice}
  - {option: OPTION-OTHER, about: a base, gives: More., lacks: Less., because: told, source: practice}
remedies:
  - {remedy: REMEDY-HAVE, as: decision_have rises, says: Dig., because: told, source: practice}
  - {remedy: REMEDY-OTHER, as: decision_have changes, says: Dig., because: told, source: practice}
client:
  - {client: CLIENT-HAVE, part: of_course, says: Stone., because: told, source: practice}
  - {client: CLIENT-OTHER, part: of_course, tells: [CAUTION-OTHER], says: Stone., because: told, source: practice}
lines:
  line_have: {says: "To {depth}."}
promises:
  - {promise: PROMISE-HAVE, always: decision_have > inches(0), because: told, source: practice}
  - {promise: PROMISE-OTHER, never: decision_have > inches(95), because: told, source: practice}
`

// door is how an entry of a sort is amended: one that is added, a key that makes
// its answer with another value, the entry beside which one can be moved, and how
// one is retired. Every sort needs a row.
type door struct {
	have, added, set, beside string
	// bare are the reasons why an entry of the sort has no because, no source, no
	// order, or nothing that makes an answer.
	noBecause, noSource, noValue string
	// lifted reports whether what is retired is worked out all the same.
	lifted bool
	// read reports whether others read it here, so that it cannot go alone.
	read bool
}

const jobWord = "label: new, because: told, source: company, properties: {width: 5 in}"

var doors = map[sort]door{
	sourceSort:     {have: "have", added: "document: Another, known: company", beside: "", noBecause: "a document needs no reason", noSource: "it is one", noValue: "it makes no answer"},
	vocabularySort: {have: "have_words", added: "about: new, because: told, source: company, words: {brand_new: new}", noValue: "its words are entries"},
	wordSort:       {have: "word_have", added: "to: have_words, label: new, because: told, source: company", beside: "other", noValue: "a label makes no answer"},
	kindSort:       {have: "kind_have", added: "about: new", noBecause: "it only lists properties", noSource: "its materials have theirs", noValue: "its properties do not change", read: true},
	materialSort:   {have: "material_have", added: "kind: kind_have, label: new, because: told, source: company, properties: {width: 5 in}", set: "properties: {width: 5 in}", beside: "material_spare"},
	loadCaseSort:   {have: "load_have", added: jobWord, set: "properties: {width: 5 in}", beside: "load_spare"},
	baseTypeSort:   {have: "base_have", added: jobWord, set: "properties: {width: 5 in}", beside: "base_spare"},
	soilNameSort:   {have: "soil_have", added: jobWord, set: "properties: {width: 5 in}", beside: "soil_spare"},
	compactorSort:  {have: "machine_have", added: jobWord, set: "properties: {width: 5 in}", beside: "machine_spare"},
	edgeKindSort:   {have: "edge_have", added: jobWord, set: "properties: {width: 5 in}", beside: "edge_spare"},
	questionSort:   {have: "question_have", added: "asks: How wide, answers: length, because: told, source: company", set: "presumed: {value: 5 in, because: told, confirm: Ask.}", beside: "question_other"},
	settingSort:    {have: "setting_have", added: "value: 5 in, because: told, source: company", set: "value: 5 in", read: true},
	termSort:       {have: "term_have", added: "is: length, about: new, value: inches(3), because: told, source: company", set: "value: inches(3)"},
	decisionSort: {have: "decision_have", added: "asks: New, answers: length, take: first, rules: [{rule: NEW-RULE, answer: inches(2), because: told, source: company}]",
		noBecause: "its rules have theirs", noSource: "its rules have theirs", noValue: "its rules answer", read: true},
	ruleSort:      {have: "RULE-HAVE", added: "to: decision_have, answer: inches(5), because: told, source: company", set: "answer: inches(5)", beside: "RULE-OTHER", lifted: true},
	limitSort:     {have: "LIMIT-HAVE", added: "to: decision_have, at_least: inches(2), because: told, source: company", set: "at_least: inches(2)", lifted: true},
	courseSort:    {have: "course_have", added: "after: course_have, label: New, is: stone, because: told, source: company, attributes: {thickness: decision_have}", set: "attributes: {thickness: decision_have}", beside: "course_other", lifted: true},
	checkSort:     {have: "CHECK-HAVE", added: "asks: New, holds: decision_have > inches(1), failing: caution, says: Look., because: told, source: company", set: "holds: decision_have > inches(1)", beside: "CHECK-OTHER", lifted: true},
	cautionSort:   {have: "CAUTION-HAVE", added: "says: New., source: company", set: "says: New.", beside: "CAUTION-OTHER", noBecause: "what it says is its reason", lifted: true},
	refusalSort:   {have: "REFUSAL-HAVE", added: "when: decision_have > inches(80), says: New., who: An engineer., source: company", set: "says: New.", beside: "REFUSAL-OTHER", noBecause: "what it says is its reason", lifted: true},
	promiseSort:   {have: "PROMISE-HAVE", added: "always: decision_have > inches(0.5), because: told, source: company", set: "always: decision_have > inches(-1)", beside: "PROMISE-OTHER", lifted: true},
	quantitySort:  {have: "QUANTITY-HAVE", added: "about: new, kind: material, amount: 3.0, because: told, source: company", set: "amount: decision_have * 2.0", beside: "QUANTITY-OTHER", lifted: true},
	stepSort:      {have: "STEP-HAVE", added: "after: STEP-HAVE, says: New., because: told, source: company", set: "says: New.", beside: "STEP-OTHER", lifted: true},
	toleranceSort: {have: "TOLERANCE-HAVE", added: "says: New., measure: By eye., because: told, source: company", set: "measure: By eye.", beside: "TOLERANCE-OTHER", lifted: true},
	optionSort:    {have: "OPTION-HAVE", added: "about: new, gives: More., lacks: Nothing., because: told, source: company", set: "takes: {decision_have: inches(5)}", beside: "OPTION-OTHER", lifted: true},
	remedySort:    {have: "REMEDY-HAVE", added: "as: decision_have rises, says: New., because: told, source: company", set: "says: New.", beside: "REMEDY-OTHER", lifted: true},
	clientSort:    {have: "CLIENT-HAVE", added: "part: of_course, says: New., because: told, source: company", set: "says: New.", beside: "CLIENT-OTHER", lifted: true},
	lineSort:      {have: "line_have", added: "says: New.", noBecause: "it is its own words", noSource: "it says nothing of the ground", noValue: "it makes no answer", read: true},
	stopSort:      {have: "STOP-HAVE", added: "finds: New., does: Stop., calls: Nobody., because: told, source: company", set: "does: Nothing.", beside: "STOP-OTHER", lifted: true},
}

func openHouse(amendments ...string) (*Book, error) {
	setup := testSetup()
	setup.AsOf, _ = rulebook.ParseDate("2026-03-01")
	files := map[string]string{}
	for i, text := range amendments {
		files[string(rune('a'+i))+".yaml"] = text
	}
	setup.Amendments = []rulebook.Layer{{Label: "ours", FS: filesOf(files)}}
	return Open(filesOf(map[string]string{"house.yaml": house}), setup)
}

const keeper = "amendment: first\ncompany: Ours\nwho: A. Keeper\nwhen: 2026-01-05\nwhy: To try it.\n"

// permits are variances for what every job is owed.
const permits = "variances:\n  - {variance: v, retires: %s, who: O, why: W., until: 2027-01-01}\n"

// without takes the key of a mapping out of a flow of keys.
func without(keys, key string) string {
	var out []string
	for _, each := range strings.Split(keys, ", ") {
		if !strings.HasPrefix(each, key+": ") {
			out = append(out, each)
		}
	}
	return strings.Join(out, ", ")
}

// TestNoDoorIsOpen tries to bring a value into a rulebook that nobody accounts
// for, by each kind of change of each sort of entry, and fails on each.
func TestNoDoorIsOpen(t *testing.T) {
	refused := func(t *testing.T, text, want string) {
		t.Helper()
		_, err := openHouse(text)
		require.ErrorContains(t, err, want, text)
		var faults *rulebook.Error
		require.ErrorAs(t, err, &faults)
		for _, f := range faults.Faults {
			require.Equal(t, "ours/a.yaml", f.Place.File, "the fault is the amendment's: %s", text)
		}
	}
	for _, s := range allSorts {
		d, ok := doors[s]
		require.True(t, ok, "a sort without a row: %s", s)
		name := strings.ToUpper(string(s))
		if !slices.Contains([]sort{ruleSort, limitSort, checkSort, cautionSort, refusalSort, promiseSort, quantitySort, stepSort, toleranceSort, stopSort, optionSort, remedySort, clientSort}, s) {
			name = "new_" + string(s)
		} else {
			name = "NEW-" + name
		}
		add := func(keys string) string {
			return keeper + "add:\n  - {" + string(s) + ": " + name + ", " + keys + "}\n"
		}
		change := func(does, rest string) string {
			return keeper + does + ":\n  - {" + string(s) + ": " + d.have + rest + "}\n"
		}
		permit := strings.Replace(permits, "%s", d.have, 1)
		if !slices.Contains([]sort{limitSort, refusalSort, promiseSort}, s) {
			permit = ""
		}
		weakens := permit
		if s == refusalSort {
			weakens = "" // other words refuse the same jobs
		}
		t.Run(string(s), func(t *testing.T) {
			book, err := openHouse(add(d.added))
			require.NoError(t, err)
			require.Equal(t, "first", amenderOf(t, book, name), "what is added has a trail")
			for _, key := range []string{"company", "who", "when", "why"} {
				lines := slices.DeleteFunc(strings.Split(add(d.added), "\n"), func(l string) bool { return strings.HasPrefix(l, key+": ") })
				refused(t, strings.Join(lines, "\n"), `an amendment needs the key "`+key+`"`)
			}
			if d.noSource == "" {
				refused(t, add(without(d.added, "source")), `needs the key "source"`)
				refused(t, add(strings.Replace(d.added, "source: company", "source: own", 1)), "own is the rulebook's own choice")
				refused(t, add(strings.Replace(d.added, "source: company", "source: have", 1)), "this document does not say what an amendment says")
				_, err := openHouse(add(strings.Replace(d.added, "source: company", `source: "have, page 4"`, 1)))
				require.NoError(t, err, "a place in the document will do")
			}
			if d.noBecause == "" {
				refused(t, add(without(d.added, "because")), `needs the key "because"`)
			}
			refused(t, keeper+"add:\n  - {"+string(s)+": "+d.have+", "+d.added+"}\n", "is there already")
			if d.noValue == "" {
				refused(t, change("replace", ", set: {"+d.set+", because: told}")+weakens, "needs a source of its own")
				refused(t, change("replace", ", set: {"+d.set+", because: told, source: own}")+weakens, "own is the rulebook's own choice")
				if d.noBecause == "" {
					refused(t, change("replace", ", set: {"+d.set+", source: company}")+weakens, "the change does not say why")
					refused(t, change("replace", ", set: {"+d.set+", source: company}, because: ")+weakens, "the change does not say why")
				}
				rest := ", set: {" + d.set + ", source: company}, because: thought over"
				book, err := openHouse(change("replace", rest) + weakens)
				require.NoError(t, err)
				require.Equal(t, "first", amenderOf(t, book, d.have), "what is changed has a trail")
				second := strings.NewReplacer("amendment: first", "amendment: second\nover: [first]", "A. Keeper", "B. Keeper").Replace(change("replace", rest))
				book, err = openHouse(change("replace", rest)+weakens, second)
				require.NoError(t, err)
				trail := trailOf(t, book, d.have)
				require.Equal(t, "second", trail.By.Name)
				require.Len(t, trail.Replaced, 2, "through several layers")
				require.Equal(t, "first", trail.Replaced[0].By.Name)
				require.Equal(t, "ours/a.yaml", trail.Replaced[0].Place.File, "the right place")
				require.Nil(t, trail.Replaced[1].By)
			}
			refused(t, change("retire", "")+permit, `needs the key "because"`)
			book, err = openHouse(change("retire", ", because: gone") + permit)
			switch {
			case d.read:
				require.ErrorContains(t, err, "is retired here, and others read it")
			case d.lifted:
				require.NoError(t, err)
				require.Len(t, book.Lifted(), 1, "it is told that it went")
				require.Equal(t, d.have, book.Lifted()[0].ID)
			default:
				require.NoError(t, err)
			}
			if permit != "" {
				refused(t, change("retire", ", because: gone"), "without permission")
			}
			if d.beside != "" {
				refused(t, change("move", ", after: "+d.beside), `needs the key "because"`)
				book, err := openHouse(change("move", ", after: "+d.beside+", because: order"))
				require.NoError(t, err)
				require.Equal(t, "first", amenderOf(t, book, d.have), "what is moved has a trail")
			}
			waits, err := openHouse(change("retire", ", because: gone, from: 2027-01-01") + strings.ReplaceAll(permit, "until: ", "from: 2026-12-31, until: "))
			require.NoError(t, err)
			require.NotEmpty(t, waits.Idle(), "what waits for its day is told")
		})
	}
}

// trailOf finds, among everything that a book holds, the trail of an entry.
func trailOf(t *testing.T, b *Book, name string) *rulebook.Amended {
	t.Helper()
	var found *rulebook.Amended
	is := false
	var visit func(v reflect.Value)
	visit = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Slice:
			for i := range v.Len() {
				visit(v.Index(i))
			}
		case reflect.Struct:
			for _, key := range []string{"ID", "Name", "Kind"} {
				f := v.FieldByName(key)
				if a := v.FieldByName("Amended"); a.IsValid() && f.IsValid() && f.Kind() == reflect.String && f.String() == name {
					is = true
					found, _ = a.Interface().(*rulebook.Amended)
				}
			}
			if w := v.FieldByName("Word"); w.IsValid() && w.FieldByName("Name").String() == name {
				is = true
				found = v.FieldByName("Amended").Interface().(*rulebook.Amended)
			}
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					visit(v.Field(i))
				}
			}
		}
	}
	visit(reflect.ValueOf(b.Contents()))
	require.True(t, is, "nothing is called %s", name)
	return found
}

func amenderOf(t *testing.T, b *Book, name string) string {
	t.Helper()
	if trail := trailOf(t, b, name); trail != nil {
		return trail.By.Name
	}
	return ""
}

// TestListOfWhatIsRetired holds that a list of words is told to rest on their vocabulary,
// as a word is, where an amendment takes that away.
func TestListOfWhatIsRetired(t *testing.T) {
	for kind, value := range map[string]string{"have_words": "word_have", "list(have_words)": "[word_have]"} {
		_, err := openHouse(keeper + "retire:\n  - {vocabulary: have_words, because: gone}\nadd:\n  - {term: ours, is: " + kind + ", about: a, value: '" + value + "', because: told, source: company}\n")
		require.EqualError(t, err, "ours/a.yaml:7:5: the vocabulary have_words is retired here, and others read it; found have_words; wanted changes of those, or none of it; ours/a.yaml:9:22: it is read here", kind)
	}
}

// TestChangesOfAnotherForm holds what is said of a change that is not written as one.
func TestChangesOfAnotherForm(t *testing.T) {
	const wanted = "; wanted set: with the keys that change, or with: a whole setting"
	for _, c := range []struct{ name, why, text, want string }{
		{"a list of a chapter", "what is to become of them?", "limits:\n  - {limit: A}\n", "ours/a.yaml:6:1: the changes of an amendment stand under what they do; found limits; wanted under add, replace, retire or move an item such as - limit: NAME"},
		{"keys beside the name", "the first of them is told", "replace:\n  - {setting: setting_have, value: 5 in, because: b}\n", "ours/a.yaml:7:29: the keys that change stand under set; found value" + wanted},
		{"no keys", "what changes?", "replace:\n  - {setting: setting_have, because: b}\n", "ours/a.yaml:7:5: a replacement says what changes, or what takes the whole entry's place" + wanted},
		{"both", "which of them holds?", "replace:\n  - {setting: setting_have, set: {value: 5 in}, with: {value: 5 in}, because: b}\n", "ours/a.yaml:7:5: a replacement says what changes or gives the whole entry, not both" + wanted},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := openHouse(keeper + c.text)
			require.EqualError(t, err, c.want, c.why)
		})
	}
}

// TestCitedAgain holds that a changed answer does not rest on the place in a document by
// which the rulebook answers otherwise.
func TestCitedAgain(t *testing.T) {
	cited := strings.Replace(house, "answer: setting_have, because: told, source: practice", "answer: setting_have, because: told, source: 'have, page 2'", 1)
	require.NotEqual(t, house, cited)
	for _, c := range []struct{ name, why, set, want string }{
		{"the same place", "it says setting_have", "answer: inches(5), source: 'have, page 2'", "ours/a.yaml:7:71: this place in the document says what was there before, and not the amendment's answer; wanted company, or the place that says so"},
		{"another place", "it may say so", "answer: inches(5), source: 'have, page 3'", ""},
		{"the company", "it says so", "answer: inches(5), source: company", ""},
		{"the same answer", "the place says so", "answer: setting_have, source: 'have, page 2'", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			setup := testSetup()
			setup.Amendments = []rulebook.Layer{{Label: "ours", FS: filesOf(map[string]string{"a.yaml": keeper + "replace:\n  - {rule: RULE-HAVE, set: {because: told, " + c.set + "}}\n"})}}
			_, err := Open(filesOf(map[string]string{"house.yaml": cited}), setup)
			if c.want == "" {
				require.NoError(t, err, c.why)
				return
			}
			require.EqualError(t, err, c.want, c.why)
		})
	}
}
