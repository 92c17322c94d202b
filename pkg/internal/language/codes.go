package language

import "example.com/groundrule/pkg/diagnostic"

// Codes of faults in expressions.
const (
	CodeUnknownName     diagnostic.Code = "unknown-name"         // no value or word has the name
	CodeUnknownProperty diagnostic.Code = "unknown-property"     // the kind of material has no such property
	CodeMayBeMissing    diagnostic.Code = "may-be-missing"       // a value is read that may be missing, without asking first
	codeHiddenLogic     diagnostic.Code = "hidden-logic"         // && || ! inside a value
	codeHiddenRule      diagnostic.Code = "hidden-rule"          // a ? b : c
	codeNoForm          diagnostic.Code = "no-such-form"         // a part of CEL that the rule language leaves out
	codeNoLiteral       diagnostic.Code = "no-such-literal"      // a literal that the rule language leaves out
	codeNothing         diagnostic.Code = "empty-expression"     // nothing where an expression is wanted
	codeEmptyList       diagnostic.Code = "empty-list"           // a list without items
	codeMixedList       diagnostic.Code = "mixed-list"           // a list of items of several kinds
	codeTooLarge        diagnostic.Code = "expression-too-large" // too long, too deep or too many parts
	codeNotReady        diagnostic.Code = "not-ready"            // the library cannot make the expression ready: a fault of the library
	codeSyntax          diagnostic.Code = "not-an-expression"    // a text that cannot be read as an expression
	codeUnit            diagnostic.Code = "unit-behind"          // a unit after a number, as in 6 in
	codeKnown           diagnostic.Code = "always-known"         // known(x) of a value that is always there
	codeKnownOf         diagnostic.Code = "known-of-nothing"     // known of something other than one name
	codeFunctionValue   diagnostic.Code = "function-as-value"    // a function's name without arguments
	codeKindValue       diagnostic.Code = "kind-as-value"        // the name of a kind where a value is wanted
	codeOtherWord       diagnostic.Code = "word-of-another"      // a word of one vocabulary where one of another is wanted
	CodeWrongKind       diagnostic.Code = "wrong-kind"           // a value of another kind than is wanted here
	codeOperands        diagnostic.Code = "wrong-operands"       // an operator between values that it does not take
)
