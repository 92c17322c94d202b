package survey

import (
	"fmt"
	"io"
	"strings"

	"gopkg.in/yaml.v3"
)

// Write writes the report as text: the findings, each with its job, then how far
// everything asked is settled, then what was not reached and not analyzed.
func (r *Report) Write(w io.Writer) error {
	p := &printer{w: w}
	p.head(r)
	for _, f := range r.Findings {
		if f.Fault() {
			p.finding(f)
		}
	}
	if r.Faults() == 0 {
		p.line("No fault was found.")
		p.line("")
	}
	p.notes(r)
	p.settled(r)
	p.unreached(r)
	p.unanalyzed(r)
	return p.err
}

// printer writes lines and keeps the first error.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintln(p.w, strings.TrimRight(fmt.Sprintf(format, args...), " "))
	}
}

func (p *printer) head(r *Report) {
	if r.Within != "" {
		p.line("Within %s.", r.Within)
	}
	p.line("%d names split into %d cells. %d jobs run, %d of them possible, from seed %d.", r.Names, r.Cells, r.Jobs, r.Possible, r.Seed)
	p.line("")
}

func (p *printer) finding(f Finding) {
	p.line("%s: %s", f.Kind, f.title())
	p.line("  %s", f.Place)
	p.line("  %s", f.Says)
	for _, by := range f.By {
		p.line("  %s %s at %s", f.byWord(), by.Name, by.Place)
	}
	if len(f.Against) == 1 {
		p.line("  This holds for no job:")
	} else if len(f.Against) > 0 {
		p.line("  These never hold together:")
	}
	for _, a := range f.Against {
		p.line("    %s: %s", a.Place, a.Name)
	}
	if len(f.Settings) > 0 {
		p.line("  It is so because of the value of %s.", strings.Join(f.Settings, ", "))
	}
	if len(f.Cell) > 0 {
		p.line("  Where %s.", strings.Join(f.Cell, "; "))
	}
	if f.Job != nil {
		p.line("  The smallest job that shows it, as a trial:")
		for _, l := range strings.Split(strings.TrimRight(f.Trial(), "\n"), "\n") {
			p.line("    %s", l)
		}
	}
	p.line("")
}

func (f Finding) title() string {
	if f.Rule != nil {
		return fmt.Sprintf("rule %s of %s", f.Rule.Name, f.Name)
	}
	return f.What + " " + f.Name
}

func (f Finding) byWord() string {
	switch f.Kind {
	case TwoAnswers:
		return "The other rule is"
	case NeverGoverns:
		return "It is outdone by"
	}
	return "It is hidden by"
}

// notes writes the findings that are no faults, each on a few lines.
func (p *printer) notes(r *Report) {
	last := ""
	for _, f := range r.Findings {
		if f.Fault() {
			continue
		}
		head := string(f.Kind)
		if len(f.Settings) > 0 {
			head += ", AS THE SETTINGS STAND"
		}
		if head != last && last != "" {
			p.line("")
		}
		if head != last {
			p.line("%s", head)
		}
		last = head
		p.note(f)
	}
	if last != "" {
		p.line("")
	}
}

func (p *printer) note(f Finding) {
	p.line("  %s: %s: %s", f.Place, f.title(), f.Says)
	for _, by := range f.By {
		p.line("    %s %s at %s", f.byWord(), by.Name, by.Place)
	}
	if len(f.Settings) > 0 {
		p.line("    It is so because of the value of %s.", strings.Join(f.Settings, ", "))
	}
	if f.Job != nil {
		p.line("    The smallest job that shows it: %s", f.Job.flowed())
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
	return strings.TrimSpace(string(out))
}

func (p *printer) settled(r *Report) {
	exactly := 0
	var open []Settled
	for _, s := range r.Settled {
		if s.Exactly {
			exactly++
		} else {
			open = append(open, s)
		}
	}
	p.line("SETTLED EXACTLY: %d of %d", exactly, len(r.Settled))
	for _, what := range []string{"decision", "check", "caution", "course", "refusal"} {
		var names []string
		for _, s := range r.Settled {
			if s.Exactly && s.What == what {
				names = append(names, s.Name)
			}
		}
		if len(names) > 0 {
			p.line("  %ss: %s", what, strings.Join(names, ", "))
		}
	}
	p.line("")
	if len(open) == 0 {
		return
	}
	p.line("SETTLED BY SEARCH ALONE, IN PART")
	for _, s := range open {
		p.line("  %s: %s %s", s.Place, s.What, s.Name)
		for _, point := range s.Points {
			if point.How == Searched {
				p.line("    not found, and not ruled out: %s", point.Asks)
			}
		}
	}
	p.line("")
}

func (p *printer) unreached(r *Report) {
	if len(r.Unreached) == 0 {
		return
	}
	p.line("NOT FOUND BY SEARCH")
	for _, u := range r.Unreached {
		p.line("  %s: %s %s: %s, in %d jobs, %d of them made for it", u.Place, u.What, u.Name, u.Says, u.Jobs, u.Aimed)
	}
	p.line("")
}

func (p *printer) unanalyzed(r *Report) {
	if len(r.Unanalyzed) == 0 {
		return
	}
	p.line("NOT ANALYZED, SEARCHED BY SAMPLING AND BISECTION")
	for _, u := range r.Unanalyzed {
		p.line("  %s", u.Text)
		for _, at := range u.Places {
			p.line("    %s", at)
		}
		p.line("    %s", u.Why)
	}
	p.line("")
}
