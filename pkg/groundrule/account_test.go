package groundrule_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// ours designs a job by a text of the plot with amendments of one company laid
// over it.
func ours(t *testing.T, text, changes string, job *site.Site) *section.Section {
	t.Helper()
	const head = "amendment: ours\ncompany: Ours\nwho: A. Keeper\nwhen: 2026-01-05\nwhy: To try it.\n"
	day := rulebook.DateOf(time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC))
	book, err := groundrule.Open(small.Rulebook("plot.yaml", text), groundrule.AsOf(day),
		groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte(head + changes)}}}))
	require.NoError(t, err)
	s, err := cameTo(book, job)
	require.NoError(t, err)
	return s
}

func overridden(decision, answer string) *site.Site {
	job := path()
	job.Overrides = []site.Override{{Decision: decision, Answer: answer, By: "J. Orr", Because: "Thin."}}
	return job
}

// What a reason rests on rests on something itself: settings, terms, and the words
// that these name.
func TestAccounts(t *testing.T) {
	text := replaced(t, plot, "settings:\n", "  color: {about: what color it has, words: {red: deep red, blue: blue}, because: Colors differ., source: practice}\nsettings:\n  usual: {value: red, because: We like it., source: practice}\n")
	text = replaced(t, text, "value: strength < 3", "value: strength < 3 && usual == red")
	told := func(s *section.Section) []string {
		var out []string
		for _, a := range s.Accounts {
			out = append(out, strings.TrimSpace(fmt.Sprintf("%s %s (%s): %s, %s %s %v", a.Sort, a.Name, a.Label, a.Value, a.Because.US, a.Source, a.Amended != nil)))
		}
		return out
	}
	s, err := plotSection(t, text, path())
	require.NoError(t, err)
	require.Empty(t, cmp.Diff([]string{
		"setting extra (extra): 2 in, So it is. practice false",
		"load case foot (foot): nothing, A mower, a cart, a skid of pavers now and then; no road vehicle. own false",
		"word red (deep red): nothing, Colors differ. practice false",
		"setting usual (usual): deep red, We like it. practice false",
		"term weak (weak): nothing, told practice false",
	}, told(s)))
	amended := told(ours(t, text, "replace:\n  - {setting: extra, set: {value: 3 in, because: More., source: company}}\n", path()))
	require.Equal(t, "setting extra (extra): 3 in, More. company true", amended[0])
	for _, c := range []struct{ of, changes, why string }{
		{"extra", "replace:\n  - {setting: extra, set: {value: 3 in, because: More., source: company}}\n", "a setting"},
		{"weak", "replace:\n  - {term: weak, set: {value: strength < 3.5 && usual == red, because: Ours yields., source: company}}\n", "a term"},
	} {
		rule, told := ours(t, text, c.changes, path()).Reason("depth").Taken[0], []string{}
		for _, u := range append(rule.Used, rule.Clauses[0].Values...) {
			if u.Amended != nil {
				told = append(told, u.Name)
			}
		}
		require.Equal(t, []string{c.of}, slices.Compact(told), "%s is told as amended where it is read, and nothing else", c.why)
	}

	standard, err := groundrule.Standard()
	require.NoError(t, err)
	s, err = cameTo(standard, path())
	require.NoError(t, err)
	sorts := map[string]string{}
	for _, a := range s.Accounts {
		require.Empty(t, sorts[a.Name], "%s is told twice", a.Name)
		sorts[a.Name] = a.Sort
	}
	require.Equal(t, []string{"material", "word", "setting", "term"}, []string{sorts["stone_dense_base"], sorts["strip_sod"], sorts["build_step"], sorts["fine_grained"]})
	require.True(t, slices.IsSortedFunc(s.Accounts, func(a, b section.Account) int { return strings.Compare(a.Name, b.Name) }))
}

// A course that is not laid says which clause failed, and why what it reads is so.
func TestAbsent(t *testing.T) {
	car := path()
	car.Use, car.Soil.CBR = "car_driveway", []float64{5}
	deep := replaced(t, plot, `"weak || use == foot"`, `"depth > inches(8)"`)
	const softer = "replace:\n  - {setting: extra, set: {value: 1 in, because: Less., source: company}}\n"
	bySetting := replaced(t, replaced(t, deep, "when: use == car_driveway, answer: inches(9)", "when: extra > inches(1.5), answer: inches(9)"), "answer: inches(4) + extra", "answer: inches(5)")
	for _, c := range []struct {
		name, why string
		s         *section.Section
		clauses   string
		because   []string
		set       string // the setting of an amendment by which a rule does not apply
	}{
		{"by what the site is", "no decision is behind it", ours(t, plot, "add:\n  - {caution: MIND, says: Mind., source: company}\n", car), "weak; use == foot", nil, ""},
		{"by a decision", "its reason is given too, and not that of the ground", ours(t, deep, "add:\n  - {caution: MIND, says: Mind., source: company}\n", path()), "depth > inches(8)", []string{"The ground, at 2.5, is weak."}, ""},
		{"by a setting of an amendment", "the rule that would have had it there does not apply by it", ours(t, bySetting, softer, path()), "depth > inches(8)", []string{"The ground, at 2.5, is weak."}, "extra"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Len(t, c.s.Absent, 1)
			a := c.s.Absent[0]
			require.Equal(t, [3]string{"course", "stone", "Stone"}, [3]string{a.Sort, a.Name, a.Label})
			var clauses, because, set []string
			for _, each := range a.Clauses {
				clauses = append(clauses, each.Text)
			}
			for _, each := range a.Because {
				because = append(because, each.US)
			}
			for _, each := range a.Set {
				set = append(set, each.Name)
			}
			require.Equal(t, c.clauses, strings.Join(clauses, "; "), c.why)
			require.Equal(t, c.because, because, c.why)
			require.Equal(t, c.set, strings.Join(set, " "), c.why)
		})
	}
	standard, err := groundrule.Standard()
	require.NoError(t, err)
	s, err := cameTo(standard, path())
	require.NoError(t, err)
	i := slices.IndexFunc(s.Absent, func(a section.Absent) bool { return a.Name == "drain_time_allowed" })
	require.Equal(t, [3]string{"decision", "drain time allowed", "stores_rain"}, [3]string{s.Absent[i].Sort, s.Absent[i].Label, s.Absent[i].Clauses[0].Text}, "a question that is not asked")
}

// Of a chain of decisions each is told once, from the one that failed backward.
func TestAbsentByAChain(t *testing.T) {
	chained := replaced(t, plot, `"weak || use == foot"`, `"depth > inches(8) && depth < inches(20) || bed > inches(8)"`)
	chained = replaced(t, chained, "  word:\n", `  bed:
    asks: How thick is the bed?
    answers: length
    take: first
    rules: [{rule: BED, when: depth > inches(5), answer: inches(1), because: "Under {depth}, a bed of an inch.", source: practice}, {rule: NO-BED, answer: inches(0), because: None., source: practice}]
  word:
`)
	s, err := plotSection(t, chained, path())
	require.NoError(t, err)
	var because []string
	for _, each := range s.Absent[0].Because {
		because = append(because, each.US)
	}
	require.Equal(t, []string{"The ground, at 2.5, is weak.", "Under 6 in, a bed of an inch."}, because)
}

// What a rule passes on of a material rests on the source of that property alone, not on
// that of another whose name begins alike.
func TestRestsOnTheProperty(t *testing.T) {
	text := replaced(t, plot, "settings:\n", `kinds:
  slab:
    about: a slab
    properties:
      deep: {is: length, about: how deep it is}
      deep_most: {is: length, about: how deep it may be}
      deeper: {is: length, about: how deep it could be}
materials:
  flag: {kind: slab, label: flag, about: A flag., because: It is so., source: practice, properties: {deep: {value: 3 in, because: It was measured., source: "book, page 1"}, deep_most: {value: 5 in, because: It was counted., source: "book, page 2"}, deeper: {value: 7 in, because: It was weighed., source: "book, page 3"}}}
  tile: {kind: slab, label: tile, about: A tile., because: It is so., source: practice, properties: {deep: {value: 3 in, because: It was tried., source: "book, page 4"}, deep_most: 5 in, deeper: 7 in}}
settings:
`)
	text = replaced(t, text, "  word:\n", `  laid:
    asks: Which slab?
    answers: slab
    take: first
    rules: [{rule: FLAG, answer: flag, because: There is one., source: practice}]
  relaid:
    asks: Which slab is laid again?
    answers: slab
    take: first
    rules: [{rule: TILE, answer: tile, because: There is one., source: practice}]
  word:
`)
	for _, c := range []struct{ name, why, answer, rests, because string }{
		{"the short name", "alone", "laid.deep", "book, page 1", "Never less. It was measured."},
		{"the short name before a sign", "it ends there", "laid.deep * 2 / 2", "book, page 1", "Never less. It was measured."},
		{"a name that goes on with a line", "it is another", "laid.deep_most", "book, page 2", "Never less. It was counted."},
		{"a name that goes on with a letter", "it is another", "laid.deeper", "book, page 3", "Never less. It was weighed."},
		{"of a name that ends alike", "it is not that of the other", "relaid.deep + laid.deeper", "book, page 4; book, page 3", "Never less. It was tried. It was weighed."},
		{"two", "in the order of the names", "laid.deeper - laid.deep", "book, page 1; book, page 3", "Never less. It was measured. It was weighed."},
		{"none", "it reads no property", "inches(4)", "", "Never less."},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := plotSection(t, replaced(t, replaced(t, text, `because: "Never less than {inches(4)}.", source: "book, page 1"`, "because: Never less., source: practice"), "{rule: LEAST, answer: inches(4)", "{rule: LEAST, answer: "+c.answer), overridden("strength", "5.0"))
			require.NoError(t, err)
			rule := s.Reason("depth").Taken[0]
			require.Equal(t, "LEAST", rule.ID)
			require.Equal(t, c.rests, strings.Join(rule.RestsOn, "; "), c.why)
			require.Equal(t, c.because, rule.Because.US)
		})
	}
}

// What an amendment took away is told with what it would have said.
func TestLifted(t *testing.T) {
	s := ours(t, plot, "add:\n  - {caution: MIND, says: Mind., source: company}\nretire:\n  - {caution: SOFT, because: Everyone knows.}\n", path())
	require.Len(t, s.Lifted, 1)
	l := s.Lifted[0]
	require.Equal(t, [3]string{"caution", "SOFT", "Mind the ground, at 2.5."}, [3]string{l.Sort, l.ID, l.Says.US})
	require.Empty(t, l.Says.SI, "it is the same in both systems")
	require.Equal(t, "Everyone knows.", l.Amended.Because)
	require.Equal(t, "ours", l.Amended.By.Name)
	require.False(t, l.Replaced)
}

// An answer beyond a limit names the limit, whose doing it is, and what permits it.
func TestCrossed(t *testing.T) {
	const limit = "add:\n  - {limit: NOT-BELOW, to: depth, at_least: inches(5), because: \"Less than {extra} does not hold.\", source: company}\n"
	for _, c := range []struct {
		name, why, changes string
		status             section.Status
		variance           string
	}{
		{"without permission", "the section is stopped", limit, section.Stopped, ""},
		{"with permission", "it is named", limit + "variances:\n  - {variance: thin, limit: NOT-BELOW, to: 4 in, who: O, why: W., until: 2027-01-01}\n", section.Designed, "thin"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := ours(t, plot, c.changes, overridden("depth", "inches(4)"))
			require.Equal(t, c.status, s.Status, c.why)
			require.Len(t, s.Crossed, 1)
			x := s.Crossed[0]
			require.Equal(t, c.variance, x.Variance, c.why)
			require.Equal(t, [4]string{"NOT-BELOW", "depth", "depth", "4 in"}, [4]string{x.Limit, x.Decision, x.Label, x.Answer.String()})
			require.Equal(t, section.Sentence{US: "at least 5 in", SI: "at least 127 mm"}, x.Wanted)
			require.Equal(t, section.Sentence{US: "Less than 2 in does not hold.", SI: "Less than 50.8 mm does not hold."}, x.Because)
			require.Equal(t, "J. Orr, who decided the depth in place of the rules", x.By[0])
		})
	}
	stopping := replaced(t, plot, "at_least: inches(5), failing: caution", "at_least: inches(5), failing: stop")
	require.EqualError(t, &groundrule.Refused{Section: ours(t, stopping, limit, overridden("depth", "inches(4)"))},
		"stopped: NOT-BELOW: depth is 4 in; wanted at least 5 in; DEEP: Dig deeper.")
	permitted := limit + "variances:\n  - {variance: thin, limit: NOT-BELOW, to: 4 in, who: O, why: W., until: 2027-01-01}\n"
	require.EqualError(t, &groundrule.Refused{Section: ours(t, stopping, permitted, overridden("depth", "inches(4)"))}, "stopped: DEEP: Dig deeper.",
		"what is permitted is not why it is stopped")
	amended := ours(t, plot, limit+"replace:\n  - {rule: WEAK, set: {answer: inches(4.5), because: Thin., source: company}}\n", path())
	require.Equal(t, `amendment "ours" of Ours (A. Keeper, 2026-01-05)`, amended.Crossed[0].By[0], "an amendment is held to it as a person is")
	both := ours(t, plot, limit+"replace:\n  - {rule: WEAK, set: {answer: extra + inches(1), because: Thin., source: company}}\n  - {setting: extra, set: {value: 3 in, because: More., source: company}}\n", path())
	require.Len(t, both.Crossed[0].By, 1, "one that had its hand in twice is named once")
}

// What a person decides is told with what differs by it, from the bottom up.
func TestEffects(t *testing.T) {
	deep := replaced(t, plot, `"weak || use == foot"`, `"depth > inches(8)"`)
	shallow := replaced(t, plot, `"weak || use == foot"`, `"depth < inches(8)"`)
	for _, c := range []struct {
		name, why, text, answer string
		want                    []string
	}{
		{"attribute", "its course, and the dig last", plot, "inches(4)", []string{"Stone thickness: 6 in -> 4 in", " dig: 6 in -> 4 in"}},
		{"nothing", "the rules come to the same", plot, "inches(6)", nil},
		{"laid", "a course that would not be there", deep, "inches(9)", []string{"Stone laid: no -> yes", " dig: 0 in -> 9 in"}},
		{"not laid", "a course that would", shallow, "inches(9)", []string{"Stone laid: yes -> no", " dig: 6 in -> 0 in"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := plotSection(t, c.text, overridden("depth", c.answer))
			require.NoError(t, err)
			require.Len(t, s.Overrides, 1)
			o := s.Overrides[0]
			require.True(t, o.Asked)
			require.Equal(t, "6 in", o.Instead.String())
			var got []string
			for _, e := range o.Effects {
				got = append(got, fmt.Sprintf("%s %s: %s -> %s", e.Course, e.What, e.Without, e.With))
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
	needed := replaced(t, plot, "refusals:\n", "refusals:\n  - {refusal: THIN, when: depth < inches(7), says: Thin., who: An engineer., source: practice}\n")
	dividing := replaced(t, plot, "answer: inches(4) + extra", "answer: inches(4) / (strength - 2.5)")
	for name, without := range map[string]struct {
		text string
		job  *site.Site
	}{"the job is refused": {needed, overridden("depth", "inches(9)")}, "a rule has no answer": {dividing, overridden("strength", "4.0")}} {
		s, err := plotSection(t, without.text, without.job)
		require.NoError(t, err)
		require.NotNil(t, s.Overrides[0].Effects)
		require.Empty(t, s.Overrides[0].Effects, "without it %s, so that there is nothing to set it beside", name)
	}
	standard, err := groundrule.Standard()
	require.NoError(t, err)
	s, err := cameTo(standard, overridden("drain_time_allowed", "hours(48)"))
	require.NoError(t, err)
	require.Empty(t, cmp.Diff([]section.Override{{Decision: "drain_time_allowed", Label: "drain time allowed", Answer: value.Text("hours(48)"), By: "J. Orr", Because: "Thin.", Effects: []section.Effect{}}},
		s.Overrides), "a question that is not asked")
}
