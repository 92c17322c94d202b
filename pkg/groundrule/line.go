package groundrule

import (
	"sync"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// both says a sentence in both systems of units, in one where they are the same, each
// as the language of the rulebook writes it.
func both(rules *engine.Book, say func(quantity.System) string) section.Sentence {
	us, si := say(rules.In(quantity.US)), say(rules.In(quantity.SI))
	if si == us {
		si = ""
	}
	return section.Sentence{US: us, SI: si}
}

// lines holds what [Book.Lines] returns, made when first used. It is no sync.OnceValue,
// since Lines falls back on the standard book, which is opened as every book is.
type lines struct {
	once  sync.Once
	words map[string]string
}

// words returns the lines of the book, to be read and not changed.
func (b *Book) words() map[string]string {
	b.lines.once.Do(func() { b.lines.words = b.Lines() })
	return b.lines.words
}

// told says a line of the rulebook in both systems, with its holes filled by texts,
// sentences, and values as one person says them to another.
func (b *Book) told(name string, holes ...any) section.Sentence {
	return both(b.rules, func(in quantity.System) string {
		fill := make([]string, len(holes))
		for i, h := range holes {
			switch h := h.(type) {
			case string:
				fill[i] = h
			case section.Sentence:
				fill[i] = h.In(in)
			case value.Value:
				fill[i] = h.Brief(in)
			}
		}
		return page.Fill(b.words()[name], fill...)
	})
}
