package sheet

import "example.com/groundrule/pkg/internal/paper"

// page is the one page that a person reads first.
func (l *leaf) page() []*paper.Block {
	return []*paper.Block{
		paper.Text(l.line("page_dig", "depth", l.s.Depth.Text(l.System))),
	}
}
