package engine_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

// spoken are what the small rulebook says beside its rules, for amendments to take
// away.
const spoken = `add:
  - {refusal: TOO-WEAK, when: known(cbr) && cbr < 2, says: "Too weak.", who: An engineer., source: company}
  - {caution: MARKS, owed: true, says: Have lines marked., source: company}
  - {caution: MIND, when: known(cbr) && cbr < 4, says: "Mind the mud.", source: company}
  - {check: STRONG, asks: "Is it strong?", holds: "known(cbr) && cbr > 3", failing: stop, says: Dig deeper., because: It must., source: company}
  - {term: soft, is: bool, about: whether it is soft, value: known(cbr) && cbr < 4, because: So., source: company}
  - {limit: FAR, to: depth, when: known(cbr) && cbr > 60, at_most: inches(5), because: Too deep., source: company}
  - {caution: NEAR, when: known(cbr) && 1 / (cbr - 7) > 9, says: It is near., source: company}
  - {caution: SOFT, when: soft, says: It is soft., source: company}
`

// TestLifted holds that what an amendment took away is told where it would have
// spoken, and nowhere else.
func TestLifted(t *testing.T) {
	permit := func(id string) string {
		return "variances:\n  - {variance: v, retires: " + id + ", who: O, why: W., until: 2027-01-01}\n"
	}
	for _, c := range []struct {
		name, why, change string
		cbr               float64
		want              []string
	}{
		{"refusal", "the job would have been refused", "retire:\n  - {refusal: TOO-WEAK, because: b}\n" + permit("TOO-WEAK"), 1, []string{"refusal TOO-WEAK: Too weak."}},
		{"refusal that would not speak", "ground that is strong", "retire:\n  - {refusal: TOO-WEAK, because: b}\n" + permit("TOO-WEAK"), 5, nil},
		{"check", "it would have failed", "retire:\n  - {check: STRONG, because: b}\n" + permit("STRONG"), 2.5, []string{"check STRONG: Dig deeper."}},
		{"check that would pass", "nothing is lost", "retire:\n  - {check: STRONG, because: b}\n" + permit("STRONG"), 5, nil},
		{"caution that every section owes", "on every job", "retire:\n  - {caution: MARKS, because: b}\n" + permit("MARKS"), 5, []string{"caution MARKS: Have lines marked."}},
		{"caution", "no permission is needed for it", "retire:\n  - {caution: MIND, because: b}\n", 3, []string{"caution MIND: Mind the mud."}},
		{"rule", "it would have answered", "retire:\n  - {rule: GRID-WEAK, because: b}\n", 2.5, []string{"rule GRID-WEAK: Weak."}},
		{"rule that would not hold", "its condition fails", "retire:\n  - {rule: GRID-WEAK, because: b}\n", 5, nil},
		{"rule that another outdoes", "6 in is more than 4", "retire:\n  - {rule: DEPTH-LEAST, because: b}\n", 5, nil},
		{"check weakened", "it passes where the old one would not", "replace:\n  - {check: STRONG, set: {holds: known(cbr) && cbr > 2, because: Ours., source: company}}\n" + permit("STRONG"), 2.5, []string{"check STRONG: Dig deeper."}},
		{"check weakened, and failing all the same", "the new one says so", "replace:\n  - {check: STRONG, set: {holds: known(cbr) && cbr > 9, because: Ours., source: company}}\n" + permit("STRONG"), 2.5, nil},
		{"said again", "what is as before is no change", "replace:\n  - {check: STRONG, set: {failing: stop, says: Dig down., because: Ours., source: company}}\n", 2.5, nil},
		{"words alone", "the caution is given in other words", "replace:\n  - {caution: MARKS, set: {says: Call., source: company}, because: b}\n", 5, nil},
		{"caution by another name", "what it was is told where it was given", "replace:\n  - {caution: MIND, with: {caution: MUD, when: known(cbr) && cbr < 1, says: Mud., source: company}, because: b}\n", 3, []string{"caution MIND: Mind the mud."}},
		{"course", "it would have been laid", "retire:\n  - {course: base, because: b}\n", 5, []string{"course base: It bears."}},
		{"limit", "the answer is beyond it", "retire:\n  - {limit: FAR, because: b}\n" + permit("FAR"), 70, []string{"limit FAR: Too deep."}},
		{"limit that does not apply", "its condition fails", "retire:\n  - {limit: FAR, because: b}\n" + permit("FAR"), 5, nil},
		{"limit widened", "the answer is within the new one", "replace:\n  - {limit: FAR, set: {at_most: inches(9), because: Ours., source: company}}\n" + permit("FAR"), 70, []string{"limit FAR: Too deep."}},
		{"limit widened, and crossed all the same", "the new one says so", "replace:\n  - {limit: FAR, set: {at_most: inches(5.5), because: Ours., source: company}}\n" + permit("FAR"), 70, nil},
		{"on a job that is refused", "nothing else is asked of it", "retire:\n  - {caution: MIND, because: b}\n", 1, nil},
		{"check on a job that is refused", "nor of a check", "retire:\n  - {check: STRONG, because: b}\n" + permit("STRONG"), 1, nil},
		{"comes to an error", "it is told, since nobody can say", "retire:\n  - {caution: NEAR, because: b}\n", 7, []string{"caution NEAR: "}},
		{"what it reads is gone", "it is told on every job, since nobody can say", "retire:\n  - {caution: SOFT, because: b}\n  - {term: soft, because: b}\n", 50, []string{"caution SOFT: "}},
	} {
		t.Run(c.name, func(t *testing.T) {
			book, err := amendedBook("2026-03-01", head+spoken, second+"over: [first]\n"+c.change)
			require.NoError(t, err, c.why)
			out, err := book.Run(given{"cbr": c.cbr}, nil)
			require.NoError(t, err, c.why)
			var got []string
			for _, l := range out.Lifted() {
				said, err := out.Say(l.Says)
				require.NoError(t, err)
				got = append(got, l.Sort+" "+l.ID+": "+said.Text(quantity.US))
				require.Equal(t, "second", l.Amended.By.Name)
				require.Equal(t, l.Unknown, l.Says == nil)
			}
			require.Len(t, book.Lifted(), 1, "it is told of the rulebook on whatever job")
			require.Len(t, book.Variances(), strings.Count(c.change, "variances:"), "what permits it is told")
			require.Equal(t, c.want, got, c.why)
		})
	}
}

// TestOwedWithoutPermission holds that nothing which every job is owed goes
// without a variance, by whatever change.
func TestOwedWithoutPermission(t *testing.T) {
	for _, c := range []struct{ name, why, change, want string }{
		{"refusal", "a truck yard would become a section to build", "retire:\n  - {refusal: TOO-WEAK, because: b}\n", "second retires the refusal TOO-WEAK without permission; wanted under variances: {variance: NAME, retires: TOO-WEAK, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}"},
		{"check that stops", "so would what it stopped", "retire:\n  - {check: STRONG, because: b}\n", "second retires the check STRONG without permission"},
		{"caution", "someone would hit a line", "retire:\n  - {caution: MARKS, because: b}\n", "second retires the caution MARKS without permission"},
		{"refusal made never to hold", "the same by another way", "replace:\n  - {refusal: TOO-WEAK, set: {when: known(cbr) && cbr < 0, says: No., source: company}, because: b}\n", "second changes the refusal TOO-WEAK without permission"},
		{"check that cautions instead", "the same", "replace:\n  - {check: STRONG, set: {failing: caution, because: x, source: company}}\n", "second changes the check STRONG without permission"},
		{"caution no longer owed", "as a first step", "replace:\n  - {caution: MARKS, set: {owed: false}, because: b}\n", "second changes the caution MARKS without permission"},
		{"caution given on some jobs alone", "the same", "replace:\n  - {caution: MARKS, set: {when: known(cbr) && cbr < 0, says: x, source: company}, because: b}\n", "second changes the caution MARKS without permission"},
		{"retired and added again", "the name stays the old one's", "retire:\n  - {caution: MIND, because: b}\nadd:\n  - {caution: MIND, says: Call., source: company}\n", "the caution MIND is there already; found MIND; wanted another name"},
		{"variance for nothing", "an exception that nobody uses is a slip", "variances:\n  - {variance: v, retires: TOO-WEAK, who: O, why: W., until: 2027-01-01}\n", "nothing that needs this variance is retired or changed; found TOO-WEAK"},
		{"retired, and others read it", "one fault, at the amendment", "retire:\n  - {term: soft, because: b}\n", "ours/b.yaml:8:5: the term soft is retired here, and others read it; found soft; wanted changes of those, or none of it; ours/a.yaml"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := amendedBook("2026-03-01", head+spoken, second+"over: [first]\n"+c.change)
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
}
