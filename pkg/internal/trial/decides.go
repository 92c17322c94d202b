package trial

import (
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/logic"
)

// readings returns what each clause of the book came to in a run; nothing is
// known of one that came to an error.
func readings(o *engine.Outcome) func(clause int) logic.Truth {
	return func(clause int) logic.Truth {
		if is := o.Clause(clause); is != logic.Failed {
			return is
		}
		return logic.Unknown
	}
}

// decides reports whether the clauses of one question decide a condition by
// themselves: whether the condition would not stand if they were the other way
// about. Where it would then hang on a clause that cannot be read here, it does
// not stand either: the clause that can be read is what keeps the other from
// being asked.
func decides(tree *logic.Tree, read func(clause int) logic.Truth, question []int) bool {
	was := tree.Eval(read)
	return was != logic.Unknown && was != tree.Eval(func(clause int) logic.Truth {
		if slices.Contains(question, clause) {
			return read(clause).Not()
		}
		return read(clause)
	})
}
