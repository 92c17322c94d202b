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
var notBuiltTo = []string{"all_stone", "all_stone_needed", "height"}

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
