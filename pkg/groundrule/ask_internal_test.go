package groundrule

import (
	"fmt"
	"math/rand/v2"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/site"
)

// many is how many jobs the properties of asking are tried on: few unless asked.
func many(few int) int {
	if n, _ := strconv.Atoi(os.Getenv("K_N")); n > 0 {
		return n
	}
	if os.Getenv("GROUNDRULE_MANY") != "" {
		return 1000
	}
	return few
}

// give writes a value of one job into another.
func give(t *testing.T, f site.Field, from, to *site.Site) bool {
	x, given := f.Get(from)
	if !given {
		return false
	}
	if v := reflect.ValueOf(x); v.Kind() == reflect.Float64 {
		x = v.Float()
	} else if q, ok := x.(interface{ Measure() (float64, error) }); ok {
		_ = q
	}
	require.NoError(t, f.Set(to, x), f.Path)
	return true
}

// truths makes up sites of which everything is known that people are asked: a job of
// the generator, and most of what it leaves open filled in with something that can be
// true beside the rest.
func truths(t *testing.T, b *Book, n int, each func(i int, truth *site.Site)) {
	i := 0
	for job := range jobs.Generate(b.table, n, 11) {
		r := rand.New(rand.NewPCG(7, uint64(i)))
		truth := deep.Copy(job)
		for _, asking := range b.rules.Askings() {
			closed, err := b.table.Close(truth)
			require.NoError(t, err)
			if _, given := closed.Input(asking.Key); given || r.IntN(4) == 0 {
				continue
			}
			first := inside.Run(b.rules, closed)
			if first.Outcome == nil {
				continue
			}
			q, err := b.choices(first, closed, asking)
			require.NoError(t, err)
			if len(q.Choices) == 0 {
				continue
			}
			choice := q.choices[r.IntN(len(q.choices))]
			if choice.outcome == nil || choice.Status != first.Status && r.IntN(5) > 0 {
				continue // most sites are ordinary
			}
			require.NoError(t, truth.Set(asking.Key, choice.Answer))
		}
		closed, err := b.table.Close(truth)
		require.NoError(t, err)
		each(i, closed)
		i++
	}
}

// TestAskReachesTheTruth asks about sites of which nothing is known but what no
// question asks for, answers from the whole truth, and wants the section that the
// whole truth gives, but for lengths within the stated amount.
func TestAskReachesTheTruth(t *testing.T) {
	b, err := Standard()
	require.NoError(t, err)
	fields := map[string]site.Field{}
	keys := 0
	for _, f := range b.table.Inputs() {
		fields[f.Path] = f
		if len(f.From) == 0 {
			keys++
		}
	}
	all, most, wrong, n := 0, 0, 0, many(6)
	truths(t, b, n, func(i int, truth *site.Site) {
		job := deep.Copy(truth)
		for _, asking := range b.rules.Askings() {
			require.NoError(t, job.Set(asking.Key, ""))
		}
		var unknown, said []string
		count := 0
		for {
			questions, err := b.Ask(job, unknown...)
			require.NoError(t, err)
			if len(questions) == 0 {
				break
			}
			count++
			q := questions[0]
			if !give(t, fields[q.Key], truth, job) {
				unknown = append(unknown, q.Key)
			} else {
				said = append(said, q.Key)
			}
			require.Less(t, count, 200)
		}
		all, most = all+count, max(most, count)
		closed, err := b.table.Close(job)
		require.NoError(t, err)
		o, err := b.otherwise(inside.Run(b.rules, closed), truth)
		require.NoError(t, err)
		if o.matters(b.asksFor()) {
			wrong++
			x, _ := site.Write(truth)
			fmt.Printf("%d: asked %v: unknown %v: %v\n%s\n", i, said, unknown, o.Differs, x)
		}
	})
	t.Logf("%d sites: %.1f questions on the average, at most %d, of %d keys", n, float64(all)/float64(n), most, keys)
	require.Zero(t, wrong)
	require.Less(t, most, keys)
	_ = strings.Join
}
