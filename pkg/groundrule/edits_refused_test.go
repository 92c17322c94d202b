package groundrule_test

var refusedEdits = []edit{
	{name: "01 without a source", why: "a changed value gives a source of its own", files: []string{"01-without-source"}, says: []string{
		"01-without-source.yaml:8:18: a changed value needs a source of its own; wanted source: company, or the name of a source, under set",
	}},
	{name: "01 under the standard's source", why: "a company's value is not in the publication at the place of the old one", files: []string{"01-published-source"}, says: []string{
		"01-published-source.yaml:8:69: this place in the document says what was there before, and not the amendment's value; wanted company, or the place that says so",
	}},
	{name: "a rule under the standard's source", why: "a rule's answer is not either", files: []string{"bypass-published"}, says: []string{
		"bypass-published.yaml:8:63: this place in the document says what was there before, and not the amendment's answer; wanted company, or the place that says so",
	}},
	{name: "11 beyond a limit", why: "a limit of a setting holds without permission", files: []string{"11-without-variance"}, says: []string{
		"11-without-variance.yaml:8:18: grid_cover crosses its limit; found 3 in; wanted at least 4 in",
	}},
	{name: "11 beyond what is permitted", why: "a variance permits so much and no more", files: []string{"11-beyond-variance"}, says: []string{
		"11-beyond-variance.yaml:8:18: grid_cover crosses its limit; found 2 in; wanted at least 4 in",
	}},
	{name: "12 limits retired", why: "what every job is owed goes with permission alone", files: []string{"12-limits-retired"}, says: []string{
		"12-limits-retired.yaml:7:15: amendment limits retired retires the refusal HEAVIER-USE without permission; wanted under variances: {variance: NAME, retires: HEAVIER-USE, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}",
		"12-limits-retired.yaml:8:15: amendment limits retired retires the refusal TRAFFIC without permission; wanted under variances: {variance: NAME, retires: TRAFFIC, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}",
		"12-limits-retired.yaml:9:13: amendment limits retired retires the check CAPACITY without permission; wanted under variances: {variance: NAME, retires: CAPACITY, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}",
		"12-limits-retired.yaml:10:15: amendment limits retired retires the caution UTILITIES without permission; wanted under variances: {variance: NAME, retires: UTILITIES, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}",
	}},
	{name: "14 ends before it begins", why: "the days are swapped", files: []string{"14-ends-before-it-begins"}, says: []string{
		"14-ends-before-it-begins.yaml:9:12: the last day is before the first; found 2026-05-01, from 2027-05-01; wanted a day no earlier than 2027-05-01",
	}},
	{name: "15 a branch beside its company", why: "which of two holds must be said", files: []string{"15-company", "15-north-alone"}, says: []string{
		"15-north-alone.yaml:7:14: setting frost_increment_foot is amended twice; wanted one amendment of it, or over: [company] where this one is meant to build on that; 15-company.yaml:7:14: it is amended here",
	}},
	{name: "17 a caution retired and added", why: "a text under an old name is a change, not a removal and something new", files: []string{"17-caution-retired-and-added"}, says: []string{
		"17-caution-retired-and-added.yaml:7:15: amendment caution retired and added retires the caution UTILITIES without permission; wanted under variances: {variance: NAME, retires: UTILITIES, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}",
		"17-caution-retired-and-added.yaml:9:15: the caution UTILITIES is there already; found UTILITIES; wanted another name, or a change under replace",
	}},
	{name: "19 a course nowhere", why: "a course lies somewhere", files: []string{"19-nowhere"}, says: []string{
		"19-nowhere.yaml:7:5: the change does not say where the course goes; wanted after: the course that it lies on, or before: the course that lies on it",
		"19-nowhere.yaml:12:26: stone_depth may be missing here; found stone_depth; wanted known(stone_depth) in the course's when",
	}},
	{name: "22 a price", why: "a kind of material has the properties that it has", files: []string{"22-price-of-a-panel"}, says: []string{
		"22-price-of-a-panel.yaml:8:24: panel has no property called price; found price; wanted hatch, thickness, resistance",
	}},
	{name: "28 a setting that is not there", why: "only what is there can be changed", files: []string{"28-not-there"}, says: []string{
		"28-not-there.yaml:7:14: no setting is called our_least_stone; found our_least_stone; wanted the name of a setting of the rulebook, or an item under add if it is new",
	}},
	{name: "29 above the limit of a limit", why: "the fault is in the units that were written", files: []string{"29-above-the-limit-of-a-limit"}, says: []string{
		"29-above-the-limit-of-a-limit.yaml:8:18: slope_most crosses its limit; found 20 %; wanted at most 15 %",
	}},
	{name: "30 a check that only cautions", why: "a check that stops is weakened with permission alone", files: []string{"30-check-that-only-cautions"}, says: []string{
		"30-check-that-only-cautions.yaml:7:12: amendment check that only cautions changes the check RUN-ON without permission; wanted under variances: {variance: NAME, retires: RUN-ON, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}",
	}},
	{name: "36 a decision without rules", why: "it would come to no answer on any job", files: []string{"36-decision-without-rules"}, says: []string{
		"36-decision-without-rules.yaml:7:5: the decision stone_first_thickness has no rules left; wanted at least one rule, or it would come to no answer on any job",
	}},
	{name: "a chapter among amendments", why: "it does not say who, when and why", files: []string{"chap"}, says: []string{
		"chap.yaml:1:1: a chapter cannot stand among amendments: it does not say who changed the rulebook, when and why; wanted amendment: NAME, who, when and why, with what the chapter adds in a list under add",
	}},
	{name: "a blank reason", why: "quotes around nothing are no reason", files: []string{"blank"}, says: []string{
		"blank.yaml:8:39: nothing is written here; wanted a sentence",
	}},
	{name: "blank keys", why: "a key without a value is none", files: []string{"blank-keys"}, says: []string{
		`blank-keys.yaml:8:73: "because" of a rule has no value; wanted a value`,
		`blank-keys.yaml:8:84: "source" of a rule has no value; wanted a value`,
	}},
	{name: "c1 a circle", why: "an answer cannot rest on itself", files: []string{"c1-circle"}, says: []string{
		"c1-circle.yaml:7:42: stone_depth may be missing here; found stone_depth; wanted known(stone_depth) asked before it, as in known(stone_depth) && ...",
	}},
	{name: "c2 a circle by a condition", why: "not through a condition either", files: []string{"c2-circle-by-condition"}, says: []string{
		"rules/60-base.yaml: these need each other; found stone_depth needs stone_need needs grid_layers needs stone_depth; wanted an order in which each can be worked out before it is used",
	}},
	{name: "c3 one name twice", why: "a name stands for one rule", files: []string{"c3-one-name-twice"}, says: []string{
		"c3-one-name-twice.yaml:8:12: the rule TWICE is there already; found TWICE; wanted another name, or a change under replace; c3-one-name-twice.yaml:7:12: it was declared here first",
	}},
	{name: "c4 a place without a comma", why: "a place in a document stands after a comma", files: []string{"c4-no-such-clause"}, says: []string{
		`c4-no-such-clause.yaml:7:98: no source is called icpi_tolerances page 3; found icpi_tolerances page 3; wanted practice, own, company, or a name under sources; did you mean "icpi_tolerances"?`,
	}},
	{name: "c5 words", why: "each slip is told where it is", files: []string{"c5-words"}, says: []string{
		"c5-words.yaml:7:12: the word herringbone is there already; found herringbone; wanted another name, or a change under replace",
		"c5-words.yaml:8:12: this cannot be a name; found 95_modified; wanted letters, digits and _, starting with a letter",
		"c5-words.yaml:9:12: this cannot be a name; found modified-95; wanted letters, digits and _, starting with a letter",
		"c5-words.yaml:10:12: this cannot be a name; found true; wanted another name: the rule language keeps this one for itself",
		`c5-words.yaml:11:5: a word needs the key "label"; wanted label`,
	}},
	{name: "c6 a check", why: "each slip of a check is told", files: []string{"c6-check"}, says: []string{
		"c6-check.yaml:7:12: a check asks one thing; wanted either holds, or value with at_least or at_most",
		`c6-check.yaml:13:14: this is not what a failing check does; found Stop; wanted stop or caution; did you mean "stop"?`,
		`c6-check.yaml:14:13: no value or word is called stone_dept; found stone_dept; did you mean "stone_depth"?`,
		`c6-check.yaml:16:13: no source is called Company; found Company; wanted practice, own, company, or a name under sources; did you mean "company"?`,
	}},
	{name: "c7 over what is not there", why: "an amendment builds on what is there", files: []string{"c7-no-such-amendment"}, says: []string{
		"c7-no-such-amendment.yaml:6:8: no amendment is called Wrenfold Stone; found Wrenfold Stone; wanted the name of an amendment that this one builds on",
	}},
	{name: "c8 a blank head", why: "who, when and why are needed", files: []string{"c8-blank-head"}, says: []string{
		`c8-blank-head.yaml:1:1: "amendment" of an amendment has no value; wanted a value`,
		`c8-blank-head.yaml:2:1: "company" of an amendment has no value; wanted a value`,
		`c8-blank-head.yaml:3:1: "who" of an amendment has no value; wanted a value`,
		`c8-blank-head.yaml:4:1: "when" of an amendment has no value; wanted a value`,
		`c8-blank-head.yaml:5:1: "why" of an amendment has no value; wanted a value`,
	}},
	{name: "c11 a misspelt key", why: "the nearest is named", files: []string{"c11-misspelt"}, says: []string{
		`c11-misspelt.yaml:8:24: unknown key "becuase" in a setting; found "becuase"; wanted value, at_least, at_most, because, source or about; did you mean "because"?`,
	}},
	{name: "imp: one of five changes not permitted", why: "one fault is told, not the others", files: []string{"imp"}, says: []string{
		"imp.yaml:13:15: amendment imp retires the refusal SWELL-UNDER-VEHICLES without permission; wanted under variances: {variance: NAME, retires: SWELL-UNDER-VEHICLES, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}",
	}},
	{name: "a stopping check retired", why: "around a limit by its check", files: []string{"bypass-check"}, says: []string{
		"bypass-check.yaml:7:13: amendment bypass check retires the check GRID-COVER without permission; wanted under variances: {variance: NAME, retires: GRID-COVER, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}",
	}},
	{name: "the check against uniaxial grid retired", why: "it stops, so it is not retired alone", files: []string{"uniaxial"}, says: []string{
		"uniaxial.yaml:7:13: amendment uniaxial retires the check GRID-NOT-UNIAXIAL without permission; wanted under variances: {variance: NAME, retires: GRID-NOT-UNIAXIAL, who: WHO GIVES PERMISSION, why: WHY, until: LAST DAY}",
	}},
	{name: "a tolerance of 70 mm", why: "it would let 20 mm pavers pass", files: []string{"tolerance"}, says: []string{
		"tolerance.yaml:8:18: paver_tolerance crosses its limit; found 70 mm; wanted at most 2 mm",
	}},
	{name: "a variance of nothing", why: "a permission is for what is there", files: []string{"v3-variance-of-nothing"}, says: []string{
		`v3-variance-of-nothing.yaml:7:31: no setting is called grid_covr; found grid_covr; wanted the name of a setting of the rulebook; did you mean "grid_cover"?`,
	}},
	{name: "v5 a variance that nothing needs", why: "a permission that nothing needs is a slip", files: []string{"v5-variance-without-a-limit"}, says: []string{
		"v5-variance-without-a-limit.yaml:10:31: nothing needs this variance: the setting is 9, within its limits; found two_grids_below_cbr; wanted a value beyond a limit, or no variance",
	}},
	{name: "an amendment over itself", why: "a circle of one, with a change that others touch", files: []string{"circle-self", "beside"}, says: []string{
		"circle-self.yaml:6:8: an amendment cannot build on itself; found circle self; wanted the name of another amendment, or no over",
		"circle-self.yaml:8:14: setting precaution_grid is amended twice; wanted one amendment of it, or over: [beside] where this one is meant to build on that; beside.yaml:7:14: it is amended here",
	}},
	{name: "amendments over each other", why: "a circle of two, with a change that others touch", files: []string{"circle-a", "circle-b", "beside"}, says: []string{
		"circle-a.yaml:8:14: setting precaution_grid is amended twice; wanted one amendment of it, or over: [beside] where this one is meant to build on that; beside.yaml:7:14: it is amended here",
		"circle-b.yaml:6:8: amendments build on each other in a circle; found circle a over circle b over circle a; wanted an order; circle-a.yaml:1:12: circle a stands here; circle-b.yaml:1:12: circle b stands here",
	}},
	{name: "n decision without rules", why: "it would come to no answer on any job", files: []string{"n-decision-without-rules"}, says: []string{
		"n-decision-without-rules.yaml:7:16: the decision aaa has no rules; wanted at least one rule, or it would come to no answer on any job",
	}},
	{name: "n decision named as a word", why: "a name stands for one thing", files: []string{"n-decision-named-as-a-word"}, says: []string{
		"n-decision-named-as-a-word.yaml:7:16: the name is taken; found herringbone; wanted a name that stands for one thing in the whole rulebook",
	}},
	{name: "n setting named as an input", why: "a name stands for one thing", files: []string{"n-setting-named-as-an-input"}, says: []string{
		"n-setting-named-as-an-input.yaml:7:15: the name is taken; found soil.word; wanted a name that stands for one thing in the whole rulebook; the library: it was declared here first",
	}},
	{name: "n setting named as a decision", why: "a name stands for one thing", files: []string{"n-setting-named-as-a-decision"}, says: []string{
		"n-setting-named-as-a-decision.yaml:7:15: the name is taken; found stone_need; wanted a name that stands for one thing in the whole rulebook",
	}},
	{name: "n setting named as a use", why: "a name stands for one thing", files: []string{"n-setting-named-as-a-use"}, says: []string{
		"n-setting-named-as-a-use.yaml:7:15: the name is taken; found foot; wanted a name that stands for one thing in the whole rulebook",
	}},
	{name: "n kind taken", why: "a name stands for one thing", files: []string{"n-kind-taken"}, says: []string{
		"n-kind-taken.yaml:7:12: the kind stone is there already; found stone; wanted another name, or a change under replace",
	}},
	{name: "n kind of the language", why: "a name stands for one thing", files: []string{"n-kind-of-the-language"}, says: []string{
		"n-kind-of-the-language.yaml:7:12: the name is taken; found length; wanted a name that stands for one thing in the whole rulebook; the library: it was declared here first",
	}},
	{name: "n material named as a decision", why: "a name stands for one thing", files: []string{"n-material-named-as-a-decision"}, says: []string{
		"n-material-named-as-a-decision.yaml:7:16: the name is taken; found stone_need; wanted a name that stands for one thing in the whole rulebook",
	}},
	{name: "n material named as a word", why: "a name stands for one thing", files: []string{"n-material-named-as-a-word"}, says: []string{
		"n-material-named-as-a-word.yaml:7:16: the name is taken; found herringbone; wanted a name that stands for one thing in the whole rulebook",
	}},
	{name: "n source taken", why: "a name stands for one thing", files: []string{"n-source-taken"}, says: []string{
		"n-source-taken.yaml:7:14: the source icpi_tolerances is there already; found icpi_tolerances; wanted another name, or a change under replace",
	}},
	{name: "n source practice", why: "a name stands for one thing", files: []string{"n-source-practice"}, says: []string{
		"n-source-practice.yaml:7:14: the source is there already; found practice; the library: it was declared here first",
	}},
	{name: "n source company", why: "a name stands for one thing", files: []string{"n-source-company"}, says: []string{
		"n-source-company.yaml:7:14: the source is there already; found company; the library: it was declared here first",
	}},
	{name: "n term named as an input", why: "a name stands for one thing", files: []string{"n-term-named-as-an-input"}, says: []string{
		"n-term-named-as-an-input.yaml:7:12: the name is taken; found use; wanted a name that stands for one thing in the whole rulebook; the library: it was declared here first",
	}},
	{name: "n term named as a word", why: "a name stands for one thing", files: []string{"n-term-named-as-a-word"}, says: []string{
		"n-term-named-as-a-word.yaml:7:12: the name is taken; found herringbone; wanted a name that stands for one thing in the whole rulebook",
	}},
	{name: "n vocabulary taken", why: "a name stands for one thing", files: []string{"n-vocabulary-taken"}, says: []string{
		"n-vocabulary-taken.yaml:7:18: the vocabulary grid_type is there already; found grid_type; wanted another name, or a change under replace",
	}},
	{name: "n vocabulary with a use", why: "a name stands for one thing", files: []string{"n-vocabulary-with-a-use"}, says: []string{
		"n-vocabulary-with-a-use.yaml:7:52: the name is taken; found foot; wanted a name that stands for one thing in the whole rulebook",
	}},
	{name: "n term without source", why: "nothing is there without a reason and a source", files: []string{"n-term-without-source"}, says: []string{
		`n-term-without-source.yaml:7:5: a term needs the key "because"; wanted because`,
		`n-term-without-source.yaml:7:5: a term needs the key "source"; wanted source`,
	}},
}
