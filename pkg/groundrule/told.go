package groundrule

import (
	"bytes"
	"cmp"
	"encoding/json"
	"strings"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// withoutEffect tells each value of the job without which everything is the same:
// the courses, what was checked, what is cautioned, and what is assumed. It is
// found by designing the job without it.
func (t *teller) withoutEffect() {
	if len(t.o.Refusals) > 0 {
		return // nothing was designed that it could have an effect on
	}
	for _, f := range t.b.fields {
		if f.Required || !f.Rules || strings.Contains(f.Path, "[]") || f.Form == site.TextForm {
			continue // a text says where the job is, for people too
		}
		if _, given := t.job.Input(f.Path); !given {
			continue
		}
		without := deep.Copy(t.job)
		if err := without.Set(f.Path, ""); err != nil || without.Validate() != nil {
			continue
		}
		if !t.o.Alike(without, inside.Overrides(without), t.s.Status == section.Designed) {
			continue
		}
		if rest, err := json.Marshal(without); err == nil && !bytes.Equal(t.s.Job.Input, rest) { // or it is worked out from others
			t.notThere("input", f.Path, cmp.Or(t.b.rules.Texts().Names[f.Path], f.Label), t.o.PassedBy(f.Path))
		}
	}
}
