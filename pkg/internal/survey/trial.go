package survey

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/section"
)

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
