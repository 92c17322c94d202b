package rulebook

import (
	"fmt"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

type mapSite map[string]any

func (m mapSite) Input(n string) (any, bool) { v, ok := m[n]; return v, ok }

func TestSmoke(t *testing.T) {
	const file = `chapter: one
about: smoke
vocabularies:
  grid:
    about: kinds
    words: {no_grid: no grid, biaxial: biaxial grid}
  base_type:
    about: bases
    words: {dense: dense, panel: panel}
  course_kind:
    about: c
    words: {stone: stone}
settings:
  cover_least: {value: 4 in, at_least: 4 in, because: x, source: practice}
terms:
  soft: {is: bool, about: soft ground, value: cbr < 3 || wet, source: practice}
  wet: {is: bool, about: wet, value: known(water) && water < inches(24), source: practice}
decisions:
  cbr:
    asks: How strong is the ground?
    answers: number
    take: first
    rules:
      - {rule: CBR-READ, when: known(soil.cbr), answer: soil.cbr, because: read, source: practice, standing: measured}
      - {rule: CBR-NONE, answer: 2, because: presumed, source: practice, standing: presumed}
  grid_kind:
    asks: Which grid?
    answers: grid
    take: first
    rules:
      - {rule: G1, when: cbr < 1 && depth > cover_least, answer: no_grid, because: "at CBR {cbr}", source: practice}
      - {rule: G2, when: soft, answer: biaxial, because: "at CBR {cbr} with {depth}", source: practice}
      - {rule: G3, answer: no_grid, because: none, source: practice}
  depth:
    asks: how deep
    answers: length
    take: largest
    rules:
      - {rule: D1, answer: inches(4), because: x, source: practice}
      - {rule: D2, when: cbr < 3, answer: inches(4) * 2, because: x, source: practice}
courses:
  - {course: base, label: Base, is: stone, because: x, source: practice, attributes: {thickness: depth}}
`
	setup := Setup{Inputs: []Input{{Name: "soil.cbr", Kind: value.NumberKind}, {Name: "water", Kind: "length"}}}
	book, err := Open(fstest.MapFS{"a.yaml": {Data: []byte(file)}}, setup)
	require.NoError(t, err)
	out, err := book.Run(mapSite{"soil.cbr": 2.0, "water": quantity.Inches(20)}, nil)
	require.NoError(t, err)
	for _, d := range out.Decided {
		fmt.Println(d.Decision.Name, d.Answer.Text(quantity.US), d.Rule.ID, d.States)
	}
	fmt.Println(out.Deciding(out.Decided[len(out.Decided)-1].Rule.when))
	bad := `chapter: one
about: smoke
vocabularies:
  grid:
    about: kinds
    words: {no_grid: no grid, biaxial: biaxial grid}
  base_type:
    about: bases
    words: {dense: dense, panel: panel}
decisions:
  a:
    asks: How strong is the ground?
    answers: number
    take: first
    rules:
      - {rule: CBR-READ, when: soil.cbr > 3, answer: soil.cbr, because: read, source: practice, standing: measured}
      - rule: X2
        when: >
          known(water)
          && water > 6
          || base_type == 3
        answer: 6 in
        because: no {waterr}
        source: practise
      - {rule: X3, when: "g == dense", answer: inches(6), because: x, source: practice}
      - {rule: X4, when: "g == biaxal && known(water) && water + psi(3) > inches(3)", answer: "g == biaxial ? 3 : 4", because: x, source: practice}
      - {rule: X5, when: "wheel(3) && inches(mm(3)) > inches(3) && soil.cbrr > 3", answer: 3, because: x, source: practice}
  g:
    asks: g
    answers: grid
    take: first
    rules:
      - {rule: X6, answer: biaxial, because: x, source: practice}
`
	_, err = Open(fstest.MapFS{"a.yaml": {Data: []byte(bad)}}, setup)
	fmt.Println(err)
}
