package document

import (
	"regexp"
	"time"

	"example.com/groundrule/pkg/diagnostic"
)

// CodeNotDate is reported of what is not a day.
const CodeNotDate diagnostic.Code = "not-a-date" // not a day such as 2026-03-01

// Day returns the text of a day such as 2026-03-01, "" of a nil node, and of what
// is no day, which is reported.
func (n *Node) Day(faults *diagnostic.List) string {
	if n == nil {
		return ""
	}
	if isDay(n.Text()) {
		return n.Text()
	}
	d := n.Fault(CodeNotDate, "this is not a date")
	d.Found, d.Wanted, d.Nearest = n.Text(), "a day such as 2026-03-01", dayMeant(n.Text())
	faults.Add(d)
	return ""
}

// Span returns the days from which and until which something holds, each as
// [Node.Day] does, and reports it if the last is before the first.
func Span(from, until *Node, faults *diagnostic.List) (first, last string) {
	first, last = from.Day(faults), until.Day(faults)
	if first != "" && last != "" && last < first {
		d := until.Fault(CodeNotDate, "the last day is before the first")
		d.Found, d.Wanted = last+", from "+first, "a day no earlier than "+first
		faults.Add(d)
	}
	return first, last
}

func isDay(text string) bool {
	_, err := time.Parse(time.DateOnly, text)
	return err == nil
}

var dayParts = regexp.MustCompile(`^(\d{4})[^\d](\d{1,2})[^\d](\d{1,2})$`)

// dayMeant is the day that was most likely meant, "" if it cannot be told: with
// the year before the rest it can.
func dayMeant(text string) string {
	m := dayParts.FindStringSubmatch(text)
	if m == nil {
		return ""
	}
	day := m[1] + "-" + ("0" + m[2])[len(m[2])-1:] + "-" + ("0" + m[3])[len(m[3])-1:]
	if !isDay(day) {
		return ""
	}
	return day
}
