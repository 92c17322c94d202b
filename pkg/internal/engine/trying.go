package engine

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// ErrSetting is wrapped by a setting that cannot be tried at a value.
var ErrSetting = errors.New("the setting cannot be tried at this value")

// Tried is a value to try a setting at.
type Tried struct {
	Setting string
	Value   value.Value
	// Variance reports whether the value may cross the setting's limits, as by
	// permission.
	Variance bool
}

// Trying returns a book that is this one but for the values of some settings, for
// whoever reviews a rulebook: the entries, the clauses and their indices are
// this book's own. It is no way to amend a rulebook, for nothing of it is kept
// with a reason.
//
// The error wraps [ErrSetting] if there is no such setting, if the value is of
// another kind, or if it crosses a limit of the setting without a variance.
func (b *Book) Trying(values ...Tried) (*Book, error) {
	out := *b
	out.byName = maps.Clone(b.byName)
	out.settings = slices.Clone(b.settings)
	for _, tried := range values {
		i := slices.IndexFunc(out.settings, func(s *Setting) bool { return s.Name == tried.Setting })
		if i < 0 {
			return nil, fmt.Errorf("%w: no setting is called %s", ErrSetting, tried.Setting)
		}
		s := *out.settings[i]
		s.Value = tried.Value
		if err := s.allows(out.settings[i].Value.Kind(), tried.Variance); err != nil {
			return nil, err
		}
		out.settings[i], out.byName[s.Name] = &s, &s
	}
	return &out, nil
}

// allows reports whether the setting's value is of its kind and within its limits.
func (s *Setting) allows(kind value.Kind, variance bool) error {
	switch {
	case s.Value.Kind() != kind:
		return fmt.Errorf("%w: %s is %s, and this is %s", ErrSetting, s.Name, kind, s.Value.Kind())
	case variance:
		return nil
	}
	for _, b := range bounds(s.AtLeast, s.AtMost) {
		if b.crossed(s.Value) {
			return fmt.Errorf("%w: %s is %s%s", ErrSetting, s.Name, b.words, b.is.Text(quantity.US))
		}
	}
	return nil
}
