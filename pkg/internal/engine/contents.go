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
		v := rulebook.Vocabulary{Kind: kind, About: b.kinds[kind].about, Properties: b.Properties(kind), Amended: b.kinds[kind].amended}
		for _, w := range b.Words(kind) {
			told := b.words[w.Name]
			told.Word = *w
			v.Words = append(v.Words, told)
		}
		out.Vocabularies = append(out.Vocabularies, v)
	}
	for _, s := range b.settings {
		out.Settings = append(out.Settings, s.Setting)
	}
	for _, q := range b.askings {
		out.Questions = append(out.Questions, q.Question)
	}
	for _, t := range b.terms {
		out.Terms = append(out.Terms, t.Term)
	}
	for _, d := range b.decisions {
		told := d.Decision
		for _, r := range d.Rules {
			told.Rules = append(told.Rules, r.Rule)
		}
		for _, l := range d.limits {
			told.Bounds = append(told.Bounds, l.Bound)
		}
		out.Decisions = append(out.Decisions, told)
	}
	for _, c := range b.courses {
		out.Courses = append(out.Courses, c.Course)
	}
	for _, c := range b.checks {
		out.Checks = append(out.Checks, c.Check)
	}
	for _, c := range b.cautions {
		out.Cautions = append(out.Cautions, c.Caution)
	}
	for _, r := range b.refusals {
		out.Refusals = append(out.Refusals, r.Refusal)
	}
	for _, p := range b.promises {
		out.Promises = append(out.Promises, p.Promise)
	}
	for _, w := range b.work {
		out.Work = append(out.Work, w.Work)
	}
	out.Lines = b.lines
	out.Language, out.Numbers, out.Texts, out.Missing = b.texts.Language, b.texts.Numbers, b.texts.All, b.texts.Missing
	return deep.Copy(out)
}
