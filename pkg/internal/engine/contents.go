package engine

import (
	"maps"
	"slices"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/rulebook"
)

// Contents returns everything that the book holds, as data of the caller's own.
func (b *Book) Contents() rulebook.Contents {
	out := rulebook.Contents{AsOf: b.asOf, Files: b.files, Amendments: b.amendments, Variances: b.variances, Lifted: b.Lifted(), Idle: b.idle, Chapters: b.chapters,
		Inputs: b.Inputs(), Functions: b.Functions()}
	for _, m := range b.materials {
		if m.Sort == string(materialSort) {
			out.Materials = append(out.Materials, m)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(b.sources)) {
		told := b.declared[id]
		told.Source = b.sources[id]
		out.Sources = append(out.Sources, told)
	}
	for _, kind := range b.Vocabularies() {
		v := b.kinds[kind]
		v.Kind, v.Properties = kind, b.Properties(kind)
		for _, w := range b.Words(kind) {
			told := b.words[w.Name]
			told.Word = *w
			v.Words = append(v.Words, told)
		}
		out.Vocabularies = append(out.Vocabularies, v)
	}
	out.Settings = asTold(b.settings, func(s *Setting) rulebook.Setting { return s.Setting })
	out.Questions = asTold(b.askings, func(q *Asking) rulebook.Question { return q.Question })
	out.Terms = asTold(b.terms, func(t *Term) rulebook.Term { return t.Term })
	out.Decisions = asTold(b.decisions, func(d *Decision) rulebook.Decision {
		whole := d.Decision
		whole.Rules = asTold(d.Rules, func(r *Rule) rulebook.Rule { return r.Rule })
		whole.Bounds = asTold(d.limits, func(l *Limit) rulebook.Bound { return l.Bound })
		return whole
	})
	out.Courses = asTold(b.courses, func(c *Course) rulebook.Course { return c.Course })
	out.Checks = asTold(b.checks, func(c *Check) rulebook.Check { return c.Check })
	out.Cautions = asTold(b.cautions, func(c *Caution) rulebook.Caution { return c.Caution })
	out.Refusals = asTold(b.refusals, func(r *Refusal) rulebook.Refusal { return r.Refusal })
	out.Promises = asTold(b.promises, func(p *Promise) rulebook.Promise { return p.Promise })
	out.Work = asTold(b.work, func(w *Work) rulebook.Work { return w.Work })
	out.Lines = b.lines
	out.Language, out.Numbers, out.Texts, out.Missing = b.texts.Language, b.texts.Numbers, b.texts.All, b.texts.Missing
	return deep.Copy(out)
}

// asTold returns what is told of each of a list.
func asTold[T, U any](list []T, of func(T) U) (out []U) {
	for _, each := range list {
		out = append(out, of(each))
	}
	return out
}
