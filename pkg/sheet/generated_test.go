package sheet

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// TestGenerated holds of every sheet of made-up jobs that no heading is empty, no hole
// is left, no zero means nothing, no sentence stands twice in a part, and each has its
// end. GROUNDRULE_MANY=1 tries 320 jobs.
func TestGenerated(t *testing.T) {
	many := 6
	if os.Getenv("GROUNDRULE_MANY") != "" {
		many = 320
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	var forms []section.Form
	for name := range sheets {
		forms = append(forms, Sheet{Of: name}.Forms()...)
	}
	said := 0
	for job := range jobs.Generate(book.Table(), many, 13) {
		areas, err := book.Areas(job, forms...)
		require.NoError(t, err)
		for name := range sheets {
			s := Sheet{Of: name, System: quantity.US, Lines: book.Lines(), Drawn: book.Drawn()}
			whole, err := s.tree(areas)
			require.NoError(t, err)
			said += reads(t, name+" of "+job.Job, name == "audit" || name == "full", whole)
			var b strings.Builder
			require.NoError(t, paper.WriteText(&b, whole, 0))
			for _, line := range strings.Split(b.String(), "\n") {
				if utf8.RuneCountInString(line) > 80 && strings.Contains(strings.TrimLeft(line, " -!"), " ") {
					t.Errorf("%s of %s: a line of %d columns: %s", name, job.Job, utf8.RuneCountInString(line), line)
				}
			}
		}
	}
	require.Greater(t, said, 100*many, "too little was read")
}

var (
	leftHole = regexp.MustCompile(`\{[a-z_]+\}`)
	// A zero of something that there is none of. Areas that meet at one depth, strips
	// that butt and ground that is level are told in words.
	zero = regexp.MustCompile(`(^|[ (])(0 (in|ft|mm|m|sq ft|sq yd|cu yd|cu ft|tons?|lb|rolls?|pieces?|bags?|h|hours?)|\$0(\.00)?)($|[ .,;)])`)
	// A sentence ends with the rule that says so, or with a place to write.
	about = regexp.MustCompile(`; [0-9,]+ sq ft(; [a-z ]+)?$`) // whose a sheet is
	ends  = regexp.MustCompile(`([.?!:][)"'”]?|\([A-Z0-9-]+\)|_)$`)
)

// reads reads a block as a person does, and returns how many texts it has. The sheets
// that tell every rule say the same of several, and quote values of which some are zero.
func reads(t *testing.T, of string, every bool, part *paper.Block) int {
	texts, seen := 0, map[string]bool{}
	var read func(b *paper.Block, boxed bool)
	read = func(b *paper.Block, boxed bool) {
		boxed = boxed || b.Is == paper.IsBox
		if b.Is == paper.IsPart && b != part {
			if b.Says() {
				texts += reads(t, of, every, b)
			}
			return
		}
		if b.Is == paper.IsPart && strings.TrimSpace(b.Text) == "" {
			t.Errorf("%s: an empty heading", of)
		}
		for _, text := range append([]string{b.Text, b.Lead}, slices.Concat(append(slices.Clone(b.Rows), b.Head)...)...) {
			texts++
			switch {
			case leftHole.MatchString(text):
				t.Errorf("%s: a hole is left: %s", of, text)
			case strings.Contains(text, "  ") || strings.TrimSpace(text) != text:
				t.Errorf("%s: blanks: %q", of, text)
			case !every && zero.MatchString(text) && (b.Is != paper.IsRows || text == b.Text): // a depth of zero in a table is finish grade, or the bottom
				t.Errorf("%s: a zero that means nothing: %s", of, text)
			}
		}
		switch b.Is {
		case paper.IsText, paper.IsWarn, paper.IsItem, paper.IsBox:
			if !every && !about.MatchString(b.Text) && b.To == "" && !ends.MatchString(b.Text) {
				t.Errorf("%s: a sentence without an end: %s", of, b.Text)
			}
			// Two courses of one kind have steps of their own, each to tick off.
			if seen[b.Lead+b.Text] && !every && !boxed {
				t.Errorf("%s: said twice in %s: %s", of, part.Text, b.Text)
			}
			seen[b.Lead+b.Text] = true
		}
		for _, each := range b.Under {
			read(each, boxed)
		}
	}
	read(part, false)
	return texts
}
