package quantity

import (
	"maps"
	"slices"
	"strings"
)

// The names under which a language says what stands between the whole part and the
// decimals of a number, and between its thousands.
const (
	decimalMark   = "decimal"
	thousandsMark = "thousands"
)

// Writing returns the system as a language writes it. What is printed in place of the
// point between a number and its decimals is under "decimal", in place of the comma
// between thousands under "thousands", in place of a unit under its symbol or its plural,
// and in place of a word or text that is a value under that word or text. What has no
// entry is written as it is. Texts so written are for people: [Parse] does not read them.
func (s System) Writing(as map[string]string) System {
	var b strings.Builder
	b.WriteString(string(s.Base()))
	for _, name := range slices.Sorted(maps.Keys(as)) {
		b.WriteString("\n" + name + "\t" + as[name])
	}
	return System(b.String())
}

// Name returns what the language writes for a whole text that a value prints, such as the
// name of a soil; the text itself where it has nothing for it.
func (s System) Name(text string) string { return s.as(text, text) }

// Base returns the system without how a language writes it.
func (s System) Base() System {
	base, _, _ := strings.Cut(string(s), "\n")
	return System(base)
}

// as returns what the language writes for something, or what is usual.
func (s System) as(name, usual string) string {
	if _, found, ok := strings.Cut(string(s), "\n"+name+"\t"); ok {
		usual, _, _ = strings.Cut(found, "\n")
	}
	return usual
}

// Write writes a text of numbers and units, such as "1,250.5 mm" or "12 ft 6 in", as
// the language of the system does.
func (s System) Write(text string) string {
	if s == s.Base() {
		return text
	}
	var out, unit []string
	spell := func() {
		if name := strings.Join(unit, " "); name != "" {
			out, unit = append(out, s.as(name, name)), nil
		}
	}
	marks := strings.NewReplacer(".", s.as(decimalMark, "."), ",", s.as(thousandsMark, ","))
	for _, word := range strings.Split(text, " ") {
		if strings.Trim(word, "0123456789.,-/e") != "" {
			unit = append(unit, word)
			continue
		}
		spell()
		out = append(out, marks.Replace(word))
	}
	spell()
	return strings.Join(out, " ")
}
