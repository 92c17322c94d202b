package language

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/google/cel-go/cel"

	"example.com/groundrule/pkg/quantity"
)

// syntaxFaults says why a text cannot be read as an expression. The slips that
// writers make most are told by the signs of the text; for any other the
// parser's place is taken, and never its wording.
func (e *Env) syntaxFaults(text string, issues *cel.Issues) []Fault {
	place := 0
	for i, each := range issues.Errors() {
		for _, limit := range []string{"recursion", "code point", "size exceeds", "recovery attempt limit", "nesting depth"} {
			if strings.Contains(each.Message, limit) {
				return []Fault{{Code: codeTooLarge, Message: "the expression is too long or too deeply nested",
					Wanted: fmt.Sprintf("at most %d characters and %d levels; name a part of it as a term", MaxCharacters, MaxNesting)}}
			}
		}
		if i == 0 && each.Location.Line() > 0 {
			place = offsetOf(text, each.Location.Line(), each.Location.Column())
		}
	}
	tokens := scan(text)
	if slips := e.slips(tokens, []rune(text)); len(slips) > 0 {
		return slips
	}
	return []Fault{unexpected(tokens, place)}
}

const unreadable = "this cannot be read as an expression"

// unexpected reports the sign at a place, by what stands before it.
func unexpected(tokens []token, place int) Fault {
	f := Fault{Offset: place, Width: 1, Code: codeSyntax, Message: unreadable, Found: "the end of the expression"}
	before := token{kind: signToken}
	for _, t := range tokens {
		if t.stop > place {
			f.Offset, f.Width, f.Found = t.start, t.stop-t.start, shortened(t.text)
			break
		}
		before = t
	}
	f.Wanted = "a value: a name, a number, a word or an opening bracket"
	switch {
	case f.Found == "," && before.kind == numberToken && before.stop == f.Offset:
		f.Wanted = "a point before the decimals, or square brackets about a list"
	case f.Found == "," && endsValue(before):
		f.Wanted = "an operator such as ==, < or &&, or square brackets about a list"
	case endsValue(before):
		f.Wanted = "an operator such as ==, < or &&, or the end of the expression"
		if _, lone := partners(slices.DeleteFunc(slices.Clone(tokens), func(t token) bool { return t.start >= place })); len(lone) > 0 {
			f.Wanted = "an operator such as ==, < or &&, a comma, or the closing bracket"
		}
	}
	return f
}

func endsValue(t token) bool {
	return t.kind <= textToken || t.kind == bracketToken && closers[t.text] == ""
}

// slips finds what is wrong with the signs themselves, in the order of the text.
func (e *Env) slips(tokens []token, runes []rune) []Fault {
	var out []Fault
	closed := true
	for i := 0; i < len(tokens); i++ {
		if f, used := unitSlip(tokens[i:], runes); used > 0 {
			out = append(out, f)
			i += used - 1
			continue
		}
		closed = closed && tokens[i].kind != openText
		if f, used := e.slip(tokens[i:]); used > 0 {
			out = append(out, f)
			i += used - 1
		}
	}
	if _, lone := partners(tokens); closed {
		for _, t := range lone {
			f := tokenFault(t, "this bracket closes nothing", "its opening bracket, or none")
			if wanted := closers[t.text]; wanted != "" {
				f.Message, f.Wanted = "this bracket is not closed", wanted
			}
			out = append(out, f)
		}
	}
	slices.SortStableFunc(out, func(a, b Fault) int { return a.Offset - b.Offset })
	return out
}

func tokenFault(t token, message, wanted string) Fault {
	return Fault{Offset: t.start, Width: t.stop - t.start, Code: codeSyntax, Message: message, Found: shortened(t.text), Wanted: wanted}
}

// meant are signs and words of other languages with what they are here.
var meant = map[string]string{"and": "&&", "or": "||", "not": "!", "&": "&&", "|": "||", "is": "==", "=": "==", "===": "==", "!==": "!=", "=>": ">=", "=<": "<=", "<>": "!=",
	"≥": ">=", "≤": "<=", "≠": "!=", "×": "*", "·": "*", "÷": "/", "−": "-", "–": "-",
	"“": `straight quotes, "..."`, "”": `straight quotes, "..."`, "‘": `straight quotes, '...'`, "’": `straight quotes, '...'`,
	"#": "// before a remark", ";": "&& or ||, or nothing"}

// reservedNames are words that the rule language keeps for itself.
var reservedNames = []string{"as", "break", "const", "continue", "else", "for", "function", "if", "import", "let", "loop",
	"package", "namespace", "return", "var", "void", "while"}

// readNames are words that mean something of their own in an expression.
var readNames = []string{"true", "false", "null", "in"}

var identifier = regexp.MustCompile(`^[A-Za-z_][A-Za-z0-9_]*$`)

// IsName reports whether expressions can read s as one name. A name may have
// groups, joined by dots.
func IsName(s string) bool {
	for group := range strings.SplitSeq(s, ".") {
		if !identifier.MatchString(group) || slices.Contains(reservedNames, group) || slices.Contains(readNames, group) {
			return false
		}
	}
	return true
}

// slip tells what is wrong with one sign.
func (e *Env) slip(tokens []token) (Fault, int) {
	if tokens[0].kind == strangeToken || tokens[0].kind == signToken {
		return signSlip(tokens)
	}
	f, is := e.plainSlip(tokens)
	if !is {
		return f, 0
	}
	return f, 1
}

// signSlip tells what is wrong with a sign of another language, or with one that
// no expression has, and how many tokens it takes.
func signSlip(tokens []token) (Fault, int) {
	t, n := tokens[0], 1
	for i := min(3, len(tokens)); i > 1; i-- {
		whole := joined(tokens[:i])
		if wanted := meant[whole.text]; wanted != "" && whole.stop-whole.start == i-1+len([]rune(t.text)) {
			return tokenFault(whole, unreadable, wanted), i
		}
	}
	if len(tokens) > 1 && t.text+tokens[1].text == "/*" {
		for n < len(tokens) && tokens[n-1].text+tokens[n].text != "*/" {
			n++
		}
		n = min(n+1, len(tokens))
		return tokenFault(joined(tokens[:n]), "a remark is not written so in an expression", "// before a remark at the end, or none"), n
	}
	if wanted := meant[t.text]; t.kind == signToken || wanted != "" {
		f := tokenFault(t, unreadable, wanted)
		switch wanted {
		case "":
			n = 0
		case "-":
			f.Found = numbered(f.Found)
		}
		return f, n
	}
	for n < len(tokens) && tokens[n].kind == strangeToken && tokens[n].start == t.stop && (likeLetter(t.text) != "") == (likeLetter(tokens[n].text) != "") {
		t, n = joined([]token{t, tokens[n]}), n+1
	}
	f := tokenFault(t, unreadable, "letters, digits and the signs of the rule language")
	if like := likeLetter(t.text); like != "" {
		f.Wanted, f.Nearest, f.Message = "the letter or sign of the keyboard", like, "this only looks like a letter or sign of the keyboard"
	} else if strings.TrimFunc(t.text, func(r rune) bool { return unicode.Is(unicode.Cf, r) || unicode.IsSpace(r) }) == "" {
		f.Message, f.Wanted = "a character stands here that nobody sees", "the text without it"
	}
	f.Found = numbered(f.Found)
	return f, n
}

// joined returns several signs as one of the sort of the first.
func joined(tokens []token) token {
	out := tokens[0]
	for _, t := range tokens[1:] {
		out.text, out.stop = out.text+t.text, t.stop
	}
	return out
}

// numbered adds to characters that no keyboard of the trade has their numbers, for
// some of them look like those that it has.
func numbered(text string) string {
	var numbers []string
	for _, r := range text {
		if r > unicode.MaxASCII {
			numbers = append(numbers, fmt.Sprintf("U+%04X", r))
		}
	}
	if len(numbers) == 0 {
		return text
	}
	return text + " (" + strings.Join(numbers, " ") + ")"
}

// looks pairs letters of other alphabets with those that they look like.
var looks = strings.NewReplacer("а", "a", "е", "e", "о", "o", "р", "p", "с", "c", "у", "y", "х", "x", "і", "i", "ј", "j", "ѕ", "s", "һ", "h", "ԁ", "d",
	"А", "A", "В", "B", "Е", "E", "К", "K", "М", "M", "Н", "H", "О", "O", "Р", "P", "С", "C", "Т", "T", "Х", "X",
	"ο", "o", "α", "a", "ν", "v", "ρ", "p", "Ο", "O", "Α", "A", "Β", "B", "Ε", "E", "ı", "i", "‐", "-", "‑", "-")

// likeLetter returns what a text of letters and signs of other alphabets looks
// like, "" if it is not made of such alone.
func likeLetter(text string) string {
	like := looks.Replace(text)
	like = strings.Map(func(r rune) rune {
		if r >= 0xFF01 && r <= 0xFF5E { // letters and signs as wide as two
			return r - 0xFEE0
		}
		return r
	}, like)
	if strings.ContainsFunc(like, func(r rune) bool { return r > unicode.MaxASCII }) || like == text {
		return ""
	}
	return like
}

func (e *Env) plainSlip(tokens []token) (Fault, bool) {
	t := tokens[0]
	next := token{start: -1}
	if len(tokens) > 1 {
		next = tokens[1]
	}
	switch t.kind {
	case nameToken:
		if slices.Contains(reservedNames, t.text) {
			return tokenFault(t, t.text+" is a word that the rule language keeps for itself", "another name, or two rules instead of a choice"), true
		}
		wanted := meant[strings.ToLower(t.text)]
		_, declared := e.names[t.text]
		_, isWord := e.words[t.text]
		return tokenFault(t, unreadable, wanted), wanted != "" && !declared && !isWord
	case numberToken:
		return numberSlip(t, next)
	case openText:
		return tokenFault(t, "the quote is not closed", "a text between two quotes, such as "+string([]rune(t.text)[:1])+"north"+string([]rune(t.text)[:1])), true
	}
	return Fault{}, false
}

var plainNumber = regexp.MustCompile(`^(?:[0-9]+|[0-9]*\.[0-9]+)(?:[eE][-+]?[0-9]+)?$`)

func numberSlip(t, next token) (Fault, bool) {
	switch {
	case next.text == "." && next.start == t.stop:
		return tokenFault(t, "a number has digits behind its point", t.text+" or "+t.text+".0"), true
	case next.text == "," && next.start == t.stop && plainNumber.MatchString(t.text):
		return Fault{}, false
	case !plainNumber.MatchString(t.text):
		if _, err := strconv.ParseInt(t.text, 0, 64); err == nil {
			return Fault{}, false // 0x10 is a number to CEL
		}
		return tokenFault(t, "this is not a number", "a number such as 6, 0.5 or 1.5e6"), true
	}
	_, wholeErr := strconv.ParseInt(t.text, 10, 64)
	_, err := strconv.ParseFloat(t.text, 64)
	isWhole := !strings.ContainsAny(t.text, ".eE")
	return tokenFault(t, "the number is too large to be read", "a number below 9e18, or one with an exponent such as 1e20"),
		err != nil || isWhole && wholeErr != nil
}

// unitSlip finds a quantity written as in a setting, such as 6 in, and gives how
// many signs it takes; 0 if there is none.
func unitSlip(tokens []token, runes []rune) (Fault, int) {
	if tokens[0].kind != numberToken {
		return Fault{}, 0
	}
	for n := min(6, len(tokens)); n > 0; n-- {
		first, last := tokens[0], tokens[n-1]
		if _, err := quantity.Parse(string(runes[first.start:last.stop])); err != nil && last.kind == openText { // a foot or inch sign is read as a quote
			last.stop = last.start + 1
		}
		if last.text == "in" && len(tokens) > n && (tokens[n].kind <= textToken || closers[tokens[n].text] != "") {
			continue // the operator
		}
		text := string(runes[first.start:last.stop])
		q, err := quantity.Parse(text)
		if err != nil {
			continue
		}
		if builder, x, ok := builderFor(text, q); ok { // not for a plain number, which has no units
			return Fault{Offset: first.start, Width: last.stop - first.start, Code: codeUnit, Message: "in an expression a unit is written as a function",
				Found: text, Wanted: builder + "(" + x + ")"}, n
		}
	}
	return Fault{}, 0
}

// Written returns how the rule language writes a number or a quantity that stands
// as in a setting, such as 6 in; any other text as it is.
func Written(text string) string {
	q, err := quantity.Parse(text)
	if err != nil {
		return text
	}
	if builder, x, ok := builderFor(strings.TrimSpace(text), q); ok {
		return builder + "(" + x + ")"
	}
	return strconv.FormatFloat(q.SI, 'f', -1, 64)
}

// builderFor finds how the rule language writes what was written as "6 in".
func builderFor(text string, q quantity.Quantity) (builder, number string, ok bool) {
	for _, u := range q.Dim.Units() {
		for _, spelling := range append([]string{u.Symbol, u.Plural, u.Builder}, u.Spellings()...) {
			head, cut := strings.CutSuffix(text, spelling)
			if !cut || spelling == "" {
				continue
			}
			if head = strings.TrimSpace(head); plainNumber.MatchString(head) {
				return u.Builder, head, true
			}
			if x, err := q.In(u.Symbol); err == nil { // a fraction, or feet with inches
				return u.Builder, strconv.FormatFloat(x, 'g', 12, 64), true
			}
		}
	}
	return "", "", false
}

// offsetOf turns CEL's line (from 1) and column (from 0) into an offset.
func offsetOf(text string, line, column int) int {
	offset := 0
	for i, each := range strings.Split(text, "\n") {
		if i == line-1 {
			break
		}
		offset += len([]rune(each)) + 1
	}
	return min(offset+column, len([]rune(text)))
}
