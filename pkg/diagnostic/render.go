package diagnostic

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// Render writes the list for a person at a terminal, in file order: where and
// what, the line of the file with a mark under the place, what was found and
// wanted, and the places that have a part in it.
//
// source gives a file by the name that places carry, and false for one it does
// not have, whose lines are then not shown; it may be nil. Each file is asked
// for once. Characters that would act on the terminal are shown as escapes, so
// that a hostile file cannot. Render gives the first error of w.
func (l List) Render(w io.Writer, source func(file string) ([]byte, bool)) error {
	r := renderer{source: source, lines: map[string][]string{}}
	for i, d := range l.inOrder() {
		if i > 0 {
			r.out.WriteByte('\n')
		}
		r.diagnostic(d)
		if _, err := w.Write(r.out.Bytes()); err != nil {
			return err
		}
		r.out.Reset()
	}
	return nil
}

type renderer struct {
	out    bytes.Buffer
	source func(file string) ([]byte, bool)
	lines  map[string][]string // of each file that has been asked for
	last   Place               // the line that was laid out last
	row    row                 // that line; many faults may be on one long line
}

func (r *renderer) diagnostic(d *Diagnostic) {
	head := d.Place.before(d.Message)
	if d.Code != "" {
		head += " [" + string(d.Code) + "]"
	}
	r.out.WriteString(printable(head) + "\n")
	r.quote(d.Place, d.Width)
	r.note("found", d.Found)
	r.note("wanted", d.Wanted)
	if d.Nearest != "" {
		fmt.Fprintf(&r.out, "  did you mean %s?\n", printable(strconv.Quote(d.Nearest)))
	}
	if d.Repaired != "" {
		fmt.Fprintf(&r.out, "  write:\n  %5d | %s\n", d.Place.Line, printable(d.Repaired))
	}
	for _, related := range d.Related {
		r.out.WriteString("  " + printable(related.Place.before(related.Message)) + "\n")
		r.quote(related.Place, 1)
	}
}

// note writes one thing that is known of the fault, if it is.
func (r *renderer) note(name, text string) {
	if text != "" {
		fmt.Fprintf(&r.out, "  %-8s %s\n", name+":", printable(text))
	}
}

// quote writes the line of the place with a mark under width characters of it.
func (r *renderer) quote(p Place, width int) {
	if p.Line < 1 {
		return // nothing is read for what is wrong with a whole file
	}
	lines := r.file(p.File)
	if p.Line > len(lines) {
		return
	}
	if line := (Place{File: p.File, Line: p.Line}); r.last != line {
		r.last, r.row = line, rowOf(lines[p.Line-1])
	}
	shown, mark := r.row.layOut(p.Column, width)
	r.out.WriteString(strings.TrimRight(fmt.Sprintf("  %5d | %s", p.Line, shown), " ") + "\n")
	if mark != "" {
		fmt.Fprintf(&r.out, "  %5s | %s\n", "", mark)
	}
}

// file returns the lines of the file, which end in LF, CR LF or CR.
func (r *renderer) file(name string) []string {
	lines, ok := r.lines[name]
	if ok || r.source == nil {
		return lines
	}
	if data, have := r.source(name); have {
		text := strings.TrimPrefix(string(data), "\ufeff")
		text = strings.ReplaceAll(text, "\r\n", "\n")
		lines = strings.Split(strings.ReplaceAll(text, "\r", "\n"), "\n")
	}
	r.lines[name] = lines
	return lines
}
