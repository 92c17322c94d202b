package site

// Field documents one entry of a job file.
type Field struct {
	// Path is the entry's key with those of the groups it stands in, such as
	// "soil.sieves[].passing"; [] stands behind a list.
	Path string
	// About says what it is.
	About string
	// Reads says what may be written there, such as "length, such as 82 ft".
	Reads string
	// Required tells that it may not be missing: from the job, or from the item
	// of the list in which it stands.
	Required bool
}

// Fields lists every entry of a job file in the order of the file, from the
// table that the reader itself follows.
func Fields() []Field { return documented("", table, nil) }

func documented[S any](path string, fields []field[S], out []Field) []Field {
	for _, f := range fields {
		at := join(path, f.key)
		out = append(out, Field{Path: at, About: f.about, Reads: f.reads, Required: f.required})
		out = documented(at, f.kids, out)
		for _, each := range f.items {
			each.Path = at + "[]." + each.Path
			out = append(out, each)
		}
	}
	return out
}
