package groundrule_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// TestWorkOfTheCrew holds over generated jobs that every course of every section
// has its steps, in an order in which each can be done, and that a crew reads what
// the section says. GROUNDRULE_MANY=1 tries 1,000.
func TestWorkOfTheCrew(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	var all []*site.Site
	for job := range jobs.Generate(book.Table(), many(1000, 40), 77) {
		all = append(all, job)
	}
	faults := make([][]string, len(all))
	worked, told := make([]bool, len(all)), make([]int, len(all))
	inParallel(4, len(all), func(i int) {
		d, err := book.Design(all[i])
		if err != nil {
			return // refused or stopped: nothing is built
		}
		s, err := d.Section(section.Crew)
		if err != nil {
			faults[i] = []string{err.Error()}
			return
		}
		worked[i] = true
		for _, w := range s.Stops {
			if w.Then != nil {
				told[i]++
			}
		}
		faults[i] = slices.Concat(accountedFor(s), done(s), quotes(s), stopsAgree(book, all[i], s))
	})
	for i, found := range faults {
		require.Empty(t, found, asFile(all[i]))
	}
	built, stops := 0, 0
	for i := range all {
		if worked[i] {
			built, stops = built+1, stops+told[i]
		}
	}
	require.Greater(t, built, len(all)/3, "most jobs are built")
	require.Greater(t, stops, 4*built, "of most stops it is told what comes of them")
	t.Logf("%d of %d jobs are built; of %d stops it is told what comes of them", built, len(all), stops)
}

// accountedFor lists what of the work has no reason, no source or no place.
func accountedFor(s *section.Section) (faults []string) {
	for _, w := range slices.Concat(s.Steps, s.Tolerances, s.Stops) {
		source := s.Source(w.Source)
		if w.Because.US == "" || source.Name == "" || source.Text == "" || w.Place.File == "" {
			faults = append(faults, w.ID+" has no because, source or place")
		}
	}
	return faults
}

// sequence is the work of one section, by what is done in each step.
type sequence struct {
	s      *section.Section
	faults []string
}

// first and last return the place of the steps of which something is true, -1 if
// there is none.
func (o *sequence) first(is func(section.Work) bool) int { return slices.IndexFunc(o.s.Steps, is) }

func (o *sequence) last(is func(section.Work) bool) int {
	for i := len(o.s.Steps) - 1; i >= 0; i-- {
		if is(o.s.Steps[i]) {
			return i
		}
	}
	return -1
}

// before adds a fault unless both are there and one comes before the other.
func (o *sequence) before(what string, a, b int) {
	if a < 0 || b < 0 || a >= b {
		o.faults = append(o.faults, fmt.Sprintf("%s: steps %d and %d", what, a+1, b+1))
	}
}

func of(course string) func(section.Work) bool {
	return func(w section.Work) bool { return slices.Contains(w.Courses, course) }
}

func says(parts ...string) func(section.Work) bool {
	return func(w section.Work) bool {
		return !slices.ContainsFunc(parts, func(part string) bool { return !strings.Contains(w.Says.US, part) })
	}
}

func sizes(parts ...string) func(section.Work) bool {
	return func(w section.Work) bool { return says(parts...)(section.Work{Says: w.Sizes}) }
}

// done lists what is not done, or done in an order in which it cannot be. What must
// come before what follows from the courses: how deep each lies, and of what kind it
// is.
func done(s *section.Section) []string {
	o := &sequence{s: s}
	dig := o.first(sizes("Dig "+s.Depth.Text(quantity.US), "below finish grade"))
	placed := func(c section.Course) int { return o.first(of(c.Name)) }
	for i, c := range s.Courses {
		switch c.Is {
		case "level_course":
			o.before("levels are set out before the dig", placed(c), dig)
			continue // nothing is laid
		case "meeting_course":
			continue // nor is anything of its own
		}
		o.before("dug before "+c.Name, dig, placed(c))
		for _, under := range s.Courses[:i] {
			if !slices.Contains([]string{"edge_course", "level_course", "meeting_course"}, under.Is) && c.Is != "edge_course" {
				o.before(under.Name+" before "+c.Name+" over it", placed(under), placed(c))
			}
		}
	}
	o.before("lines are marked before the dig", o.first(says("buried lines marked")), dig)
	pavers, joint, edge := placed(s.Course("pavers")), placed(s.Course("joint")), placed(s.Course("edge"))
	under := func(is string) int { // where the uppermost course of a kind is placed
		at := -1
		for _, c := range s.Courses {
			if c.Is == is {
				at = max(at, placed(c))
			}
		}
		return at
	}
	stone, bedding, panels := under("stone_course"), under("bedding_course"), under("panel_course")
	vibrated := func(w section.Work) bool {
		return strings.Contains(strings.ToLower(w.Says.US), "run the plate") || strings.Contains(w.Says.US, "run a plate")
	}
	if held := s.Course("edge").Attribute("material").Value.Text(quantity.US); strings.Contains(held, "toe") {
		o.before("an edge against the pavers after they are laid", pavers, edge)
		o.before("an edge against the pavers before the joints are filled", edge, joint)
	} else {
		o.before("an edge on the base after the base", stone, edge)
		o.before("an edge on the base before the bedding", edge, bedding)
	}
	if s.Course("headers").Name != "" {
		o.before("headers before the bedding", placed(s.Course("headers")), bedding)
	}
	if bedding >= 0 {
		o.before("the base before the bedding", stone, bedding)
		o.before("nothing is vibrated before the pavers are laid", pavers, o.first(vibrated))
		o.before("the joints are filled before the last compaction", joint, o.last(vibrated))
		if !strings.Contains(s.Course("joint").Attribute("filling").Value.Text(quantity.US), "stone") {
			o.before("the pavers are set before their joints are filled", o.first(vibrated), joint)
		}
	} else {
		o.before("panels before the pavers", panels, pavers)
		if o.first(vibrated) >= 0 {
			o.faults = append(o.faults, "foam is vibrated")
		}
	}
	cut := o.first(says("Cut the edge pavers"))
	o.before("pavers are cut after some are laid", pavers, cut)
	o.before("cut before the joints are filled", cut, joint)
	o.before("the surface is cleaned last but for a look", max(joint, o.last(vibrated)), o.first(says("Sweep everything off")))
	o.before("a look after rain comes last", o.first(says("Sweep everything off")), o.first(says("after the first heavy rain")))
	if holds := len(slices.DeleteFunc(slices.Clone(s.Steps), func(w section.Work) bool { return w.Hold.US == "" })); holds < 5 {
		o.faults = append(o.faults, fmt.Sprintf("%d hold points", holds))
	}
	return o.faults
}

// quotes lists what the steps of a course do not say of it, and which of its
// lengths no step says, so that a crew reads each number that it needs, and never
// another than the section has.
func quotes(s *section.Section) (faults []string) {
	for _, c := range s.Courses {
		for _, name := range []string{"material", "thickness", "compaction", "lifts", "lift_most", "overlap", "spacing_at_most", "trench_depth", "trench_width", "pipe", "preparation", "filling", "laying"} {
			a := c.Attribute(name)
			if x, is := a.Value.Length(); a.Value.IsZero() || is && x == 0 {
				continue
			}
			of := slices.DeleteFunc(slices.Clone(s.Steps), func(w section.Work) bool { return !slices.Contains(w.Courses, c.Name) })
			if !slices.ContainsFunc(of, func(w section.Work) bool {
				return strings.Contains(strings.ToLower(w.Says.US+" "+w.Sizes.US+" "+w.Hold.US), strings.ToLower(a.Value.Brief(quantity.US)))
			}) {
				faults = append(faults, fmt.Sprintf("no step of %s says its %s, %s", c.Name, name, a.Value.Brief(quantity.US)))
			}
		}
		for _, a := range c.Attributes {
			if x, is := a.Value.Length(); is && x > 0 && !slices.Contains(notBuiltTo, a.Name) && !slices.ContainsFunc(slices.Concat(s.Steps, s.Tolerances), func(w section.Work) bool {
				return strings.Contains(w.Says.US+" "+w.Sizes.US, a.Value.Brief(quantity.US))
			}) {
				faults = append(faults, fmt.Sprintf("no step says the %s of %s, %s", a.Name, c.Name, a.Value.Brief(quantity.US)))
			}
		}
	}
	return faults
}

// notBuiltTo are lengths of courses that follow from others, which are said.
var notBuiltTo = []string{"stone_in_all", "stone_needed", "height"}

// stopsAgree lists the stops that tell something else than designing the job with
// what was found.
func stopsAgree(book *groundrule.Book, job *site.Site, s *section.Section) (faults []string) {
	for _, w := range s.Stops {
		if w.Then == nil {
			continue
		}
		data, err := site.Write(job)
		if err != nil {
			return []string{err.Error()}
		}
		other, err := site.Read("job.yaml", data)
		if err != nil {
			return []string{err.Error()}
		}
		for _, v := range w.Found {
			text := v.Value.Text(quantity.US)
			if yes, is := v.Value.Bool(); is {
				text = map[bool]string{true: "yes", false: "no"}[yes]
			}
			if err := other.Set(v.Name, text); err != nil {
				return []string{err.Error()}
			}
		}
		d, err := book.Design(other)
		status, ids := section.Designed, []string{}
		var refused *groundrule.Refused
		if errors.As(err, &refused) {
			status = refused.Section.Status
			for _, r := range refused.Section.Refusals {
				ids = append(ids, r.ID)
			}
		} else if err != nil {
			faults = append(faults, w.ID+": "+err.Error())
		} else {
			ids = added(d, s)
		}
		if status != w.Then.Status {
			faults = append(faults, fmt.Sprintf("%s tells %s, and the job would be %s", w.ID, w.Then.Status, status))
		}
		told := ""
		for _, d := range w.Then.Differs {
			told += d.US + "; "
		}
		for _, id := range ids {
			if !strings.Contains(told, "("+id+")") {
				faults = append(faults, w.ID+" does not tell of "+id)
			}
		}
		if n := strings.Count(told, "caution: "); status == section.Designed && n != len(ids) {
			faults = append(faults, fmt.Sprintf("%s tells of other cautions than %v", w.ID, ids))
		}
	}
	return faults
}

// added lists the cautions of a section that another does not have.
func added(d *groundrule.Design, than *section.Section) (ids []string) {
	s, err := d.Section(section.Crew)
	if err != nil {
		return []string{err.Error()}
	}
	for _, c := range s.Cautions {
		if !slices.ContainsFunc(than.Cautions, func(o section.Caution) bool { return o.ID == c.ID }) {
			ids = append(ids, c.ID)
		}
	}
	return ids
}

// TestACompanyChangesTheWork adds, changes, moves and retires work of the standard,
// and looks for it where the crew does and where anyone asks why.
func TestACompanyChangesTheWork(t *testing.T) {
	const ours = `amendment: crew
company: Our Paving
who: A. Keeper, standards
when: 2026-03-01
why: How our crews work.
add:
  - {step: OUR-PHOTO, after: STONE-TOP, course: stone_top, says: "Photograph the base, {stone_top_thickness} of it, with a tape in the picture.", because: Clients ask., source: company}
  - {stop: OUR-BONES, finds: Bones or old pottery., does: Touch nothing., calls: The county., because: The law here., source: company}
replace:
  - {setting: lippage_most, set: {value: 1/16 in, because: Our clients sit on it., source: company}}
  - {step: PROBE, set: {says: Walk the bottom in steel-toed boots., source: company}, because: We broke two rods.}
move:
  - {step: MARK-LINES, before: SET-OUT, because: We call first.}
retire:
  - {step: LOOK-AFTER-RAIN, because: The office does that.}
`
	day, err := rulebook.ParseDate("2026-06-01")
	require.NoError(t, err)
	book, err := groundrule.OpenStandard(groundrule.AsOf(day), groundrule.WithAmendments(rulebook.Layer{FS: fstest.MapFS{"crew.yaml": {Data: []byte(ours)}}}))
	require.NoError(t, err)
	job, err := site.Read("job.yaml", []byte("{use: foot, base: dense, area: 420 sq ft, soil: {uscs: CL, cbr: [7, 8]}, water: {wet_ground: no}, frost: {frost_free: yes}}"))
	require.NoError(t, err)
	d, err := book.Design(job)
	require.NoError(t, err)
	s, err := d.Section(section.Crew)
	require.NoError(t, err)
	at := func(id string) int { return slices.IndexFunc(s.Steps, func(w section.Work) bool { return w.ID == id }) }
	require.Equal(t, at("STONE-TOP")+1, at("OUR-PHOTO"), "it follows the step that it was put behind")
	require.Equal(t, at("SET-OUT")-1, at("MARK-LINES"), "it was moved")
	require.Negative(t, at("LOOK-AFTER-RAIN"))
	var b strings.Builder
	areas, err := book.Areas(job, sheet.Sheet{Of: "crew"}.Forms()...)
	require.NoError(t, err)
	require.NoError(t, sheet.Sheet{Of: "crew", Lines: book.Lines()}.Write(&b, areas))
	text := strings.Join(strings.Fields(b.String()), " ")
	for _, want := range []string{
		"By the rulebook as amended by Our Paving.",
		"Taken away by Our Paving, and would apply here: Look again after the first heavy rain",
		"The office does that.",
		"Photograph the base, 6 in of it, with a tape in the picture.",
		"Walk the bottom in steel-toed boots.",
		"No more than 1/16 in over",
		"Bones or old pottery. Touch nothing. The county.",
	} {
		require.Contains(t, text, want)
	}
	var why strings.Builder
	require.NoError(t, sheet.Sheet{System: quantity.US, Lines: book.Lines()}.Why(&why, s, "PROBE"))
	require.Contains(t, strings.Join(strings.Fields(why.String()), " "), "company standard of Our Paving")
}

// plotWork is the small rulebook with work of each sort.
var plotWork = strings.NewReplacer("course_kind:", "quantity_kind: {about: quantities, words: {material: material, hauled: what is hauled}, because: told, source: practice}\n  course_kind:",
	"\nchecks:", `
steps:
  - {step: WALK, says: "Walk it.", because: One looks first., source: practice}
  - {step: PLACE, course: stone, says: "Place {depth}.", sizes: "{depth} thick", hold: Look at it., because: "It is {depth}.", source: "book, page 2"}
tolerances:
  - {tolerance: EVEN, course: stone, says: Within an inch., measure: With a tape., because: People trip., source: practice}
stops:
  - {stop: SOFTER, finds: Softer ground., does: Stop., calls: The foreman., found: {soil.cbr: 2}, because: It sinks., source: practice}
  - {stop: FIRMER, finds: Firm ground., does: Go on., calls: Nobody., found: {soil.cbr: 4}, because: It holds., source: practice}
  - {stop: FROST, finds: No frost., does: Go on., calls: Nobody., found: {frost.frost_free: "true"}, because: It is warm., source: practice}
  - {stop: BONES, finds: Bones., does: Stop., calls: The county., because: The law., source: practice}
quantities:
  - {quantity: GRAVEL, about: stone, kind: material, course: stone, item: "'gravel'", amount: area * depth, step: cu_yd(1), counted_in: scoop, weighs: pcf(150), because: told, source: practice}
  - {quantity: SOIL, when: weak, about: soil, kind: hauled, amount: area * depth, because: told, source: practice}
checks:`).Replace(plot)

// TestWorkOfASmallRulebook holds what is told of each sort of work, in which forms, and
// what would come of what a crew finds.
func TestWorkOfASmallRulebook(t *testing.T) {
	book := plotBook(t, plotWork)
	made := func(job *site.Site, forms ...section.Form) *section.Section {
		design, err := book.Design(job)
		require.NoError(t, err)
		s, err := design.Section(forms...)
		require.NoError(t, err)
		return s
	}
	s := made(path(), section.Crew)
	require.Nil(t, s.Quantities, "nobody asked what to buy")
	require.Nil(t, s.Client)
	require.Equal(t, "foot", s.Job.Use)
	require.Equal(t, []string{"WALK", "PLACE"}, []string{s.Steps[0].ID, s.Steps[1].ID})
	require.Empty(t, s.Steps[0].Courses)
	place := s.Steps[1]
	require.Equal(t, []string{"stone"}, place.Courses)
	require.Equal(t, [5]string{"Place 6 in.", "6 in thick", "Look at it.", "It is 6 in.", "book, page 2"}, [5]string{place.Says.US, place.Sizes.US, place.Hold.US, place.Because.US, place.Source})
	require.Equal(t, [2]string{"Within an inch.", "With a tape."}, [2]string{s.Tolerances[0].Says.US, s.Tolerances[0].Measure.US})
	why := s.Reason("step.PLACE")
	require.Equal(t, [2]string{"PLACE", "It is 6 in."}, [2]string{why.Taken[0].ID, why.Taken[0].Because.US})
	require.True(t, why.Answer.Equal(value.Bool(true)))
	require.Equal(t, "depth", why.Taken[0].Used[0].Name, "what its sentences quote")

	frosty := path()
	frosty.Frost.Depth = new(quantity.Inches(30))
	for _, c := range []struct {
		name, why, stop string
		job             *site.Site
		found           string
		want            string // "" where nothing is told
	}{
		{"weaker", "it is assumed weak already", "SOFTER", path(), "soil.cbr 2", "designed"},
		{"firmer", "less stone does", "FIRMER", path(), "soil.cbr 4", "designed stone 2 in thinner"},
		{"not said of the job", "it comes to the same", "FROST", path(), "frost.frost_free yes", "designed"},
		{"not true beside the job", "nothing would come of it", "FROST", frosty, "frost.frost_free yes", ""},
		{"nothing that a job says", "bones are no part of it", "BONES", path(), "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, stop := range made(c.job, section.Crew).Stops {
				if stop.ID != c.stop {
					continue
				}
				var found []string
				for _, v := range stop.Found {
					found = append(found, v.Name+" "+v.Value.Text(quantity.US))
				}
				require.Equal(t, c.found, strings.Join(found, ", "), c.why)
				if c.want == "" {
					require.Nil(t, stop.Then, c.why)
					return
				}
				told := string(stop.Then.Status)
				for _, d := range stop.Then.Differs {
					told += " " + d.US
				}
				require.Equal(t, c.want, told, c.why)
				return
			}
			t.Fatal("no such stop")
		})
	}

	bought := made(path(), section.Takeoff)
	require.Nil(t, bought.Steps)
	require.Len(t, bought.Quantities, 2)
	gravel, soil := bought.Quantities[0], bought.Quantities[1]
	require.Equal(t, "1.852 cu yd", gravel.Amount.Text(quantity.US), "100 sq ft of 6 in are 50 cu ft, and a cubic yard has 27")
	require.True(t, bought.Reason("quantity.GRAVEL").Answer.Equal(gravel.Amount), "its reason answers how much")
	require.Equal(t, []string{"scoop", "scoop"}, gravel.Counted, "no sheet has a word for it")
	require.Empty(t, gravel.KindLabel, "it is called as it is named")
	require.Equal(t, "what is hauled", soil.KindLabel)
	require.Nil(t, soil.Counted, "it is not counted")
}

// TestWorkThatFails holds that work that cannot be told is an error, and no gap in the
// list.
func TestWorkThatFails(t *testing.T) {
	for _, c := range []struct{ name, why, old, new string }{
		{"a step", "a sentence", "Place {depth}.", "Place {inches(1) / (strength - 2.5)}."},
		{"what is found", "a value", "found: {soil.cbr: 4}", "found: {soil.cbr: 4 / (strength - 2.5)}"},
		{"what comes of it", "a rule has no answer then", "rule: LEAST, answer: inches(4)", "rule: LEAST, answer: inches(4) * (4 - strength) / (4 - strength)"},
		{"how much it is", "an amount", "step: cu_yd(1)", "step: cu_yd(1) / (strength - 2.5)"},
		{"about a quantity", "a sentence", "about: stone, kind", "about: 'stone {1 / (strength - 2.5)}', kind"},
	} {
		t.Run(c.name, func(t *testing.T) {
			design, err := plotBook(t, replaced(t, plotWork, c.old, c.new)).Design(path())
			require.NoError(t, err)
			s, err := design.Section(section.Crew, section.Takeoff)
			require.ErrorContains(t, err, "division by zero", c.why)
			require.Nil(t, s)
		})
	}
}
