package survey

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/section"
)

// Kind is what was found.
type Kind string

// The kinds of findings. The first seven are faults of the rulebook; the others
// may be as its keeper wants them.
const (
	// NoAnswer is a decision that no rule answers for some job.
	NoAnswer Kind = "NO ANSWER"
	// TwoAnswers is an "only" decision that two rules answer differently.
	TwoAnswers Kind = "TWO DIFFERENT ANSWERS"
	// NeverApplies is a rule, check, caution, course or refusal whose condition
	// holds for no job.
	NeverApplies Kind = "NEVER APPLIES"
	// Hidden is a rule whose condition holds for some jobs, and always an
	// earlier rule has answered.
	Hidden Kind = "ALWAYS HIDDEN"
	// NeverMet is a check that no job to which it applies can meet.
	NeverMet Kind = "NEVER MET"
	// Breaks is a rule that the engine could not work out for some job, for
	// another cause than a published range, or whose answer crosses a limit.
	Breaks Kind = "BREAKS"

	// Unread is a question of a company that no rule reads.
	Unread Kind = "READ BY NO RULE"

	// NeverGoverns is a rule of a largest or smallest decision that holds for
	// some jobs and is always outdone.
	NeverGoverns Kind = "NEVER GOVERNS"
	// Always is a condition that holds for every job to which it applies.
	Always Kind = "ALWAYS APPLIES"
	// NeverFails is a check that every job meets.
	NeverFails Kind = "NEVER FAILS"
	// OutOfRange is a job that is refused because a calculation does not reach
	// it.
	OutOfRange Kind = "BEYOND A CALCULATION"
)

// Fault reports whether a finding of the kind is a fault of the rulebook.
func (k Kind) Fault() bool { return slices.Index(kindOrder, k) <= slices.Index(kindOrder, Unread) }

// Named is a rule, or a part of a condition, with its place.
type Named struct {
	Name  string           `json:"name"`
	Place diagnostic.Place `json:"place"`
}

// Job is a job that shows a finding.
type Job struct {
	// Text is the job as a job file.
	Text string `json:"text"`
	// Entries is how many entries it tells.
	Entries int `json:"entries"`
	// Status is what the job came to: designed, refused or stopped; "" if the
	// engine gave an error.
	Status string `json:"status,omitempty"`
	// Took is the rule whose answer was taken, for a finding about a rule.
	Took string `json:"took,omitempty"`

	seen *seen
}

// About is what is asked about, such as a "decision", with its name, its chapter and
// where it stands.
type About struct {
	What    string           `json:"what"`
	Name    string           `json:"name"`
	Chapter string           `json:"chapter"`
	Place   diagnostic.Place `json:"place"`
}

// Finding is one thing that was found. A finding that a job can show has one,
// and the engine itself came to it with that job.
type Finding struct {
	Kind Kind `json:"kind"`
	About
	// Rule is the rule that it is about, if it is about one.
	Rule *Named `json:"rule,omitempty"`
	// By are the rules that hide it, outdo it or answer otherwise.
	By []Named `json:"by,omitempty"`
	// Says tells it in a sentence.
	Says string `json:"says"`
	// Against are parts of conditions that never hold together, the reason why
	// a rule never applies.
	Against []Named `json:"against,omitempty"`
	// Settings are those that make it so: with other values it would not be.
	Settings []string `json:"settings,omitempty"`
	// Cell tells in which cells the job's entries lie, as far as they matter.
	Cell []string `json:"cell,omitempty"`
	// Job shows it; nil where no job can. [Finding.Trial] makes a trial of it.
	Job *Job `json:"job,omitempty"`
}

// How is how a question was settled.
type How string

// The ways in which questions are settled.
const (
	// Proven: the walk of all cells leaves no job.
	Proven How = "proven"
	// Shown: a job shows it.
	Shown How = "shown"
	// Searched: no job was found, and the walk does not rule one out.
	Searched How = "searched"
)

// Point is one question about a decision, check, caution, course or refusal.
type Point struct {
	Asks string `json:"asks"`
	How  How    `json:"how"`
}

// Settled tells how far the questions about one subject are settled.
type Settled struct {
	About
	// Exactly reports that every point is proven or shown.
	Exactly bool    `json:"exactly"`
	Points  []Point `json:"points"`
}

// Unanalyzed is a part of a condition, or an answer that conditions compare,
// whose cells could not be worked out from those of the inputs. It was left open
// in the walk, and searched by sampling and bisection.
type Unanalyzed struct {
	Text   string             `json:"text"`
	Places []diagnostic.Place `json:"places"`
	Why    string             `json:"why"`
}

// Report is what a survey found.
type Report struct {
	// Within says in words to what the survey was narrowed, "" if to nothing.
	Within string `json:"within,omitempty"`
	Seed   uint64 `json:"seed"`
	// Names and Cells are how many names were split and into how many cells.
	Names int `json:"names"`
	Cells int `json:"cells"`
	// Jobs is how many jobs were run through the engine, beside those by which
	// findings were made smaller; Possible how many of them could be.
	Jobs     int `json:"jobs"`
	Possible int `json:"possible"`
	// Given is how many jobs of trials and examples are among them.
	Given int `json:"given"`
	// Questions are how many questions were settled, in each way.
	Questions map[How]int `json:"questions"`
	// Aimed is how many jobs at least were aimed at each question that was only
	// searched, but for those of too many cells to walk, at which none can be.
	Aimed int `json:"aimed"`
	// NotLookedAt says what no part of the survey looks at.
	NotLookedAt []string `json:"not_looked_at"`

	Findings   []Finding    `json:"findings"`
	Settled    []Settled    `json:"settled"`
	Unanalyzed []Unanalyzed `json:"unanalyzed"`
	// UnaskedWords and PassedBy are no faults.
	UnaskedWords []Unasked  `json:"unasked_words"`
	PassedBy     []PassedBy `json:"passed_by"`
}

// Fault reports whether the finding is a fault of the rulebook. A finding that
// rests on the value of a setting is not one: the setting is there to be chosen.
func (f Finding) Fault() bool { return f.Kind.Fault() && len(f.Settings) == 0 }

// Faults counts the findings that are faults of the rulebook.
func (r *Report) Faults() int {
	n := 0
	for _, f := range r.Findings {
		if f.Fault() {
			n++
		}
	}
	return n
}

// Trial writes the finding's job as a trial, ready to be pasted into a trial
// file; "" if no job shows the finding. The trial of a gap, of a clash and
// of a rule that breaks expects a design, and fails until the rules are mended;
// any other trial expects what the rules do now.
func (f Finding) Trial() string {
	if f.Job == nil {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "- trial: %s\n", f.trialID())
	fmt.Fprintf(&b, "  why: %s\n", strconv.Quote("Found by a survey. "+f.Says))
	b.WriteString("  job:\n")
	for _, l := range strings.Split(strings.TrimRight(f.Job.Text, "\n"), "\n") {
		b.WriteString("    " + l + "\n")
	}
	fmt.Fprintf(&b, "  expect: {%s}\n", f.expects())
	return b.String()
}

func (f Finding) trialID() string {
	name := f.Name
	if f.Rule != nil {
		name = f.Rule.Name
	}
	words := strings.FieldsFunc("SURVEY "+string(f.Kind)+" "+name, func(c rune) bool { return c == ' ' || c == '_' || c == '-' })
	return strings.ToUpper(strings.Join(words, "-"))
}

func (f Finding) expects() string {
	status := f.Job.Status
	if status == "" {
		status = string(section.Designed)
	}
	out := "status: " + status
	switch {
	case f.Kind == NeverMet:
		return out + ", fails: [" + f.Name + "]"
	case f.Rule != nil && f.Job.Took != "" && status != string(section.Refused):
		return out + fmt.Sprintf(", rules: {%s: %s}", f.Name, f.Job.Took)
	}
	return out
}
