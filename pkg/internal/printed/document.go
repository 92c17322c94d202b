package printed

// Document is a rulebook as it is read: chapters of sections of clauses.
type Document struct {
	Title string
	// Facts say which rulebook it is: the day, the amendments, what is not in force.
	Facts    []string
	Chapters []*Section
	// Hashes are the files with the hash of each.
	Files []string
}

// Section is a chapter, or a part of one: a table, where it has rows, and clauses
// one under the other.
type Section struct {
	Number, ID, Title string
	// Name is that of the decision that the section is, "" for any other section.
	Name     string
	About    []string
	Columns  []string
	Rows     []*Clause
	Clauses  []*Clause
	Sections []*Section
	Change   Change
	Marks    []Mark
}

// Clause is one entry of the rulebook, or one rule of a decision.
type Clause struct {
	Number, ID, Name string
	// Formerly is the name before an amendment put another in its place.
	Formerly string
	// Lead is what the clause begins with by its place, such as "Otherwise, where".
	Lead   string
	Lines  []Line
	Change Change
	Marks  []Mark
}

// Line is one thing that a clause says; in a table it is a cell.
type Line struct {
	// Label says what it is; "" of what the clause itself says.
	Label, Text string
	// Parts are the parts of a long condition, each a line of its own, and Then is
	// what comes of it.
	Parts []Part
	Then  string
	// Code is the expression that the text was made from.
	Code string
	// written is all that the text was made from. It tells whether the line itself
	// was changed; a setting that it shows may have been.
	written string
	// Was is what stood there before a change; Change is set where that differs.
	Was    string
	Change Change
}

// Part is one part of a long condition.
type Part struct {
	Text  string
	Parts []Part
}

// Change is what was done to something.
type Change string

// The changes.
const (
	Unchanged Change = ""
	Added     Change = "added"
	Changed   Change = "changed"
	Gone      Change = "taken away"
)

// Mark tells in the margin who changed something, when and why.
type Mark struct {
	Done Change
	By   string // the amendment and the company
	Who  string
	When string
	Why  string
}
