// Package impact tells what an edited rulebook would change on a set of jobs:
// which sections, which course and which attribute of it, from what to what, and
// which edit brought it about.
//
// [Differences] lists the edits between two rulebooks. [Run] designs every job
// by both and follows each answer that changed back, through the decisions,
// terms and rules that came out differently, to the edits it rests on. Only what
// decided for the job counts: an edit of a rule that was passed over by both is
// no cause.
package impact
