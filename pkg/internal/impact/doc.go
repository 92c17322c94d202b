// Package impact reports what an edited rulebook would change on a set of jobs:
// which sections, which course and which attribute of it, from what to what, and
// which edit brought it about.
//
// [Run] lists the edits between two rulebooks, designs every job by both, and follows
// each answer that changed back, through the decisions, terms and rules that came out
// differently, to the edits it rests on. An edit
// of a rule that was passed over, and would have been passed over as it was, is
// no cause. The causes of a job are meant to be enough: a rulebook with these
// edits alone comes to the same section. They need not be the fewest, and edits
// that cancel each other inside one calculation are not told apart.
package impact
