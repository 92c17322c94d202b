package sheet

import (
	"io"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// Joints writes how the areas of a job join that meet; nothing where none do. The
// only error is that of w.
func Joints(w io.Writer, a *section.Areas, system quantity.System) error {
	if len(a.Joints) == 0 {
		return nil
	}
	p := page{system: system}
	p.heading("WHERE AREAS MEET")
	for i, j := range a.Joints {
		if i > 0 {
			p.blank()
		}
		// The sources of a joint are its own.
		t := &text{page: page{system: system}, s: &section.Section{Sources: j.Sources}, noted: map[string]bool{}}
		p.put(2, "", j.Of+" and "+j.Beside+", along "+p.value(j.Length)+", as seen from "+j.Of)
		for _, c := range j.Crossed {
			if c.Variance == "" {
				p.put(4, "DO NOT BUILD: ", c.Label+" is "+p.value(c.Answer)+"; wanted "+p.sentence(c.Wanted)+" "+p.sentence(c.Because))
			}
		}
		for _, c := range j.Courses {
			for _, attribute := range c.Attributes {
				p.put(4, "- ", attribute.Label+": "+t.value(attribute.Value)+". "+p.sentence(attribute.Because))
				if attribute.Source != "" {
					p.put(6, "", attribute.Rule+". Source: "+t.cited(attribute.Source))
				}
			}
		}
	}
	return p.writeTo(w)
}
