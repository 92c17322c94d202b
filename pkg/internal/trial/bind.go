package trial

import (
	"errors"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

// binder binds the names and values of trials to a rulebook.
type binder struct {
	book   *engine.Book
	table  *site.Table
	faults diagnostic.List
	names  map[string][]string // of each sort of entry
	ruleOf map[string]*engine.Decision
	given  map[string]string // the sort of each entry that is given or not
}

// given are the sorts of entries that are given on a job, or not.
var given = []string{"caution", "quantity", "step", "tolerance", "stop", "option", "remedy", "client"}

var givenSorts = strings.Join(given[:len(given)-1], ", ") + " or " + given[len(given)-1]

func newBinder(book *engine.Book) *binder {
	b := &binder{book: book, table: inside.Table(book), names: map[string][]string{}, ruleOf: map[string]*engine.Decision{}, given: map[string]string{}}
	book.Contents().Each(func(sort, name, _ string, _ *rulebook.Amended) {
		b.names[sort] = append(b.names[sort], name)
		if slices.Contains(given, sort) {
			b.given[name] = sort
			b.names[givenSorts] = append(b.names[givenSorts], name)
		}
	})
	for _, d := range book.Decisions() {
		for _, r := range d.Rules {
			b.ruleOf[r.ID] = d
		}
	}
	// A job that no calculation reaches is refused by the rule that asked for it.
	b.names["refusal"] = slices.Concat(b.names["refusal"], b.names["rule"], []string{inside.NotCalculated})
	return b
}

// bound is a trial with everything that it names found in the rulebook.
type bound struct {
	trial *Trial
	job   *site.Site   // with the words of the rulebook
	book  *engine.Book // with the trial's settings
	wants []want
}

func (b *binder) bind(t *Trial) bound {
	job, err := b.table.Close(t.Job)
	var wrong *site.Error
	if errors.As(err, &wrong) {
		b.faults = append(b.faults, wrong.Faults...)
	}
	if at, written := job.PlaceOf("areas"); written {
		b.faults.Addf(at, site.CodeContradiction, "a trial is of one area: give a trial of its own to each").Path = "areas"
	}
	return bound{trial: t, job: job, book: b.withSettings(t), wants: b.wants(t.expect)}
}

// fault reports what is wrong with a value.
func (b *binder) fault(n *document.Node, code diagnostic.Code, format string, args ...any) *diagnostic.Diagnostic {
	d := b.faults.Addf(n.Place(), code, format, args...)
	d.Found, d.Width = n.Text(), n.Width()
	if n.Shape() != document.Scalar {
		d.Found = n.Shape().String()
	}
	return d
}

// among reports whether a node holds one of the names, which is a fault if not.
func (b *binder) among(n *document.Node, what string, all []string) bool {
	if slices.Contains(all, n.Text()) {
		return true
	}
	d := b.fault(n, CodeName, "no %s is called %s", what, n.Text())
	d.Wanted, d.Nearest = "a "+what+" of the rulebook", diagnostic.Nearest(n.Text(), all)
	return false
}

// known returns the names of a list that some entry of a sort has.
func (b *binder) known(l names, sort string) []*document.Node {
	var out []*document.Node
	for _, n := range l.items {
		if b.among(n, sort, b.names[sort]) {
			out = append(out, n)
		}
	}
	return out
}

// decision finds a decision by its name, nil if there is none.
func (b *binder) decision(n *document.Node) *engine.Decision {
	if !b.among(n, "decision", b.names["decision"]) {
		return nil
	}
	d, _ := b.book.Decision(n.Text())
	return d
}

// withSettings returns the book with the settings of a trial.
func (b *binder) withSettings(t *Trial) *engine.Book {
	var tried []engine.Tried
	for _, p := range t.settings {
		if !b.among(p.key, "setting", b.names["setting"]) {
			continue
		}
		s, _ := b.book.Setting(p.key.Text())
		if one, ok := b.tried(p.value, s); ok && b.keepsToLimits(p.value, one) {
			tried = append(tried, one)
		}
	}
	if len(tried) == 0 {
		return b.book
	}
	book, err := b.book.Trying(tried...)
	if err != nil {
		b.faults.Addf(t.Place, CodeValue, "%v", err)
		return b.book
	}
	return book
}

// keepsToLimits reports a value that crosses a limit of its setting without
// permission, and permission where no limit is crossed.
func (b *binder) keepsToLimits(n *document.Node, one engine.Tried) bool {
	if _, err := b.book.Trying(one); err != nil {
		b.fault(n, CodeLimit, "%v", err).Wanted = "a value within the limits, or {by_variance: VALUE}"
		return false
	}
	if !one.Variance {
		return true
	}
	one.Variance = false
	if _, err := b.book.Trying(one); err == nil {
		b.fault(n.Fields()[0].Value, CodeLimit, "%s crosses no limit at this value, and needs no variance", one.Setting).Wanted = "a value beyond the limits, or one without by_variance"
		return false
	}
	return true
}

// tried reads the value to try a setting at.
func (b *binder) tried(n *document.Node, s *engine.Setting) (out engine.Tried, ok bool) {
	out.Setting = s.Name
	fields := n.Fields()
	switch {
	case len(fields) == 1 && fields[0].Key.Text() == "by_variance":
		out.Variance = true
		out.Value, ok = b.literal(fields[0].Value, s.Value.Kind(), s.Name)
	case n.Shape() == document.Mapping:
		out.Value, ok = b.material(n, s)
	default:
		out.Value, ok = b.literal(n, s.Value.Kind(), s.Name)
	}
	return out, ok
}
