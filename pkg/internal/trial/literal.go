package trial

import (
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/value"
)

// The codes of what names and values of a trial can have wrong.
const (
	CodeName  = language.CodeUnknownName // no entry of the rulebook has the name
	CodeWord  = engine.CodeWord          // no word of the vocabulary
	CodeValue = engine.CodeWrong         // no value of the kind
	CodeLimit = engine.CodeCrossed       // a setting beyond its limits without a variance, or a variance that crosses none
)

// literal reads a value of a kind as a rule file writes one.
func (b *binder) literal(n *document.Node, kind value.Kind, of string) (value.Value, bool) {
	if element, isList := kind.Element(); isList {
		return b.list(n, element, of)
	}
	if n.Shape() != document.Scalar || n.Null() {
		b.wrong(n, of, kind, "")
		return value.Value{}, false
	}
	v, d := b.book.Literal(n.Text(), kind)
	if d != nil {
		d.Place, d.Width, d.Message = n.Place(), n.Width(), of+": "+d.Message
		b.faults.Add(d)
	}
	return v, d == nil
}

func (b *binder) list(n *document.Node, element value.Kind, of string) (value.Value, bool) {
	if n.Shape() != document.Sequence {
		b.wrong(n, of, value.ListOf(element), "a list")
		return value.Value{}, false
	}
	var out []value.Value
	for _, item := range n.Items() {
		v, ok := b.literal(item, element, of)
		if !ok {
			return value.Value{}, false
		}
		out = append(out, v)
	}
	return value.List(element, out), true
}

func (b *binder) wrong(n *document.Node, of string, kind value.Kind, wanted string) {
	b.fault(n, CodeValue, "%s is %s, and this is not", of, kind).Wanted = wanted
}

// material reads {like: NAME, property: value}: a material of the catalog with
// other properties.
func (b *binder) material(n *document.Node, s *engine.Setting) (value.Value, bool) {
	e := n.Entry("a material", &b.faults)
	like := e.Need("like")
	if like == nil {
		return value.Value{}, false
	}
	v, ok := b.literal(like, s.Value.Kind(), s.Name)
	if !ok {
		return value.Value{}, false
	}
	base, _ := v.Word()
	properties := base.Properties()
	kinds, all := map[string]value.Kind{}, []string{}
	for _, p := range b.book.Properties(s.Value.Kind()) {
		kinds[p.Name], all = p.Kind, append(all, p.Name)
	}
	before := len(b.faults)
	for _, f := range n.Fields() {
		if f.Key.Text() == "like" {
			continue
		}
		kind, ok := kinds[f.Key.Text()]
		if !ok {
			d := b.fault(f.Key, CodeName, "%s has no such property", s.Value.Kind())
			d.Wanted, d.Nearest = strings.Join(all, ", "), diagnostic.Nearest(f.Key.Text(), all)
			continue
		}
		if p, ok := b.literal(f.Value, kind, f.Key.Text()); ok {
			properties[f.Key.Text()] = p
		}
	}
	changed := base.With(properties)
	return value.OfWord(&changed), len(b.faults) == before
}
