package survey

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

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
	t.unanalyzed()
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
		searched = fmt.Sprintf("%s, with at least %s aimed at each; ", counted(n, "question"), counted(r.Aimed, "job"))
	}
	given := "none of them from trials or examples"
	if r.Given > 0 {
		given = grouped(r.Given) + " of them from trials and examples"
	}
	t.Line(0, "Only searched: %swhether a calculation fails, and whether an answer crosses a limit. Tried %s (seed %d), %s.", searched, counted(r.Jobs, "job"), r.Seed, given)
	t.Line(0, "Not looked at: %s.", strings.Join(r.NotLookedAt, "; "))
}

// counted writes how many things there are.
func counted(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return grouped(n) + " " + thing
}

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
	if err := yaml.Unmarshal([]byte(j.Text), &n); err != nil || len(n.Content) == 0 {
		return j.Text
	}
	n.Content[0].Style = yaml.FlowStyle
	out, err := yaml.Marshal(n.Content[0])
	if err != nil {
		return j.Text
	}
	return string(out)
}

// words writes what is to be said of words, which is no fault.
func (t text) words() {
	if len(t.r.PassedBy) > 0 {
		t.Heading("WORDS OF AMENDMENTS THAT RULES PASS BY")
	}
	for _, p := range t.r.PassedBy {
		t.Line(2, "%s of %s (added by %s): %s", p.Word, p.Vocabulary, p.AddedBy, asksOf(len(p.By)))
		for _, by := range p.By {
			t.Line(4, "%s: %s asks for %s", by.Place, by.Name, strings.Join(by.For, ", "))
		}
	}
	if len(t.r.UnaskedWords) > 0 {
		t.Heading("WORDS THAT NOTHING ANSWERS OR ASKS ABOUT")
	}
	for _, u := range t.r.UnaskedWords {
		t.Line(2, "%s: %s", u.Vocabulary, strings.Join(u.Words, ", "))
	}
}

func asksOf(n int) string {
	if n == 1 {
		return "1 entry asks for another word and passes it by"
	}
	return grouped(n) + " entries ask for another word and pass it by"
}

func (t text) settled() {
	names := map[string][]string{}
	exactly := 0
	for _, s := range t.r.Settled {
		if s.Exactly {
			exactly++
			names[s.What] = append(names[s.What], s.Name)
		}
	}
	t.Heading(fmt.Sprintf("SETTLED EXACTLY: %d of %d", exactly, len(t.r.Settled)))
	for _, what := range []string{"decision", "check", "caution", "course", "refusal", "quantity", "step", "tolerance", "stop", "option", "remedy", "client"} {
		if len(names[what]) > 0 {
			t.Line(2, "%s: %s", strings.Replace(what+"s", "ys", "ies", 1), strings.Join(names[what], ", "))
		}
	}
	if exactly == len(t.r.Settled) {
		return
	}
	t.Heading("SETTLED IN PART BY SEARCH ALONE")
	for _, s := range t.r.Settled {
		if s.Exactly {
			continue
		}
		t.Line(2, "%s: %s %s", s.Place, s.What, s.Name)
		for _, point := range s.Points {
			if point.How == Searched {
				t.Line(4, "not found, and not ruled out: %s", point.Asks)
			}
		}
	}
}

func (t text) unanalyzed() {
	if len(t.r.Unanalyzed) > 0 {
		t.Heading("NOT ANALYZED, SEARCHED BY SAMPLING AND BISECTION")
	}
	for _, u := range t.r.Unanalyzed {
		t.Line(2, "%s", u.Text)
		for _, at := range u.Places {
			t.Line(4, "%s", at)
		}
		t.Line(4, "%s", u.Why)
	}
}

// grouped sets thousands apart.
func grouped(n int) string { return value.Number(float64(n)).Text(quantity.US) }
