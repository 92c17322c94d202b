package drawn

import "slices"

// hatches are the words of the vocabulary hatching, each with the size of its pattern
// and what is in it; hatch_none has none. Where each comes from, the vocabulary says.
var hatches = map[string]string{
	"hatch_none":            "",
	"hatch_lines":           `width="6" height="6"><path d="M-1 1L1 -1M0 6L6 0M5 7L7 5" stroke-width="0.7"/>`,
	"hatch_dots":            `width="7" height="6"><path d="M1 1h1M4.5 2h1M2.5 4h1M6 5h1" stroke-width="1"/>`,
	"hatch_open_triangles":  `width="18" height="14"><path d="M2 6l3 -4l3 4zM11 12l4 -1l-1 -4zM12 4l2 -3l2 3zM3 13l1 -4l3 3z" stroke-width="0.7"/>`,
	"hatch_close_triangles": `width="11" height="9"><path d="M1 4l2 -3l1 3zM6 3l3 -1l-1 2zM3 8l3 -2l0 2zM8 8l1 -2l1 2z" fill="currentColor" stroke-width="0.4"/>`,
	"hatch_concrete":        `width="14" height="12"><path d="M2 5l2 -3l2 3zM9 11l3 -1l-2 -2z" stroke-width="0.7"/><path d="M9 3h1M12 5h1M4 9h1M1 11h1M7 7h1" stroke-width="1"/>`,
	"hatch_rings":           `width="6" height="6"><circle cx="1.7" cy="1.7" r="1.1" stroke-width="0.6"/><circle cx="4.7" cy="4.7" r="1.1" stroke-width="0.6"/>`,
}

// fill is the id of a hatch in this picture, which has it once it is asked for.
func (c *canvas) fill(name string) string {
	at := slices.Index(c.fills, name)
	if at < 0 {
		at, c.fills = len(c.fills), append(c.fills, name)
	}
	return c.prefix + "h" + string(rune('a'+at))
}
