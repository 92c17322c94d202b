package survey

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Tell writes the report as text: the findings, each with its job, then how far
// everything asked is settled, then what was not analyzed.
func (r *Report) Tell(p *page.Page) {
	t := text{p, r}
	t.head()
	for _, f := range r.Findings {
		if f.Fault() {
			t.fault(f)
		}
	}
	t.notes()
	t.words()
	t.settled()
	list(p, "NOT ANALYZED, SEARCHED BY SAMPLING AND BISECTION", r.Unanalyzed, func(u Unanalyzed) { u.tell(p, 2) })
}

// list writes a heading and what stands below it, if anything does.
func list[T any](p *page.Page, heading string, of []T, tell func(T)) {
	if len(of) > 0 {
		p.Heading(heading)
	}
	for _, each := range of {
		tell(each)
	}
}

// OK reports whether no fault was found.
func (r *Report) OK() bool { return r.Faults() == 0 }

// Summary says in one line how many faults were found, and how many questions were
// only searched, so that a fault may be left in them.
func (r *Report) Summary() string {
	all := r.Questions[Proven] + r.Questions[Shown] + r.Questions[Searched]
	open := ""
	if n := r.Questions[Searched]; n > 0 {
		open = fmt.Sprintf(" Searched without proof: %s of %s.", grouped(n), grouped(all))
	}
	switch n := r.Faults(); {
	case n > 0:
		return counted(n, "fault") + " found." + open
	case open != "":
		return fmt.Sprintf("No fault in the %s settled.%s", counted(all-r.Questions[Searched], "question"), open)
	}
	return fmt.Sprintf("No fault: %s settled.", counted(all, "question"))
}

// head says what was proven, what was searched and how hard, and what was not
// looked at.
func (t text) head() {
	r := t.r
	t.Line(0, "%s", r.Summary())
	if r.Within != "" {
		t.Line(0, "Within: %s.", r.Within)
	}
	t.Line(0, "Proven for every job: %s. Shown by a job: %s.", counted(r.Questions[Proven], "question"), grouped(r.Questions[Shown]))
	searched := ""
	if n := r.Questions[Searched]; n > 0 {
		searched = counted(n, "question")
		if r.Aimed > 0 {
			searched += fmt.Sprintf(", with at least %s aimed at each", counted(r.Aimed, "job"))
			if slices.ContainsFunc(r.Unanalyzed, func(u Unanalyzed) bool { return u.Why == tooMany }) {
				searched += " whose cells could be walked"
			}
		}
		searched += "; "
	}
	given := "none of them from trials or examples"
	if r.Given > 0 {
		given = grouped(r.Given) + " of them from trials and examples"
	}
	t.Line(0, "Only searched: %swhether a calculation fails, and whether an answer crosses a limit. Tried %s (seed %d), %s.", searched, counted(r.Jobs, "job"), r.Seed, given)
	t.Line(0, "Not looked at: %s.", strings.Join(r.NotLookedAt, "; "))
}

// counted writes how many things there are.
func counted(n int, thing string) string { return grouped(n) + " " + page.Noun(n, thing) }

type text struct {
	*page.Page
	r *Report
}

func (t text) fault(f Finding) {
	t.Heading(string(f.Kind) + ": " + f.title())
	t.Line(2, "%s", f.Place)
	t.Line(2, "%s", f.Says)
	t.by(2, f)
	if len(f.Against) == 1 {
		t.Line(2, "No job meets this condition:")
	} else if len(f.Against) > 0 {
		t.Line(2, "No job meets all of these conditions:")
	}
	for _, a := range f.Against {
		t.Line(4, "%s: %s", a.Place, a.Name)
	}
	if len(f.Cell) > 0 {
		t.Line(2, "Where %s.", strings.Join(f.Cell, "; "))
	}
	if f.Job != nil {
		t.Line(2, "The smallest job that shows it, as a trial:")
		t.Verbatim(4, f.Trial())
	}
}

// by names the rules and the settings that a finding rests on.
func (t text) by(indent int, f Finding) {
	word := map[Kind]string{TwoAnswers: "The other rule is", NeverGoverns: "It is outdone by"}[f.Kind]
	if word == "" {
		word = "It is hidden by"
	}
	for _, by := range f.By {
		t.Line(indent, "%s %s at %s", word, by.Name, by.Place)
	}
	if len(f.Settings) > 0 {
		t.Line(indent, "This is so because of the value of %s.", strings.Join(f.Settings, ", "))
	}
}

func (f Finding) title() string {
	if f.Rule != nil {
		return fmt.Sprintf("rule %s of %s", f.Rule.Name, f.Name)
	}
	return f.What + " " + f.Name
}

// notes writes the findings that are not faults, each on a few lines.
func (t text) notes() {
	last := ""
	for _, f := range t.r.Findings {
		if f.Fault() {
			continue
		}
		head := string(f.Kind)
		if len(f.Settings) > 0 {
			head += ", AS THE SETTINGS ARE"
		}
		if head != last {
			t.Heading(head)
		}
		last = head
		t.Line(2, "%s: %s: %s", f.Place, f.title(), f.Says)
		t.by(4, f)
		if f.Job != nil {
			t.Line(4, "The smallest job that shows it: %s", f.Job.flowed())
		}
	}
}

// flowed writes the job on one line, which a job file may do too.
func (j *Job) flowed() string {
	var n yaml.Node
	if err := yaml.Unmarshal([]byte(j.Text), &n); err == nil && len(n.Content) > 0 {
		n.Content[0].Style = yaml.FlowStyle
		if out, err := yaml.Marshal(n.Content[0]); err == nil {
			return string(out)
		}
	}
	return j.Text
}

// words writes what is to be said of words, which is no fault.
func (t text) words() {
	list(t.Page, "WORDS OF AMENDMENTS THAT RULES PASS BY", t.r.PassedBy, func(p PassedBy) {
		t.Line(2, "%s of %s (added by %s): %s", p.Word, p.Vocabulary, p.AddedBy, asksOf(len(p.By)))
		for _, by := range p.By {
			t.Line(4, "%s: %s asks for %s", by.Place, by.Name, strings.Join(by.For, ", "))
		}
	})
	list(t.Page, "WORDS THAT NOTHING ANSWERS OR ASKS ABOUT", t.r.UnaskedWords, func(u Unasked) {
		t.Line(2, "%s: %s", u.Vocabulary, strings.Join(u.Words, ", "))
	})
}

func asksOf(n int) string {
	if n == 1 {
		return "1 entry asks for another word and passes it by"
	}
	return grouped(n) + " entries ask for another word and pass it by"
}

func (t text) settled() {
	names, inPart := map[string][]string{}, []Settled{}
	for _, s := range t.r.Settled {
		if s.Exactly {
			names[s.What] = append(names[s.What], s.Name)
		} else {
			inPart = append(inPart, s)
		}
	}
	t.Heading(fmt.Sprintf("SETTLED EXACTLY: %d of %d", len(t.r.Settled)-len(inPart), len(t.r.Settled)))
	for _, what := range []string{"decision", "check", "caution", "course", "refusal", "quantity", "step", "tolerance", "stop", "option", "remedy", "client"} {
		if len(names[what]) > 0 {
			t.Line(2, "%s: %s", strings.Replace(what+"s", "ys", "ies", 1), strings.Join(names[what], ", "))
		}
	}
	list(t.Page, "SETTLED IN PART BY SEARCH ALONE", inPart, func(s Settled) {
		t.Line(2, "%s: %s %s", s.Place, s.What, s.Name)
		for _, point := range s.Points {
			if point.How == Searched {
				t.Line(4, "not found, and not ruled out: %s", point.Asks)
			}
		}
	})
}

func (u Unanalyzed) tell(p *page.Page, indent int) {
	p.Line(indent, "%s", u.Text)
	for _, at := range u.Places {
		p.Line(indent+2, "%s", at)
	}
	p.Line(indent+2, "%s", u.Why)
}

// grouped sets thousands apart.
func grouped(n int) string { return value.Number(float64(n)).Text(quantity.US) }

// Refuted is how a promise is settled that a job breaks; others are [Proven] or
// [Searched].
const Refuted How = "refuted"

// Guard is a refusal, a check that stops or a limit of an answer that keeps jobs
// which would break a promise from getting a section.
type Guard struct {
	What string `json:"what"`
	Named
}

// Valued is a name with its value in each of the jobs of a verdict.
type Valued struct {
	Name string   `json:"name"`
	Is   []string `json:"is"`
}

// Verdict is what became of a promise.
type Verdict struct {
	Promise string           `json:"promise"`
	Chapter string           `json:"chapter"`
	Place   diagnostic.Place `json:"place"`
	Says    string           `json:"says"`
	Because string           `json:"because"`
	// Amended names the amendment that added or changed the promise.
	Amended string `json:"amended,omitempty"`
	How     How    `json:"how"`
	// Changed are the entries from which what is refuted is worked out and that
	// amendments added, changed or took something from, each with where.
	Changed []Named `json:"changed,omitempty"`
	// By are the guards on which a proof rests, and RestsOn the calculations of
	// which it takes as they are declared that they rise or fall.
	By      []Guard  `json:"by,omitempty"`
	RestsOn []string `json:"rests_on,omitempty"`
	// Job breaks the promise; or Job and Then do together, for one that compares
	// two jobs. Values are those that the promise reads, in these jobs.
	Job    *Job     `json:"job,omitempty"`
	Then   *Job     `json:"then,omitempty"`
	Values []Valued `json:"values,omitempty"`
	// Jobs is how many jobs, or pairs of jobs, were tried for what was only searched,
	// Tried how many of them were aimed at it, and InTheWay what keeps it from
	// being proven.
	Jobs     int          `json:"jobs,omitempty"`
	Tried    int          `json:"tried,omitempty"`
	InTheWay []Unanalyzed `json:"in_the_way,omitempty"`
}

// Proof is what became of the promises of a rulebook.
type Proof struct {
	Seed  uint64 `json:"seed"`
	Jobs  int    `json:"jobs"`
	Given int    `json:"given"`
	// Verdicts are in the order of the files.
	Verdicts []Verdict `json:"verdicts"`
}

// settled returns the promises that were settled in a way.
func (p *Proof) settled(how How) []Verdict {
	return slices.DeleteFunc(slices.Clone(p.Verdicts), func(v Verdict) bool { return v.How != how })
}

// Settled says of each promise in one line how it is settled.
func (p *Proof) Settled() map[string]string {
	out := map[string]string{}
	for _, v := range p.Verdicts {
		switch v.How {
		case Proven:
			out[v.Promise] = "Proven for every job."
		case Refuted:
			out[v.Promise] = "Refuted: a job breaks it."
		default:
			out[v.Promise] = fmt.Sprintf("Searched among %s without a counterexample, not proven.", counted(v.Jobs, "job"))
		}
	}
	return out
}

// OK reports whether no promise is refuted.
func (p *Proof) OK() bool { return len(p.settled(Refuted)) == 0 }

// Summary says in one line what became of the promises.
func (p *Proof) Summary() string {
	return fmt.Sprintf("%s: %d proven, %d refuted, %d searched without a counterexample.", counted(len(p.Verdicts), "promise"), len(p.settled(Proven)), len(p.settled(Refuted)), len(p.settled(Searched)))
}

// Tell writes the proof as text: what is refuted first, with the jobs.
func (p *Proof) Tell(t *page.Page) {
	t.Line(0, "%s", p.Summary())
	t.Line(0, "Proven is proven for every job without overrides. Tried %s (seed %d) against every promise.", counted(p.Jobs, "job"), p.Seed)
	for _, v := range p.settled(Refuted) {
		v.tellRefuted(t)
	}
	list(t, "SEARCHED WITHOUT A COUNTEREXAMPLE, NOT PROVEN", p.settled(Searched), func(v Verdict) { v.tellSearched(t) })
	list(t, "PROVEN", p.settled(Proven), func(v Verdict) { v.tellProven(t) })
}

func (v Verdict) tellRefuted(t *page.Page) {
	t.Heading("REFUTED: promise " + v.Promise)
	t.Line(2, "%s", v.Place)
	t.Line(2, "%s", v.Says)
	for _, each := range v.Values {
		t.Line(2, "%s: %s", each.Name, strings.Join(each.Is, ", then "))
	}
	for _, c := range v.Changed {
		t.Line(2, "It is worked out from %s, which an amendment changed at %s", c.Name, c.Place)
	}
	if v.Then == nil {
		t.Line(2, "The smallest job that breaks it:")
	} else {
		t.Line(2, "The smallest pair of jobs that breaks it; the first:")
	}
	t.Verbatim(4, v.Job.Text)
	if v.Then != nil {
		t.Line(2, "and then:")
		t.Verbatim(4, v.Then.Text)
	}
}

func (v Verdict) tellSearched(t *page.Page) {
	t.Line(2, "%s: %s", v.Promise, v.Says)
	t.Line(4, "Tried %s, %s of them aimed at it. In the way of a proof:", grouped(v.Jobs), grouped(v.Tried))
	for _, u := range v.InTheWay {
		u.tell(t, 6)
	}
}

func (v Verdict) tellProven(t *page.Page) {
	t.Line(2, "%s: %s", v.Promise, v.Says)
	var by []string
	for _, g := range v.By {
		by = append(by, g.What+" "+g.Name)
	}
	if len(by) > 0 {
		t.Line(4, "By %s.", strings.Join(by, ", "))
	}
	if len(v.RestsOn) > 0 {
		t.Line(4, "It rests on which way these go, as they are declared and tested: %s.", strings.Join(v.RestsOn, ", "))
	}
}
