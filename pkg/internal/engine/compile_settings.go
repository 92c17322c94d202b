package engine

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/value"
)

// settings reads the settings and holds them to their limits.
func (c *compiler) settings() {
	for _, s := range c.in.settings {
		if !c.claim(s.Name, s.name) {
			continue
		}
		v, ok := c.settingValue(s)
		if !ok {
			c.broken[s.Name] = true
			continue
		}
		out := &Setting{Setting: s.Setting}
		out.Value, out.Source = v, c.sourceOf(s.source)
		if s.atLeast != nil {
			out.AtLeast, _ = c.literal(s.atLeast, v.Kind())
		}
		if s.atMost != nil {
			out.AtMost, _ = c.literal(s.atMost, v.Kind())
		}
		c.limits(out, s)
		c.book.settings = append(c.book.settings, out)
		c.book.byName[s.Name] = out
		c.declares.Names = append(c.declares.Names, language.Name{Name: s.Name, Kind: v.Kind(), About: "a setting"})
	}
}

// settingValue reads the value of a setting. An amendment changes the value and
// never the kind: rules read it as what it was.
func (c *compiler) settingValue(s *settingEntry) (value.Value, bool) {
	switch {
	case s.first == nil && s.value == nil:
		return value.Value{}, false // reported when it was read
	case s.first == nil:
		return c.anyLiteral(s.value)
	}
	first, ok := c.anyLiteral(s.first.node.Field("value"))
	if !ok {
		return value.Value{}, false
	}
	if s.value != nil {
		if v, ok := c.literal(s.value, first.Kind()); ok {
			return v, true
		}
	}
	return first, true // the fault is reported; those who read the setting are not at fault
}

// settingReasons compiles the sentences of the settings, once there is a
// language to compile them in.
func (c *compiler) settingReasons() {
	for _, s := range c.in.settings {
		if out, ok := c.book.byName[s.Name].(*Setting); ok {
			out.because = c.template(s.because, nil)
		}
	}
}

func (c *compiler) limits(s *Setting, entry *settingEntry) {
	if !ordered(s.Value.Kind()) && (!s.AtLeast.IsZero() || !s.AtMost.IsZero()) {
		fault(&c.faults, entry.name, codeNoOrder, "a value of this kind has no limits", string(s.Value.Kind()), "no at_least and no at_most")
		return
	}
	crossed := func(limit value.Value, node *document.Node, words string, wrong func(int) bool) {
		order, _ := s.Value.Compare(limit)
		if limit.IsZero() || !wrong(order) || c.varied(s, entry, limit, wrong) {
			return
		}
		d := fault(&c.faults, orNode(entry.value, entry.name), CodeCrossed, entry.Name+" crosses its limit", entry.value.Text(), words+" "+node.Text())
		d.Related = []diagnostic.Related{{Place: node.Place(), Message: "the limit is set here"}}
		switch v := entry.variance; {
		case v == nil:
		case v.waits:
			d.Related = append(d.Related, diagnostic.Related{Place: v.Place, Message: "the variance " + v.Name + " holds only from " + v.From.String()})
		case v.to != nil:
			d.Related = append(d.Related, diagnostic.Related{Place: v.to.Place(), Message: "the variance " + v.Name + " permits " + words + " " + v.to.Text()})
		}
	}
	crossed(s.AtLeast, entry.atLeast, "at least", func(x int) bool { return x < 0 })
	crossed(s.AtMost, entry.atMost, "at most", func(x int) bool { return x > 0 })
}

// unneeded reports the variances of settings that are within their limits.
func unneeded(settings []*settingEntry) diagnostic.List {
	var out diagnostic.List
	for _, s := range settings {
		if v := s.variance; v != nil && !v.used && !v.waits {
			fault(&out, v.of, codeUnpermitted, "nothing needs this variance: the setting is "+s.value.Text()+", within its limits", s.Name, "a value beyond a limit, or no variance")
		}
	}
	return out
}

// varied reports whether a variance gives permission to cross the limit as far as the
// setting does.
func (c *compiler) varied(s *Setting, entry *settingEntry, limit value.Value, wrong func(int) bool) bool {
	v := entry.variance
	if v == nil {
		return false
	}
	v.used = true
	if v.to == nil || v.waits {
		return false
	}
	to, ok := c.literal(v.to, s.Value.Kind())
	if !ok {
		return false
	}
	if order, _ := s.Value.Compare(to); wrong(order) {
		return false
	}
	granted := v.Variance
	granted.Value, granted.Limit = s.Value, limit
	c.book.variances = append(c.book.variances, granted)
	return true
}
