package engine

import (
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// The structures here are a rulebook as written: every entry with the node it
// stands in, nothing compiled. Amending works on entries; what is left of them
// is read into the structures below, which compiling reads.

// sort is a sort of entry: the key by which a change names one.
type sort string

// The sorts of entries.
const (
	sourceSort     sort = "source"
	vocabularySort sort = "vocabulary"
	wordSort       sort = "word"
	kindSort       sort = "kind"
	materialSort   sort = "material"
	settingSort    sort = "setting"
	termSort       sort = "term"
	decisionSort   sort = "decision"
	ruleSort       sort = "rule"
	limitSort      sort = "limit"
	courseSort     sort = "course"
	checkSort      sort = "check"
	cautionSort    sort = "caution"
	refusalSort    sort = "refusal"
	promiseSort    sort = "promise"
	loadCaseSort   sort = "load_case"
	baseTypeSort   sort = "base_type"
	soilNameSort   sort = "soil_name"
	compactorSort  sort = "compactor"
	edgeKindSort   sort = "edge_kind"
	questionSort   sort = "question"
	stepSort       sort = "step"
	toleranceSort  sort = "tolerance"
	stopSort       sort = "stop"
	quantitySort   sort = "quantity"
	optionSort     sort = "option"
	remedySort     sort = "remedy"
	clientSort     sort = "client"
	lineSort       sort = "line"
)

// allSorts lists the sorts. A change is of the first whose key it has: a rule
// has a source, a word may be a kind of another, a quantity is ordered in a step.
var allSorts = []sort{ruleSort, limitSort, checkSort, cautionSort, refusalSort, promiseSort, quantitySort, stepSort, toleranceSort, stopSort, optionSort, remedySort, clientSort, courseSort, decisionSort, termSort, settingSort,
	materialSort, loadCaseSort, baseTypeSort, soilNameSort, compactorSort, edgeKindSort, questionSort, wordSort, vocabularySort, sourceSort, kindSort, lineSort}

// ofJobs are the kinds of the words, each with properties, of which jobs are
// written.
var ofJobs = map[sort]value.Kind{loadCaseSort: "load_case", baseTypeSort: "base_type", soilNameSort: "soil_word", compactorSort: "compactor_type", edgeKindSort: "edge_kind"}

// section is where the entries of a sort stand in a chapter.
type section struct {
	key    string
	sort   sort
	listed bool // in a list, each with its name under the key of its sort; else under their names
}

// sections are the sections of a chapter. Words, rules and limits stand within
// others.
var sections = []section{
	{"settings", settingSort, false}, {"sources", sourceSort, false}, {"vocabularies", vocabularySort, false},
	{"kinds", kindSort, false}, {"materials", materialSort, false},
	{"load_cases", loadCaseSort, false}, {"base_types", baseTypeSort, false},
	{"soil_names", soilNameSort, false}, {"compactors", compactorSort, false},
	{"edge_kinds", edgeKindSort, false},
	{"questions", questionSort, false},
	{"terms", termSort, false}, {"decisions", decisionSort, false},
	{"courses", courseSort, true}, {"checks", checkSort, true}, {"cautions", cautionSort, true}, {"refusals", refusalSort, true},
	{"promises", promiseSort, true}, {"quantities", quantitySort, true}, {"steps", stepSort, true}, {"tolerances", toleranceSort, true}, {"stops", stopSort, true},
	{"options", optionSort, true}, {"remedies", remedySort, true}, {"client", clientSort, true},
	{"lines", lineSort, false},
}

// entry is one entry as it stands in its file.
type entry struct {
	sort    sort
	name    *document.Node // its name or id; nil if that was reported
	node    *document.Node // all that is said of it
	of      string         // the decision of a rule or limit, the vocabulary of a word
	chapter string
	amended *rulebook.Amended
	// lifted is set if an amendment took the entry away.
	lifted *rulebook.Amended
	// instead is the entry that took the place of a lifted one, nil if none did.
	instead *entry
	// first is the entry as it was before any amendment.
	first *entry
	// untranslated is what is said of it in the rulebook's own language, nil if node is.
	untranslated *document.Node
	// keys are those that an added entry may have beside those of its sort.
	keys []string
	// row is what a rule keeps of the table that it is a row of, nil if none.
	row *row
}

func (e *entry) id() string { return e.name.Text() }

// written is everything that the files of a rulebook say, amended and read.
type written struct {
	chapters     []rulebook.Chapter
	vocabularies []*vocabularyEntry
	materials    []*wordEntry     // and all else that has properties
	decisions    []*decisionEntry // those of the questions among them
	work         []*entry         // what a crew works by, quantities, options, remedies and what the client is told
	// of are all others, by their sort: they are read as they are compiled.
	of map[sort][]*entry
	// variances are those in force, and gone what an amendment took away, by name.
	variances []*varianceEntry
	gone      map[string]*entry
	// own are the amendments, by their files.
	own map[string]*amendment
}

type vocabularyEntry struct {
	*entry
	words []*entry
}

// wordEntry is a word of a vocabulary, a material, or a word of jobs with its
// properties.
type wordEntry struct {
	*entry
	label, about          string
	inJobs                string           // as jobs write it, where that is not its name
	also                  []*document.Node // other names for it
	loosely               []string         // what people say who mean it
	because, source, kind *document.Node
	in                    value.Kind                   // of what has properties
	properties            []document.Field             // of such
	own                   map[string]rulebook.Property // of these, the ones with a source of their own
}

type decisionEntry struct {
	*entry
	rulebook.Decision
	when, answers, take *document.Node
	rules, limits       []*entry // those that an amendment took away among them
}

// text returns what is written in a node; zero for none.
func text(n *document.Node) rulebook.Text {
	if n == nil {
		return rulebook.Text{}
	}
	return rulebook.Text{Text: n.Text(), Place: n.Place()}
}
