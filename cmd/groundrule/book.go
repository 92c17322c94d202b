package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/signal"

	"example.com/groundrule/pkg/review"
)

var bookCommand = &command{
	name:  "book",
	usage: "groundrule book COMMAND ...",
	about: "check, test and compare rulebooks",
	text: `Everything about a rulebook itself: the standard one, or a company's own
(--rules), with a company's amendments over it (--amend). After each edit of the
amendments in a folder ours:

  groundrule book check --amend ours             are the files without faults?
  groundrule book trials --amend ours            do the trials still pass?
  groundrule book impact --amend ours past_jobs  what would change on past jobs?
  groundrule book survey --amend ours            is any job without an answer?
  groundrule book prove --amend ours             is all that it promises kept?
  groundrule book diff standard ours             what differs, in plain words?
`,
	under: []*command{bookBeginCommand, bookCheckCommand, bookTrialsCommand, bookSurveyCommand, bookProveCommand, bookImpactCommand, bookJobsCommand, bookNamesCommand, bookSchemaCommand, bookPrintCommand, bookDiffCommand},
}

// interruptible returns a context that is done when the user interrupts.
func interruptible() (context.Context, context.CancelFunc) {
	return signal.NotifyContext(context.Background(), os.Interrupt)
}

// reviewed writes what a review came to. Where not all is well, the exit code is
// notWell.
func (c *call) reviewed(r *review.Report, err error, notWell int) int {
	switch {
	case errors.Is(err, context.Canceled):
		fmt.Fprintf(c.err, "groundrule %s: interrupted; nothing was proven\n", c.name)
		return exitFailed
	case err != nil:
		return c.fail(err)
	case c.json:
		c.writeJSON(r)
	default:
		_ = r.WriteText(c.out, c.system) // output keeps its error
	}
	if !r.OK() {
		return notWell
	}
	return exitDone
}

// writeJSON writes a value as indented JSON.
func (c *call) writeJSON(v any) {
	enc := json.NewEncoder(c.out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	_ = enc.Encode(v) // output keeps its error
}
