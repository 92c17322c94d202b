package engine

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
)

// What a crew works by is of a few sorts that differ in their sentences, and in
// what a quantity measures and a stop finds: it is read, compiled and run in one
// way. A further sort is a row of sentences, of sections, of allSorts and of weighty.

// saying is a sentence of an entry, by its key.
type saying struct {
	key  string
	must bool
}

// sentences are those of each sort of work; the first is told where one must do.
var sentences = map[sort][]saying{
	quantitySort:  {{"about", true}},
	stepSort:      {{"says", true}, {"sizes", false}, {"hold", false}},
	toleranceSort: {{"says", true}, {"measure", true}},
	stopSort:      {{"finds", true}, {"does", true}, {"calls", true}},
	optionSort:    {{"about", true}, {"gives", true}, {"lacks", true}, {"leaves_out", false}},
	remedySort:    {{"says", true}},
	clientSort:    {{"says", true}},
}

// isWork reports whether entries of the sort are what a crew works by.
func (s sort) isWork() bool { return len(sentences[s]) > 0 }

// Work is a quantity, a step, a tolerance, a stop, an option, a remedy or what the
// client is told.
type Work struct {
	rulebook.Work
	courses []*Course // any of which it is about; none if it is about no course
	When    *Condition
	says    map[string]*Template
	Why     *Template
	found   []found
	// tells are whether each thing speaks that it tells the client of.
	tells []func(*Outcome) bool
	// moves is what must differ for a remedy, and way how.
	moves, way string
	// amount, item, step and weighs are those of a quantity, the last three perhaps nil.
	amount, item, step, weighs *Expression
}

// found is a value that the job would have, or the answer of a decision that it would
// take over.
type found struct {
	name     string
	decision bool
	value    *Expression
}

// About lists the courses of which one must be laid, and reports whether it needs
// one at all.
func (w *Work) About() ([]*Course, bool) { return slices.Clone(w.courses), w.Course != "" }

// CanBe reports whether it is there over some courses, as far as they decide.
func (w *Work) CanBe(laid []*Course) bool {
	return w.Course == "" || slices.ContainsFunc(w.courses, func(c *Course) bool { return slices.Contains(laid, c) })
}

// Says returns a sentence by its key, nil if it does not say that.
func (w *Work) Says(key string) *Template { return w.says[key] }

// Sayings lists the keys of the sentences that a work of its sort may have.
func (w *Work) Sayings() []string {
	return namesIn(sentences[sort(w.Sort)], func(s saying) string { return s.key })
}

// Work returns every quantity, step, tolerance and stop in the order of the files.
func (b *Book) Work() []*Work { return slices.Clone(b.work) }

// withCourses takes away with a course that was retired what is about it alone.
func (c *compiler) withCourses() {
	for _, course := range c.in.of[courseSort] {
		for _, w := range c.in.work {
			if course.lifted != nil && w.lifted == nil && w.node.Field("course").Text() == course.id() {
				w.lifted = course.lifted
			}
		}
	}
}

func (c *compiler) work(n *entry) *Work {
	what := "a " + string(n.sort)
	switch n.sort {
	case optionSort:
		what = "an option"
	case clientSort:
		what = "what the client is told"
	}
	e := c.begin(n, what)
	out := &Work{Work: rulebook.Work{Sort: string(n.sort), ID: n.id(), Course: e.Text("course"), Says: map[string]rulebook.Text{}, Place: n.place(), Chapter: n.chapter, Amended: n.amended},
		says: map[string]*Template{}}
	t := &out.Work
	course, when := e.Get("course"), e.Get("when")
	var given language.Given
	out.courses, given = c.about(course)
	t.When, out.When, given = c.when(when, given)
	for _, s := range sentences[n.sort] {
		get := e.Get
		if s.must {
			get = e.Need
		}
		if says := get(s.key); says != nil {
			t.Says[s.key], out.says[s.key] = c.sentence(says, given)
		}
	}
	switch n.sort {
	case quantitySort:
		c.measured(e, out, given)
	case remedySort:
		if as := e.Need("as"); as != nil {
			t.As = as.Text()
			c.remedied(as, out)
		}
	case clientSort:
		part := e.Need("part")
		t.Part = part.Text()
		c.literal(part, clientPart)
		c.telling(e.Items("tells"), cmp.Or(when, course), out)
	case stopSort:
		c.finds(e.Get("found"), out, given)
	case optionSort:
		c.finds(e.Get("takes"), out, given)
	}
	t.Because, out.Why = c.sentence(e.Need("because"), given)
	t.Source = c.sourceOf(e.Need("source"))
	e.Done()
	return out
}

// finds compiles what the job would say by a stop or an option, and which decisions an
// option takes over.
func (c *compiler) finds(said *document.Node, out *Work, given language.Given) {
	for _, f := range c.r.fields(said, "what the job would say") {
		name := f.Key.Text()
		in, ok := c.book.inputs[name]
		kind := in.Kind
		d, decides := c.book.byName[name].(*Decision)
		switch {
		case decides && out.Sort == string(optionSort):
			kind = d.Kind
		case !ok && c.in.gone[name] != nil:
			c.readsGone(name, f.Key.Place())
			continue
		case !ok:
			fault(&c.faults, f.Key, codeInput, "no value of a job is called "+name, name, "the path of a value in a job file", namesIn(c.setup.Inputs, func(in rulebook.Input) string { return in.Name })...)
			continue
		}
		if element, list := kind.Element(); list {
			kind = element // one reading
		}
		out.found = append(out.found, found{name, !ok, c.expression(f.Value, kind, given)})
	}
}

// The ways in which a value can move from one section to another.
const (
	rises   = "rises"
	falls   = "falls"
	changes = "changes"
)

// remedied compiles what must differ between two sections for a remedy.
func (c *compiler) remedied(as *document.Node, out *Work) {
	name, way, _ := strings.Cut(as.Text(), " ")
	declared, known := c.book.env.NameOf(name)
	switch {
	case !known && c.in.gone[name] != nil:
		c.readsGone(name, as.Place())
	case !known:
		fault(&c.faults, as, codePromise, "nothing is called "+name, name, "the name of a decision, a term or an input", namesIn(c.book.decisions, func(d *Decision) string { return d.Name })...)
	case !slices.Contains([]string{rises, falls, changes}, way) || way != changes && !language.IsOrdered(declared.Kind):
		fault(&c.faults, as, codePromise, "this does not say how it differs", as.Text(), "section_depth rises, section_depth falls or fabric_kind changes")
	default:
		out.moves, out.way = name, way
	}
}

// about finds the courses that a work names, one or a kind of them, and what is
// surely known where one of them is laid.
func (c *compiler) about(n *document.Node) (courses []*Course, given language.Given) {
	if n == nil {
		return nil, nil
	}
	called := n.Text()
	all := slices.Clone(c.book.courses)
	for _, l := range c.book.lifted {
		if l.course != nil && c.lifts {
			all = append(all, l.course)
		}
	}
	for _, course := range all {
		if course.Name == called || course.Is.Name == called {
			settles := course.When.settles(nil)
			maps.DeleteFunc(given, func(name string, _ bool) bool { return !settles[name] })
			if courses == nil {
				given = settles
			}
			courses = append(courses, course)
		}
	}
	if word := c.literals.words[called]; len(courses) == 0 && (word == nil || word.Vocabulary != "course_kind") {
		fault(&c.faults, n, codeEntry, "no course is called "+called, called, "the name of a course, or a word of course_kind",
			namesIn(all, func(course *Course) string { return course.Name })...)
	}
	return courses, given
}

// applies reports whether a work is there: one of its courses is laid, and its
// condition holds, or something that it tells of speaks.
func (o *Outcome) applies(w *Work) (bool, error) {
	if len(w.Tells) > 0 || !w.CanBe(o.Courses) {
		return slices.ContainsFunc(w.tells, func(speaks func(*Outcome) bool) bool { return speaks(o) }), nil
	}
	return o.run.holds(w.When, place{sort: w.Sort, name: w.ID})
}

func (r *run) allWork(out *Outcome) error {
	for _, w := range r.book.work {
		if len(out.Refusals) > 0 && len(w.Tells) == 0 {
			continue // it is about a section, and there is none
		}
		applies, err := out.applies(w)
		if err != nil {
			return err
		}
		if applies {
			out.Work = append(out.Work, w)
		}
	}
	return nil
}

// Quoted lists the values that the sentences of a work quote.
func (o *Outcome) Quoted(w *Work) []rulebook.NamedValue {
	quoting := []reading{w.Why}
	for _, key := range w.Sayings() {
		quoting = append(quoting, w.says[key])
	}
	return o.run.values(namesOf(append(quoting, w.amount, w.item, w.step, w.weighs)...))
}

// Found works out what the job would say, by the names of the inputs, and which
// decisions it would take over.
func (o *Outcome) Found(w *Work) (says, decides []rulebook.NamedValue, err error) {
	for _, f := range w.found {
		v, err := o.run.eval(f.value, place{sort: w.Sort, name: w.ID})
		if err != nil {
			return nil, nil, err
		}
		to := &says
		if f.decision {
			to = &decides
		}
		*to = append(*to, rulebook.NamedValue{Name: f.name, Value: v})
	}
	return says, decides, nil
}

// Offered lists the options of a job, and of one that is refused those that it would
// have otherwise; Remedies, beside another section of the same place, what to do with
// what is in the ground by that one.
func (o *Outcome) Offered() ([]*Work, error) { return o.applying(optionSort, nil) }
func (o *Outcome) Remedies(before *Outcome) ([]*Work, error) {
	return o.applying(remedySort, func(w *Work) bool {
		was, _ := before.Value(w.moves) // none where it is not known
		is, _ := o.Value(w.moves)
		by, ordered := is.Compare(was)
		return w.way == changes && !is.Equal(was) || ordered && (w.way == rises && by > 0 || w.way == falls && by < 0)
	})
}

func (o *Outcome) applying(s sort, and func(*Work) bool) (out []*Work, err error) {
	for _, w := range o.run.book.work {
		if sort(w.Sort) != s || and != nil && !and(w) {
			continue
		}
		applies, err := o.applies(w)
		if _, refuses := NotCalculated(err); refuses && len(o.Refusals) > 0 {
			continue // beside the point, as among the refusals
		}
		if err != nil {
			return nil, err
		}
		if applies {
			out = append(out, w)
		}
	}
	return out, nil
}

// first is the sentence by which a work is told in one.
func (w *Work) first() *Template { return w.says[sentences[sort(w.Sort)][0].key] }
