package quantity

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode"

	"example.com/groundrule/pkg/diagnostic"
)

// index finds units by key, with capitals as written and without; several units
// under one key have different dimensions. builder finds the one with a builder.
type index struct {
	spelled, folded map[string][]Unit
	builder         map[string]Unit
}

// byText is made when first used, and not changed after.
var byText = sync.OnceValue(func() index {
	x := index{map[string][]Unit{}, map[string][]Unit{}, map[string]Unit{}}
	add := func(m map[string][]Unit, key string, u Unit) {
		if !slices.ContainsFunc(m[key], func(v Unit) bool { return v.Builder == u.Builder }) {
			m[key] = append(m[key], u)
		}
	}
	for _, u := range table() {
		x.builder[u.Builder] = u
		for _, s := range append([]string{u.Symbol, u.Plural, u.Builder}, u.spellings...) {
			if key := unitKey(s); key != "" {
				add(x.spelled, key, u)
				add(x.folded, strings.ToLower(key), u)
			}
		}
	}
	return x
})

// traps are spellings that read as one unit and say another, by key. They are
// refused with what to write in their place.
var traps = map[string]string{
	"mPa":   `is a millipascal; write "MPa" or "kPa"`,
	"Mm":    `is a megameter; write "mm"`,
	"mg/m3": `is milligrams; write "Mg/m3" or "t/m3"`,
	"mN/m2": `is millinewtons; write "MN/m2" or "MPa"`,
	"T":     `may be a short ton or a metric tonne; write "ton" or "tonne"`,
}

// unitWeights are refused whatever their capitals: a force by volume is no
// density, and turning one into the other is a step that a reader should see.
var unitWeights = map[string]string{
	"kn/m3":   `is a unit weight, a force by volume, and no density; write "kg/m3" (1 kN/m3 is the weight of 101.97 kg/m3)`,
	"lbf/ft3": `is a unit weight, a force by volume, and no density; write "pcf", the same number under standard gravity`,
}

// trap says why a key is refused, or gives "". The tonne over a cubic yard is
// refused where it is spelled out: those who write it mean short tons, and read
// as metric tonnes it is a tenth too heavy.
func trap(key string) string {
	if why, ok := traps[key]; ok {
		return why
	}
	top, bottom, over := strings.Cut(key, "/")
	if why, ok := unitWeights[strings.ToLower(key)]; ok {
		return why
	}
	tonne := slices.Contains([]string{"tonne", "tonnes"}, strings.ToLower(top))
	if over && tonne && slices.Contains(cuYd, strings.ToLower(bottom)) {
		return `mixes the metric tonne and the cubic yard; write "ton/cu yd" for short tons, or "t/m3"`
	}
	return ""
}

// find returns the units that a text may mean.
func find(text string) []Unit {
	if units := byText().spelled[text]; len(units) > 0 {
		return units // written as it is keyed
	}
	key := unitKey(text)
	if units := byText().spelled[key]; len(units) > 0 || trap(key) != "" {
		return units
	}
	return byText().folded[strings.ToLower(key)]
}

// UnitNamed finds a unit by a symbol, a spelling or the name of its builder. A
// spelling that units of several dimensions share, such as "lb/ft2", is found
// only with the dimension; [NoDimension] takes any.
func UnitNamed(text string, dim Dimension) (Unit, bool) {
	found := find(text)
	if dim == NoDimension && len(found) != 1 {
		return Unit{}, false
	}
	for _, u := range found {
		if dim == NoDimension || u.Dim == dim {
			return u, true
		}
	}
	return Unit{}, false
}

// nearestUnit returns the symbol or spelling nearest to an unknown unit, of the
// wanted dimension if one is wanted.
func nearestUnit(text string, dim Dimension) string {
	if len([]rune(text)) < 2 {
		return ""
	}
	var names []string
	for _, u := range table() {
		if dim == NoDimension || u.Dim == dim {
			names = append(append(names, u.Symbol), u.spellings...)
		}
	}
	return diagnostic.Nearest(text, names)
}

// misfit says of a unit, or of the several that a spelling may mean, that it
// is of another dimension than wanted.
func misfit(text string, units []Unit, want Dimension) string {
	dims := make([]string, len(units))
	for i, u := range units {
		dims[i] = article(u.Dim)
	}
	return fmt.Sprintf("%q measures %s, and %s is wanted", text, strings.Join(dims, " or "), article(want))
}

// marks are the runes that stand for another in a unit; 0 is dropped.
var marks = map[rune]rune{
	'°': 0, 'º': 0, '^': 0,
	'⁰': '0', '¹': '1', '²': '2', '³': '3', '⁻': '-',
	'″': '"', '”': '"', '“': '"', '′': '\'', '’': '\'', '‘': '\'',
	'⁄': '/', '∕': '/',
	'·': ' ', '⋅': ' ', '∙': ' ', '*': ' ', '_': ' ',
	'–': '-', '‐': '-', '‑': '-', '−': '-',
}

// unitKey brings the ways to write a unit to one: marks to plain characters,
// "per" to "/", spaces and hyphens between letters to one space, no full stops.
func unitKey(text string) string {
	var b []rune
	letter := func(i int, in []rune) bool { return i >= 0 && i < len(in) && unicode.IsLetter(in[i]) }
	for _, r := range text {
		if m, ok := marks[r]; ok {
			r = m
		}
		if unicode.IsSpace(r) {
			r = ' '
		}
		if r != 0 {
			b = append(b, r)
		}
	}
	for i, r := range b {
		if r == '-' && !(i+1 < len(b) && unicode.IsDigit(b[i+1])) || r == '.' && letter(i-1, b) {
			b[i] = ' '
		}
	}
	words := strings.Fields(strings.ReplaceAll(strings.ReplaceAll(string(b), "''", `"`), "/", " / "))
	var kept []string
	for i, w := range words {
		switch strings.ToLower(w) {
		case "per":
			// "per cent" is no fraction.
			if i > 0 || i+1 < len(words) && !strings.EqualFold(words[i+1], "cent") {
				w = "/"
			}
		case "deg", "degree", "degrees":
			if i+1 < len(words) && scaleName(words[i+1]) {
				continue
			}
		}
		kept = append(kept, w)
	}
	return strings.ReplaceAll(strings.Join(kept, " "), " / ", "/")
}

// scaleName tells the degrees of a scale from degree days of no known scale.
func scaleName(word string) bool {
	switch strings.ToLower(word) {
	case "f", "c", "fahrenheit", "celsius":
		return true
	}
	return false
}

// unknownUnit is the error of a unit named alone that is not there, or not of
// the wanted dimension.
func unknownUnit(text string, want Dimension) *ParseError {
	e := &ParseError{Text: text, Problem: fmt.Sprintf("unknown unit %q", text), Wanted: symbols(want)}
	switch units := find(text); {
	case trap(unitKey(text)) != "":
		e.Problem = fmt.Sprintf("%q %s", text, trap(unitKey(text)))
	case len(units) > 0:
		e.Problem = misfit(text, units, want)
		e.cause = ErrDimension
	default:
		e.Nearest = nearestUnit(text, want)
	}
	return e
}
