package engine

import (
	"cmp"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// settings reads the settings and holds them to their limits.
func (c *compiler) settings() {
	for _, n := range c.in.of[settingSort] {
		e := c.r.open(n, "a setting")
		is, atLeast, atMost, because, source := e.Need("value"), e.Get("at_least"), e.Get("at_most"), e.Need("because"), e.Need("source")
		out := &Setting{Setting: rulebook.Setting{Name: n.id(), About: e.Text("about"), Because: text(because), Place: n.place(), Chapter: n.chapter, Amended: n.amended}}
		e.Done()
		if !c.claim(out.Name, n.name) {
			continue
		}
		v, ok := c.settingValue(n, is)
		if !ok {
			c.broken[out.Name] = true
			continue
		}
		out.Value, out.Source = v, c.sourceOf(source)
		out.AtLeast, _ = c.literal(atLeast, v.Kind())
		out.AtMost, _ = c.literal(atMost, v.Kind())
		c.limits(out, n, is, atLeast, atMost)
		c.book.settings = append(c.book.settings, out)
		c.book.byName[out.Name] = out
		c.declares.Names = append(c.declares.Names, language.Name{Name: out.Name, Kind: v.Kind()})
	}
}

// settingValue reads the value of a setting. An amendment changes the value and
// never the kind: rules read it as what it was.
func (c *compiler) settingValue(n *entry, is *document.Node) (value.Value, bool) {
	if n.first == nil {
		return c.anyLiteral(is)
	}
	first, ok := c.anyLiteral(n.first.node.Field("value"))
	if !ok {
		return value.Value{}, false
	}
	if v, ok := c.literal(is, first.Kind()); ok {
		return v, true
	}
	return first, true // the fault is reported; those who read the setting are not at fault
}

// settingReasons compiles the sentences of the settings, once there is a
// language to compile them in.
func (c *compiler) settingReasons() {
	for _, n := range c.in.of[settingSort] {
		if out, ok := c.book.byName[n.id()].(*Setting); ok {
			out.Why = c.template(n.node.Field("because"), nil)
		}
	}
}

// bound is an end of what a value may be, a zero one if there is none.
type bound struct {
	is    value.Value
	words string
	side  int
}

func bounds(atLeast, atMost value.Value) []bound {
	return []bound{{atLeast, "at least ", -1}, {atMost, "at most ", 1}}
}

// crossed reports whether a value is beyond the bound.
func (b bound) crossed(v value.Value) bool {
	order, ok := v.Compare(b.is)
	return ok && !b.is.IsZero() && order == b.side
}

// within reports a value that is beyond a bound.
func (c *compiler) within(v, atLeast, atMost value.Value, at *document.Node, message string) {
	for _, b := range bounds(atLeast, atMost) {
		if b.crossed(v) {
			fault(&c.faults, at, CodeCrossed, message, at.Text(), b.words+b.is.Text(quantity.US))
		}
	}
}

// limits holds a setting to its limits, but for what a variance permits.
func (c *compiler) limits(s *Setting, n *entry, is, atLeast, atMost *document.Node) {
	if !language.IsOrdered(s.Value.Kind()) && (!s.AtLeast.IsZero() || !s.AtMost.IsZero()) {
		fault(&c.faults, n.name, codeNoOrder, "a value of this kind has no limits", string(s.Value.Kind()), "no at_least and no at_most")
		return
	}
	v := varies(c.in.variances, func(v *varianceEntry) bool { return v.Setting == s.Name })
	for i, b := range bounds(s.AtLeast, s.AtMost) {
		if !b.crossed(s.Value) || c.varied(s, v, b) {
			continue
		}
		at := []*document.Node{atLeast, atMost}[i]
		d := fault(&c.faults, cmp.Or(is, n.name), CodeCrossed, s.Name+" crosses its limit", is.Text(), b.words+at.Text())
		d.Related = []diagnostic.Related{{Place: at.Place(), Message: "the limit is set here"}}
		switch {
		case v == nil:
		case v.waits:
			d.Related = append(d.Related, diagnostic.Related{Place: v.Place, Message: "the variance " + v.Name + " holds only from " + v.From.String()})
		case v.to != nil:
			d.Related = append(d.Related, diagnostic.Related{Place: v.to.Place(), Message: "the variance " + v.Name + " permits " + b.words + v.to.Text()})
		}
	}
}

// varied reports whether a variance gives permission to cross a limit as far as the
// setting does.
func (c *compiler) varied(s *Setting, v *varianceEntry, limit bound) bool {
	if v == nil {
		return false
	}
	v.used = true
	if v.to == nil || v.waits {
		return false
	}
	to, ok := c.literal(v.to, s.Value.Kind())
	if !ok || (bound{to, "", limit.side}).crossed(s.Value) {
		return false
	}
	granted := v.Variance
	granted.Value, granted.Limit = s.Value, limit.is
	c.book.variances = append(c.book.variances, granted)
	return true
}

// unneeded reports the variances of settings that are within their limits.
func unneeded(in *written) diagnostic.List {
	var out diagnostic.List
	for _, n := range in.of[settingSort] {
		v := varies(in.variances, func(v *varianceEntry) bool { return v.Setting == n.id() })
		if v != nil && !v.used && !v.waits {
			fault(&out, v.of, codeUnpermitted, "nothing needs this variance: the setting is "+n.node.Field("value").Text()+", within its limits", n.id(), "a value beyond a limit, or no variance")
		}
	}
	return out
}
