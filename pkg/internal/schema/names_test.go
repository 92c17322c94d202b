package schema_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/schema"
	"example.com/groundrule/pkg/rulebook"
)

// knowing is the schema of a kind of file that knows the standard's names and those
// of the example company.
func knowing(t *testing.T, kind string) *schema.Schema {
	t.Helper()
	plain, err := groundrule.Standard()
	require.NoError(t, err)
	book, err := groundrule.OpenStandard(groundrule.AsOf(rulebook.DateOf(time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC))),
		groundrule.WithAmendments(rulebook.Layer{FS: os.DirFS("../../../examples/wrenfold/amendments")}))
	require.NoError(t, err)
	s, ok := schema.For(kind, book.Table())
	require.True(t, ok)
	s.Know(plain.Rules(), book.Rules())
	return s
}

// A schema that knows the names of a rulebook takes all that the rulebook, its
// amendments and their trials say, and marks a name that is not there.
func TestKnownNames(t *testing.T) {
	for _, tt := range []struct {
		kind, files string
		slips       []string // file, text and what stands in its place
	}{
		{"chapter", "rules/*.yaml", []string{
			"66-fabric.yaml, columns: [weakest_cbr| columns: [weakest_cbrr", "66-fabric.yaml, none_of: [woven_fabric]| none_of: [woven_fabrik]", "66-fabric.yaml, answers: fabric_class| answers: fabric_klass",
			"85-courses.yaml, thickness: stone_top_thickness| thickness: stone_top_thicknes", "70-surface.yaml, source: open_edges| source: open_edge", "60-base.yaml, source: icpi_tolerances, minimum base| source: icpi_tolerance, minimum base",
			"30-materials.yaml, kind: edge| kind: egde"}},
		{"trial", "rules/trials/*.yaml", []string{"46-soft-ground.yaml, cautions: [SOFT-GROUND]| cautions: [SOFT-GRUOND]", "10-practice.yaml, answers: {stone_depth:| answers: {stone_dept:"}},
		{"amendment", "examples/wrenfold/amendments/*.yaml", []string{
			"10-geogrid.yaml, setting: grid_cover| setting: grid_kover", "10-geogrid.yaml, rule: NEED-OVER-WOVEN| rule: NEED-OVER-WOVE", "10-geogrid.yaml, check: GRID-COVER| check: GRID-COVERED", "20-stone.yaml, kind: stone| kind: stones",
			"30-thickness-table.yaml, after: NEED-STREET| after: NEED-STREETS", "30-thickness-table.yaml, columns: [use.carries_vehicles| columns: [use.carries_vehicle"}},
	} {
		t.Run(tt.kind+" "+tt.files, func(t *testing.T) {
			s := knowing(t, tt.kind)
			files, err := filepath.Glob(filepath.FromSlash("../../../" + tt.files))
			require.NoError(t, err)
			require.NotEmpty(t, files)
			texts := map[string]string{}
			for _, file := range files {
				data, err := os.ReadFile(file)
				require.NoError(t, err)
				texts[filepath.Base(file)] = string(data)
				require.Empty(t, validate(s, instance(t, data)).faults, file)
			}
			for _, slip := range tt.slips {
				file, change, _ := strings.Cut(slip, ", ")
				from, to, _ := strings.Cut(change, "| ")
				require.Contains(t, texts[file], from)
				before := validate(s, instance(t, []byte(texts[file]))).faults
				after := validate(s, instance(t, []byte(strings.Replace(texts[file], from, to, 1)))).faults
				require.Greater(t, len(after), len(before), slip)
			}
		})
	}
}
