package sheet

import (
	"fmt"
	"io"
	"strings"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Functions writes every function of a rulebook's language in three groups: what
// the language itself has, the units, and the calculations with the words that
// their arguments take, their ranges and sources. The only error is that of w.
func Functions(w io.Writer, rules rulebook.Contents) error {
	var own, made, calculations []rulebook.Function
	for _, f := range rules.Functions {
		switch {
		case f.Function != nil:
			calculations = append(calculations, f)
		case f.Unit:
			made = append(made, f)
		default:
			own = append(own, f)
		}
	}
	p := &page{}
	p.Heading("LANGUAGE: what conditions and answers are written with")
	for _, f := range own {
		p.function(f)
	}
	p.Heading("UNITS: each makes a quantity of a plain number")
	p.units(made)
	p.Heading("CALCULATIONS")
	for _, f := range calculations {
		p.function(f, rules.Vocabularies...)
	}
	return p.Write(w)
}

// units writes one line for each unit.
func (p *page) units(units []rulebook.Function) {
	column := 0
	for _, f := range units {
		column = max(column, len(strings.Join(f.Signatures, "; ")))
	}
	for _, f := range units {
		p.Put(2, fmt.Sprintf("%-*s  ", column, strings.Join(f.Signatures, "; ")), f.About)
	}
}

// function writes a function with all that a reader must know to call it.
func (p *page) function(f rulebook.Function, vocabularies ...rulebook.Vocabulary) {
	for _, signature := range f.Signatures {
		p.Put(2, "", signature)
	}
	p.Put(6, "", fullStop(pages.Capital(f.About)))
	if c := f.Function; c != nil {
		sig, _ := signature.Of(*c) // without kinds if it is not described as it is written
		for i, param := range c.Params {
			p.Put(6, param.Name+": ", param.About)
			if i >= len(sig.Params) {
				continue
			}
			if words := wordsOf(sig.Params[i].Value(), vocabularies); words != "" {
				p.Put(8, "one of: ", words)
			}
		}
		p.Put(6, "gives: ", c.Result.About)
		if c.Range != "" {
			p.Put(6, "range: ", c.Range)
		}
		p.sources(6, f)
	}
	if f.Example != "" {
		p.Put(6, "try: ", f.Example)
	}
}

// wordsOf lists the words of a kind of value, if it is a vocabulary.
func wordsOf(kind value.Kind, vocabularies []rulebook.Vocabulary) string {
	var out []string
	for _, v := range vocabularies {
		if v.Kind == kind {
			for _, w := range v.Words {
				out = append(out, w.Word.Name)
			}
		}
	}
	return strings.Join(out, ", ")
}

func (p *page) sources(indent int, f rulebook.Function) {
	for _, s := range f.Function.Sources {
		p.Put(indent, "source: ", cite(s.String(), s.Known))
		if s.Note != "" {
			p.Put(indent+2, "note: ", fullStop(s.Note))
		}
	}
}
