package groundrule

import (
	"errors"
	"fmt"
	"slices"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// Areas designs each area of a job, and how areas join that meet. A job without areas
// is designed as its only area. The errors are those of [Book.Design], but that an area
// that is refused or stopped is none: its section says so. What a joint takes is among
// the quantities of the area that is dug deeper.
func (b *Book) Areas(job *site.Site, forms ...section.Form) (*section.Areas, error) {
	if b == nil || b.rules == nil {
		return nil, errNotOpened
	}
	job, err := b.table.Close(job)
	if err != nil {
		return nil, err
	}
	parts := job.Parts()
	out := &section.Areas{Schema: section.AreasSchema, Version: section.Version, Joints: []section.Joint{}}
	for i, part := range parts {
		s, err := b.area(job, i, part, forms)
		if err != nil {
			return nil, err
		}
		out.Sections = append(out.Sections, s)
	}
	meeting := make([][]section.Quantity, len(parts)) // what the joints take, with the area that is dug deeper
	for i := range job.Areas {
		for other := i + 1; other < len(job.Areas); other++ {
			length := job.Meeting(i, other)
			if length == 0 || out.Sections[i].Status != section.Designed || out.Sections[other].Status != section.Designed {
				continue
			}
			of, beside := i, other
			if order, _ := out.Sections[other].Depth.Compare(out.Sections[i].Depth); order > 0 {
				of, beside = other, i
			}
			joint, ordered, err := b.joint(job, parts, out.Sections, of, beside, length, forms)
			if err != nil {
				return nil, err
			}
			out.Joints = append(out.Joints, joint)
			meeting[of] = append(meeting[of], ordered...)
		}
	}
	for i, ordered := range meeting {
		out.Sections[i].Quantities = append(out.Sections[i].Quantities, ordered...)
	}
	return out, nil
}

// area designs one area of a job, which may be refused or stopped.
func (b *Book) area(job *site.Site, at int, part *site.Site, forms []section.Form) (*section.Section, error) {
	design, err := b.Design(part)
	var s *section.Section
	if refused := (*Refused)(nil); errors.As(err, &refused) {
		s, err = refused.Section, nil
		if refused.design != nil && slices.Contains(forms, section.Client) {
			s, err = refused.design.Section(section.Client) // the client is told why
		}
	} else if err == nil {
		s, err = design.Section(forms...)
	}
	var wrong *site.Error
	if errors.As(err, &wrong) && job != nil && len(job.Areas) > 0 && len(job.Areas[at].Overrides) > 0 {
		for _, d := range wrong.Faults { // overrides alone can be at fault in a closed job
			d.Path = fmt.Sprintf("areas[%d].%s", at, d.Path)
		}
	}
	return s, err
}

// joint designs an area once more, with another beside it that is no deeper; what is
// there then and was not before is how they join, and what the joint takes.
func (b *Book) joint(job *site.Site, parts []*site.Site, sections []*section.Section, of, beside int, length quantity.Length, forms []section.Form) (section.Joint, []section.Quantity, error) {
	forms = slices.DeleteFunc(slices.Clone(forms), func(f section.Form) bool { return f != section.Crew && f != section.Takeoff })
	depth, _ := sections[beside].Depth.Length()
	with, was := deep.Copy(parts[of]), sections[of]
	if with.Beside != (site.Beside{}) { // paving that is there already and no part of the job
		with.Beside = site.Beside{}
		var err error
		if was, err = b.area(job, of, with, forms); err != nil {
			return section.Joint{}, nil, err
		}
	}
	with.Beside = site.Beside{Use: parts[beside].Use, Base: parts[beside].Base, Depth: &depth, Length: &length}
	with.Edges = slices.DeleteFunc(with.Edges, func(e site.Edge) bool { return e.Joins != "" }) // that is told now
	joined, err := b.area(job, of, with, forms)
	if err != nil {
		return section.Joint{}, nil, err
	}
	out := section.Joint{Of: job.Areas[of].Job, Beside: job.Areas[beside].Job, Length: value.Measured(length),
		Courses:  newIn(joined.Courses, was.Courses, func(c section.Course) string { return c.Name }),
		Crossed:  newIn(joined.Crossed, was.Crossed, func(c section.Crossed) string { return c.Limit }),
		Steps:    newIn(joined.Steps, was.Steps, func(w section.Work) string { return w.ID }),
		Reasons:  newIn(joined.Reasons, was.Reasons, func(r section.Reason) string { return r.Decision }),
		Accounts: newIn(joined.Accounts, was.Accounts, func(a section.Account) string { return a.Sort + a.Name }),
		Sources:  joined.Sources,
	}
	out.Sources = out.Section().Cited()
	return out, newIn(joined.Quantities, was.Quantities, func(q section.Quantity) string { return q.ID }), nil
}

// newIn returns what is in a list and was not before, by a name of each.
func newIn[T any](list, before []T, name func(T) string) []T {
	had := map[string]bool{}
	for _, x := range before {
		had[name(x)] = true
	}
	return slices.DeleteFunc(slices.Clone(list), func(x T) bool { return had[name(x)] })
}
