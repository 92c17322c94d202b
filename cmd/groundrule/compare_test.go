package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestCompare holds what is told of options and of two jobs.
func TestCompare(t *testing.T) {
	example := func(name string) string { return filepath.Join("..", "..", "examples", "jobs", name+".yaml") }
	patio, walk := example("patio-on-stiff-clay"), example("walk-on-sand")
	prices := filepath.Join(t.TempDir(), "prices.yaml")
	require.NoError(t, os.WriteFile(prices, []byte("prices: Little\ncompany: Ours\ndated: 2026-01-05\nfrom: 2026-03-01\nuntil: 2026-12-31\ncurrency: USD\nitems:\n  stone_dense_base: {price: 24.50 per ton}\noverhead: 10 %\nmarkup: 10 %\n"), 0o600))
	odd := filepath.Join(t.TempDir(), "odd.yaml")
	require.NoError(t, os.WriteFile(odd, []byte("prices: Odd\ncompany: Ours\ndated: 2026-01-05\nfrom: 2026-03-01\nuntil: 2026-12-31\ncurrency: USD\nitems:\n  stone_dens_base: {price: 24.50 per ton}\noverhead: 10 %\nmarkup: 10 %\n"), 0o600))
	full := filepath.Join(t.TempDir(), "section.json")
	require.NoError(t, os.WriteFile(full, []byte(try("", "design", walk, "--json=full,takeoff").out), 0o600))
	for _, c := range []struct {
		name, why, in string
		args          []string
		code          int
		says          []string
	}{
		{"options", "the job as it is comes first, and each option says what it gives and lacks", "", []string{"compare", patio}, 0,
			[]string{"The job as it is              9-3/8 in", "Open-graded base             12-3/8 in", "Foam panels                   refused by PANEL-IN-FROST", "stopped by NEED-NOT-LESS",
				"  Lacks: Stone spreads over a soft spot that nobody found, and the pavers settle\n", "Differs: 6 in more stone; a second geogrid"}},
		{"metric", "thicknesses are in the measure that is asked for", "", []string{"compare", patio, "--units", "si"}, 0, []string{"235 mm"}},
		{"with prices", "a price that is not whole says so, and no share is made of it", "", []string{"compare", patio, "--prices", prices, "--as-of", "2026-04-01"}, 0,
			[]string{"days          price", "The price list lacks prices, so that what it adds to the price is not known."}},
		{"an item that nothing is bought as", "the list is wrong, whoever reads it", "", []string{"compare", patio, "--prices", odd, "--as-of", "2026-04-01"}, 2, []string{""}},
		{"the same, asked", "money is told of questions too", "", []string{"ask", patio, "--prices", odd, "--as-of", "2026-04-01"}, 2, []string{""}},
		{"the same, priced", "and of the job", "", []string{"price", patio, "--prices", odd, "--as-of", "2026-04-01"}, 2, []string{""}},
		{"a refused job", "its options may be designed where it is not", "", []string{"compare", example("patio-on-panels"), "--units", "us"}, 0, []string{"The job as it is"}},
		{"two jobs", "what differs, by which rules, and what makes the difference", "", []string{"compare", patio, walk}, 0,
			[]string{"First: Okafor back patio: a dig 9-3/8 in deep.", "FABRIC\n  - Not laid any more (COURSE-fabric)", "By: soil class by SOIL-WORD in place of SOIL-REPORTED"}},
		{"a job and a section", "a section that was kept is compared as the job", "", []string{"compare", walk, full}, 0, []string{"Nothing differs."}},
		{"standard input", "a section may come from a pipe", "", []string{"compare", "-", walk}, 2, []string{""}},
		{"no prices on the day", "the day is never taken from the clock", "", []string{"compare", patio, "--prices", prices}, 2, []string{""}},
		{"three files", "two are compared at a time", "", []string{"compare", patio, walk, walk}, 2, []string{""}},
		{"found", "the dig is deeper, and what is in the ground comes out again", "", []string{"design", walk, "--found", "soil.word=", "--found", "soil.cbr=1.5", "--found", "soil.uscs=CL"}, 0,
			[]string{"Before: Ellery front walk", "DIG-ON", "WHAT IS IN THE GROUND ALREADY", "OTHER-FABRIC", "THE DIG\n  - Dig: 9-3/8 in -> "}},
		{"found, refused", "whom to take it to is told", "", []string{"design", patio, "--found", "soil.contaminated=yes"}, 0, []string{"Now: Okafor back patio: refused. ", "can be left out: --found KEY="}},
		{"found in no area", "a job of one area has none to name", "", []string{"design", walk, "--found", "soil.cbr=2", "--in", "x"}, 2, []string{""}},
		{"found what", "a value needs its key", "", []string{"design", walk, "--found", "soft"}, 2, []string{""}},
		{"in, and found nothing", "where alone says nothing", "", []string{"design", walk, "--in", "x"}, 2, []string{""}},
		{"found, unknown key", "the fault is the flag's", "", []string{"design", walk, "--found", "soil.cbrr=2"}, 2, []string{""}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := try(c.in, c.args...)
			require.Equal(t, c.code, got.code, "%s: %s", c.why, got.err)
			require.Equal(t, c.code == 2, got.err != "", c.why)
			for _, says := range c.says {
				require.Contains(t, got.out, says, c.why)
			}
			for line := range strings.Lines(got.out) {
				require.LessOrEqual(t, len([]rune(strings.TrimRight(line, "\n"))), 80, "a line is too long: %s", line)
			}
		})
	}
	var told struct {
		Schema  string
		Options []struct {
			Option, Status string
			Why            []string
			Effects        []map[string]any
		}
	}
	require.NoError(t, json.Unmarshal([]byte(try("", "compare", patio, "--json").out), &told))
	require.Equal(t, "groundrule/options", told.Schema)
	require.Equal(t, "", told.Options[0].Option, "the job as it is comes first")
	require.Equal(t, "OPEN-BASE", told.Options[1].Option)
	require.NotEmpty(t, told.Options[1].Effects)
	require.Equal(t, []string{"PANEL-IN-FROST"}, told.Options[2].Why)
	require.Contains(t, try("", "compare", patio, walk, "--json").out, `"schema":"groundrule/effects"`)
}

// TestDesignStream holds the stream of the command; that of the library is held by
// package groundrule.
func TestDesignStream(t *testing.T) {
	const good = `{"area":"100 sq ft","use":"foot","base":"dense"}`
	lines := filepath.Join(t.TempDir(), "jobs.jsonl")
	require.NoError(t, os.WriteFile(lines, []byte(good+"\n"+good+"\n"), 0o600))
	for _, c := range []struct {
		name, why, in string
		args          []string
		code, lines   int
	}{
		{"standard input", "jobs come from a pipe", good + "\n" + good, nil, 0, 2},
		{"dash", "said so", good, []string{"-"}, 0, 1},
		{"a file", "or from a file", "", []string{lines}, 0, 2},
		{"a bad line", "it has a line in its place, and the exit code tells", good + "\nno job\n" + good, nil, 2, 3},
		{"a refused job", "it is no bad line", strings.Replace(good, "foot", "truck_yard", 1), nil, 0, 1},
		{"metric", "the flag says in which measure a job is built", good, []string{"--units", "si"}, 0, 1},
		{"nothing", "no jobs are no fault", "", nil, 0, 0},
		{"no file", "as for any command", "", []string{filepath.Join(t.TempDir(), "nosuch")}, 2, 1},
		{"two files", "one at a time", "", []string{lines, lines}, 2, 0},
		{"a sheet", "a stream is JSON", "", []string{"--sheet", "crew"}, 2, 0},
		{"what a crew found", "it is of one job", good, []string{"--found", "soil.cbr=2"}, 2, 0},
		{"an area", "as is an area", good, []string{"--in", "walk"}, 2, 0},
		{"a broken rulebook", "each of its faults on a line, before any job", good, []string{"--rules", data("rules"), "--amend", data("amend_broken")}, 2, 2},
		{"indented", "a section over many lines is no line", good, []string{"--json=indented"}, 2, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := try(c.in, append([]string{"design", "--stream"}, c.args...)...)
			require.Equal(t, c.code, got.code, "%s: %s", c.why, got.err)
			require.Equal(t, c.lines, strings.Count(got.out, "\n"), "%s: %s", c.why, got.out)
		})
	}
	require.Contains(t, try(good, "design", "--stream", "--units", "si").out, `"built_in":"millimeters"`)
}
