package deep_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/groundrule/pkg/internal/deep"
)

type leaf struct {
	Name string
	held []int
}

type tree struct {
	Leaf  leaf
	By    *leaf
	All   []leaf
	Named map[string][]int
	None  []int
	Nil   *leaf
}

func sample() tree {
	return tree{Leaf: leaf{"a", []int{1}}, By: &leaf{Name: "b"}, All: []leaf{{Name: "c"}}, Named: map[string][]int{"d": {4}}}
}

// TestCopySharesNothing changes whatever a copy leads to, and looks at the
// original.
func TestCopySharesNothing(t *testing.T) {
	first := sample()
	second := deep.Copy(&first)
	opt := cmp.AllowUnexported(leaf{})
	if diff := cmp.Diff(first, *second, opt); diff != "" {
		t.Fatalf("the copy differs (-first +copy):\n%s", diff)
	}
	second.Leaf.Name, second.By.Name, second.All[0].Name, second.Named["d"][0] = "x", "x", "x", 9
	second.Named["e"] = nil
	if diff := cmp.Diff(sample(), first, opt); diff != "" {
		t.Errorf("changing the copy changed the first (-was +is):\n%s", diff)
	}
	if second.None != nil || second.Nil != nil {
		t.Error("nothing became something")
	}
}
