package groundrule_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// How many jobs the properties are tried on: plausible ones, and ones drawn from
// everything that a job file can say. GROUNDRULE_LONG tries ten times as many,
// and the bytes of every section instead of each eighth.
const (
	plausibleJobs = 1200
	anyJobs       = 1600
	bytesOfEach   = 8
)

func long() bool { return os.Getenv("GROUNDRULE_LONG") != "" }

// trialJobs returns the jobs of both generators, always the same.
func trialJobs(seed uint64) []*site.Site {
	plausible, any := plausibleJobs, anyJobs
	switch {
	case long():
		plausible, any = 10*plausible, 10*any
	case testing.Short(): // on another processor, or under the race detector
		plausible, any = plausible/4, any/4
	}
	var out []*site.Site
	for job := range jobs.Generate(standardWords, plausible, seed) {
		out = append(out, job)
	}
	rng := rand.New(rand.NewPCG(seed, 0))
	for range any {
		out = append(out, jobs.Any(rng, standardWords))
	}
	return out
}

// inParallel does each of count things once, on so many goroutines.
func inParallel(workers, count int, do func(i int)) {
	var all sync.WaitGroup
	for w := range workers {
		all.Go(func() {
			for i := w; i < count; i += workers {
				do(i)
			}
		})
	}
	all.Wait()
}

// cameTo returns the section of a job: that to build, or that of the refusal.
// It is nil, with the fault, if the rulebook came to neither.
func cameTo(b *groundrule.Book, job *site.Site) (s *section.Section, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v", p)
		}
	}()
	d, err := b.Design(job)
	var refused *groundrule.Refused
	if errors.As(err, &refused) {
		return refused.Section, nil
	}
	if err != nil {
		return nil, err
	}
	return d.Section()
}

// asFile writes the job of a failure so that anyone can run it again.
func asFile(job *site.Site) string {
	text, err := site.Write(job)
	if err != nil {
		return err.Error()
	}
	return string(text)
}

// TestDesignsAreAccountable tries on many jobs what the design promises: there
// is an answer or a refusal, and whatever is in a section has its reason.
func TestDesignsAreAccountable(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	all := trialJobs(20)
	require.True(t, testing.Short() || len(all) >= 2000)
	faults := make([][]string, len(all))
	status := make([]section.Status, len(all))
	inParallel(4, len(all), func(i int) {
		s, err := cameTo(book, all[i])
		if err != nil {
			faults[i] = []string{err.Error()}
			return
		}
		status[i] = s.Status
		faults[i] = unaccounted(s)
	})
	count := map[section.Status]int{}
	for i := range all {
		count[status[i]]++
		report(t, all[i], faults[i])
	}
	t.Logf("of %d jobs %d were designed, %d refused, %d stopped by a check", len(all),
		count[section.Designed], count[section.Refused], count[section.Stopped])
	require.Greater(t, count[section.Designed], len(all)/4, "too few designs to say anything of designs")
	require.NotZero(t, count[section.Refused])
	require.NotZero(t, count[section.Stopped])
}

// answersOf returns answers of a kind to override with: every word, or a few
// values.
func answersOf(b rulebook.Contents, kind value.Kind) []string {
	switch kind {
	case value.BoolKind:
		return []string{"true", "false"}
	case value.NumberKind:
		return []string{"0", "1", "3", "60", "-5"}
	case value.DimensionKind(quantity.DimShare):
		return []string{"percent(0)", "percent(1)", "percent(3)", "percent(60)", "percent(-5)"}
	case value.DimensionKind(quantity.DimLength):
		return []string{"inches(0)", "inches(6)", "mm(1000)"}
	}
	var out []string
	for _, v := range b.Vocabularies {
		for _, w := range v.Words {
			if v.Kind == kind {
				out = append(out, w.Word.Name)
			}
		}
	}
	return out
}

// TestOverriddenDesignsAreAccountable tries the same where a person takes over
// any one decision, with any word or with a few values. An answer that leaves
// other rules without one, such as no lifts at all, may come to a
// [rulebook.RunError], which whoever wrote the override must mend.
func TestOverriddenDesignsAreAccountable(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	var overrides []site.Override
	rules := book.Rules()
	for _, d := range rules.Decisions {
		for _, answer := range answersOf(rules, d.Kind) {
			overrides = append(overrides, site.Override{Decision: d.Name, Answer: answer, By: "A. Tester", Because: "to try it"})
		}
	}
	require.Greater(t, len(overrides), 100)
	if testing.Short() {
		overrides = everyNth(overrides, 5)
	}
	var plain []*site.Site
	for job := range jobs.Generate(standardWords, 60, 5) {
		plain = append(plain, job)
	}
	faults := make([][]string, len(overrides)*2)
	all := make([]*site.Site, len(faults))
	var unanswered atomic.Int32
	inParallel(4, len(all), func(i int) {
		job := *plain[i%len(plain)]
		job.Overrides = []site.Override{overrides[i/2]}
		all[i] = &job
		s, err := cameTo(book, &job)
		var wrong *site.Error
		switch {
		case errors.As(err, &wrong) && wrong.Faults[0].Path == "overrides[0].answer":
			unanswered.Add(1) // the override is at fault, and the error says where
			return
		case err != nil:
			faults[i] = []string{err.Error()}
			return
		}
		faults[i] = unaccounted(s)
		if s.Status == section.Designed && s.Reason(overrides[i/2].Decision).Decision != "" && len(s.Overrides) != 1 {
			faults[i] = append(faults[i], "the override is not listed")
		}
	})
	for i := range all {
		report(t, all[i], faults[i])
	}
	t.Logf("of %d overridden jobs %d left a rule without an answer", len(all), unanswered.Load())
	require.Less(t, int(unanswered.Load()), len(all)/20)
}

// everyNth takes one of so many.
func everyNth[T any](all []T, n int) (out []T) {
	for i := 0; i < len(all); i += n {
		out = append(out, all[i])
	}
	return out
}

// report fails with the job of the first few faults.
func report(t *testing.T, job *site.Site, faults []string) {
	t.Helper()
	for _, fault := range faults {
		t.Errorf("%s\n%s", fault, asFile(job))
	}
}

// unaccounted lists what of a section has no reason, or no value.
func unaccounted(s *section.Section) []string {
	var out []string
	fault := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if s.Status == section.Refused {
		if len(s.Refusals) == 0 {
			fault("refused, and no limit is named")
		}
		for _, r := range s.Refusals {
			if r.ID == "" || empty(r.Says) || empty(r.Who) || r.Place.Line == 0 || !tagged(s, r.Source) {
				fault("refusal %s does not say what, who, where or by which source: %+v", r.ID, r)
			}
		}
		return out
	}
	if s.Status == section.Stopped && len(s.Failed()) == 0 && len(s.Crossed) == 0 {
		fault("stopped, and no check failed and no limit is crossed")
	}
	for _, c := range s.Courses {
		presence := s.Reason(c.Presence)
		if len(presence.Taken) != 1 {
			fault("course %s is there without a reason", c.Name)
		}
		if c.Rule == "" || empty(c.Because) || !tagged(s, c.Source) || c.Place.Line == 0 {
			fault("course %s names no rule, no because, no place or no source", c.Name)
		}
		for _, a := range c.Attributes {
			accountAttribute(s, c, a, fault)
		}
	}
	for _, r := range s.Reasons {
		accountReason(s, r, fault)
	}
	accountDepths(s, fault)
	return out
}

func accountAttribute(s *section.Section, c section.Course, a section.Attribute, fault func(string, ...any)) {
	r := s.Reason(a.Decision)
	switch {
	case r.Decision == "":
		fault("%s.%s has no reason", c.Name, a.Name)
	case a.Value.IsZero() || !sound(a.Value):
		fault("%s.%s has no value, or one that is no number: %s", c.Name, a.Name, a.Value.Text(quantity.SI))
	case a.Rule == "" || a.Label == "" || empty(a.Because):
		fault("%s.%s names no rule, no label or no because", c.Name, a.Name)
	case a.Rule != "override" && (a.Place.Line == 0 || !tagged(s, a.Source)):
		fault("%s.%s names no place or no source", c.Name, a.Name)
	case !r.Answer.Equal(a.Value):
		fault("%s.%s is %s, and its reason answers %s", c.Name, a.Name, a.Value.Text(quantity.SI), r.Answer.Text(quantity.SI))
	}
}

func accountReason(s *section.Section, r section.Reason, fault func(string, ...any)) {
	if len(r.Taken) == 0 && r.Take != rulebook.All {
		fault("%s was answered by no rule", r.Decision)
	}
	for _, rule := range r.Taken {
		switch {
		case rule.ID == "":
			fault("a rule of %s has no id", r.Decision)
		case rule.By == "" && (rule.Place.File == "" || rule.Place.Line == 0):
			fault("rule %s of %s is written nowhere", rule.ID, r.Decision)
		case rule.By == "" && !tagged(s, rule.Source):
			fault("rule %s of %s has no source with a tag", rule.ID, r.Decision)
		case empty(rule.Because):
			fault("rule %s of %s says no because", rule.ID, r.Decision)
		case rule.Answer.IsZero() || !sound(rule.Answer):
			fault("rule %s of %s was taken without an answer", rule.ID, r.Decision)
		}
	}
	for _, rule := range r.Passed {
		held := rule.State == rulebook.Held
		if held != !rule.Answer.IsZero() || held != !empty(rule.Because) || held != (rule.AnswerText == "") || held != (rule.BecauseTemplate == "") {
			fault("rule %s of %s, %s, has not one answer and one because", rule.ID, r.Decision, rule.State)
		}
	}
	for _, rule := range slices.Concat(r.Taken, r.Passed) {
		for _, used := range rule.Used {
			if !sound(used.Value) {
				fault("rule %s used %s, which is no number", rule.ID, used.Name)
			}
		}
	}
}

func empty(s section.Sentence) bool { return s.US == "" }

// tagged reports whether the table has a source, with how well it is known.
func tagged(s *section.Section, name string) bool {
	source := s.Source(name)
	return name != "" && source.Text != "" && source.Known.Valid()
}

// sound is false for a value that is not a number, or is infinite.
func sound(v value.Value) bool {
	if x, ok := v.Number(); ok {
		return !math.IsNaN(x) && !math.IsInf(x, 0)
	}
	if q, ok := v.Quantity(); ok {
		return !math.IsNaN(q.SI) && !math.IsInf(q.SI, 0)
	}
	if all, ok := v.List(); ok {
		for _, each := range all {
			if !sound(each) {
				return false
			}
		}
	}
	return true
}

// accountDepths wants the courses to lie one upon the other, from the surface down to
// the floor of the dig.
func accountDepths(s *section.Section, fault func(string, ...any)) {
	var depth quantity.Length
	for i := len(s.Courses) - 1; i >= 0; i-- {
		c := s.Courses[i]
		top, _ := c.Top.Length()
		if c.Attribute(inside.Level).Name != "" && c.Attribute(inside.Thickness).Name == "" {
			continue // it lies among the others
		}
		if top != depth {
			fault("%s begins at %s, and what lies on it ends at %s", c.Name, top, depth)
		}
		if a := c.Attribute(inside.Thickness); a.Name != "" {
			thickness, ok := a.Value.Length()
			if !ok || thickness < 0 && s.Status == section.Designed {
				fault("%s is %s thick", c.Name, a.Value.Text(quantity.US))
			}
			depth += thickness
		}
		if bottom, _ := c.Bottom.Length(); bottom != depth {
			fault("%s ends at %s, and should at %s", c.Name, bottom, depth)
		}
	}
	if whole, ok := s.Depth.Length(); !ok || whole != depth {
		fault("the section is %s deep, and its courses add up to %s", whole, depth)
	}
}

// TestSameJobGivesTheSameBytes designs a job again, on other goroutines and
// with a rulebook opened afresh, and wants the same bytes.
func TestSameJobGivesTheSameBytes(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	afresh, err := groundrule.OpenStandard()
	require.NoError(t, err)
	var all []*site.Site
	for i, job := range trialJobs(21) {
		if long() || i%bytesOfEach == 0 {
			all = append(all, job)
		}
	}
	text := func(b *groundrule.Book, job *site.Site) []byte {
		s, err := cameTo(b, job)
		if err != nil {
			return []byte("fault: " + err.Error())
		}
		out, err := s.JSON(section.Full)
		if err != nil {
			return []byte(err.Error())
		}
		return out
	}
	first, again := make([][]byte, len(all)), make([][]byte, len(all))
	for i, job := range all {
		first[i] = text(book, job)
	}
	inParallel(8, len(all), func(i int) {
		again[i] = text([]*groundrule.Book{book, afresh}[i%2], all[len(all)-1-i])
	})
	for i, job := range all {
		require.True(t, bytes.Equal(first[i], again[len(all)-1-i]), "%s\n%s", asFile(job), cmp.Diff(string(first[i]), string(again[len(all)-1-i])))
		require.NoError(t, wellFormed(first[i]), asFile(job))
	}
}

// wellFormed reads JSON into plain maps and lists and wants a number wherever
// one is written.
func wellFormed(text []byte) error {
	var all map[string]any
	if err := json.Unmarshal(text, &all); err != nil {
		return err
	}
	if all["schema"] != section.Schema || all["version"] != float64(section.Version) {
		return fmt.Errorf("schema %v, version %v", all["schema"], all["version"])
	}
	for _, bad := range []string{"NaN", "+Inf", "-Inf", "%!"} {
		if i := bytes.Index(text, []byte(bad)); i >= 0 {
			return fmt.Errorf("%q is written at %s", bad, text[max(0, i-60):min(len(text), i+60)])
		}
	}
	back, err := json.Marshal(all)
	if err == nil && !json.Valid(back) {
		err = errors.New("what was read is written as no JSON")
	}
	return err
}
