package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/section"
)

// fourAreas is a driveway, its apron, a walk and a patio.
var fourAreas = filepath.Join("..", "..", "examples", "jobs", "four-areas.yaml")

// Of a job of several areas each section is written under its name, and then how they
// join; or that of one area.
func TestDesignOfAreas(t *testing.T) {
	got := try("", "design", fourAreas)
	require.Equal(t, exitDone, got.code, got.err)
	at := 0
	for _, part := range []string{"Halloran front and side\n", "\nDRIVEWAY\n", "\nAPRON\n", "\nWALK\n", "\nPATIO\n",
		"\nWHERE AREAS MEET\n", "- driveway and walk, along 48 in.\n  Bottom: a taper.\n  Taper: 5 ft.\n"} {
		next := strings.Index(got.out[at:], part)
		require.GreaterOrEqual(t, next, 0, part)
		at += next
	}
	one := try("", "design", fourAreas, "--in", "walk")
	require.Equal(t, exitDone, one.code, one.err)
	require.True(t, strings.HasPrefix(one.out, "Halloran front and side"), one.out)
	require.NotContains(t, one.out, "WHERE AREAS MEET")

	var a section.Areas
	require.NoError(t, json.Unmarshal([]byte(try("", "design", fourAreas, "--json=full,indented").out), &a))
	require.Len(t, a.Sections, 4)
	require.Len(t, a.Joints, 3)
	require.NotEmpty(t, a.Joints[0].Reasons)
}

// What is decided where areas meet is asked of either of the two; each joint of the area
// answers, and one that it has not does not.
func TestWhyOfJoints(t *testing.T) {
	for _, c := range []struct {
		name, why, area string
		want, not       []string
	}{
		{"of the deeper", "the driveway meets the apron and the walk", "driveway", []string{"WHY joint_edge, on apron and driveway", "WHY joint_edge, on driveway and walk", "Rule BETWEEN-CURB, at"}, nil},
		{"of the shallower", "it is the same joint, seen from the deeper", "apron", []string{"WHY joint_edge, on apron and driveway"}, []string{"driveway and walk", "WHY NOT"}},
		{"of the last", "the patio meets the walk alone, which alone says so", "patio", []string{"WHY joint_edge, on patio and walk"}, []string{"apron"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := try("", "why", fourAreas, "joint_edge", "--in", c.area)
			require.Equal(t, exitDone, got.code, got.err)
			for _, want := range c.want {
				require.Contains(t, got.out, want, c.why)
			}
			for _, not := range c.not {
				require.NotContains(t, got.out, not, c.why)
			}
		})
	}
	got := try("", "why", fourAreas, "stone_need", "--in", "walk")
	require.Contains(t, got.out, "WHY stone_need, on Halloran front and side, walk", "what is of the area alone is told as before")
}

// Each area of a job is compared with its own options, as it is first, and costs what it
// costs by a price list; one that is named stands alone. The client reads them area by area.
func TestCompareAreas(t *testing.T) {
	prices := []string{"--amend", filepath.Join("..", "..", "examples", "wrenfold"), "--prices", filepath.Join("..", "..", "examples", "wrenfold", "prices", "2026.yaml"), "--as-of", "2026-06-01"}
	with := func(args ...string) result { return try("", append(args, prices...)...) }
	got := with("compare", fourAreas)
	require.Equal(t, exitDone, got.code, got.err)
	for _, part := range []string{"driveway", "apron", "walk", "patio"} {
		one := with("compare", fourAreas, "--in", part)
		require.Equal(t, exitDone, one.code, one.err)
		require.Contains(t, one.out, "OPTIONS: Halloran front and side, "+part)
		require.Contains(t, got.out, strings.TrimSpace(one.out), "what is told of it alone is told among the others")
		require.Contains(t, one.out, "price")
	}
	var all struct {
		Options []any
		Areas   []struct {
			Area    string
			Options []struct {
				Option string
				Cost   any
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(with("compare", fourAreas, "--json").out), &all))
	require.Empty(t, all.Options)
	require.Len(t, all.Areas, 4)
	for _, a := range all.Areas {
		require.Empty(t, a.Options[0].Option, "as it is")
		require.NotNil(t, a.Options[0].Cost, a.Area)
		require.NotEmpty(t, a.Options[1].Option)
	}
	client := with("design", fourAreas, "--sheet", "client")
	require.Equal(t, exitDone, client.code, client.err)
	for _, part := range []string{"DRIVEWAY", "APRON", "WALK", "PATIO"} {
		require.Contains(t, client.out, part+": WHAT WAS COMPARED", "its options stand under its name")
	}
}

// A command that takes one area of a job says so, and which there are.
func TestCommandsOfOneArea(t *testing.T) {
	const areas = "; they are driveway, apron, walk, patio\n"
	for _, c := range []struct {
		name, why string
		args      []string
		want      string
	}{
		{"ask", "of which area is the answer?", []string{"ask", fourAreas}, "groundrule ask takes one: name it with --in AREA" + areas},
		{"why", "the areas have the same layers", []string{"why", fourAreas, "base"}, "groundrule why takes one: name it with --in AREA" + areas},
		{"found", "it was found in one place", []string{"design", fourAreas, "--found", "soil.cbr=2"}, "name it with --in AREA" + areas},
		{"calc", "of which area is the value?", []string{"calc", "area", fourAreas}, "groundrule calc takes one: name it with --in AREA" + areas},
		{"a slip", "the nearest is offered", []string{"design", fourAreas, "--in", "patoi"}, `has no area "patoi"; did you mean "patio"?` + areas},
		{"no areas", "there is none to name", []string{"design", job("patio"), "--in", "patio"}, "is a job of one area, so there is none to name with --in\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := try("", c.args...)
			require.Equal(t, exitBadUse, got.code, c.why)
			require.Contains(t, got.err, c.want)
		})
	}
	require.Equal(t, "96 sq ft\n", try("", "calc", "area", fourAreas, "--in", "walk").out[:9])
	require.Contains(t, try("", "why", fourAreas, "base", "--in", "walk").out, "(course.stone_top): yes")
}

// The orders of all areas are summed, and there are none where an area is not built.
func TestTakeoffOfAreas(t *testing.T) {
	got := try("", "takeoff", fourAreas, "--json")
	require.Equal(t, exitDone, got.code, got.err)
	var off struct {
		Job   string
		Areas []string
	}
	require.NoError(t, json.Unmarshal([]byte(got.out), &off))
	require.Equal(t, "Halloran front and side", off.Job)
	require.Equal(t, []string{"driveway", "apron", "walk", "patio"}, off.Areas)

	refused := try("base: dense\nareas: [{name: walk, use: foot, area: 60 sq ft}, {name: yard, use: truck_yard, area: 6000 sq ft}]\n", "takeoff", "-")
	require.Equal(t, exitNo, refused.code)
	require.Contains(t, refused.out, "! Not covered by these rules.")
}

// A job of several areas is one line of a stream.
func TestStreamOfAreas(t *testing.T) {
	const line = `{"base": "dense", "areas": [{"name": "walk", "use": "foot", "area": "60 sq ft"}, {"name": "drive", "use": "car_driveway", "area": "600 sq ft"}]}`
	got := try(line+"\n"+line+"\n", "design", "--stream")
	require.Equal(t, exitDone, got.code, got.out)
	lines := strings.Split(strings.TrimSpace(got.out), "\n")
	require.Len(t, lines, 2)
	var a section.Areas
	require.NoError(t, json.Unmarshal([]byte(lines[1]), &a))
	require.Equal(t, "drive", a.Sections[1].Job.Part)
}
