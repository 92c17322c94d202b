package trial

import (
	"slices"

	"example.com/groundrule/pkg/internal/engine"
)

// verdict is what a condition comes to when some of its clauses cannot be read.
type verdict uint8

const (
	unreadable verdict = iota
	yes
	no
)

func verdictOf(b bool) verdict {
	if b {
		return yes
	}
	return no
}

func (v verdict) not() verdict {
	switch v {
	case yes:
		return no
	case no:
		return yes
	}
	return unreadable
}

// readings returns what each clause of the book came to, as a verdict.
func readings(states []engine.ClauseState) []verdict {
	out := make([]verdict, len(states))
	for i, s := range states {
		switch s {
		case engine.ClauseTrue:
			out[i] = yes
		case engine.ClauseFalse:
			out[i] = no
		}
	}
	return out
}

// judgeWith works out a condition with the clauses of turned the other way
// about. What is unreadable gives way to what settles the matter.
func judgeWith(p engine.Part, read []verdict, turned []int) verdict {
	switch p.Join {
	case engine.OneClause:
		if slices.Contains(turned, p.Clause) {
			return read[p.Clause].not()
		}
		return read[p.Clause]
	case engine.NotOf:
		return judgeWith(p.Parts[0], read, turned).not()
	}
	settles := verdictOf(p.Join == engine.AnyOf)
	out := settles.not()
	for _, part := range p.Parts {
		switch judgeWith(part, read, turned) {
		case settles:
			return settles
		case unreadable:
			out = unreadable
		}
	}
	return out
}

// decides reports whether the clauses of one question decide a condition by
// themselves: whether the condition would not stand if they were the other way
// about. Where it would then hang on a clause that cannot be read here, it does
// not stand either: the clause that can be read is what keeps the other from
// being asked.
func decides(p engine.Part, read []verdict, question []int) bool {
	was := judgeWith(p, read, nil)
	return was != unreadable && judgeWith(p, read, question) != was
}

// leaves lists the clauses of a condition in the order of the text, each once.
func leaves(p engine.Part) []int {
	if p.Join == engine.OneClause {
		return []int{p.Clause}
	}
	var out []int
	for _, part := range p.Parts {
		for _, i := range leaves(part) {
			if !slices.Contains(out, i) {
				out = append(out, i)
			}
		}
	}
	return out
}
