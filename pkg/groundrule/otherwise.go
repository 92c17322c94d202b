package groundrule

import (
	"maps"
	"slices"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// otherwise is what comes of a job with something otherwise, beside the section
// that it has now.
type otherwise struct {
	section.Otherwise
	// Outcome is nil where a calculation refused the job.
	outcome *engine.Outcome
	// length is the greatest difference of a length, and other reports whether
	// anything differs that is not one.
	length quantity.Length
	other  bool
	// by is that difference of a thickness which is the greatest, and of what it is.
	by quantity.Length
	of string
	// job is what the outcome is of.
	job *site.Site
	// cautions are those that come with it; nobody is asked for their sake.
	cautions []section.Sentence
}

// told is all that differs, the cautions last.
func (o *otherwise) told() section.Otherwise {
	out := o.Otherwise
	out.Differs = slices.Concat(out.Differs, o.cautions)
	return out
}

// with returns a copy of a job with other values, each written as in a job file
// under its path. The error is a [*site.Error] where the job cannot have them.
func (b *Book) with(job *site.Site, values ...[2]string) (*site.Site, error) {
	out := deep.Copy(job)
	for _, v := range values {
		if err := out.Set(v[0], v[1]); err != nil {
			return nil, err
		}
	}
	return b.one(out)
}

// Otherwise tells what comes of a job with other values, each written as in a job
// file under its path, beside what comes of it as it is; both sections are made in
// the forms. The errors are those of [Book.Design], but that a section that is refused
// is none.
func (b *Book) Otherwise(job *site.Site, values map[string]string, forms ...section.Form) (section.Otherwise, error) {
	job, first, err := b.first(job)
	if err != nil {
		return section.Otherwise{}, err
	}
	var pairs [][2]string
	for _, path := range slices.Sorted(maps.Keys(values)) {
		pairs = append(pairs, [2]string{path, values[path]})
	}
	other, err := b.with(job, pairs...)
	if err != nil {
		return section.Otherwise{}, err
	}
	asIs, err := b.beside(first, nil, job, forms)
	if err != nil {
		return section.Otherwise{}, err
	}
	return b.beside(first, asIs.Section, other, forms)
}

// otherwise designs a job once more, with something in it otherwise than in the
// job that ran first, and tells in short words what differs: the weightiest first.
// The error is a [*rulebook.RunError] if a rule comes to no answer.
func (b *Book) otherwise(first inside.Ran, job *site.Site) (otherwise, error) {
	return b.came(first, first.Otherwise(b.rules, job), job)
}

// came tells what differs where the job has run already.
func (b *Book) came(first, ran inside.Ran, job *site.Site) (otherwise, error) {
	if ran.Status == "" {
		return otherwise{}, ran.Err
	}
	out := otherwise{Otherwise: section.Otherwise{Status: ran.Status, Why: ran.Why}, outcome: ran.Outcome, job: job}
	d := &differing{teller: &teller{b: b, o: ran.Outcome}, before: first.Outcome, out: &out}
	switch {
	case ran.Status != section.Designed:
		if first.Status == ran.Status && slices.Equal(first.Why, ran.Why) {
			return out, nil
		}
		out.other = true
		out.Differs, out.Who = d.ending(ran)
		return out, d.err
	case first.Status == section.Refused:
		out.other = true
		out.Differs = append(out.Differs, b.told("differs_section", "depth", value.Measured(differ.Depth(ran.Outcome))))
		return out, nil
	}
	out.Depth = value.Measured(differ.Depth(ran.Outcome))
	if first.Status == section.Stopped {
		out.other = true
		out.Differs = append(out.Differs, b.told("differs_not_stopped"))
	}
	d.thicknesses()
	d.present()
	d.attributes()
	out.Differs = append(out.Differs, d.sorted()...)
	return out, d.err
}

// matters reports whether more differs than lengths of no more than an amount.
func (o *otherwise) matters(amount quantity.Length) bool { return o.other || o.length > amount }
