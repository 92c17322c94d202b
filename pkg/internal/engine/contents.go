package engine

import (
	"maps"
	"reflect"
	"slices"

	"example.com/groundrule/pkg/rulebook"
)

// Contents returns everything that the book holds, as data of its own.
func (b *Book) Contents() rulebook.Contents {
	out := rulebook.Contents{AsOf: b.asOf, Files: b.files, Amendments: b.amendments, Variances: b.variances, Chapters: b.chapters,
		Inputs: b.Inputs(), Materials: b.materials, Functions: b.Functions()}
	for _, id := range slices.Sorted(maps.Keys(b.sources)) {
		out.Sources = append(out.Sources, b.sources[id])
	}
	for _, kind := range b.Vocabularies() {
		out.Vocabularies = append(out.Vocabularies, rulebook.Vocabulary{Kind: kind, Words: b.Words(kind), Properties: b.Properties(kind)})
	}
	for _, s := range b.settings {
		out.Settings = append(out.Settings, s.Setting)
	}
	for _, t := range b.terms {
		out.Terms = append(out.Terms, t.Term)
	}
	for _, d := range b.decisions {
		told := d.Decision
		for _, r := range d.Rules {
			told.Rules = append(told.Rules, r.Rule)
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
	return copied(reflect.ValueOf(out)).Interface().(rulebook.Contents)
}

// copied returns a copy of a value that shares nothing with it that could be
// changed: what slices, maps, pointers and exported fields lead to is copied
// too. Unexported fields are of types that cannot be changed from outside.
func copied(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	out.Set(v)
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			out.Set(reflect.New(v.Type().Elem()))
			out.Elem().Set(copied(v.Elem()))
		}
	case reflect.Slice:
		if !v.IsNil() {
			out.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
			for i := range v.Len() {
				out.Index(i).Set(copied(v.Index(i)))
			}
		}
	case reflect.Map:
		if !v.IsNil() {
			out.Set(reflect.MakeMap(v.Type()))
			for each := v.MapRange(); each.Next(); {
				out.SetMapIndex(each.Key(), copied(each.Value()))
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				out.Field(i).Set(copied(v.Field(i)))
			}
		}
	}
	return out
}
