package sheet_test

import (
	"bytes"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
)

// FuzzText puts any text wherever a rulebook or a job may write one: no sheet
// may fail on it, or let it act on a terminal.
func FuzzText(f *testing.F) {
	f.Add("Base", 0)
	f.Add("a\x1b[2J\u202e\xff\nb", 1)
	f.Add(strings.Repeat("x", 300)+" "+strings.Repeat("y ", 200), 2)
	f.Add("_most_", 3)
	book, err := groundrule.Standard()
	if err != nil {
		f.Fatal(err)
	}
	words := book.Lines()
	f.Fuzz(func(t *testing.T, text string, which int) {
		s := []func() *section.Section{patio, stopped, refused, amended}[uint(which)%4]()
		everywhere(reflect.ValueOf(s).Elem(), text)
		var b bytes.Buffer
		for _, of := range []string{"page", "audit", "full"} {
			if err := (sheet.Sheet{Of: of, Lines: words}).Write(&b, &section.Areas{Sections: []*section.Section{s}}); err != nil {
				t.Fatal(err)
			}
		}
		for _, c := range s.Courses {
			if err := (sheet.Sheet{System: quantity.SI, Lines: words}).Why(&b, s, c.Name); err != nil {
				t.Fatal(err)
			}
		}
		for _, r := range b.String() {
			if r != '\n' && !unicode.IsPrint(r) {
				t.Fatalf("%q in %q", r, b.String())
			}
		}
	})
}

// steering are the fields that say what is shown, and are not shown themselves.
var steering = []string{"Status", "State", "Decision", "Presence", "Source", "Name"}

// everywhere writes a text into every field that can hold one.
func everywhere(v reflect.Value, text string) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(text)
	case reflect.Pointer:
		if !v.IsNil() {
			everywhere(v.Elem(), text)
		}
	case reflect.Slice:
		for i := range v.Len() {
			everywhere(v.Index(i), text)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if f.IsExported() && (!slices.Contains(steering, f.Name) || v.Type() == reflect.TypeFor[section.Job]()) {
				everywhere(v.Field(i), text)
			}
		}
	}
}
