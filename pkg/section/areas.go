package section

import (
	"fmt"
	"slices"

	"example.com/groundrule/pkg/value"
)

// AreasSchema names the JSON form of [Areas]; its version is that of a section.
const AreasSchema = "groundrule/areas"

// Areas is the result of a job of several areas: a section for each, and how those
// join that meet.
type Areas struct {
	// Schema names the form.
	Schema string `json:"schema"`
	// Version of the form.
	Version int `json:"version"`
	// Sections of the areas, in the order of the job.
	Sections []*Section `json:"sections"`
	// Joints where areas meet, in the order of the job. Where an area is refused or
	// stopped there is none.
	Joints []Joint `json:"joints"`
}

// Joint is how two areas join, seen from the deeper of the two.
type Joint struct {
	// Of is the name of the deeper area.
	Of string `json:"of"`
	// Beside is the name of the other.
	Beside string `json:"beside"`
	// Length along which they meet.
	Length value.Value `json:"length"`
	// Courses are what is laid or decided of the area because the other is beside it.
	Courses []Course `json:"courses"`
	// Crossed are answers about the joint beyond a limit, in the order of use.
	Crossed []Crossed `json:"crossed"`
	// Sources that the courses and the reasons name.
	Sources []Source `json:"sources"`
	// Steps are what the crew does where the areas meet, in order. Only the crew's form
	// has them.
	Steps []Work `json:"steps,omitzero"`
	// Reasons for what is decided of the joint, in the order of use, and Accounts of what
	// they rest on. Only the full form has them.
	Reasons  []Reason  `json:"reasons,omitzero"`
	Accounts []Account `json:"accounts,omitzero"`
}

// Section returns the joint as a section of its own, which has nothing but what the
// joint has.
func (j Joint) Section() *Section {
	return &Section{Status: Designed, Job: Job{Name: j.Of + " and " + j.Beside}, Courses: j.Courses, Crossed: j.Crossed, Sources: j.Sources,
		Steps: j.Steps, Reasons: j.Reasons, Accounts: j.Accounts}
}

// Status is refused if any area is, else stopped if any is or a joint crosses a limit,
// else designed.
func (a *Areas) Status() Status {
	has := func(status Status) bool {
		return slices.ContainsFunc(a.Sections, func(s *Section) bool { return s.Status == status })
	}
	crossed := slices.ContainsFunc(a.Joints, func(j Joint) bool {
		return slices.ContainsFunc(j.Crossed, func(c Crossed) bool { return c.Variance == "" })
	})
	switch {
	case has(Refused):
		return Refused
	case has(Stopped) || crossed:
		return Stopped
	}
	return Designed
}

// JSON returns the areas as JSON, each section and joint in the forms of [Section.JSON],
// ending in a line break.
func (a *Areas) JSON(forms ...Form) ([]byte, error) {
	out := *a
	out.Sections, out.Joints = slices.Clone(a.Sections), slices.Clone(a.Joints)
	for i, s := range out.Sections {
		var err error
		if out.Sections[i], err = s.in(forms); err != nil {
			return nil, err
		}
	}
	for i := range out.Joints {
		j := &out.Joints[i]
		short, err := j.Section().in(forms)
		if err != nil {
			return nil, err
		}
		j.Courses, j.Sources, j.Steps, j.Reasons, j.Accounts = short.Courses, short.Sources, short.Steps, short.Reasons, short.Accounts
	}
	return encode(out, forms)
}

// UnmarshalJSON reads areas in any of their forms. The error wraps [ErrForm] if it is
// another document, or of a version that this library does not know.
func (a *Areas) UnmarshalJSON(data []byte) error {
	type plain Areas
	var out plain
	if err := decode("areas", data, &out); err != nil {
		return err
	}
	if out.Schema != AreasSchema || out.Version != Version {
		return fmt.Errorf("read areas: %w: it is %q of version %d; wanted %q of version %d", ErrForm, out.Schema, out.Version, AreasSchema, Version)
	}
	*a = Areas(out)
	return nil
}
