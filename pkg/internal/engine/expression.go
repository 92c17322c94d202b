package engine

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/internal/logic"
)

// Condition is a compiled condition where it stands. Its clauses are shared
// with every other condition that reads the same.
type Condition struct {
	source  *language.Condition
	root    *logic.Tree // of clauses by their index in the book
	clauses []ClauseAt
	Place   diagnostic.Place
}

// ClauseAt is one clause where it stands.
type ClauseAt struct {
	Text  string
	Place diagnostic.Place
	// Column is the column of the cell that asks it; "" if no row of a table does.
	Column string
	Index  int
}

// Text is the condition as written.
func (c *Condition) Text() string {
	if c == nil {
		return "true"
	}
	return c.source.Text
}

// Clauses returns the clauses in the order of the text.
func (c *Condition) Clauses() []ClauseAt {
	if c == nil {
		return nil
	}
	return slices.Clone(c.clauses)
}

// settles returns the names that surely have a value where the condition holds.
func (c *Condition) settles(given language.Given) language.Given {
	if c == nil {
		return given.And(nil)
	}
	return given.And(c.source.Settles)
}

// Names lists the names that the condition reads, in the order of the text; read only.
func (c *Condition) Names() []string {
	if c == nil {
		return nil
	}
	return slices.Clip(c.source.Names)
}

// Names lists the names that the expression reads, in the order of the text; read only.
func (x *Expression) Names() []string {
	if x == nil {
		return nil
	}
	return slices.Clip(x.source.Names)
}

// Expression is a compiled expression where it stands.
type Expression struct {
	source *language.Expression
	node   *document.Node
}

// Text is the expression as written.
func (x *Expression) Text() string { return x.source.Text }

// Place is where the expression stands.
func (x *Expression) Place() diagnostic.Place { return x.node.Place() }

// condition compiles a condition; a nil node is no condition, which holds.
func (c *compiler) condition(n *document.Node, given language.Given) *Condition {
	if n == nil {
		return nil
	}
	if n.Shape() != document.Scalar {
		c.notScalar(n, "a condition")
		return nil
	}
	lc, faults := c.book.env.Condition(n.Text(), given)
	if c.report(n, 0, faults) {
		return nil
	}
	out := &Condition{source: lc, Place: n.Place()}
	at := make([]int, len(lc.Clauses))
	for number, clause := range lc.Clauses {
		i, ok := c.clauseByText[clause.Text]
		if !ok {
			i = len(c.book.clauses)
			c.clauseByText[clause.Text] = i
			c.book.clauses = append(c.book.clauses, clause)
		}
		at[number] = i
		out.clauses = append(out.clauses, ClauseAt{Text: clause.Text, Place: n.At(clause.Offset), Index: i})
	}
	out.root = lc.Root.At(func(number int) int { return at[number] })
	return out
}

// report turns faults of an expression into diagnostics at their places. base
// is the offset of the expression in the node's text.
func (c *compiler) report(n *document.Node, base int, faults []language.Fault) bool {
	for _, f := range faults {
		if name, _, _ := strings.Cut(f.Found, "."); f.Code == language.CodeUnknownName && (c.broken[f.Found] || c.broken[name]) {
			continue // its declaration was reported
		}
		if c.in.gone[f.Found] != nil && f.Code == language.CodeUnknownName {
			c.readsGone(f.Found, n.At(base+f.Offset))
			continue
		}
		c.faults.Add(&diagnostic.Diagnostic{Place: n.At(base + f.Offset), Width: f.Width, Code: f.Code, Message: f.Message,
			Found: f.Found, Wanted: f.Wanted, Nearest: f.Nearest})
	}
	return len(faults) > 0
}

// readsGone notes that something reads what an amendment retired. What was taken
// away itself may.
func (c *compiler) readsGone(name string, at diagnostic.Place) {
	if c.lifts {
		c.faults.Add(&diagnostic.Diagnostic{Place: at, Code: codeGone, Message: name + " is retired", Found: name})
		return
	}
	c.stillRead[name] = append(c.stillRead[name], diagnostic.Related{Place: at, Message: "it is read here"})
}

func (c *compiler) notScalar(n *document.Node, what string) {
	if n.Shape() == document.NoShape {
		return // refused when it was read
	}
	fault(&c.faults, n, codeText, what+" is written as one text", "a list or a mapping", "a text")
}

// placeOf returns where a clause stands in this condition.
func (c *Condition) placeOf(clause int) diagnostic.Place {
	for _, each := range c.clauses {
		if each.Index == clause {
			return each.Place
		}
	}
	return c.Place
}
