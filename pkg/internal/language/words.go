package language

import "slices"

// Words lists the words that an expression can name something by, sorted, each
// once. Of a name with dots such as soil.cbr these are soil and soil.cbr, since
// what is before a dot may be a name of which a property is read. Texts in quotes
// have none.
func Words(text string) []string {
	var out []string
	tokens := scan(text)
	for i := 0; i < len(tokens); i++ {
		if tokens[i].kind != nameToken {
			continue
		}
		word := tokens[i].text
		out = append(out, word)
		for i+2 < len(tokens) && tokens[i+1].text == "." && tokens[i+2].kind == nameToken {
			i += 2
			word += "." + tokens[i].text
			out = append(out, word)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
