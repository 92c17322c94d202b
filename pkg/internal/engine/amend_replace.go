package engine

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
)

// fixed lists the keys of each sort that no amendment changes: what else rests
// on them would no longer fit, or they are entries of their own.
var fixed = map[sort][]string{
	settingSort: {"at_least", "at_most"}, decisionSort: {"answers", "rules", "table", "limits"}, termSort: {"is"}, materialSort: {"kind"}, vocabularySort: {"words"}, kindSort: {"properties"}, questionSort: {"answers"},
}

// weighty lists the keys of each sort that make an answer: who changes one gives
// a source of their own.
var weighty = map[sort][]string{
	settingSort: {"value"}, ruleSort: {"answer", "when"}, termSort: {"value", "when"}, materialSort: {"properties"},
	loadCaseSort: {"properties"}, baseTypeSort: {"properties"}, soilNameSort: {"properties"}, compactorSort: {"properties"}, edgeKindSort: {"properties"},
	questionSort: {"presumed", "at_least", "at_most"},
	limitSort:    {"at_least", "at_most", "one_of", "none_of", "when"}, checkSort: {"when", "holds", "value", "at_least", "at_most", "failing"},
	courseSort: {"is", "when", "attributes"}, cautionSort: {"says", "short", "real_when", "when"}, refusalSort: {"says", "when"},
	promiseSort: {"when", "always", "never", "as", "then"},
	stepSort:    {"says", "sizes", "hold", "course", "when"}, toleranceSort: {"says", "measure", "course", "when"}, stopSort: {"finds", "does", "calls", "found", "course", "when"},
	quantitySort: {"kind", "item", "amount", "step", "weighs", "counted_in", "course", "when"},
	optionSort:   {"takes", "course", "when"}, remedySort: {"says", "as", "course", "when"}, clientSort: {"says", "part", "tells", "course", "when"},
}

// properties is the key of those of a word; an amendment may change one of them.
const properties = "properties"

func (a *amender) replace(e *amendment, c *change, old *entry) {
	next := *old
	next.amended, next.chapter = trail(e, c, old), "amendment "+e.Name
	if next.first == nil {
		next.first = old
	}
	listed := old.node.Field(string(old.sort)) == old.name
	switch {
	case c.with != nil && c.with.Shape() != document.Mapping, c.set != nil && c.set.Shape() != document.Mapping:
		cmp.Or(c.set, c.with).Entry("a "+string(c.sort), &a.faults)
		return
	case c.set != nil:
		next.node = old.node.With(c.set, properties)
		if !listed {
			next.name = c.name
		}
	default:
		next.node, next.name, next.row = c.with, c.name, nil
		if id := c.with.Field(string(c.sort)); id != nil {
			next.name = id
		}
	}
	if !a.mayReplace(c, old, next.node) {
		return
	}
	i := slices.Index(a.entries, old)
	a.entries[i] = &next
	a.touched[&next] = a.touched[old]
	if slices.Contains([]sort{limitSort, checkSort, cautionSort, refusalSort, promiseSort}, old.sort) || old.sort.isWork() {
		lifted := *old
		lifted.lifted, lifted.instead = trail(e, c, nil), &next
		a.entries = slices.Insert(a.entries, i, &lifted)
	}
}

// mayReplace reports what a replacement must not do.
func (a *amender) mayReplace(c *change, old *entry, next *document.Node) bool {
	ok := true
	refuse := func(n *document.Node, code diagnostic.Code, message, wanted string) {
		fault(&a.faults, n, code, message, "", wanted)
		ok = false
	}
	said := cmp.Or(c.set, c.with)
	for _, key := range fixed[c.sort] {
		now := said.Field(key)
		if now == nil && c.with != nil && old.node.Field(key) != nil {
			now = c.node
		}
		if now != nil && (now.Shape() != document.Scalar || now.Text() != old.node.Field(key).Text()) {
			wanted := "a " + string(c.sort) + " of another name, or changes of what stands in this one"
			if c.sort == settingSort {
				wanted = "under variances: {variance: NAME, setting: " + old.id() + ", to: VALUE, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}"
			}
			refuse(now, codeFixed, "an amendment does not change "+key+" of a "+string(c.sort), wanted)
		}
	}
	for _, key := range weighty[c.sort] {
		if n := said.Field(key); n != nil && c.set != nil && c.set.Field("source") == nil {
			refuse(n, codeOwnSource, "a changed "+key+" needs a source of its own", "source: company, or the name of a source, under set")
			break
		}
		if said.Field(key) != nil && a.citesAgain(old.node, said) && said.Field(key).Text() != old.node.Field(key).Text() {
			refuse(said.Field("source"), codeSource, "this place in the document says what was there before, and not the amendment's "+key, "company, or the place that says so")
			break
		}
	}
	for _, f := range said.Field(properties).Fields() {
		if was := old.node.Field(properties).Field(f.Key.Text()); a.citesAgain(was, f.Value) && f.Value.Field("value").Text() != was.Field("value").Text() {
			refuse(f.Value.Field("source"), codeSource, "this place in the document says what was there before, and not the amendment's "+f.Key.Text(), "company, or the place that says so")
		}
	}
	if c.sort == ruleSort {
		for _, key := range []string{"standing", "confirm"} {
			was, now := old.node.Field(key), next.Field(key)
			if was != nil && now == nil || key == "standing" && was.Text() == string(rulebook.Presumed) && now.Text() != string(rulebook.Presumed) {
				refuse(c.node, codeFixed, "the replacement drops "+key+" of "+old.id(), key+": "+was.Text())
			}
		}
	}
	return ok
}

// citesAgain reports whether a change names the very place in a publication of the
// rulebook that the entry had named before.
func (a *amender) citesAgain(old, said *document.Node) bool {
	was, now := old.Field("source"), said.Field("source")
	id, _, placed := strings.Cut(now.Text(), ",")
	return placed && was.Text() == now.Text() && slices.ContainsFunc(a.entries, func(e *entry) bool {
		return e.sort == sourceSort && e.id() == strings.TrimSpace(id) && e.amended == nil
	})
}
