package jobs

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"sync"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/site"
)

// jobJSON returns a job as a job file in JSON, on one line. It goes by way of
// what [site.Write] writes, so that what a job file can say is said in one
// place.
func jobJSON(job *site.Site) ([]byte, error) {
	text, err := site.Write(job)
	if err != nil {
		return nil, err
	}
	root, faults := document.Read("job.yaml", text, document.Limits{})
	if len(faults) > 0 {
		return nil, faults.Err()
	}
	var b bytes.Buffer
	if err := writeNode(&b, "", root); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// plainJSON is a number as JSON writes one.
var plainJSON = regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][-+]?[0-9]+)?$`)

// bare are the paths of the entries that are plain numbers, or yes or no, and
// can stand in JSON without quotes.
var bare = sync.OnceValue(func() map[string]bool {
	out := map[string]bool{}
	for _, f := range site.Fields() {
		number := strings.HasPrefix(f.Reads, "percent") || strings.HasPrefix(f.Reads, "a plain number")
		out[f.Path] = number || f.Reads == "yes or no"
	}
	return out
})

func writeNode(b *bytes.Buffer, path string, n *document.Node) error {
	switch n.Shape() {
	case document.Mapping:
		b.WriteByte('{')
		for i, f := range n.Fields() {
			if i > 0 {
				b.WriteByte(',')
			}
			if err := writeText(b, f.Key.Text()); err != nil {
				return err
			}
			b.WriteByte(':')
			at := strings.TrimPrefix(path+"."+f.Key.Text(), ".")
			if err := writeNode(b, at, f.Value); err != nil {
				return err
			}
		}
		b.WriteByte('}')
	case document.Sequence:
		b.WriteByte('[')
		for i, each := range n.Items() {
			if i > 0 {
				b.WriteByte(',')
			}
			at := path
			if each.Shape() == document.Mapping {
				at += "[]"
			}
			if err := writeNode(b, at, each); err != nil {
				return err
			}
		}
		b.WriteByte(']')
	case document.Scalar:
		return writeScalar(b, path, n.Text())
	default:
		return fmt.Errorf("jobs: %s cannot be written as JSON", n.Shape())
	}
	return nil
}

func writeScalar(b *bytes.Buffer, path, text string) error {
	switch {
	case !bare()[path]:
		return writeText(b, text)
	case text == "yes":
		text = "true"
	case text == "no":
		text = "false"
	case !plainJSON.MatchString(text):
		return writeText(b, text)
	}
	b.WriteString(text)
	return nil
}

func writeText(b *bytes.Buffer, text string) error {
	enc := json.NewEncoder(b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(text); err != nil {
		return err
	}
	b.Truncate(b.Len() - 1) // the line break
	return nil
}
