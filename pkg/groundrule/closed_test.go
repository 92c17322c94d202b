package groundrule_test

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// closedJobs are an example that is designed and one that is refused.
var closedJobs = []string{"patio-on-stiff-clay.yaml", "refused-truck-yard.yaml"}

func readJob(t *testing.T, name string) *site.Site {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(examples, "jobs", name))
	require.NoError(t, err)
	job, err := site.Read(name, data)
	require.NoError(t, err)
	return job
}

// told designs a job and returns the whole section as text, refused or not.
func told(t *testing.T, book *groundrule.Book, job *site.Site) string {
	t.Helper()
	design, err := book.Design(job)
	var refused *groundrule.Refused
	var s *section.Section
	if errors.As(err, &refused) {
		s = refused.Section
	} else {
		require.NoError(t, err)
		s, err = design.Section()
		require.NoError(t, err)
	}
	text, err := s.JSON(section.Full)
	require.NoError(t, err)
	return string(text)
}

// vandal changes whatever it can reach: exported fields, items of lists and
// maps, and all that the methods of this module's types hand out.
type vandal struct {
	changed int
	depth   int
}

func (v *vandal) spoil(x reflect.Value) {
	if v.depth > 12 || x.Type() == reflect.TypeFor[reflect.Type]() {
		return // what the Go runtime holds is not ours
	}
	v.depth++
	defer func() { v.depth-- }()
	v.methods(x)
	switch x.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !x.IsNil() {
			v.spoil(x.Elem())
		}
	case reflect.Struct:
		for i := range x.NumField() {
			if x.Type().Field(i).IsExported() {
				v.spoil(x.Field(i))
			}
		}
	case reflect.Slice:
		for i := range x.Len() {
			v.spoil(x.Index(i))
		}
		if x.Len() > 1 {
			reflect.Swapper(x.Interface())(0, x.Len()-1)
		}
	case reflect.Map:
		for _, key := range x.MapKeys() {
			v.spoil(x.MapIndex(key))
			x.SetMapIndex(key, reflect.Zero(x.Type().Elem()))
		}
	}
	if x.CanSet() && x.Kind() != reflect.Func {
		v.changed++
		if x.Kind() == reflect.String && x.String() == "" {
			x.SetString("spoiled")
			return
		}
		x.SetZero()
	}
}

// methods spoils what methods without arguments return.
func (v *vandal) methods(x reflect.Value) {
	if !strings.HasPrefix(strings.TrimPrefix(x.Type().String(), "*"), "rulebook.") && !strings.HasPrefix(x.Type().PkgPath(), "example.com/groundrule/pkg/") {
		return
	}
	if x.Kind() == reflect.Pointer && x.IsNil() {
		return
	}
	for i := range x.NumMethod() {
		if m := x.Method(i); m.Type().NumIn() == 0 {
			for _, out := range m.Call(nil) {
				v.result(out)
			}
		}
	}
}

// result spoils what a call returned, as whoever keeps it in a variable could.
func (v *vandal) result(out reflect.Value) {
	if out.Kind() == reflect.Interface && out.IsNil() {
		return
	}
	kept := reflect.New(out.Type()).Elem()
	kept.Set(out)
	v.spoil(kept)
}

// TestNothingHandedOutChangesABook spoils everything that a Book, its Designs and
// their sections hand out, and everything that was handed in, and designs again.
func TestNothingHandedOutChangesABook(t *testing.T) {
	for _, name := range closedJobs {
		t.Run(name, func(t *testing.T) {
			book, err := wrenfold("2026-11-01")
			require.NoError(t, err)
			want := told(t, book, readJob(t, name))
			job := readJob(t, name)
			design, err := book.Design(job)
			v := &vandal{}
			results := []any{book.Rules(), err}
			if design != nil {
				before, err := design.Section()
				require.NoError(t, err)
				answer, _ := design.Answer("stone_top_thickness")
				results = append(results, before, answer)
			}
			calculated, err := book.Calculate("bedding_sand_depth", readJob(t, name))
			results = append(results, calculated, err)
			calculated, err = book.Calculate("stone_57.gradation", readJob(t, name))
			results = append(results, calculated, err, groundrule.Calculations(), job)
			for _, each := range results {
				if each != nil {
					v.result(reflect.ValueOf(each))
				}
			}
			require.Greater(t, v.changed, 5000, "there is much to change")
			if diff := cmp.Diff(want, told(t, book, readJob(t, name))); diff != "" {
				t.Errorf("the book was changed (-before +after):\n%s", diff)
			}
			if design != nil {
				s, err := design.Section()
				require.NoError(t, err)
				text, err := s.JSON(section.Full)
				require.NoError(t, err)
				require.Empty(t, cmp.Diff(want, string(text)), "the design was changed")
			}
		})
	}
}

// TestDesignIsSafeForConcurrentUse calls every method of one Design from many
// goroutines; the race detector watches when it is on.
func TestDesignIsSafeForConcurrentUse(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	design, err := book.Design(readJob(t, closedJobs[0]))
	require.NoError(t, err)
	first, err := design.Section()
	require.NoError(t, err)
	want, err := first.JSON(section.Full)
	require.NoError(t, err)
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for range 5 {
				s, err := design.Section()
				if err != nil {
					t.Error(err)
					return
				}
				got, err := s.JSON(section.Full)
				if err != nil || string(got) != string(want) {
					t.Errorf("another section, or an error: %v", err)
				}
				s.Reasons, s.Courses[0].Name = nil, "mine"
				if _, asked := design.Answer("stone_top_thickness"); asked {
					_ = book.Rules()
				}
			}
		})
	}
	wg.Wait()
}

// TestMisuse holds that a call that cannot be right is an error that says whose.
func TestMisuse(t *testing.T) {
	job := readJob(t, closedJobs[0])
	cases := []struct {
		name, why string
		call      func() error
	}{
		{"zero book designs", "nobody opened it", func() error { _, err := (&groundrule.Book{}).Design(job); return err }},
		{"nil book designs", "an error of Open that was not looked at", func() error { _, err := (*groundrule.Book)(nil).Design(job); return err }},
		{"zero book calculates", "the same", func() error { _, err := (&groundrule.Book{}).Calculate("1", nil); return err }},
		{"zero design", "nobody made it", func() error { _, err := (&groundrule.Design{}).Section(); return err }},
		{"nil design", "an error of Design that was not looked at", func() error { _, err := (*groundrule.Design)(nil).Section(); return err }},
		{"no files", "a nil folder would crash where it is read", func() error { _, err := groundrule.Open(nil); return err }},
		{"nil option", "an option that was left out by mistake", func() error { _, err := groundrule.OpenStandard(nil); return err }},
		{"layer without files", "the same, of amendments", func() error {
			_, err := groundrule.OpenStandard(groundrule.WithAmendments(rulebook.Layer{Label: "ours"}))
			return err
		}},
		{"bad function", "the description does not fit", func() error {
			_, err := groundrule.OpenStandard(groundrule.WithFunctions(calculation.Function{Name: "ours", Go: func() float64 { return 1 }, Params: []calculation.Param{{Name: "x"}}}))
			return err
		}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var use *groundrule.UseError
			require.ErrorAs(t, c.call(), &use, c.why)
			require.Greater(t, len(use.Error()), len("groundrule: "))
		})
	}
	_, err := groundrule.OpenStandard(groundrule.WithFunctions(calculation.Function{Name: "ours"}))
	require.ErrorIs(t, err, calculation.ErrShape)
	require.Empty(t, (&groundrule.Book{}).Rules())
	_, asked := (*groundrule.Design)(nil).Answer("stone_top_thickness")
	require.False(t, asked)
	standard, err := groundrule.Standard()
	require.NoError(t, err)
	_, err = standard.Design(nil)
	var bad *site.Error
	require.ErrorAs(t, err, &bad)
	var one *diagnostic.Diagnostic
	require.ErrorAs(t, err, &one)
}
