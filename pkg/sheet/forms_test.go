package sheet_test

import (
	"encoding/xml"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/sheet"
)

// everySheet lists the sheets that are written of a job.
func everySheet() []string { return []string{"page", "client", "crew", "audit", "full"} }

// hasForm reports whether a sheet is written in a form: drawings alone are SVG.
func hasForm(which, form string) bool { return form != "svg" || which == "page" }

var anchor = regexp.MustCompile(`^[\pL\pN_-]+$`)

var own = regexp.MustCompile(`^url\(#[\pL\pN_-]+\)$`)

// elements are all that sheets are made of, with the attributes that each may have.
var elements = map[string]string{
	"html": "lang", "head": "", "meta": "charset http-equiv name content", "title": "id", "style": "", "body": "", "main": "class id",
	"h1": "", "h2": "", "h3": "", "h4": "", "h5": "", "h6": "", "section": "class id", "details": "open class id", "summary": "",
	"p": "class id", "strong": "", "i": "", "a": "href", "ul": "class", "li": "id", "span": "class", "div": "",
	"table": "role id", "thead": "role", "tbody": "role", "tr": "role", "th": "scope role class data-label", "td": "role class data-label",
	"figure": "id", "figcaption": "",
	"svg": "xmlns viewBox role aria-labelledby font-family font-size fill stroke stroke-linejoin x y width height", "desc": "id", "defs": "",
	"pattern": "id patternUnits width height", "path": "d stroke fill fill-rule stroke-width stroke-dasharray", "circle": "cx cy r fill stroke stroke-width stroke-dasharray",
	"polyline": "points stroke fill stroke-width stroke-dasharray", "text": "x y fill stroke text-anchor transform",
}

// read is what a reader of a page meets.
type read struct {
	ids    map[string]bool
	links  []string
	levels []int
	text   string
}

// readXML reads a page as strict XML. It fails for one that is not well formed, or has
// an element or an attribute that sheets do not have.
func readXML(t *testing.T, page string) read {
	t.Helper()
	out := read{ids: map[string]bool{}}
	var text strings.Builder
	style := false
	for in := xml.NewDecoder(strings.NewReader(page)); ; {
		token, err := in.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			name := token.Name.Local
			allowed, ok := elements[name]
			if !ok {
				t.Fatalf("<%s>", name)
			}
			if len(name) == 2 && name[0] == 'h' {
				out.levels = append(out.levels, int(name[1]-'0'))
			}
			style = name == "style"
			for _, a := range token.Attr {
				key := a.Name.Local
				switch plain := anchor.MatchString(strings.TrimPrefix(a.Value, "#")); {
				case !slices.Contains(strings.Fields(allowed), key):
					t.Fatalf("<%s %s=%q>", name, key, a.Value)
				case key == "id" && (!plain || out.ids[a.Value]):
					t.Errorf("the id %s is there already, or is none", a.Value)
				case strings.Contains(a.Value, "url(") && !own.MatchString(a.Value):
					t.Errorf("<%s %s=%q>", name, key, a.Value)
				case key == "id":
					out.ids[a.Value] = true
				case key == "href" && (!plain || a.Value[0] != '#'):
					t.Errorf("a link to %s", a.Value)
				case key == "href":
					out.links = append(out.links, a.Value[1:])
				}
			}
		case xml.CharData:
			if !style {
				text.Write(token)
			}
		case xml.EndElement:
			style = false
			text.WriteString(" ")
		case xml.Comment:
			t.Errorf("a remark: %s", token)
		}
	}
	out.text = text.String()
	for _, to := range out.links {
		require.True(t, out.ids[to], "a link to nothing: %s", to)
	}
	for i, level := range append([]int{0}, out.levels...)[:len(out.levels)] {
		require.LessOrEqual(t, out.levels[i], level+1, "a heading is left out")
	}
	return out
}

// TestBound holds of examples that every sheet, and the one that binds them, is well
// formed: each ID once, no link to nothing, no heading left out.
func TestBound(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for name, want := range map[string][]string{
		"patio-on-stiff-clay": {"contents", "client", "crew", "audit", "stone_need"},
		"four-areas":          {"contents", "client-walk", "crew-walk", "audit-walk", "audit-walk-stone_need"},
		"refused-truck-yard":  {"contents", "client", "crew", "audit"},
	} {
		t.Run(name, func(t *testing.T) {
			job, err := book.Table().Read("job.yaml", []byte(exampleJob(t, name)))
			require.NoError(t, err)
			areas, err := book.Areas(job, sheet.Sheet{Of: "all"}.Forms()...)
			require.NoError(t, err)
			for _, which := range append(everySheet(), "all") {
				var b strings.Builder
				require.NoError(t, sheet.Sheet{Of: which, As: "html", System: quantity.US, Lines: book.Lines(), Drawn: book.Drawn()}.Write(&b, areas))
				p := readXML(t, b.String())
				for _, id := range want {
					require.True(t, which != "all" || p.ids[id], "%s has no %s", which, id)
				}
			}
		})
	}
}
