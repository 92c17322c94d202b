package survey

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/page"
)

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

// count returns how many promises were settled in a way.
func (p *Proof) count(how How) int {
	n := 0
	for _, v := range p.Verdicts {
		if v.How == how {
			n++
		}
	}
	return n
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
func (p *Proof) OK() bool { return p.count(Refuted) == 0 }

// Summary says in one line what became of the promises.
func (p *Proof) Summary() string {
	return fmt.Sprintf("%s: %d proven, %d refuted, %d searched without a counterexample.", counted(len(p.Verdicts), "promise"), p.count(Proven), p.count(Refuted), p.count(Searched))
}

// Tell writes the proof as text: what is refuted first, with the jobs.
func (p *Proof) Tell(t *page.Page) {
	t.Line(0, "%s", p.Summary())
	t.Line(0, "Proven is proven for every job without overrides. Tried %s (seed %d) against every promise.", counted(p.Jobs, "job"), p.Seed)
	for _, v := range p.Verdicts {
		if v.How == Refuted {
			v.tellRefuted(t)
		}
	}
	p.list(t, Searched, "SEARCHED WITHOUT A COUNTEREXAMPLE, NOT PROVEN", Verdict.tellSearched)
	p.list(t, Proven, "PROVEN", Verdict.tellProven)
}

func (p *Proof) list(t *page.Page, how How, heading string, tell func(Verdict, *page.Page)) {
	if p.count(how) > 0 {
		t.Heading(heading)
	}
	for _, v := range p.Verdicts {
		if v.How == how {
			t.Line(2, "%s: %s", v.Promise, v.Says)
			tell(v, t)
		}
	}
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
	t.Line(4, "Tried %s, %s of them aimed at it. In the way of a proof:", grouped(v.Jobs), grouped(v.Tried))
	for _, u := range v.InTheWay {
		t.Line(6, "%s", u.Text)
		for _, at := range u.Places {
			t.Line(8, "%s", at)
		}
		t.Line(8, "%s", u.Why)
	}
}

func (v Verdict) tellProven(t *page.Page) {
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
