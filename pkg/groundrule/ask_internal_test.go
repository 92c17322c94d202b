package groundrule

import (
	"errors"
	"fmt"
	"os"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"math/rand/v2"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// manyAsked is how many jobs asking is tried on: 1,000 if asked for.
func manyAsked(few int) int {
	if os.Getenv("GROUNDRULE_MANY") != "" {
		return 1000
	}
	return few
}

// give writes a value of one job into another, and reports whether there is one.
func give(t *testing.T, f site.Field, from, to *site.Site) bool {
	x, given := f.Get(from)
	if !given {
		return false
	}
	switch v := reflect.ValueOf(x); {
	case v.Kind() == reflect.Float64:
		x = v.Float()
	case v.Type() == reflect.TypeFor[quantity.Quantity]():
		x = x.(quantity.Quantity).SI
	}
	require.NoError(t, f.Set(to, x), f.Path)
	return true
}

// truths makes up sites of which nearly everything is known that people are asked:
// jobs of the generator, and of what these leave open three quarters filled in with
// what can be true beside the rest.
func truths(t *testing.T, b *Book, n int, each func(truth *site.Site)) {
	number := uint64(0)
	for job := range jobs.Generate(b.table, n, 11) {
		r := rand.New(rand.NewPCG(7, number))
		number++
		truth, err := b.table.Close(job)
		require.NoError(t, err)
		for _, asking := range b.rules.Askings() {
			first := inside.Run(b.rules, truth)
			if _, given := truth.Input(asking.Key); given || first.Outcome == nil || r.IntN(4) == 0 {
				continue
			}
			q, err := b.choices(first, truth, asking)
			require.NoError(t, err)
			if len(q.choices) == 0 {
				continue
			}
			choice := q.choices[r.IntN(len(q.choices))]
			if choice.outcome == nil || choice.Status != first.Status && r.IntN(5) > 0 {
				continue // most sites are ordinary
			}
			truth, err = b.with(truth, [2]string{asking.Key, choice.Answer})
			require.NoError(t, err)
		}
		if depth, known := truth.Soil.FillDepth, truth.Soil.UncontrolledFill; depth != nil && known == nil {
			fill := *depth > 0 // who knows how deep it goes knows whether there is any
			truth.Soil.UncontrolledFill = &fill
		}
		if !contradicts(inside.Run(b.rules, truth)) { // no ground is at odds with itself
			each(truth)
		}
	}
}

// TestAskReachesTheTruth asks about sites of which nothing is known but what no
// question asks for, answers from the whole truth, and wants the section that the
// whole truth gives, but for lengths within the stated amount; and where there is
// none, none either.
func TestAskReachesTheTruth(t *testing.T) {
	b, err := Standard()
	require.NoError(t, err)
	keys := 0
	for _, f := range b.table.Inputs() {
		if !f.Derived() {
			keys++
		}
	}
	all, most, n, sites, refused, others := 0, 0, manyAsked(1), 0, 0, 0
	truths(t, b, n, func(truth *site.Site) {
		sites++
		job := deep.Copy(truth)
		for i, asking := range b.rules.Askings() {
			if n > 1 || i%3 == 0 { // of the one site that is always tried, a third is asked
				require.NoError(t, job.Set(asking.Key, ""))
			}
		}
		var asked, unknown []string
		for {
			questions, err := b.Ask(job, unknown...)
			if refused := (*Refused)(nil); !errors.As(err, &refused) {
				require.NoError(t, err)
			}
			if len(questions) == 0 {
				break
			}
			key := questions[0].Key
			require.NotContains(t, asked, key, "nothing is asked twice")
			asked = append(asked, key)
			if !give(t, b.field(key), truth, job) {
				unknown = append(unknown, key)
			}
		}
		all, most = all+len(asked), max(most, len(asked))
		closed, err := b.table.Close(job)
		require.NoError(t, err)
		reached := inside.Run(b.rules, closed)
		o, err := b.otherwise(reached, truth)
		require.NoError(t, err)
		full := inside.Run(b.rules, truth)
		if reached.Status != section.Designed && full.Status != section.Designed {
			refused++
			if !slices.Equal(limits(reached), limits(full)) {
				others++
			}
			return
		}
		if o.matters(b.asksFor()) {
			text, err := site.Write(truth)
			require.NoError(t, err)
			t.Errorf("the truth gives another section: %v\nasked %v, unknown %v of\n%s", o.Differs, asked, unknown, text)
		}
	})
	t.Logf("%d sites: %.1f questions on the average, at most %d; a job has %d keys", sites, float64(all)/float64(sites), most, keys)
	t.Logf("%d have no section, as their truth has none; %d of these by other limits than those of the truth", refused, others)
	require.Less(t, most, keys)
}

// limits are the refusals of a run.
func limits(ran inside.Ran) (ids []string) {
	for _, r := range refusals(ran) {
		ids = append(ids, r.ID)
	}
	return ids
}

// TestQuestionsAreWhatChanges turns every key that a job leaves open to each of its
// likely values, and wants the list of what is worth asking to hold exactly those by
// which something is built otherwise, with as much stone as it says.
func TestQuestionsAreWhatChanges(t *testing.T) {
	b, err := Standard()
	require.NoError(t, err)
	for job := range jobs.Generate(b.table, manyAsked(2), 12) {
		job, err := b.table.Close(job)
		require.NoError(t, err)
		first := inside.Run(b.rules, job)
		if first.Outcome == nil || contradicts(first) {
			continue
		}
		open, err := b.open(inside.Run(b.rules, job), job, nil)
		require.NoError(t, err)
		listed := map[string]map[string]otherwise{}
		for _, q := range open {
			if q.matters(0) {
				listed[q.Key] = map[string]otherwise{}
			}
			for _, o := range q.choices {
				if q.matters(0) {
					listed[q.Key][o.Answer] = o
				}
			}
		}
		for _, asking := range b.rules.Askings() {
			mayBe, err := first.Outcome.MayBe(asking)
			require.NoError(t, err)
			if _, given := job.Input(asking.Key); given {
				require.NotContains(t, listed, asking.Key, "what the job says is not asked")
				continue
			}
			changes := false
			for _, answer := range mayBe {
				other, err := b.with(job, [2]string{asking.Key, answer})
				if err != nil {
					continue // the job cannot say so
				}
				ran := inside.Run(b.rules, other)
				if contradicts(ran) {
					continue
				}
				builds := !builtAlike(t, first, ran)
				changes = changes || builds
				if told, is := listed[asking.Key][answer]; is {
					require.Equal(t, builds, told.matters(0), "%s of %s: %s %v", job.Job, asking.Key, answer, told.Differs)
					require.Equal(t, builds, len(told.Differs) > 0, "%s of %s: %s", job.Job, asking.Key, answer)
					stoneAsTold(t, first, ran, told.Differs)
				}
			}
			_, is := listed[asking.Key]
			require.Equal(t, changes, is, "%s: %s", job.Job, asking.Key)
		}
	}
}

func contradicts(ran inside.Ran) bool {
	for _, r := range refusals(ran) {
		if r.Contradicts {
			return true
		}
	}
	return false
}

func refusals(ran inside.Ran) []*engine.Refusal {
	if ran.Outcome == nil {
		return nil
	}
	return ran.Outcome.Refusals
}

// built is what a crew builds: each value of each course but plain numbers, which
// follow from thickness, and what tells of the site alone.
func built(t *testing.T, o *engine.Outcome) map[string]value.Value {
	out := map[string]value.Value{}
	for _, c := range o.Courses {
		out[c.Name] = value.Bool(true)
		for _, a := range c.Attributes {
			decided, err := o.DecidedBy(a.Decision)
			require.NoError(t, err)
			if _, isNumber := decided.Answer.Number(); !isNumber && !ofSite(o, a.Decision) {
				out[c.Name+"."+a.Name] = decided.Answer
			}
		}
	}
	return out
}

// builtAlike reports whether two jobs end alike, or are built alike to a hair.
func builtAlike(t *testing.T, a, b inside.Ran) bool {
	if a.Status != b.Status || strings.Join(a.Why, " ") != strings.Join(b.Why, " ") {
		return false
	}
	if a.Status != section.Designed {
		return true
	}
	was, is := built(t, a.Outcome), built(t, b.Outcome)
	for name := range was {
		x, y := was[name], is[name]
		p, length := x.Length()
		q, both := y.Length()
		switch {
		case length && both && max(p-q, q-p) < hair:
		case !x.Equal(y):
			return false
		}
	}
	return len(was) == len(is)
}

// stoneAsTold holds how much stone there is to what is said of it.
func stoneAsTold(t *testing.T, a, b inside.Ran, said []section.Sentence) {
	if a.Status != section.Designed || b.Status != section.Designed {
		return
	}
	stone := func(o *engine.Outcome) (all float64) {
		for _, c := range o.Courses {
			for _, each := range c.Attributes {
				if c.Is.Name == "stone_course" && each.Name == inside.Thickness {
					decided, err := o.DecidedBy(each.Decision)
					require.NoError(t, err)
					thickness, _ := decided.Answer.Length()
					all += thickness.Inches()
				}
			}
		}
		return all
	}
	was, is := stone(a.Outcome), stone(b.Outcome)
	told := 0.0
	for _, s := range said {
		for word, sign := range map[string]float64{" more stone": 1, " less stone": -1} {
			if amount, ok := strings.CutSuffix(s.US, word); ok {
				q, err := quantity.ParseAs(quantity.DimLength, amount)
				require.NoError(t, err)
				inches, err := q.In("in")
				require.NoError(t, err)
				told = sign * inches
			}
		}
	}
	if was > 0 && is > 0 {
		require.InDelta(t, is-was, told, 0.07, "%s in, %v", strconv.FormatFloat(is-was, 'g', 4, 64), said)
	}
}

// TestEveryKeyHasAQuestion finds keys that people can tell and that no question asks
// for.
func TestEveryKeyHasAQuestion(t *testing.T) {
	b, err := Standard()
	require.NoError(t, err)
	needless := map[string]string{
		"place": "people know where they build", "region": "the company's own", "perimeter": "measured with the area",
		"built_in":          "a habit of the crew, not a fact of the site",
		"soil.liquid_limit": "a laboratory's number, entered as it stands", "soil.plastic_limit": "the same",
		"soil.liquid_limit_oven_dried": "the same",
		"beside.depth":                 "most paving meets no other; who sees some tells of it", "beside.use": "the same", "beside.base": "the same", "beside.length": "the same",
	}
	asked := map[string]bool{}
	for _, q := range b.Rules().Questions {
		asked[q.Key] = true
	}
	for _, f := range b.table.Inputs() {
		_, named := needless[f.Path]
		if f.Required || f.Derived() && f.Path != "soil.passing_0_02_mm" {
			continue
		}
		require.Equal(t, !named, asked[f.Path], "a question for %s in rules/16-questions.yaml, or why there is none here", f.Path)
	}
}

// TestOtherwiseIsTheWholeRun holds that a job told otherwise, of which no more is worked
// out than what differs, comes to what it comes to by itself; and every tenth is told
// the same.
func TestOtherwiseIsTheWholeRun(t *testing.T) {
	b, err := Standard()
	require.NoError(t, err)
	followed := 0
	for job := range jobs.Generate(b.table, manyAsked(3), 99) {
		job, err := b.table.Close(job)
		require.NoError(t, err)
		first := inside.Run(b.rules, job)
		if first.Outcome == nil {
			continue
		}
		for _, asking := range b.rules.Askings() {
			mayBe, err := first.Outcome.MayBe(asking)
			require.NoError(t, err)
			for _, answer := range append(mayBe, "") {
				other, err := b.with(job, [2]string{asking.Key, answer})
				if err != nil {
					continue // the job cannot say so
				}
				is, want := first.Otherwise(b.rules, other), inside.Run(b.rules, other)
				require.Equal(t, want.Status, is.Status)
				require.Equal(t, whole(want.Outcome), whole(is.Outcome), "%s with %s: %s", job.Job, asking.Key, answer)
				if followed++; followed%10 == 0 && want.Outcome != nil {
					require.Equal(t, told(t, b, other, want), told(t, b, other, is), "%s with %s: %s", job.Job, asking.Key, answer)
				}
			}
		}
	}
}

// whole is all that a run came to.
func whole(o *engine.Outcome) (out struct {
	Decided                           []string
	Checks                            []engine.Checked
	Courses, Cautions, Refusals, Work any
	Crossed                           []*engine.Limit
}) {
	if o == nil {
		return out
	}
	for _, d := range o.Decided {
		out.Decided = append(out.Decided, fmt.Sprintf("%s %v %v %p %v %v", d.Decision.Name, d.Asked, d.Answer, d.Rule, d.States, d.Answers))
	}
	for _, c := range o.Checks {
		out.Checks = append(out.Checks, *c)
	}
	for _, c := range o.Crossed {
		out.Crossed = append(out.Crossed, c.Limit)
	}
	out.Courses, out.Cautions, out.Refusals, out.Work = o.Courses, o.Cautions, o.Refusals, o.Work
	return out
}

// told is the section of a run, as a crew and a client are told it too.
func told(t *testing.T, b *Book, job *site.Site, ran inside.Ran) string {
	t.Helper()
	s, err := assemble(b, job, ran.Outcome, []section.Form{section.Crew, section.Client})
	require.NoError(t, err)
	text, err := s.JSON(section.Full, section.Crew, section.Client)
	require.NoError(t, err)
	return string(text)
}
