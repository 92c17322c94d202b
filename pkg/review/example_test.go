package review_test

import (
	"context"
	"fmt"
	"log"
	"os"
	"strings"
	"testing/fstest"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/rulebook"
)

// winter is a rulebook that forgets what to do at a frost depth of exactly 40 in.
const winter = `
chapter: winter
about: What is done about frost.
vocabularies:
  course_kind: {about: Sorts of course., words: {stone: stone}, because: told, source: practice}
decisions:
  base_depth:
    asks: How thick is the base?
    answers: length
    take: first
    rules:
      - {rule: NO-FROST, when: "!known(frost.depth)", answer: inches(4), because: No frost depth was given., source: practice}
      - {rule: SHALLOW, when: known(frost.depth) && frost.depth < inches(40), answer: inches(6), because: The frost is shallow., source: practice}
      - {rule: DEEP, when: known(frost.depth) && frost.depth > inches(40), answer: inches(10), because: The frost is deep., source: practice}
courses:
  - {course: base, label: Base, is: stone, because: It carries the pavers., source: practice, attributes: {thickness: base_depth}}
cautions:
  - {caution: LEVEL, says: Keep it level., source: practice}
refusals:
  - {refusal: TRUCKS, when: use == truck_yard, says: Too heavy., who: An engineer., source: practice}
`

func open(text string) *groundrule.Book {
	book, err := groundrule.Open(small.Rulebook("winter.yaml", text))
	if err != nil {
		log.Fatal(err)
	}
	return book
}

// show writes a report, or what kept it from being made.
func show(r *review.Report, err error) {
	if err == nil {
		err = r.WriteText(os.Stdout, quantity.US)
	}
	if err != nil {
		log.Fatal(err)
	}
}

// Trials are jobs with what must come of them. Outside of an example they are
// files in a folder beside the rules.
func ExampleTrials() {
	ours := rulebook.Layer{Label: "ours", FS: fstest.MapFS{"trials/frost.yaml": {Data: []byte(`
trials:
  - trial: NO-FROST
    why: The least there is.
    job: {use: foot, base: dense, area: 400 sq ft}
    expect: {answers: {base_depth: 4 in}}
    cases:
      - case: deep
        why: Frost below the base.
        change: {frost: {depth: 5 ft}}
        expect: {answers: {base_depth: 12 in}}
`)}}}
	report, err := review.Trials(context.Background(), open(winter), ours)
	show(report, err)
	fmt.Println(report.OK())
	// Output:
	// ours/trials/frost.yaml:8:9: NO-FROST/deep fails
	//   Frost below the base.
	//   ours/trials/frost.yaml:11:28: base_depth
	//     was     10 in (254 mm)
	//     wanted  12 in (304.8 mm)
	//     by      DEEP at winter.yaml:14:9
	//     because The frost is deep.
	//
	// 2 trials: 1 pass, 1 fail
	// false
}

// A survey of one decision finds what its rules leave out.
func ExampleSurvey() {
	report, err := review.Survey(context.Background(), open(winter), review.SurveyOptions{Names: []string{"base_depth"}, Jobs: 1000})
	show(report, err)
	// Output:
	// 1 fault found.
	// Within: base_depth.
	// Proven for every job: 0 questions. Shown by a job: 4.
	// Only searched: whether a calculation fails, and whether an answer crosses a
	//     limit. Tried 351 jobs (seed 0), none of them from trials or examples.
	// Not looked at: jobs with overrides; jobs with several readings of one kind, or
	//     sieve curves at other sieves than rules read, but for those of trials and
	//     examples; settings and materials other than those of the rulebook; whether a
	//     limit of a decision ever applies; what sentences say.
	//
	// NO ANSWER: decision base_depth
	//   winter.yaml:7:3
	//   No rule answers: How thick is the base?
	//   Where frost.depth: 40 in.
	//   The smallest job that shows it, as a trial:
	//     - trial: SURVEY-NO-ANSWER-BASE-DEPTH
	//       why: "Found by a survey. No rule answers: How thick is the base?"
	//       job:
	//         area: 400 sq ft
	//         use: foot
	//         base: dense
	//         frost:
	//           depth: 40 in
	//       expect: {status: designed}
	//
	// SETTLED EXACTLY: 1 of 1
	//   decisions: base_depth
}

// The impact of an edit on past jobs, which are read from lines of JSON here.
func ExampleImpact() {
	edited := open(strings.ReplaceAll(winter, "inches(40)", "inches(48)"))
	past := review.ReadJobLines("past.jsonl", strings.NewReader(
		`{"job":"Maple Court","use":"foot","base":"dense","area":"400 sq ft","frost":{"depth":"42 in"}}
{"job":"Alder Row","use":"foot","base":"dense","area":"250 sq ft"}
`))
	show(review.Impact(context.Background(), open(winter), edited, past, review.ImpactOptions{Shown: 1}))
	// Output:
	// 2 edits between the rulebooks, tried on 2 jobs
	//
	//   rule SHALLOW changed
	//     at winter.yaml:13:9
	//     when: known(frost.depth) && frost.depth < inches(40) -> known(frost.depth)
	//         && frost.depth < inches(48)
	//     changes 1 job
	//
	//   rule DEEP changed
	//     at winter.yaml:14:9
	//     when: known(frost.depth) && frost.depth > inches(40) -> known(frost.depth)
	//         && frost.depth > inches(48)
	//     changes none of these jobs
	//
	// Of 2 jobs
	//        1 answered as before
	//        1 with another section
	//
	// What changes in sections
	//
	//   Base, thickness: 1 job, by rule SHALLOW
	//     10 in -> 6 in: 1 job, such as no. 1
	//
	// Over the 2 jobs designed by both
	//   1 shallower, by 4 in at most (no. 1)
	//   stone: 15.43 cu yd -> 10.49 cu yd, -4.938 cu yd (compacted, without waste and
	//       what extends beyond the edge)
	//
	// Jobs that change, 1 of 1
	//
	//   no. 1, Maple Court: 10 in -> 6 in deep, by rule SHALLOW
	//     Base, thickness: 10 in -> 6 in (DEEP -> SHALLOW)
}

// Made-up jobs, where there are no past ones.
func ExampleJobs() {
	if err := review.WriteJobs(os.Stdout, review.Jobs(nil, 1, 1)); err != nil {
		log.Fatal(err)
	}
	// Output:
	// {"job":"job 000001","place":"Palmetto Reach","area":"80 sq ft","perimeter":"36 ft","use":"foot","base":"dense","soil":{"consistency":"stiff"},"frost":{"frost_free":true}}
}
