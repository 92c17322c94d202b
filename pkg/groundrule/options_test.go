package groundrule_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// TestOptions holds what comes of the options of a few jobs: each with its status, what
// refuses or stops it, and its depth.
func TestOptions(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for _, c := range []struct {
		name, why, job string
		want           []string
	}{
		{"patio", "the published minimum is less than weak or freezing ground asks for", "use: foot\nbase: dense\nsoil: {word: clay, consistency: stiff}", []string{
			" designed 9-3/8 in", "OPEN-BASE designed 12-3/8 in", "PANEL-BASE refused nothing PANEL-IN-FROST", "NO-GRID designed 9-3/8 in", "WITH-TWO-GRIDS designed 15-3/8 in",
			"MULTIAXIAL-GRID designed 9-3/8 in", "MINIMUM-FOOT stopped 7-3/8 in NEED-NOT-LESS"}},
		{"firm and free of frost", "the minimum may be built where nothing asks for more", "use: foot\nbase: dense\nsoil: {cbr: 12}\nwater: {wet_ground: no}\nfrost: {frost_free: yes}", []string{
			" designed 9-3/8 in", "OPEN-BASE designed 10-3/8 in", "PANEL-BASE designed 4-1/8 in", "NO-GRID designed 7-3/8 in", "WITH-TWO-GRIDS designed 15-3/8 in",
			"MULTIAXIAL-GRID designed 9-3/8 in", "MINIMUM-FOOT designed 7-3/8 in"}},
		{"beyond a table", "an option whose condition a calculation does not reach is not offered, and the others are", "use: foot\nbase: dense\nsoil: {uscs: CL, dcp: {hammer: 8 kg, mm_per_blow: [96]}}", []string{
			" refused", "OPEN-BASE refused", "PANEL-BASE refused"}},
		{"weak driveway", "the grid that the ground calls for cannot be left out", "use: car_driveway\nbase: dense\nsoil: {cbr: 2.5}\nfrost: {frost_free: yes}", []string{
			" designed", "OPEN-BASE designed", "NO-GRID stopped", "WITH-ONE-GRID designed", "MULTIAXIAL-GRID designed", "MINIMUM-DRIVEWAY stopped"}},
		{"outside of the rules", "what refuses the job refuses its options too", "use: truck_yard\nbase: dense", []string{
			" refused nothing HEAVIER-USE", "OPEN-BASE refused nothing HEAVIER-USE"}},
		{"refused for its base", "another base may be what it needs", "use: foot\nbase: panel\nsoil: {cbr: 2.5}\nfrost: {frost_free: yes}", []string{
			" refused nothing PANEL-ON-SOFT-GROUND", "DENSE-BASE designed", "OPEN-BASE designed"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			options, err := book.Options(jobOf(t, c.job), section.Takeoff)
			require.NoError(t, err)
			var got []string
			for i, o := range options {
				if got = append(got, strings.Join(append([]string{o.Option, string(o.Status), o.Depth.Text(quantity.US)}, o.Why...), " ")); i < len(c.want) && !strings.Contains(c.want[i], " in") && !strings.Contains(c.want[i], "nothing") {
					got[i] = o.Option + " " + string(o.Status) // its depth is held elsewhere
				}
				require.Equal(t, o.Status, o.Section.Status)
				require.Equal(t, i > 0, o.Gives.US != "" && o.Lacks.US != "" && o.Because.US != "" && o.Source != "", "each says what it gives and lacks, and why")
			}
			require.Empty(t, cmp.Diff(c.want, got[:min(len(got), len(c.want))]), c.why)
		})
	}
}

func jobOf(t *testing.T, text string) *site.Site {
	t.Helper()
	job, err := site.Read("job.yaml", []byte("area: 400 sq ft\n"+text+"\n"))
	require.NoError(t, err)
	return job
}

// TestOptionDecides holds that what an option decides stands in its section as an
// override does, with who and why, and takes the place of the job's own.
func TestOptionDecides(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	options, err := book.Options(jobOf(t, "use: car_driveway\nbase: dense\nsoil: {cbr: 4.5}\nfrost: {frost_free: yes}\noverrides: [{decision: grid_layers, answer: 1, by: J. Orr, because: One is enough.}]"))
	require.NoError(t, err)
	for _, o := range options {
		if o.Option != "WITH-TWO-GRIDS" {
			continue
		}
		require.Len(t, o.Section.Overrides, 1)
		by := o.Section.Overrides[0]
		require.Equal(t, [2]string{"grid_layers", "WITH-TWO-GRIDS"}, [2]string{by.Decision, by.By})
		require.Equal(t, o.Because.US, by.Because)
		return
	}
	t.Fatal("the job has one grid, and another is not offered")
}

// TestEffectsOfSections holds what differs between two sections, and what makes it.
func TestEffectsOfSections(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	designed := func(job string) *section.Section {
		design, err := book.Design(jobOf(t, job))
		require.NoError(t, err)
		s, err := design.Section(section.Takeoff)
		require.NoError(t, err)
		return s
	}
	const patio = "use: foot\nbase: dense\nfrost: {frost_free: yes}\nwater: {wet_ground: no}\n"
	firm := designed(patio + "soil: {cbr: 12}")
	require.Empty(t, firm.Effects(designed(patio+"soil: {cbr: 12}")), "nothing differs from itself")
	told := map[string]section.Effect{}
	for _, e := range firm.Effects(designed(patio + "soil: {cbr: 2.5}")) {
		told[e.Course+" "+e.What] = e
	}
	for _, c := range []struct{ name, why, effect, without, with, makes string }{
		{"dig", "it is told last, of no course", " dig", "9-3/8 in", "11-3/8 in", ""},
		{"thickness", "what makes it is the rule for the stone, however many decisions pass it on", "Base stone in all", "6 in", "8 in", "grid split by SPLIT-WOVEN in place of SPLIT-NONE; stone need by NEED-OVER-WOVEN in place of NEED-GRID-COVER"},
		{"a value", "a measured value is what makes it", "Prepared subgrade CBR", "12", "2.5", "CBR 2.5 in place of 12"},
	} {
		t.Run(c.name, func(t *testing.T) {
			e, ok := told[c.effect]
			require.True(t, ok, "%s: %v", c.why, told)
			require.Equal(t, [2]string{c.without, c.with}, [2]string{e.Without.Text(quantity.US), e.With.Text(quantity.US)}, c.why)
			var makes []string
			for _, m := range e.Makes {
				if m.RuleWith == "" {
					makes = append(makes, m.What+" "+m.With.Text(quantity.US)+" in place of "+m.Without.Text(quantity.US))
				} else {
					makes = append(makes, m.What+" by "+m.RuleWith+" in place of "+m.RuleWithout)
				}
			}
			require.Equal(t, c.makes, strings.Join(makes, "; "), c.why)
		})
	}
}

// TestOptionsOfTheJob holds that the alternatives that a job names come behind the
// rulebook's, also where a stream or a review passes them by.
func TestOptionsOfTheJob(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	const plain = "use: foot\nbase: dense\nsoil: {cbr: 4}\nfrost: {frost_free: yes}"
	job := jobOf(t, plain+"\nalternatives: [{name: softer, soil: {cbr: 2}}, {name: for trucks, use: truck_yard}]")
	options, err := book.Options(job)
	require.NoError(t, err)
	for i, c := range []struct {
		name   string
		status section.Status
	}{{"softer", section.Designed}, {"for trucks", section.Refused}} {
		o := options[len(options)-2+i]
		require.Equal(t, c.name, o.Option)
		require.Equal(t, c.status, o.Status)
		require.NotEmpty(t, o.Differs)
	}
	design, err := book.Design(job)
	require.NoError(t, err)
	without, err := book.Design(jobOf(t, plain))
	require.NoError(t, err)
	one, err := design.Section()
	require.NoError(t, err)
	other, err := without.Section()
	require.NoError(t, err)
	require.Empty(t, one.Effects(other), "its own section does not know of them")
	require.Empty(t, cmp.Diff(other.Absent, one.Absent), "nor tells that they have no effect")
}

// plotOptions is the small rulebook with an option, and a remedy for a depth that
// rises.
var plotOptions = strings.Replace(plot, "refusals:", `options:
  - {option: FIRM, about: firm ground, gives: "Less stone, {depth} now.", lacks: Nothing., takes: {soil.cbr: 4}, because: Ground firms., source: practice}
  - {option: DEEPER, when: use == foot, about: deep stone, gives: More stone., lacks: Money., leaves_out: the worry, takes: {depth: depth + inches(1)}, because: Stone is good., source: "book, page 2"}
remedies:
  - {remedy: DIG-ON, as: depth rises, says: "Dig on to {depth}.", because: It is deeper., source: practice}
refusals:`, 1)

// TestOptionsOfASmallRulebook holds what is told of each option beside the job as it
// is: what comes of it, what differs, by whom, and what is to be done.
func TestOptionsOfASmallRulebook(t *testing.T) {
	book := plotBook(t, plotOptions)
	type told struct{ Option, Label, Status, Depth, Differs, Effects, Remedies, Says string }
	tell := func(o section.Otherwise) (out told) {
		out = told{Option: o.Option, Label: o.Label, Status: string(o.Status), Depth: o.Depth.Text(quantity.US), Says: strings.Join([]string{o.Gives.US, o.Lacks.US, o.LeavesOut.US, o.Because.US, o.Source}, "|")}
		for _, d := range o.Differs {
			out.Differs += d.US + ";"
		}
		for _, e := range o.Effects {
			out.Effects += e.What + " by " + e.RuleWith + " in place of " + e.RuleWithout + ";"
		}
		for _, r := range o.Remedies {
			out.Remedies += r.ID + " " + r.Says.US + " " + r.Because.US + " " + r.Source
		}
		return out
	}
	asIs := told{Status: "designed", Depth: "6 in", Says: "||||"}
	firm := told{"FIRM", "firm ground", "designed", "4 in", "stone 2 in thinner;", "CBR at least by READ in place of GUESS;thickness by LEAST in place of WEAK;dig by  in place of ;", "",
		"Less stone, 6 in now.|Nothing.||Ground firms.|common practice, no published source"}
	deep := told{"DEEPER", "deep stone", "designed", "7 in", "stone 1 in thicker;", "thickness by DEEPER in place of WEAK;dig by  in place of ;", "DIG-ON Dig on to 7 in. It is deeper. common practice, no published source",
		"More stone.|Money.|the worry|Stone is good.|Invented Book, page 2; from memory, not verified against the document"}
	for _, c := range []struct {
		name, why, text, job string
		want                 []told
	}{
		{"each option", "in the order of the rulebook", plotOptions, "use: foot", []told{asIs, firm, deep}},
		{"of some jobs", "the other is offered to feet alone", plotOptions, "use: car_driveway", []told{
			{Status: "designed", Depth: "9 in", Says: "||||"}, {Option: "FIRM", Label: "firm ground", Status: "designed", Depth: "0 in", Differs: "no stone;", Says: "Less stone, 9 in now.|Nothing.||Ground firms.|common practice, no published source",
				Effects: "CBR at least by READ in place of GUESS;laid by  in place of COURSE-stone;dig by  in place of ;"}}},
		{"what cannot be said", "beside what the job says", strings.Replace(plotOptions, "soil.cbr: 4", "frost.frost_free: true", 1), "use: foot\nfrost: {depth: 30 in}", []told{asIs,
			{Option: "FIRM", Label: "firm ground", Status: "refused", Depth: "nothing", Differs: "frost.frost_free cannot be yes beside a frost depth above 0;", Says: firm.Says}, deep}},
		{"a calculation refuses the job", "no option can be read, but the job's own alternatives can", strings.Replace(plotOptions, "answer: 2.5,", "answer: faulty(2.5),", 1), "use: foot\nalternatives: [{name: measured, soil: {cbr: 2}}]", []told{
			{Status: "refused", Depth: "nothing", Says: "||||"}, {Option: "measured", Status: "designed", Depth: "6 in", Differs: "a section 6 in deep;", Says: "||||"}}},
		{"an alternative that a calculation refuses", "told by which rule", strings.Replace(plotOptions, "answer: inches(9),", "answer: inches(faulty(9)),", 1), "use: foot\nalternatives: [{name: cars, use: car_driveway}]", []told{asIs, firm, deep,
			{Option: "cars", Status: "refused", Depth: "nothing", Differs: "refused: faulty(9): out of range (CARS);", Says: "||||"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			options, err := plotBook(t, c.text).Options(jobOf(t, c.job+"\nbase: dense"))
			require.NoError(t, err)
			var got []told
			for _, o := range options {
				got = append(got, tell(o))
				require.Equal(t, o.Status, o.Section.Status, "each has its section, if of nothing that is built")
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
	options, err := book.Options(jobOf(t, "use: foot\nbase: dense"))
	require.NoError(t, err)
	by := options[2].Section.Overrides[0]
	require.Equal(t, [4]string{"depth", "7 in", "DEEPER", "Stone is good."}, [4]string{by.Decision, by.Answer.String(), by.By, by.Because})
	require.Nil(t, options[2].Section.Quantities)
	bought, err := book.Options(jobOf(t, "use: truck_yard\nbase: dense"), section.Client, section.Crew)
	require.NoError(t, err)
	require.NotNil(t, bought[0].Section.Client, "why it is refused is told the client")
	require.Nil(t, bought[0].Section.Steps, "nobody builds it")
}

// An option may take over a decision of any kind.
func TestOptionsOfEveryKind(t *testing.T) {
	for _, c := range []struct{ kind, is, takes, want string }{
		{"bool", "false", "true", "yes"},
		{"text", "'none'", "'to the \"low\" side'", `to the "low" side`},
		{"number", "1.0", "1234567.25", "1,234,567"},
		{"length", "inches(1)", "inches(1) / 3", "0.3333 in"},
		{"load_case", "foot", "car_driveway", "car driveway"},
		{"share", "percent(1)", "percent(12.5)", "12.5 %"},
		{"temperature", "fahrenheit(32)", "celsius(-5)", "23 F"},
	} {
		t.Run(c.kind, func(t *testing.T) {
			text := replaced(t, plot, "  word:\n", "  extra_of: {asks: What, answers: "+c.kind+", take: first, rules: [{rule: NO, answer: "+strconv.Quote(c.is)+", because: told, source: practice}]}\n  word:\n")
			text = replaced(t, text, "refusals:\n", "options:\n  - {option: TAKEN, about: another, gives: More., lacks: Less., takes: {extra_of: "+strconv.Quote(c.takes)+"}, because: told, source: practice}\nrefusals:\n")
			options, err := plotBook(t, text).Options(path())
			require.NoError(t, err)
			require.Equal(t, section.Designed, options[1].Status)
			require.Equal(t, c.want, options[1].Section.Overrides[0].Answer.Text(quantity.US))
		})
	}
}

// TestOptionsThatFail holds that an option, a remedy or an alternative that cannot be
// told is an error, and no gap in the list.
func TestOptionsThatFail(t *testing.T) {
	for _, c := range []struct{ name, why, old, new, job, want string }{
		{"whether it is offered", "its condition", "when: use == foot, about: deep", "when: 1 / (strength - 2.5) > 0, about: deep", "use: foot", "division by zero"},
		{"whether it is offered where the job is refused", "its condition", "when: use == foot, about: deep", "when: 1 / (strength - 2.5) > 0, about: deep", "use: truck_yard", "division by zero"},
		{"what it takes", "its value", "takes: {depth: depth + inches(1)}", "takes: {depth: depth / (strength - 2.5)}", "use: foot", "division by zero"},
		{"what it gives", "a sentence", "{depth} now.", "{faulty(1)} now.", "use: foot", "out of range"},
		{"why", "a sentence", "because: Ground firms.", "because: 'Ground firms, {faulty(1)}.'", "use: foot", "out of range"},
		{"what comes of it", "a rule that has no answer then", "rule: LEAST, answer: inches(4)", "rule: LEAST, answer: inches(4) * (4 - strength) / (4 - strength)", "use: foot", "division by zero"},
		{"what is to be done", "a sentence of a remedy", "Dig on to {depth}.", "Dig on to {faulty(1)}.", "use: foot", "out of range"},
		{"an alternative", "a rule that has no answer then", "answer: inches(9)", "answer: inches(9) / (strength - 2.5)", "use: foot\nalternatives: [{name: cars, use: car_driveway}]", "division by zero"},
		{"the job as it is", "a sentence of the section", "because: It carries all.", "because: 'It carries {faulty(1)}.'", "use: foot", "out of range"},
	} {
		t.Run(c.name, func(t *testing.T) {
			options, err := plotBook(t, replaced(t, plotOptions, c.old, c.new)).Options(jobOf(t, c.job+"\nbase: dense"))
			require.ErrorContains(t, err, c.want, c.why)
			require.Nil(t, options)
		})
	}
}
