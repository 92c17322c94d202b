package sheet

import (
	"strings"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// text writes one section.
type text struct {
	page
	s *section.Section
	// told has, for each reason that was shown, the course under which it was.
	told map[string]string
	// noted has the sources whose note was shown.
	noted map[string]bool
	// amends has the settings whose amendment was shown.
	amends map[string]bool
}

// value returns a value as one person says it to another; the reasons of a course
// have it in full.
func (t *text) value(v value.Value) string { return v.Brief(t.system) }

func (t *text) designed() {
	t.headline("SECTION TO BUILD")
	if len(t.s.Confirm) > 0 {
		t.put(0, "", "Some values are assumed. Check the list CONFIRM BEFORE BUILDING first.")
	}
	if len(t.s.Cautions) > 0 {
		t.put(0, "", "Read the CAUTIONS before starting.")
	}
	t.put(0, "", "Steps, tolerances and what to stop for are on the crew's sheet (--sheet crew).")
	t.dig("Dig ")
	t.standing()
	t.face()
	t.layers("THE SECTION, from the top down")
	t.absent()
	t.cautions()
	t.confirm()
	t.why()
	t.checks("CHECKS", t.s.Checks)
	t.absorbed()
	t.footing()
}

func (t *text) stopped() {
	t.headline("DO NOT BUILD")
	t.put(0, "", "A check that stops the design failed, or an answer is beyond its limit. The courses below show what was tried; do not build them.")
	t.face()
	var failed, rest []section.Check
	for _, c := range t.s.Checks {
		if !c.Holds && c.Failing == rulebook.Stops {
			failed = append(failed, c)
		} else {
			rest = append(rest, c)
		}
	}
	t.checks("WHAT FAILED", failed)
	t.layers("WHAT WAS TRIED (do not build), from the top down")
	t.dig("What was tried is ")
	t.absent()
	t.cautions()
	t.confirm()
	t.why()
	t.checks("THE OTHER CHECKS", rest)
	t.absorbed()
	t.footing()
}

func (t *text) refused() {
	t.headline("NOT COVERED, ENGINEER NEEDED")
	t.put(0, "", "This job is outside what these rules cover, so there is no section to build.")
	t.face()
	t.heading("LIMITS CROSSED")
	for i, r := range t.s.Refusals {
		if i > 0 {
			t.blank()
		}
		t.put(2, "- ", t.sentence(r.Says))
		if who := t.sentence(r.Who); who != "" {
			t.put(4, "Who should design it: ", who)
		}
		if seen := t.read(r.Clauses); seen != "" {
			t.put(4, "On this job: ", seen)
		}
		t.put(4, "", "Limit "+r.ID+". Source: "+t.cited(r.Source))
		t.changedBy(4, r.Amended)
	}
	t.absorbed()
	t.footing()
}

// headline says whose job it is and whether it can be built.
func (t *text) headline(outcome string) {
	name := t.s.Job.Name
	if name == "" {
		name = "Job without a name"
	}
	t.put(0, "", outcome+": "+name)
	var about []string
	if t.s.Job.Client != "" {
		about = append(about, "for "+t.s.Job.Client)
	}
	if t.s.Job.Place != "" {
		about = append(about, t.s.Job.Place)
	}
	if !t.s.Job.Area.IsZero() {
		about = append(about, t.value(t.s.Job.Area))
	}
	if len(about) > 0 {
		t.put(0, "", strings.Join(about, "; "))
	}
	t.blank()
}

// dig says how deep to dig.
func (t *text) dig(how string) {
	if !t.s.Depth.IsZero() {
		t.put(0, "", how+t.s.Depth.Text(t.system)+" deep, measured down from finish grade.")
	}
}

// footing says what the sheet was made from, and what it is not.
func (t *text) footing() {
	t.blank()
	if t.s.Library != "" {
		t.put(0, "", "Made by groundrule "+t.s.Library+".")
	}
	if len(t.s.Files) > 0 {
		var files []string
		for _, f := range t.s.Files {
			files = append(files, f.Name+" ("+shortHash(f.SHA256)+")")
		}
		t.put(0, "", "Rule files, with the start of the SHA-256 of each: "+strings.Join(files, ", ")+".")
	}
	t.laidOver(t.s)
	t.put(0, "", "This sheet is no substitute for local codes and licensed practice.")
}

// shortHash is enough of a hash to distinguish two files by eye.
func shortHash(hash string) string {
	const digits = 12
	return hash[:min(digits, len(hash))]
}
