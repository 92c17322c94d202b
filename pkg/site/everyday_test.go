package site_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/site"
)

// TestRepairs reads what people write first, each as line 4 of a sound job or in
// place of one of its lines. It stays refused, and the repair is at hand.
func TestRepairs(t *testing.T) {
	tests := []struct {
		name, why, text string
		path            string
		nearest         string
		says            string // a part of the error
	}{
		{"use: patio", "the job is called so", "area: 400 sq ft\nuse: patio\nbase: dense\n", "use", "foot", "wanted use: foot (people on foot: a patio, a walk, a pool surround; no vehicle ever), or one of foot, car_driveway"},
		{"use: walk", "so is this one", "area: 400 sq ft\nuse: Walk\nbase: dense\n", "use", "foot", "foot (people on foot"},
		{"use: driveway", "of cars, or of trucks too?", "area: 400 sq ft\nuse: driveway\nbase: dense\n", "use", "car_driveway", "wanted use: car_driveway (a home's driveway: cars and light pick-ups)"},
		{"base: gravel", "dense or open?", "area: 400 sq ft\nuse: foot\nbase: gravel\n", "base", "dense", "base: dense (dense-graded crushed stone"},
		{"base: crushed stone", "the same with a space", "area: 400 sq ft\nuse: foot\nbase: crushed stone\n", "base", "dense", "compacted in lifts"},
		{"base: open graded", "the trade's own name", "area: 400 sq ft\nuse: foot\nbase: open-graded\n", "base", "open", "base: open (open-graded clean stone, through which water drains)"},
		{"soil word", "what everyone calls it", least + "soil: {word: dirt}\n", "soil.word", "unknown", "word: unknown (nobody has looked)"},
		{"slope", "short for the surface's", least + "slope: 2 %\n", "slope", "surface_slope", `unknown key "slope" in a job`},
		{"key of a group", "it belongs under soil", least + "cbr: 3\n", "cbr", "soil.cbr", `did you mean "soil.cbr"?`},
		{"key of a group by another name", "it belongs under water", least + "water_table: 4 ft\n", "water_table", "water.groundwater", `did you mean "water.groundwater"?`},
		{"key spelled wrong", "the nearest in its own group", least + "soil: {liquidlimit: 30}\n", "soil.liquidlimit", "liquid_limit", `unknown key "liquidlimit" in soil`},
		{"key of no one", "nothing is near", least + "xyzzy: 3\n", "xyzzy", "", `unknown key "xyzzy" in a job`},
		{"soil: clay", "a word where a group belongs", least + "soil: clay\n", "soil", "", "soil needs indented lines under it, such as `word: clay`"},
		{"rain: yes", "a yes where a group belongs", least + "rain: yes\n", "rain", "", "such as `storage: yes`"},
		{"frost: 40 in", "a length where a group belongs", least + "frost: 40 in\n", "frost", "", "such as `depth: 40 in`"},
		{"soil: a list", "no key takes it", least + "soil: [1]\n", "soil", "", "such as `word: clay`"},
		{"water: x", "nor this", least + "water: x\n", "water", "", "such as `groundwater: 5 ft`"},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			_, err := standard(t).Read("job.yaml", []byte(tc.text))
			var bad *site.Error
			require.ErrorAs(t, err, &bad, tc.why)
			require.Len(t, bad.Faults, 1)
			require.Equal(t, tc.path, bad.Faults[0].Path)
			require.Equal(t, tc.nearest, bad.Faults[0].Nearest)
			require.Contains(t, err.Error(), tc.says)
		})
	}
}

// Each everyday word is refused, and the word that it stands for is right.
func TestEverydayWordsAreNoWords(t *testing.T) {
	for path, words := range map[string][]string{
		"use":       {"patio", "walkway", "driveway", "cars", "rv", "parking lot", "street", "fire truck", "dock"},
		"base":      {"gravel", "crusher run", "clean stone", "permeable", "foam panel"},
		"soil.word": {"ledge", "muck", "black dirt", "rubble", "not sure"},
	} {
		for _, word := range words {
			t.Run(word, func(t *testing.T) {
				var one *diagnostic.Diagnostic
				require.ErrorAs(t, standard(t).Check(path, word), &one)
				require.Equal(t, site.CodeWord, one.Code)
				require.NoError(t, standard(t).Check(path, one.Nearest))
			})
		}
	}
}
