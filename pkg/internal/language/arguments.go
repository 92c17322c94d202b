package language

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/google/cel-go/common/ast"

	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// decimalComma is a number written with a comma before its decimals.
var decimalComma = regexp.MustCompile(`\( *(\d+),(\d+) *\)`)

// argument is what a function takes in one place. One without a name is the
// number of a unit.
type argument struct {
	name string
	kind value.Kind
}

// wrongArguments reports a call that does not fit its function: each argument of
// a wrong kind where it stands, with the repair, and else the whole call with
// what would fit.
func (p *parsed) wrongArguments(n ast.Expr, name string, kinds []value.Kind) []Fault {
	takes, known := p.env.arguments[name]
	args := n.AsCall().Args()
	if known && len(args) == len(takes) && len(kinds) == len(takes) {
		var out []Fault
		for i, want := range takes {
			if kinds[i] != want.kind {
				out = append(out, p.wrongArgument(args[i], name, kinds[i], want))
			}
		}
		return out
	}
	spoke := make([]string, len(kinds))
	for i, k := range kinds {
		spoke[i] = spoken(k)
	}
	f := p.fault(n, rulebook.CodeWrongArguments, name+" does not take these")
	if known {
		f.Message = fmt.Sprintf("%s takes %d %s, not %d", name, len(takes), page.Noun(len(takes), "argument"), len(args))
	}
	f.Found, f.Wanted = name+"("+strings.Join(spoke, ", ")+")", strings.Join(p.env.signatures[name], " or ")
	if len(takes) == 1 && decimalComma.MatchString(p.textOf(n)) {
		f.Wanted = decimalComma.ReplaceAllString(p.textOf(n), "($1.$2)") + ", with a point before the decimals"
	}
	return []Fault{f}
}

func (p *parsed) wrongArgument(arg ast.Expr, function string, found value.Kind, want argument) Fault {
	message := "the number of " + function + " is of the wrong kind"
	if want.name != "" {
		message = fmt.Sprintf("argument %s of %s is of the wrong kind", want.name, function)
	}
	return p.wrongPart(arg, found, want.kind, rulebook.CodeWrongArguments, message)
}
