package gochange

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"path/filepath"
	"strconv"
	"strings"
)

// change is one change of one source file: the bytes from..to give way to text.
type change struct {
	file     string
	from, to int
	text     string
	kind     string
	place    string // such as "print.go:12 in Length.Text"
	line     string // the source line on which it stands
}

// apply returns the file with the change made.
func (c change) apply(src []byte) []byte {
	return []byte(string(src[:c.from]) + c.text + string(src[c.to:]))
}

// tell says what is changed to what, in one line.
func (c change) tell(src []byte) string {
	return fmt.Sprintf("%s: `%s` -> `%s` (%s) | `%s`", c.place, short(string(src[c.from:c.to])), short(c.text), c.kind, c.line)
}

// short is a text on one line, cut to a length that a report can hold.
func short(text string) string {
	runes := []rune(strings.Join(strings.Fields(text), " "))
	if len(runes) > 60 {
		return string(runes[:60]) + "..."
	}
	return string(runes)
}

// collector gathers the changes that a file allows.
type collector struct {
	fset     *token.FileSet
	info     *types.Info
	path     string
	src      []byte
	function string
	unread   map[ast.Expr]bool
	out      []change
}

// changesOf returns every single change of a file, in the order of the file.
func changesOf(fset *token.FileSet, info *types.Info, file *ast.File, src []byte) []change {
	c := &collector{fset: fset, info: info, path: fset.File(file.Pos()).Name(), src: src, unread: map[ast.Expr]bool{}}
	for _, decl := range file.Decls {
		c.function = "package level"
		if f, ok := decl.(*ast.FuncDecl); ok {
			c.function = c.name(f)
			c.early(f)
		}
		ast.Inspect(decl, c.node)
	}
	return c.out
}

func (c *collector) name(f *ast.FuncDecl) string {
	if f.Recv == nil || len(f.Recv.List) == 0 {
		return f.Name.Name
	}
	return strings.TrimPrefix(c.text(f.Recv.List[0].Type), "*") + "." + f.Name.Name
}

// text is the source of a node.
func (c *collector) text(n ast.Node) string {
	return string(c.src[c.fset.Position(n.Pos()).Offset:c.fset.Position(n.End()).Offset])
}

// add notes that the source from..to may give way to text.
func (c *collector) add(from, to token.Pos, kind, text string) {
	at := c.fset.Position(from)
	line, _, _ := strings.Cut(string(c.src[at.Offset-at.Column+1:]), "\n")
	c.out = append(c.out, change{
		file: c.path, from: at.Offset, to: c.fset.Position(to).Offset, text: text, kind: kind,
		place: fmt.Sprintf("%s:%d in %s", filepath.Base(c.path), at.Line, c.function),
		line:  short(line),
	})
}

func (c *collector) replace(n ast.Node, kind, text string) { c.add(n.Pos(), n.End(), kind, text) }

// node adds the changes of one node.
func (c *collector) node(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.ArrayType: // its length is no value of the program
		ast.Inspect(n.Elt, c.node)
		return false
	case *ast.BinaryExpr:
		if c.numeric(n) {
			c.operator(n.OpPos, n.Op)
		}
	case *ast.UnaryExpr:
		if n.Op == token.SUB {
			c.add(n.OpPos, n.OpPos+1, "sign", "+")
		}
	case *ast.BasicLit:
		if !c.unread[n] {
			c.number(n)
		}
	case *ast.Ident:
		if c.unread[n] {
			break
		}
		if flips, ok := map[string]string{"true": "false", "false": "true"}[n.Name]; ok && c.info.Uses[n] == types.Universe.Lookup(n.Name) {
			c.replace(n, "true or false", flips)
		}
	case *ast.IfStmt:
		c.condition(n)
	case *ast.ReturnStmt:
		c.besideError(n)
	case *ast.AssignStmt:
		if c.info.TypeOf(n.Lhs[0]) != nil && isNumber(c.info.TypeOf(n.Lhs[0])) {
			c.operator(n.TokPos, n.Tok)
		}
	case *ast.IncDecStmt:
		c.operator(n.TokPos, n.Tok)
	case *ast.BlockStmt:
		c.drops(n.List)
	case *ast.CaseClause:
		c.drops(n.Body)
	case *ast.CommClause:
		c.drops(n.Body)
	}
	return true
}

// operators are what each operator may be taken for.
var operators = map[token.Token]map[string][]token.Token{
	token.LSS:        {"bound": {token.LEQ}, "direction": {token.GTR}},
	token.LEQ:        {"bound": {token.LSS}, "direction": {token.GEQ}},
	token.GTR:        {"bound": {token.GEQ}, "direction": {token.LSS}},
	token.GEQ:        {"bound": {token.GTR}, "direction": {token.LEQ}},
	token.EQL:        {"equal": {token.NEQ}},
	token.NEQ:        {"equal": {token.EQL}},
	token.LAND:       {"and, or": {token.LOR}},
	token.LOR:        {"and, or": {token.LAND}},
	token.ADD:        {"arithmetic": {token.SUB}},
	token.SUB:        {"arithmetic": {token.ADD}},
	token.MUL:        {"arithmetic": {token.QUO}},
	token.QUO:        {"arithmetic": {token.MUL}},
	token.ADD_ASSIGN: {"arithmetic": {token.SUB_ASSIGN}},
	token.SUB_ASSIGN: {"arithmetic": {token.ADD_ASSIGN}},
	token.MUL_ASSIGN: {"arithmetic": {token.QUO_ASSIGN}},
	token.QUO_ASSIGN: {"arithmetic": {token.MUL_ASSIGN}},
	token.INC:        {"arithmetic": {token.DEC}},
	token.DEC:        {"arithmetic": {token.INC}},
}

func (c *collector) operator(at token.Pos, op token.Token) {
	for _, kind := range []string{"bound", "direction", "equal", "and, or", "arithmetic"} {
		for _, other := range operators[op][kind] {
			c.add(at, at+token.Pos(len(op.String())), kind, other.String())
		}
	}
}

// numeric reports whether the operator of n can be taken for another: + joins
// texts too, and texts cannot be subtracted.
func (c *collector) numeric(n *ast.BinaryExpr) bool {
	switch n.Op {
	case token.ADD, token.SUB, token.MUL, token.QUO:
		return isNumber(c.info.TypeOf(n))
	}
	return true
}

func isNumber(t types.Type) bool {
	if t == nil {
		return false
	}
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsNumeric != 0
}

// number changes a literal number by 3 %, a whole one by at least 1.
func (c *collector) number(n *ast.BasicLit) {
	if n.Kind != token.INT && n.Kind != token.FLOAT {
		return
	}
	b, ok := c.info.TypeOf(n).Underlying().(*types.Basic)
	if !ok {
		return
	}
	v, _ := constant.Float64Val(constant.ToFloat(c.info.Types[n].Value))
	switch {
	case b.Info()&types.IsFloat != 0 && v == 0:
		c.replace(n, "number", "0.03")
	case b.Info()&types.IsFloat != 0:
		c.replace(n, "number", strconv.FormatFloat(v*1.03, 'g', -1, 64))
	default:
		c.replace(n, "number", strconv.FormatInt(int64(v)+max(1, int64(v*0.03)), 10))
	}
}

// condition takes an if for one that never holds, or for its contrary.
func (c *collector) condition(n *ast.IfStmt) {
	cond := c.text(n.Cond)
	if b, ok := n.Cond.(*ast.BinaryExpr); ok && b.Op == token.NEQ && c.text(b.Y) == "nil" && c.isError(b.X) {
		c.replace(n.Cond, "error check removed", "false && ("+cond+")")
		return
	}
	c.replace(n.Cond, "if removed", "false && ("+cond+")")
	c.replace(n.Cond, "if negated", "!("+cond+")")
}

func (c *collector) isError(x ast.Expr) bool {
	t := c.info.TypeOf(x)
	return t != nil && types.Implements(t, types.Universe.Lookup("error").Type().Underlying().(*types.Interface))
}

// besideError notes the literals that are returned beside an error: nobody reads
// them, so to change one makes no difference.
func (c *collector) besideError(n *ast.ReturnStmt) {
	last := len(n.Results) - 1
	if last < 1 || c.info.Types[n.Results[last]].IsNil() || !c.isError(n.Results[last]) {
		return
	}
	for _, x := range n.Results[:last] {
		c.unread[x] = true
	}
}

// drops leaves out statements, one at a time: calls and assignments.
func (c *collector) drops(list []ast.Stmt) {
	for _, s := range list {
		kind := ""
		switch s := s.(type) {
		case *ast.ExprStmt:
			kind = "call dropped"
		case *ast.IncDecStmt:
			kind = "assignment dropped"
		case *ast.AssignStmt:
			if s.Tok != token.DEFINE {
				kind = "assignment dropped"
			}
		}
		if kind != "" {
			c.replace(s, kind, "if false { "+c.text(s)+" }")
		}
	}
}

// early makes a function return at once with the zero value of each result.
func (c *collector) early(f *ast.FuncDecl) {
	if f.Body == nil || len(f.Body.List) == 0 {
		return
	}
	var zeros []string
	if f.Type.Results != nil {
		for _, r := range f.Type.Results.List {
			for range max(1, len(r.Names)) {
				zeros = append(zeros, "*new("+c.text(r.Type)+")")
			}
		}
	}
	at := f.Body.Lbrace
	c.add(at, at+1, "returns at once", strings.TrimSpace("{ if true { return "+strings.Join(zeros, ", "))+" };")
}
