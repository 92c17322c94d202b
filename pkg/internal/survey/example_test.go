package survey_test

import (
	"context"
	"fmt"
	"testing/fstest"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/survey"
)

// A rulebook that forgets what to do at a frost depth of exactly 40 in.
func Example() {
	const rules = `
chapter: winter
about: What is done about frost.
vocabularies:
  course_kind: {about: courses, words: {stone_course: stone}}
  answer_word: {about: answers, words: {thin: thin, thick: thick}}
decisions:
  base_depth:
    asks: How thick is the base?
    answers: answer_word
    take: first
    rules:
      - {rule: NO-FROST, when: "!known(frost.depth)", answer: thin, because: None was told., source: practice}
      - {rule: SHALLOW, when: known(frost.depth) && frost.depth < inches(40), answer: thin, because: It is shallow., source: practice}
      - {rule: DEEP, when: known(frost.depth) && frost.depth > inches(40), answer: thick, because: It is deep., source: practice}
`
	book, err := groundrule.Open(fstest.MapFS{"winter.yaml": {Data: []byte(rules)}})
	if err != nil {
		fmt.Println(err)
		return
	}
	report, err := survey.Run(context.Background(), book, survey.Options{Budget: 1000})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range report.Findings {
		fmt.Println(f.Kind, f.Name, f.Place)
		fmt.Print(f.Trial())
	}
	// Output:
	// NO ANSWER base_depth winter.yaml:8:3
	// - trial: SURVEY-NO-ANSWER-BASE-DEPTH
	//   why: "Found by a survey. No rule answers: How thick is the base?"
	//   job:
	//     area: 400 ft2
	//     use: foot
	//     base: dense
	//     frost:
	//       depth: 40 in
	//   expect: {status: designed}
}
