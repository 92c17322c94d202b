package groundrule

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// TestSmall holds which first letters are written small within a line.
func TestSmall(t *testing.T) {
	for _, c := range []struct{ name, why, text, want string }{
		{"a word", "as within any line", "Soft clay", "soft clay"},
		{"small already", "it stays", "soft clay", "soft clay"},
		{"an abbreviation", "the trade writes it in capitals", "CBR of it", "CBR of it"},
		{"a letter and a digit", "a name of a drawing or a stone", "A2 stone", "A2 stone"},
		{"a letter with a period", "of a name", "J. Orr", "J. Orr"},
		{"a period further on", "ends a sentence, and no name", "Soft clay. J. Orr", "soft clay. J. Orr"},
		{"another alphabet", "one letter takes two bytes", "Épais", "épais"},
		{"one letter", "a word too", "A", "a"},
		{"blanks", "there is no word", "  ", "  "},
		{"nothing", "nothing", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, small(c.text), c.why) })
	}
}

// TestStakes holds which of two stakes is the greater: more money, where that is alike
// more mass, and where that is alike too more thickness. A kilogram is nothing that
// anybody weighs, and a millimeter nothing that anybody builds to.
func TestStakes(t *testing.T) {
	const mm = quantity.Length(0.001)
	for _, c := range []struct {
		name, why  string
		one, other stake
		want       int
	}{
		{"nothing", "alike", stake{}, stake{}, 0},
		{"money", "one cent is more, whatever it weighs", stake{money: 1}, stake{mass: 100, by: 1}, 1},
		{"a kilogram", "too little to weigh", stake{mass: 1}, stake{}, 0},
		{"more than a kilogram", "it counts", stake{mass: 1.01}, stake{}, 1},
		{"mass before thickness", "heavier, if thinner", stake{mass: 5}, stake{by: 1}, 1},
		{"a kilogram less", "too little the other way too", stake{mass: -1}, stake{}, 0},
		{"less by more than that", "it counts", stake{mass: -1.01}, stake{by: -1}, -1},
		{"a millimeter", "too little to build", stake{by: mm}, stake{}, 0},
		{"two millimeters", "of alike mass", stake{mass: 0.9, by: 2 * mm}, stake{}, 1},
		{"two millimeters less", "of alike mass", stake{by: -2 * mm}, stake{mass: 0.9}, -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, c.one.compare(c.other), c.why)
			require.Equal(t, -c.want, c.other.compare(c.one), "and the other way around")
		})
	}
}

// TestStakeTold holds which amounts of a stake are told, by their sign.
func TestStakeTold(t *testing.T) {
	dollars := &takeoff.Cost{List: takeoff.PriceList{Currency: "USD"}}
	all := stake{by: quantity.Inches(2), of: "stone", mass: quantity.Mass(1000), money: 24000}
	for _, c := range []struct {
		name, why string
		s         stake
		sign      float64
		want      string
	}{
		{"all", "thickness, mass and money", all, 1, "50.8 mm of stone, 1 t, $240"},
		{"of the other sign", "none of it is saved", all, -1, ""},
		{"saved", "what is below zero", stake{by: -quantity.Inches(2), of: "stone", mass: -1000, money: -24000}, -1, "50.8 mm of stone, 1 t, $240"},
		{"too little", "a millimeter and a kilogram", stake{by: 0.001, of: "stone", mass: 1}, 1, ""},
		{"a little more", "than each", stake{by: 0.0016, of: "stone", mass: 1.2}, 1, "1.6 mm of stone, 1.2 kg"},
		{"money alone", "a cent is money", stake{money: 1}, 1, "$0.01"},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.s.told(c.sign, quantity.SI, dollars), c.why) })
	}
}

// TestWorthWords holds how what an answer may save, add or rule out is put in one
// sentence.
func TestWorthWords(t *testing.T) {
	b, err := Standard()
	require.NoError(t, err)
	inch := stake{by: quantity.Inches(1), of: "stone"}
	less := stake{by: -quantity.Inches(1), of: "stone"}
	for _, c := range []struct {
		name, why         string
		test, part        string
		least, most       stake
		thicker, ruledOut bool
		cost              *takeoff.Cost
		want              string
	}{
		{"saves", "and is never thicker", "A probe", "", less, stake{}, false, false, nil, "A probe may save 1 in of stone; it cannot make it thicker."},
		{"saves, and is thicker", "by something that is not weighed", "A probe", "", less, stake{}, true, false, nil, "A probe may save 1 in of stone."},
		{"adds", "and saves nothing", "A probe", "", stake{}, inch, true, false, nil, "A probe may add 1 in of stone; it cannot save any."},
		{"both", "in one", "A probe", "", less, inch, true, false, nil, "A probe may save 1 in of stone, or add 1 in of stone."},
		{"or rules out", "told last", "A probe", "", less, inch, true, true, nil, "A probe may save 1 in of stone, or add 1 in of stone; an answer may rule this section out."},
		{"rules out alone", "nothing is weighed", "A probe", "", stake{}, stake{}, false, true, nil, "A probe may rule this section out; otherwise it changes no quantity that is weighed."},
		{"neither", "it changes how it is built", "A probe", "", stake{}, stake{}, false, false, nil, "A probe changes how it is built, and no quantity that is weighed."},
		{"no test, in an area", "the answer, and where", "", "walk", stake{}, stake{}, false, false, nil, "The answer on the walk changes how it is built, and no quantity that is weighed."},
		{"all priced", "nothing to say of it", "A probe", "", less, stake{}, true, false, &takeoff.Cost{Complete: true}, "A probe may save 1 in of stone."},
		{"not all priced", "the money is not all", "A probe", "", less, stake{}, true, false, &takeoff.Cost{}, "A probe may save 1 in of stone (money: of what has a price)."},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, worth(b.rules, c.test, c.part, c.least, c.most, c.thicker, c.ruledOut, c.cost).US, c.why)
		})
	}
}

// TestSortQuestions holds the order of questions: whether there is a section, then what
// is at stake, then thickness; and where all is alike, that of the rulebook.
func TestSortQuestions(t *testing.T) {
	q := func(key string, rank int, most quantity.Length, s stake) question {
		return question{Question: section.Question{Key: key}, rank: rank, most: most, stake: s}
	}
	all := []question{
		q("thin", 1, 0.01, stake{}), q("thick", 1, 0.1, stake{}), q("thick too", 1, 0.1, stake{}), q("heavy", 1, 0.02, stake{mass: 500}), q("dear", 1, 0, stake{money: 5}),
		q("out", 0, 0.01, stake{}), q("out, thicker", 0, 0.3, stake{}), q("out, heavier", 0, 0, stake{mass: 2}),
	}
	sortQuestions(all)
	var keys []string
	for _, each := range all {
		keys = append(keys, each.Key)
	}
	require.Equal(t, []string{"out, heavier", "out", "out, thicker", "dear", "heavy", "thick", "thick too", "thin"}, keys)
}

// TestMatters holds that a length matters beyond an amount, and all else always.
func TestMatters(t *testing.T) {
	for _, c := range []struct {
		name, why string
		o         otherwise
		want      bool
	}{
		{"nothing", "alike", otherwise{}, false},
		{"the amount", "no more than that", otherwise{length: 0.5}, false},
		{"more", "than the amount", otherwise{length: 0.51}, true},
		{"no length", "a course that comes, however thin", otherwise{other: true}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, c.o.matters(0.5), c.why)
			q := question{choices: []otherwise{{}, c.o}}
			require.Equal(t, c.want, q.matters(0.5), "of a question any choice")
		})
	}
}

// TestSorted holds the order in which differences are told, each once, and that of
// small ones the first two are told and the rest counted.
func TestSorted(t *testing.T) {
	b, err := Standard()
	require.NoError(t, err)
	details := []detail{
		{"fabric", []string{"overlap"}, section.Plain("fabric: overlap 12 in")}, {"edge", []string{"width", "depth"}, section.Plain("edge: width 4 in")},
		{"joint", []string{"width"}, section.Plain("joint: width 1/8 in")}, {"drain", []string{"side"}, section.Plain("drain: side low")},
	}
	for n, want := range []string{"", "fabric: overlap 12 in", "fabric: overlap 12 in; edge: other width, depth", "fabric: overlap 12 in; edge: other width, depth; details of 1 more course",
		"fabric: overlap 12 in; edge: other width, depth; details of 2 more courses"} {
		d := &differing{teller: &teller{b: b}, details: details[:n]}
		require.Equal(t, want, said(d.sorted()), "%d small differences", n)
	}
	d := &differing{teller: &teller{b: b}, details: details[:1]}
	for _, each := range []struct {
		rank int
		size quantity.Length
		what string
	}{{byMaterial, 0, "sand"}, {byPresence, 0, "fabric"}, {byThickness, 0.1, "stone"}, {byThickness, 0.2, "bedding"}, {byPresence, 0, "grid"}, {byMaterial, 0, "sand"}, {byPresence, 0, "grid"}} {
		d.add(each.rank, each.size, "differs_none", "what", each.what)
	}
	require.Equal(t, "no bedding; no stone; no fabric; no grid; no sand; fabric: overlap 12 in", said(d.sorted()))
}

func said(sentences []section.Sentence) string {
	var out []string
	for _, s := range sentences {
		out = append(out, s.US)
	}
	return strings.Join(out, "; ")
}

// TestComment holds how remarks of a job file are broken: at 80 letters, and what goes
// on is set in.
func TestComment(t *testing.T) {
	of := func(n int) string { return strings.Repeat("x", n) }
	for _, c := range []struct{ name, why, indent, text, want string }{
		{"short", "on one line", "", "one  two", "# one two\n"},
		{"indented", "under its key", "  ", "one", "  # one\n"},
		{"80 letters", "the last that fit", "", of(40) + " " + of(37), "# " + of(40) + " " + of(37) + "\n"},
		{"81 letters", "one too many", "", of(40) + " " + of(38), "# " + of(40) + "\n#   " + of(38) + "\n"},
		{"a long word", "no line without a word before it", "  ", of(100), "  # " + of(100) + "\n"},
		{"a long word behind another", "on a line of its own", "", "one " + of(100) + " two", "# one\n#   " + of(100) + "\n#   two\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := &beginner{}
			w.comment(c.indent, c.text)
			require.Equal(t, c.want, w.out.String(), c.why)
		})
	}
}

// TestBeginner holds how a key of a job file is written: how it is asked for, which
// words may stand there, and an example.
func TestBeginner(t *testing.T) {
	words := func(words ...value.WordEntry) value.Vocabulary { return value.Vocabulary{Words: words} }
	color := words(value.WordEntry{Go: "red", About: "like brick"}, value.WordEntry{Go: "gray"}, value.WordEntry{Go: "tan"})
	for _, c := range []struct {
		name, why string
		field     site.Field
		asked     rulebook.Question
		want      string
	}{
		{"not asked", "its label and what it is", site.Field{Path: "depth", Label: "Depth", About: "how deep", Example: "6 in"}, rulebook.Question{}, "\n# Depth: how deep\n# depth: 6 in\n"},
		{"needed", "no # before it", site.Field{Path: "depth", Label: "Depth", About: "how deep", Example: "6 in", Required: true}, rulebook.Question{}, "\n# Depth: how deep\ndepth: 6 in\n"},
		{"asked", "as people are asked, and how they find it out", site.Field{Path: "depth", Example: "6 in"}, rulebook.Question{Asks: "How deep?", How: rulebook.Text{Text: "Dig."}}, "\n# How deep? Dig.\n# depth: 6 in\n"},
		{"asked by values", "there is no job that has them", site.Field{Path: "depth", Example: "6 in"}, rulebook.Question{Asks: "How deep?", How: rulebook.Text{Text: "Dig {depth}."}}, "\n# How deep?\n# depth: 6 in\n"},
		{"words", "each that says what it is, and the others in one line", site.Field{Path: "depth", Label: "Color", About: "of it", Vocabulary: color, Example: "gray"}, rulebook.Question{},
			"\n# Color: of it\n# - red: like brick\n# One of: gray, tan\n# depth: gray\n"},
		{"an example that is no word", "the first word in its place", site.Field{Path: "depth", Label: "Color", About: "of it", Vocabulary: color, Example: "blue"}, rulebook.Question{},
			"\n# Color: of it\n# - red: like brick\n# One of: gray, tan\n# depth: red\n"},
		{"a list", "an item of all keys", site.Field{Path: "depth", Label: "Color", About: "of it", Form: site.ListForm}, rulebook.Question{}, "\n# Color: of it\n# depth: [{a: 1, b: 2}]\n"},
		{"a list with an example", "as it stands", site.Field{Path: "depth", Label: "Color", About: "of it", Form: site.ListForm, Example: "[5]"}, rulebook.Question{}, "\n# Color: of it\n# depth: [5]\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := &beginner{fields: []site.Field{c.field, {Path: "depth[].a", Example: "1"}, {Path: "depth[].b", Example: "2"}}}
			if c.asked.Asks != "" {
				c.asked.Key = "depth"
				w.questions = []rulebook.Question{c.asked}
			}
			w.keys("", func(site.Field) bool { return true })
			require.Equal(t, c.want, w.out.String(), c.why)
		})
	}
}

// TestBeginnerOrder holds that what people are asked comes first, in the order of the
// questions, a group with the first of its keys; overrides are for those who know a
// decision.
func TestBeginnerOrder(t *testing.T) {
	w := &beginner{questions: []rulebook.Question{{Key: "soil.word", Asks: "Q: a"}, {Key: "water", Asks: "Q: a"}, {Key: "soil.cbr", Asks: "Q: a"}}}
	for _, path := range []string{"overrides", "area", "soils", "water", "soil", "soil.depth", "soil.cbr", "soil.word"} {
		f := site.Field{Path: path, Example: "1", Label: "L", About: "a"}
		if path == "soil" {
			f.Form = site.GroupForm
		}
		w.fields = append(w.fields, f)
	}
	w.keys("", func(site.Field) bool { return true })
	var keys []string
	for _, line := range strings.Split(w.out.String(), "\n") {
		if line != "" && !strings.Contains(line, ": a") { // what it is stands over each
			keys = append(keys, line)
		}
	}
	require.Equal(t, []string{"soil:", "  # word: 1", "  # cbr: 1", "  # depth: 1", "# water: 1", "# area: 1", "# soils: 1"}, keys)
}

// TestWritten holds how values are written as expressions, and how a job file has
// them.
func TestWritten(t *testing.T) {
	word := value.OfWord(&value.Word{Vocabulary: "base_type", Name: "dense", Label: "dense-graded"})
	for _, c := range []struct {
		name, why, want, inJob string
		v                      value.Value
	}{
		{"a length", "in meters, to the last bit", "m(0.0762)", "3 in", value.Measured(quantity.Inches(3))},
		{"a share", "in percent, as its builder has it", "percent(12)", "12 %", value.Measured(quantity.Percent(12))},
		{"a share of a whole percent", "no figure comes of the percent", "percent(7)", "7 %", value.Measured(quantity.Percent(7))},
		{"a temperature", "on the scale of its unit", "celsius(-5)", "23 F", value.Measured(quantity.Celsius(-5))},
		{"a number", "bare", "2.5", "2.5", value.Number(2.5)},
		{"a word", "by its name, not as it is shown", "dense", "dense", word},
		{"a large number", "without what parts its thousands", "1234567.25", "1234567.25", value.Number(1234567.25)},
		{"a length that is shown rounded", "not rounded for a job", "m(0.0762001)", "0.0762001 m", value.Measured(quantity.Meters(0.0762001))},
		{"yes", "as a rule writes it, and as a job does", "true", "yes", value.Bool(true)},
		{"a text", "in quotes", `"to the \"low\" side"`, `to the "low" side`, value.Text(`to the "low" side`)},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, written(c.v), c.why)
			require.Equal(t, [][2]string{{"it", c.inJob}}, inJob([]rulebook.NamedValue{{Name: "it", Value: c.v}}), c.why)
		})
	}
}

// TestNewIn holds what is in a list and was not before.
func TestNewIn(t *testing.T) {
	name := func(s string) string { return strings.ToLower(s) }
	list := []string{"a", "B", "c", "B"}
	require.Equal(t, []string{"a", "c"}, newIn(list, []string{"b", "d"}, name))
	require.Equal(t, []string{"a", "B", "c", "B"}, list, "what was given is as it was")
	require.Equal(t, 3, count([]int{1, 2, 3, 4, 5}, func(n int) bool { return n > 2 }))
}

// TestSound spoils a section that is to be built, and wants each fault found that no
// rule and no limit can see.
func TestSound(t *testing.T) {
	b, err := Standard()
	require.NoError(t, err)
	job, err := b.one(&site.Site{Area: quantity.SquareFeet(100), Use: "foot", Base: "open", Soil: site.Subgrade{Word: "clay"}})
	require.NoError(t, err)
	made := func() *teller {
		ran := inside.Run(b.rules, job)
		require.Equal(t, section.Designed, ran.Status)
		made, err := begin(b, job, ran.Outcome)
		require.NoError(t, err)
		made.reasons()
		made.courses()
		require.NoError(t, made.err)
		return made
	}
	course := func(made *teller, name string) *section.Course {
		for i := range made.s.Courses {
			if made.s.Courses[i].Name == name {
				return &made.s.Courses[i]
			}
		}
		t.Fatal(name)
		return nil
	}
	measured := func(inches float64) value.Value { return value.Measured(quantity.Inches(inches)) }
	for _, c := range []struct {
		name, why string
		spoil     func(made *teller)
		want      string
	}{
		{"as it is made", "nothing is wrong with it, a pipe beside the others among it", func(made *teller) {
			require.False(t, course(made, "drain").Attribute(inside.Level).Value.IsZero())
		}, ""},
		{"begins lower", "there is a gap over it", func(made *teller) { c := course(made, "pavers"); c.Top = measured(1) }, "the course pavers lies from 1 in to "},
		{"ends lower", "than it is thick", func(made *teller) { c := course(made, "pavers"); c.Bottom = measured(40) }, "the course pavers lies from 0 in to 40 in"},
		{"thinner than nothing", "it ends where it begins by its thickness, and is none", func(made *teller) {
			c := course(made, "pavers")
			for i := range c.Attributes {
				if c.Attributes[i].Name == inside.Thickness {
					c.Attributes[i].Value = measured(-1)
				}
			}
			c.Bottom = measured(-1)
		}, "the course pavers lies from 0 in to -1 in"},
		{"above the ground", "a pipe in the air", func(made *teller) { c := course(made, "drain"); c.Top, c.Bottom = measured(-1), measured(-1) }, "the course drain lies from -1 in to -1 in"},
		{"deeper than it says", "the dig is read off another decision", func(made *teller) { made.s.Depth = measured(40) }, "and the courses go 40 in deep"},
		{"beyond a limit", "that nobody permits", func(made *teller) {
			for _, d := range made.o.Decided {
				if d.Decision.Name == "bedding_thickness" {
					d.Answer = measured(20)
				}
			}
		}, "bedding_thickness is 20 in, beyond limit "},
	} {
		t.Run(c.name, func(t *testing.T) {
			made := made()
			c.spoil(made)
			err := made.sound()
			if c.want == "" {
				require.NoError(t, err, c.why)
				return
			}
			require.ErrorIs(t, err, ErrUnsound, c.why)
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
}
