package site

import (
	"bytes"
	"regexp"
	"strconv"
	"strings"
)

// item is one entry to write: a text, a list of plain numbers, entries of its
// own, or a list of such.
type item struct {
	key  string
	text string
	flow []string
	kids []item
	list [][]item
}

// Write writes a site as a job file that [Read] reads back as the same site, to
// the last bit of each value. Only what is known is written. The error is the
// [*Error] of a site that does not validate.
func Write(s *Site) ([]byte, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	writeItems(&b, "", writeFields(table, s))
	return b.Bytes(), nil
}

const step = "  "

func writeItems(b *bytes.Buffer, indent string, items []item) {
	for _, it := range items {
		b.WriteString(indent + it.key + ":")
		switch {
		case it.kids != nil:
			b.WriteByte('\n')
			writeItems(b, indent+step, it.kids)
		case it.list != nil:
			b.WriteByte('\n')
			for _, each := range it.list {
				// The first entry stands behind the dash.
				var inner bytes.Buffer
				writeItems(&inner, indent+step+step, each)
				b.WriteString(indent + step + "- ")
				b.WriteString(strings.TrimPrefix(inner.String(), indent+step+step))
			}
		case it.flow != nil:
			b.WriteString(" [" + strings.Join(it.flow, ", ") + "]\n")
		default:
			b.WriteString(" " + scalar(it.text) + "\n")
		}
	}
}

// bare matches texts that mean themselves in YAML without quotes.
var bare = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9 _./%()+-]*$`)

// scalar writes a text bare where that is safe and in double quotes elsewhere.
// The escapes of a Go string are all escapes of YAML.
func scalar(text string) string {
	if bare.MatchString(text) && !strings.HasSuffix(text, " ") && !strings.EqualFold(text, "null") {
		return text
	}
	return strconv.Quote(text)
}
