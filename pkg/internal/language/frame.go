package language

import (
	"errors"
	"fmt"
	"maps"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// knownPrefix marks the hidden name that tells whether a name has a value. No
// expression can write it, for it holds a space.
const knownPrefix = "known "

// Frame holds the values of names during one design. Each is asked of resolve
// once, when an expression first reads it. A Frame serves one goroutine.
type Frame struct {
	env     *Env
	resolve func(name string) (value.Value, error)
	known   func(name string) (bool, error)
	cells   []cell        // by the index of the name, in a frame for a design; in one that follows, those of the first
	few     map[int]*cell // in a frame for one expression, and what differs in one that follows
}

type cell struct {
	val ref.Val
	got value.Value
	err error
}

// NewFrame returns a frame whose names resolve gives values to; known tells which
// of the names that may be missing have one.
func (e *Env) NewFrame(resolve func(string) (value.Value, error), known func(string) (bool, error)) *Frame {
	return &Frame{env: e, resolve: resolve, known: known}
}

// NewBriefFrame is [Env.NewFrame] for one expression, which reads few names.
func (e *Env) NewBriefFrame(resolve func(string) (value.Value, error), known func(string) (bool, error)) *Frame {
	return &Frame{env: e, resolve: resolve, known: known, few: map[int]*cell{}}
}

// Follow lets a new frame begin with all values that another of the environment has.
func (f *Frame) Follow(other *Frame) {
	f.cells, f.few = other.cells, map[int]*cell{}
	maps.Copy(f.few, other.few)
}

// Forget lets a name be asked for anew, in a frame that follows another.
func (f *Frame) Forget(name string) { f.few[f.env.names[name]] = &cell{} }

// Has reports whether a name was asked for.
func (f *Frame) Has(name string) bool { return f.cell(f.env.names[name]).val != nil }

// cell returns the place of a name's value.
func (f *Frame) cell(i int) *cell {
	if f.few == nil {
		if f.cells == nil {
			f.cells = make([]cell, len(f.env.list))
		}
		return &f.cells[i]
	}
	c := f.few[i]
	if c == nil && f.cells != nil && f.cells[i].val != nil {
		return &f.cells[i]
	}
	if c == nil {
		c = &cell{}
		f.few[i] = c
	}
	return c
}

// ResolveName implements CEL's activation.
func (f *Frame) ResolveName(name string) (any, bool) {
	if i, ok := f.env.names[name]; ok {
		return f.filled(i, name).val, true
	}
	if asked, ok := strings.CutPrefix(name, knownPrefix); ok {
		is, err := f.known(asked)
		if err != nil {
			return types.WrapErr(err), true
		}
		return types.Bool(is), true
	}
	return nil, false
}

// filled returns the place of a name's value, with the value.
func (f *Frame) filled(i int, name string) *cell {
	c := f.cell(i)
	if c.val != nil {
		return c
	}
	c.got, c.err = f.resolve(name)
	if x, ok := finite(c.got); c.err == nil && !ok {
		c.err = fmt.Errorf("%s is %g: %w", name, x, quantity.ErrNotFinite)
	}
	if c.err != nil {
		c.val = types.WrapErr(c.err)
	} else {
		c.val = f.env.toCEL(c.got)
	}
	return c
}

// Parent implements CEL's activation.
func (f *Frame) Parent() cel.Activation { return nil }

// Value returns the value of a name, asking for it if no expression has yet.
func (f *Frame) Value(name string) (value.Value, error) {
	i, ok := f.env.names[name]
	if !ok {
		return value.Value{}, UnknownName(name)
	}
	c := f.filled(i, name)
	return c.got, c.err
}

// UnknownName is the error for a name that was never declared.
func UnknownName(name string) error { return errors.New("no value is called " + name) }
