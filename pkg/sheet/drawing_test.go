package sheet_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/sheet"
)

// TestDrawingsAlone holds what the form svg has of a job: whole XML whose ids are
// unique, or an error where there is nothing to draw.
func TestDrawingsAlone(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	cases := []struct {
		job, of, why string
		drawings     int // 0 if it is refused
	}{
		{"patio-on-stiff-clay", "page", "one area is one drawing", 1},
		{"four-areas", "page", "four areas that meet at three joints", 7},
		{"driveway-on-soft-clay", "crew", "a section, and rolls of fabric and of grid", 3},
		{"stopped-uniaxial-grid", "page", "what is not to be built is not drawn", 0},
		{"refused-truck-yard", "page", "there is no section", 0},
	}
	for _, c := range cases {
		t.Run(c.job, func(t *testing.T) {
			data, err := os.ReadFile("../../examples/jobs/" + c.job + ".yaml")
			require.NoError(t, err)
			job, err := book.Table().Read(c.job, data)
			require.NoError(t, err)
			s := sheet.Sheet{Of: c.of, As: "svg", Lines: book.Lines(), Drawn: book.Drawn()}
			areas, err := book.Areas(job, s.Forms()...)
			require.NoError(t, err)
			var out bytes.Buffer
			err = s.Write(&out, areas)
			if c.drawings == 0 {
				require.ErrorIs(t, err, sheet.ErrSheet, c.why)
				require.Empty(t, out.String())
				return
			}
			require.NoError(t, err)
			ids, drawings := map[string]bool{}, 0
			for d := xml.NewDecoder(&out); ; {
				token, err := d.Token()
				if err == io.EOF {
					break
				}
				require.NoError(t, err)
				e, is := token.(xml.StartElement)
				if !is {
					continue
				}
				for _, a := range e.Attr {
					if a.Name.Local == "id" {
						require.False(t, ids[a.Value], "the id %s twice", a.Value)
						ids[a.Value] = true
					}
				}
				if e.Name.Local == "title" {
					drawings++
				}
			}
			require.Empty(t, cmp.Diff(c.drawings, drawings), c.why)
		})
	}
}
