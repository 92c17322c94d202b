package printed

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/internal/logic"
)

func standard(t *testing.T) *engine.Book {
	t.Helper()
	b, err := groundrule.Standard()
	require.NoError(t, err)
	return inside.Rules(b)
}

// conditions are all that a book asks, each with whatever asks it.
func conditions(b *engine.Book) map[string]*engine.Condition {
	out := map[string]*engine.Condition{}
	for _, x := range b.Terms() {
		out["term "+x.Name], out["when of "+x.Name] = x.TermCondition, x.When
	}
	for _, d := range b.Decisions() {
		out["decision "+d.Name] = d.When
		for _, r := range d.Rules {
			out[r.ID] = r.When
		}
		for _, l := range d.Limits() {
			out[l.ID] = l.When
		}
	}
	for _, c := range b.Courses() {
		out["course "+c.Name] = c.When
	}
	for _, c := range b.Checks() {
		out[c.ID], out["holds of "+c.ID] = c.When, c.Holds
	}
	for _, c := range b.Cautions() {
		out[c.ID] = c.When
	}
	for _, r := range b.Refusals() {
		out[r.ID] = r.When
	}
	for _, p := range b.Promises() {
		out[p.ID], out["always "+p.ID], out["never "+p.ID] = p.When, p.Always, p.Never
	}
	for name, c := range out {
		if c == nil {
			delete(out, name)
		}
	}
	return out
}

// notWords matches what belongs to a rule file and not in a sentence.
var notWords = regexp.MustCompile(`[a-z0-9]_[a-z0-9]|&&|\|\||[=!<>]=|[<>*]| \+ |known\(|\[\]|  |it is not so that| is not no | ,|\(\)`)

// TestSentences holds that every condition of the standard has its sentence, in
// words alone, and that no two different conditions read alike.
func TestSentences(t *testing.T) {
	b := standard(t)
	s := newSpeaker(b)
	all := conditions(b)
	require.Greater(t, len(all), 400)
	of := map[string]string{}
	by := map[string]string{}
	for name, c := range all {
		line := s.condition(c).line()
		assert.NotEmpty(t, line, name)
		assert.Empty(t, notWords.FindString(line), "%s: %s", name, line)
		means := meaning(b, c.Tree(), false)
		if other, have := of[line]; have {
			assert.Equal(t, other, means, "%s and %s read alike: %s", name, by[line], line)
		}
		of[line], by[line] = means, name
	}
}

// TestAnswers holds the answers of the standard to the same.
func TestAnswers(t *testing.T) {
	b := standard(t)
	s := newSpeaker(b)
	for _, d := range b.Decisions() {
		for _, r := range d.Rules {
			line := s.formula(r.Answer.Text)
			assert.NotEmpty(t, line, r.ID)
			assert.Empty(t, notWords.FindString(line), "%s: %s", r.ID, line)
		}
	}
}

// meaning writes a condition so that two of one meaning are written alike where
// they differ only in how something is denied, in brackets, and in known(name)
// asked where the value is read beside it.
func meaning(b *engine.Book, tree *logic.Tree, not bool) string {
	switch tree.Op {
	case logic.Clause:
		o := b.Outline(b.ClauseText(tree.Clause))
		if opposite := contrary[o.Op]; not && opposite != "" {
			o.Op = opposite
		} else if not {
			return "!" + written(o)
		}
		return written(o)
	case logic.Not:
		return meaning(b, tree.Parts[0], !not)
	}
	op := tree.Op
	if not {
		op = logic.All + logic.Any - op
	}
	var flat []*logic.Tree
	var walk func(*logic.Tree, bool)
	nots := map[*logic.Tree]bool{}
	walk = func(t *logic.Tree, n bool) {
		for t.Op == logic.Not {
			t, n = t.Parts[0], !n
		}
		as := t.Op
		if n && as != logic.Clause {
			as = logic.All + logic.Any - as
		}
		if as == op && t.Op != logic.Clause {
			for _, p := range t.Parts {
				walk(p, n)
			}
			return
		}
		flat = append(flat, t)
		nots[t] = n
	}
	walk(tree, not)
	reads := map[string]bool{}
	for _, t := range flat {
		if t.Op == logic.Clause {
			if o := b.Outline(b.ClauseText(t.Clause)); o.Call != "known" {
				for _, n := range o.Names(nil) {
					reads[n] = true
				}
			}
		}
	}
	var parts []string
	seen := map[string]bool{}
	for _, t := range flat {
		if t.Op == logic.Clause && op == logic.All && !nots[t] {
			if o := b.Outline(b.ClauseText(t.Clause)); o.Call == "known" && reads[nameOf(o.Parts[0])] {
				continue
			}
		}
		if m := meaning(b, t, nots[t]); !seen[m] {
			seen[m] = true
			parts = append(parts, m)
		}
	}
	if len(parts) == 1 {
		return parts[0]
	}
	out := []string{"all", "any"}[op-logic.All] + "("
	for _, p := range parts {
		out += p + "; "
	}
	return out + ")"
}

func written(o *language.Outline) string {
	out := o.Name + o.Property + o.Call + o.Op
	if !o.Value.IsZero() {
		out += o.Value.String()
	}
	for _, p := range o.Parts {
		out += "(" + written(p) + ")"
	}
	return out
}
