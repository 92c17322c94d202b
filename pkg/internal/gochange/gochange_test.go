package gochange

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

// TestChangesOf holds the changes that each kind of code allows.
func TestChangesOf(t *testing.T) {
	cases := []struct {
		name, why, code string
		want            []string
	}{
		{"a comparison", "its bound and its direction are the commonest slips",
			"func f(a, b int) bool { return a < b }",
			[]string{"{ -> { if true { return *new(bool) };", "< -> <=", "< -> >"}},
		{"and", "a condition of two parts may need one of them only",
			"var v = func(a, b bool) bool { return a && b }", []string{"&& -> ||"}},
		{"a sum of numbers", "signs are mistaken for one another", "var v = func(a, b int) int { return a + b }", []string{"+ -> -"}},
		{"a sum of texts", "texts have no difference; it would not compile", "var v = func(a, b string) string { return a + b }", nil},
		{"a sign", "a negative number may be taken for a positive one", "var v = func(a int) int { return -a }", []string{"- -> +"}},
		{"a number with a fraction", "a constant by 3 %, in a float though it is written whole", "var v = 100 * 0.5", []string{"* -> /", "100 -> 103", "0.5 -> 0.515"}},
		{"zero", "3 % of it is nothing", "var v, w float64 = 0, 1", []string{"0 -> 0.03", "1 -> 1.03"}},
		{"a whole number", "it changes by one, and 3 % where that is more", "var v = []int{2, 200}", []string{"2 -> 3", "200 -> 206"}},
		{"an array's length", "it is no value", "var v [4]bool", nil},
		{"true", "a flag is flipped", "var v = true", []string{"true -> false"}},
		{"a variable called true", "it is no flag", "func f(true int) { _ = true }", []string{"{ -> { if true { return };", "_ = true -> if false { _ = true }"}},
		{"an if", "it is left out, or negated", "var v = func(a bool) { if a { } }", []string{"a -> false && (a)", "a -> !(a)"}},
		{"an error check", "it is only left out", "var v = func(err error) { if err != nil { } }", []string{"err != nil -> false && (err != nil)", "!= -> =="}},
		{"a value beside an error", "nobody reads it", "var e error; var v = func() (int, bool, error) { return 1, true, e }", nil},
		{"a value beside an error of another type", "it is an error all the same", "type e struct{}; func (*e) Error() string; var v = func() (int, error) { return 1, &e{} }", nil},
		{"a value beside no error", "it is the answer", "var v = func() (int, error) { return 1, nil }", []string{"1 -> 2"}},
		{"statements", "a call and an assignment are left out, a declaration is not",
			"var v = func(f func()) { x := \"a\"; x = \"b\"; f(); _ = x }",
			[]string{"x = \"b\" -> if false { x = \"b\" }", "f() -> if false { f() }", "_ = x -> if false { _ = x }"}},
		{"a count", "counting down, and not at all", "var v = func(n int) { n++ }", []string{"n++ -> if false { n++ }", "++ -> --"}},
		{"a case", "its statements stand in no block", "var v = func(f func()) { switch { default: f() } }", []string{"f() -> if false { f() }"}},
		{"named results", "each has a zero of its own", "func f() (a, b int, c string) { return }",
			[]string{"{ -> { if true { return *new(int), *new(int), *new(string) };"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			src := "package p\n\n" + c.code + "\n"
			fset := token.NewFileSet()
			file, err := parser.ParseFile(fset, "p.go", src, 0)
			require.NoError(t, err)
			info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}
			_, err = (&types.Config{}).Check("p", fset, []*ast.File{file}, info)
			require.NoError(t, err)
			var got []string
			for _, each := range changesOf(fset, info, file, []byte(src)) {
				got = append(got, src[each.from:each.to]+" -> "+each.text)
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
}

// TestTry tries every change of a small module, in which it is known what
// becomes of each.
func TestTry(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds a module many times")
	}
	dir := t.TempDir()
	for name, text := range map[string]string{
		"go.mod":           "module m\n\ngo 1.26\n",
		"low/low.go":       "package low\n\n// Twice is held by the test here.\nfunc Twice(a int) int { return a + a }\n\n// Less is held by the package that imports this one.\nfunc Less(a int) int { return a - 2 }\n\nfunc unheld(a int) int { return a - 3 }\n\nfunc loop(n int) {\n\tfor n > 0 {\n\t\tn--\n\t}\n}\n",
		"low/low_test.go":  "package low\n\nimport \"testing\"\n\nfunc TestTwice(t *testing.T) {\n\tloop(2)\n\tif Twice(3) != 6 {\n\t\tt.Fatal()\n\t}\n}\n",
		"high/high.go":     "package high\n\nimport \"m/low\"\n\nvar V = low.Less(5)\n",
		"high/v_test.go":   "package high\n\nimport \"testing\"\n\nfunc TestV(t *testing.T) {\n\tif V != 3 {\n\t\tt.Fatal()\n\t}\n}\n",
		"above/a.go":       "package above\n\nimport \"m/high\"\n\nvar V = high.V\n",
		"above/v_test.go":  "package above\n\nimport \"testing\"\n\nfunc TestV(t *testing.T) { _ = V }\n",
		"apart/no_test.go": "package apart\n",
	} {
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o700))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	m, err := openModule(dir)
	require.NoError(t, err)
	low, err := m.named("low")
	require.NoError(t, err)
	require.Equal(t, []string{"m/high"}, m.importers(low, false))
	require.ElementsMatch(t, []string{"m/high", "m/above"}, m.importers(low, true))
	_, err = m.named("lower")
	require.ErrorContains(t, err, "no package in the folder lower")

	s := sample{count: 100, seed: 1, workers: 2, importers: true, least: 5 * time.Second, dir: t.TempDir()}
	r, err := s.try(m, "low", func(string) {})
	require.NoError(t, err)
	got := map[string]outcome{}
	for i, c := range r.drawn {
		place, _, _ := strings.Cut(c.place[strings.Index(c.place, " in ")+4:], " ")
		got[place+": "+strings.TrimSpace(string(r.sources[c.file][c.from:c.to]))+" -> "+c.text] = r.became[i]
	}
	want := map[string]outcome{
		"Twice: { -> { if true { return *new(int) };": noticed,
		"Twice: + -> -": noticed,
		"Less: { -> { if true { return *new(int) };": noticed,
		"Less: - -> +": noticed,
		"Less: 2 -> 3": noticed,
		"unheld: { -> { if true { return *new(int) };": survived,
		"unheld: - -> +":                   survived,
		"unheld: 3 -> 4":                   survived,
		"loop: { -> { if true { return };": survived,
		"loop: > -> >=":                    survived,
		"loop: > -> <":                     survived,
		"loop: 0 -> 1":                     survived,
		"loop: n-- -> if false { n-- }":    timedOut,
		"loop: -- -> ++":                   timedOut,
	}
	require.Empty(t, cmp.Diff(want, got))
	noticed, tried := r.counts()
	require.Equal(t, []int{7, 14}, []int{noticed, tried})
	require.Contains(t, r.String(), "low: 14 of 14 tried (of 14 that there are), 0 did not compile; noticed 7, 50 %\n")
	require.Contains(t, r.String(), "survived low.go:9 in unheld: `3` -> `4` (number) | `func unheld(a int) int { return a - 3 }`\n")

	few := sample{count: 3, seed: 2, workers: 1, least: time.Minute, dir: t.TempDir()}
	one, err := few.try(m, "low", func(string) {})
	require.NoError(t, err)
	again, err := few.try(m, "low", func(string) {})
	require.NoError(t, err)
	require.Len(t, one.drawn, 3)
	require.Equal(t, one.String(), again.String(), "a seed draws the same sample")
}
