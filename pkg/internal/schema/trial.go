package schema

import (
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// Trial is the schema of a file of trials, with the words of a table.
func Trial(t *site.Table) *Schema {
	settings := &Schema{Type: []string{"object"}, Names: &Schema{of: "setting"}, Others: anyOf(single(), list(single()), beyondSchema(), likeSchema())}
	cases := list(reference("case"))
	definitions := Properties{
		{"trial", entry{title: "Trial", about: "A job and what must come of it.", keys: []key{
			need("trial", text(), "its id, used once in the folder"),
			need("why", text(), "why the trial is there"),
			need("job", reference("job"), "the job, written as a job file is"),
			may("settings", settings, "settings at values that a company could set within the limits"),
			may("expect", reference("expect"), "what must come of the job; or cases"),
			may("cases", cases, "changes of the job, each with what must come of it"),
		}, rules: []*Schema{anyOf(given("expect"), all(given("cases"), &Schema{Properties: Properties{{"cases", &Schema{MinItems: 1}}}}))}}.schema()},
		{"case", entry{title: "Case", about: "A change of the trial's job and what must come of it.", keys: []key{
			need("case", text(), "its id, used once in the trial"),
			need("why", text(), "why the case is there"),
			may("change", reference("change"), "what is laid over the trial's job; a key left empty takes away what was there"),
			may("settings", settings, "settings that are laid over those of the trial"),
			need("expect", reference("expect"), "what must come of it"),
		}}.schema()},
		{"expect", expectSchema()},
		{"job", jobEntry(t, true, reference("job").Ref)},
		{"change", jobEntry(t, false, reference("change").Ref)},
	}
	return file(entry{title: "Trials of a rulebook", about: "Jobs, and what must come of them.", keys: []key{
		may("about", single(), "what the trials of this file are for"),
		need("trials", list(reference("trial")), "the trials"),
	}}, definitions)
}

func expectSchema() *Schema {
	names := func(sort string) *Schema {
		return &Schema{Type: []string{"array"}, Items: &Schema{Type: single().Type, of: sort}}
	}
	pairs := func(sort string, each *Schema) *Schema {
		return &Schema{Type: []string{"object"}, Names: &Schema{of: sort}, Others: each}
	}
	between := list(single())
	between.MinItems, between.MaxItems = 2, 2
	courses := entry{title: "Courses", about: "The courses of the section.", keys: []key{
		may("present", names("course"), "these are laid"),
		may("absent", names("course"), "these are not laid"),
		may("from_bottom", names("course"), "every course, from the bottom up"),
	}}
	s := entry{title: "What is expected", about: "What must come of the job.", keys: []key{
		may("status", oneOf(section.Designed, section.Refused, section.Stopped), "what the design comes to; designed if it is left out"),
		may("answers", pairs("decision", anyOf(single(), list(single()))), "decisions with what they answer"),
		may("between", pairs("decision", between), "decisions with the least and the most that they answer"),
		may("rules", pairs("decision", anyOf(&Schema{Type: single().Type, of: "deciding"}, names("deciding"))), "decisions with the rule that decides them, or the rules"),
		may("held", names("rule"), "rules that hold, whether or not theirs is the answer"),
		may("not_held", names("rule"), "rules that are reached, and do not hold"),
		may("unasked", names("decision"), "decisions that are not asked"),
		may("confirm", names("decision"), "decisions whose answers are presumed, and to be confirmed"),
		may("failed", names("check"), "the checks that fail: these and no others"),
		may("fails", names("check"), "checks that are made, and fail"),
		may("holds", names("check"), "checks that are made, and hold"),
		may("idle", names("check"), "checks that are not made"),
		may("cautions", names("caution"), "cautions that are given"),
		may("steps", names("step"), "steps that are taken"),
		may("tolerances", names("tolerance"), "tolerances that are given"),
		may("stops", names("stop"), "stops that are given"),
		may("options", names("option"), "options that are offered"),
		may("remedies", names("remedy"), "remedies that may be given"),
		may("client", names("client"), "what the client is told"),
		may("without", names("given"), "cautions, quantities, steps, tolerances and stops that are not given"),
		may("says", pairs("given", anyOf(single(), list(single()))), "cautions, steps, tolerances and stops with a text, or texts, that they say, in US units"),
		may("quantities", pairs("quantity", anyOf(single(), list(single()))), "quantities with the amount, or of a list each: the amount, the item, the order, what they are weighed by, in US units"),
		may("refusals", names("refusing"), "the refusals given: these and no others"),
		may("crossed", names("limit"), "the limits that answers are beyond: these and no others"),
		may("courses", courses.schema(), "the courses of the section"),
	}}.schema()
	s.Fewest = 1
	return s
}

// beyondSchema is a value beyond a limit, as if by permission.
func beyondSchema() *Schema {
	return &Schema{Type: []string{"object"}, Required: []string{"by_variance"}, Others: &Schema{nothing: true},
		Properties: Properties{{"by_variance", &Schema{Type: single().Type, Description: "a value beyond the limits of the setting"}}}}
}

// likeSchema is a material of the catalog with properties that differ.
func likeSchema() *Schema {
	return &Schema{Type: []string{"object"}, Required: []string{"like"}, Others: single(),
		Properties: Properties{{"like", &Schema{Type: single().Type, Description: "the material that it is like"}}}}
}
