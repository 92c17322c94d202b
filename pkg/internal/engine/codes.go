package engine

import "example.com/groundrule/pkg/diagnostic"

// Codes of faults in rule files that more than one package names.
const (
	CodeTwice      diagnostic.Code = "declared-twice"   // a name that something of the same sort has
	CodeWord       diagnostic.Code = "not-a-word"       // not a word of the vocabulary
	CodeWrong      diagnostic.Code = "wrong-value"      // not a value of the kind that is wanted here
	CodeCrossed    diagnostic.Code = "limit-crossed"    // a setting beyond its limits, without a variance
	codeDecision   diagnostic.Code = "not-a-decision"   // no decision has the name
	codeCircle     diagnostic.Code = "circle"           // entries that use each other, or amendments over each other
	codeName       diagnostic.Code = "not-a-name"       // a name that the rule language cannot read
	codeRemark     diagnostic.Code = "hidden-remark"    // a # that ends a sentence unseen
	codeUnquoted   diagnostic.Code = "text-unquoted"    // a text without quotes where an expression is wanted
	codeText       diagnostic.Code = "not-a-text"       // something else where one text is wanted
	codeNoOrder    diagnostic.Code = "no-order"         // values that have no order, where an order is needed
	codeSentence   diagnostic.Code = "empty-sentence"   // a sentence without words
	codeBrace      diagnostic.Code = "open-brace"       // a brace in a sentence that is not closed
	codeProperty   diagnostic.Code = "missing-property" // a material without a property that its kind has
	codeInput      diagnostic.Code = "unknown-input"    // not the path of a value of a job
	codeCheck      diagnostic.Code = "unclear-check"    // a check that asks nothing, or two things
	codePromise    diagnostic.Code = "unclear-promise"  // a promise that says nothing, or two things
	codeKind       diagnostic.Code = "unknown-kind"     // not a kind of value, or of material
	codeSource     diagnostic.Code = "unknown-source"   // no source has the id
	codeTag        diagnostic.Code = "unknown-tag"      // not a way to know a source
	codeStanding   diagnostic.Code = "unknown-standing" // not a standing that a rule can have
	codeTake       diagnostic.Code = "unknown-take"     // not a way to take an answer among the rules that hold
	codeFailing    diagnostic.Code = "unknown-failing"  // not what a failing check does
	codeNoRules    diagnostic.Code = "no-rules"         // a decision without a rule
	codeTable      diagnostic.Code = "wrong-table"      // a table without its form: columns, rows and a cell for each
	codeBands      diagnostic.Code = "wrong-bands"      // bands of a column that overlap, leave a gap, or are the wrong way round
	codeAlike      diagnostic.Code = "rows-alike"       // two rows that ask the same
	codeNotRules   diagnostic.Code = "not-a-rule-file"  // neither a chapter nor an amendment
	codeUnreadable diagnostic.Code = "unreadable-file"  // too large, not a regular file, a link to a folder, or not to be had
	codeNoFiles    diagnostic.Code = "no-files"         // a folder of rules without a rule file
	codeManyFiles  diagnostic.Code = "too-many-files"   // more files in a folder of rules than are read
	codeNoCourse   diagnostic.Code = "no-course"        // a rulebook that lays nothing
	codeNoRefusal  diagnostic.Code = "no-refusal"       // a rulebook that refuses no job
	codeNoCaution  diagnostic.Code = "no-caution"       // a rulebook that cautions of nothing
)

// Codes of faults in amendments.
const (
	codeAmended     diagnostic.Code = "amended-twice"     // two amendments change the same thing, and neither is over the other
	codeChange      diagnostic.Code = "unclear-change"    // a change that does nothing, or two things
	codeExpired     diagnostic.Code = "expired"           // a variance whose last day has passed
	codeAmendment   diagnostic.Code = "unknown-amendment" // no amendment has the name
	codeEntry       diagnostic.Code = "unknown-entry"     // no entry of the sort has the name
	codeFixed       diagnostic.Code = "not-changed"       // what no amendment changes
	codeOwnSource   diagnostic.Code = "no-own-source"     // a changed value without a source of its own
	codeUnpermitted diagnostic.Code = "not-permitted"     // something that only a variance takes away
	codeGone        diagnostic.Code = "still-read"        // an entry that was retired, and that others read
)
