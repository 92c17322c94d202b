package main

import (
	"fmt"
	"io"
	"os"
	"strings"
)

// progress is a line that tells how far a long run is. It is shown on a
// terminal only; in a file or a pipe it would be no use.
type progress struct {
	w     io.Writer // nil where it is not shown
	last  string
	width int
}

func (c *call) progress() *progress {
	if !isTerminal(c.err) {
		return &progress{}
	}
	return &progress{w: c.err}
}

func isTerminal(w io.Writer) bool {
	file, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// show writes the line anew; a total of 0 is one that nobody knows.
func (p *progress) show(stage string, done, total int) {
	if p.w == nil {
		return
	}
	text := fmt.Sprintf("%s: %d", stage, done)
	if total > 0 {
		text = fmt.Sprintf("%s: %d %%", stage, done*100/total)
	}
	if text == p.last {
		return
	}
	fmt.Fprintf(p.w, "\r%-*s", p.width, text)
	p.last, p.width = text, max(p.width, len(text))
}

// end takes the line away.
func (p *progress) end() {
	if p.w != nil && p.last != "" {
		fmt.Fprintf(p.w, "\r%s\r", strings.Repeat(" ", p.width))
	}
}
