package sheet

import (
	"fmt"
	"io"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// Crew writes what a crew builds from: the steps in their order with the hold
// points, the tolerances, and what the crew stops for. Of a job that was refused or
// stopped it says so instead. The section must have been made with [section.Crew].
//
// The only error is that of w.
func Crew(w io.Writer, s *section.Section, system quantity.System) error {
	if s.Status != section.Designed {
		return Text(w, s, system)
	}
	t := &text{page: page{system: system}, s: s, noted: map[string]bool{}, amends: map[string]bool{}}
	t.headline("CREW SHEET")
	t.put(0, "", "Read the cautions on the sheet of the whole section before starting.")
	if len(s.Confirm) > 0 {
		t.put(0, "", "Some values are assumed. Check them as that sheet says before digging.")
	}
	t.dig("Dig ")
	t.face()
	t.steps()
	t.tolerances()
	t.stops()
	t.footing()
	return t.writeTo(w)
}

func (t *text) steps() {
	if len(t.s.Steps) == 0 {
		t.put(0, "", "There are no steps: the rulebook has none, or the section was made without them.")
		return
	}
	t.heading("STEPS, in this order")
	for i, w := range t.s.Steps {
		mark := fmt.Sprintf("%2d. ", i+1)
		t.put(2, mark, t.sentence(w.Says)+" ("+w.ID+")")
		if hold := t.sentence(w.Hold); hold != "" {
			t.put(6, "HOLD: ", hold)
		}
		t.amended(6, w)
	}
}

func (t *text) tolerances() {
	if len(t.s.Tolerances) == 0 {
		return
	}
	t.heading("TOLERANCES")
	for _, w := range t.s.Tolerances {
		t.put(2, "- ", t.sentence(w.Says)+" ("+w.ID+")")
		t.put(4, "Measure: ", t.sentence(w.Measure))
		t.amended(4, w)
	}
}

func (t *text) stops() {
	if len(t.s.Stops) == 0 {
		return
	}
	t.heading("STOP AND CALL, if you find one of these")
	for _, w := range t.s.Stops {
		t.put(2, "- ", strings.TrimSpace(t.sentence(w.Finds)+" "+t.sentence(w.Does))+" ("+w.ID+")")
		t.put(4, "Call: ", t.sentence(w.Calls))
		if w.Then != nil {
			t.put(4, "What comes of it: ", t.tried(w.Found)+t.then(w.Then))
		}
		t.amended(4, w)
	}
}

// amended says how amendments changed a work, and the settings that it quotes.
func (t *text) amended(indent int, w section.Work) {
	t.changedBy(indent, w.Amended)
	for _, sort := range []string{"step.", "tolerance.", "stop."} {
		for i := range t.s.Reason(sort + w.ID).Taken {
			t.touched(&t.s.Reason(sort + w.ID).Taken[i])
		}
	}
}

// then says what would come of the job.
func (t *text) then(o *section.Otherwise) string {
	if len(o.Differs) == 0 {
		return "the section stays as it is."
	}
	var parts []string
	for _, d := range o.Differs {
		parts = append(parts, t.quoted(d))
	}
	out := fullStop(strings.Join(parts, "; "))
	if who := t.sentence(o.Who); who != "" {
		out += " Then for: " + who
	}
	return out
}

// tried names the measures with which that was found.
func (t *text) tried(found []section.Used) string {
	var parts []string
	for _, v := range found {
		if _, is := v.Value.Measure(); is {
			parts = append(parts, v.Label+" "+t.value(v.Value))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "with " + list(parts) + ", "
}
