package drawn_test

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// box is where something lies in a picture.
type box struct{ left, top, right, bottom float64 }

// seen is a picture as it is read back.
type seen struct {
	width, height float64
	all           []box // of everything that is drawn
	texts         []box
	words         []string
	shapes        []box // of the areas
}

var (
	numbers = regexp.MustCompile(`-?\d+(?:\.\d+)?`)
	corners = regexp.MustCompile(`^M([-\d., ]+)z`)
)

// known are the elements and the attributes that a picture has.
var known = map[string]string{
	"svg": "xmlns viewBox role aria-labelledby font-family font-size fill stroke stroke-linejoin y width height", "title": "id", "desc": "id", "defs": "",
	"pattern": "id patternUnits width height", "path": "d fill fill-rule stroke stroke-width", "circle": "cx cy r fill stroke stroke-width",
	"polyline": "points stroke-width stroke-dasharray", "text": "x y fill stroke text-anchor transform",
}

// wideness is how wide a letter of 12 is at most, on the average, in the fonts without
// serifs that browsers have: 0.6 of its height.
const letter, wideness = 12, 0.6

// read reads a picture and says what is wrong with it by itself.
func read(svg string) (p seen, faults []string) {
	fault := func(format string, of ...any) { faults = append(faults, fmt.Sprintf(format, of...)) }
	ids, asked := map[string]bool{}, []string{}
	pattern := false
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			fault("it is not XML: %v", err)
			return p, faults
		}
		if end, is := token.(xml.EndElement); is && end.Name.Local == "pattern" {
			pattern = false
		}
		e, is := token.(xml.StartElement)
		if !is {
			continue
		}
		name, at := e.Name.Local, map[string]string{}
		allowed, isKnown := known[name]
		if !isKnown {
			fault("the element %s", name)
		}
		for _, a := range e.Attr {
			at[a.Name.Local] = a.Value
			if !strings.Contains(" "+allowed+" ", " "+a.Name.Local+" ") {
				fault("%s has %s", name, a.Name.Local)
			}
			if strings.Contains(a.Value, "NaN") || strings.Contains(a.Value, "Inf") || regexp.MustCompile(`\d[eE][-+]?\d|\.\d\d`).MatchString(a.Value) && a.Name.Local != "d" {
				fault("%s of %s is %s", a.Name.Local, name, a.Value)
			}
		}
		if id := at["id"]; id != "" {
			if ids[id] {
				fault("the id %s twice", id)
			}
			ids[id] = true
		}
		if f := at["fill"]; strings.HasPrefix(f, "url(#") {
			asked = append(asked, strings.TrimSuffix(f[5:], ")"))
		}
		pattern = pattern || name == "pattern"
		if pattern {
			continue
		}
		var b box
		switch name {
		case "svg":
			asked = append(asked, strings.Fields(at["aria-labelledby"])...)
			var x, y float64
			if _, err := fmt.Sscan(at["viewBox"], &x, &y, &p.width, &p.height); err != nil || at["role"] != "img" {
				fault("the root is %v", e.Attr)
			}
			continue
		case "polyline":
			b = around(at["points"])
		case "path":
			b = around(corners.FindStringSubmatch(at["d"])[1])
			p.shapes = append(p.shapes, b)
		case "circle":
			x, y, r := number(at["cx"]), number(at["cy"]), number(at["r"])
			b = box{x - r, y - r, x + r, y + r}
		case "text":
			words := ""
			if err := d.DecodeElement(&words, &e); err != nil || strings.TrimSpace(words) == "" {
				fault("a text without words: %v", err)
			}
			b = written(at, words)
			p.texts, p.words = append(p.texts, b), append(p.words, words)
		default:
			continue
		}
		p.all = append(p.all, b)
	}
	for _, id := range asked {
		if !ids[id] {
			fault("nothing has the id %s", id)
		}
	}
	for _, b := range p.all {
		if b.left < 0 || b.top < 0 || b.right > p.width || b.bottom > p.height {
			fault("%v is beyond %v by %v", b, p.width, p.height)
		}
	}
	for i, a := range p.texts {
		for k, b := range p.texts[:i] {
			if a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom {
				fault("%q lies over %q", p.words[i], p.words[k])
			}
		}
	}
	return p, faults
}

func number(text string) float64 { x, _ := strconv.ParseFloat(text, 64); return x }

func around(places string) box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for i, each := range numbers.FindAllString(places, -1) {
		if x := number(each); i%2 == 0 {
			b.left, b.right = min(b.left, x), max(b.right, x)
		} else {
			b.top, b.bottom = min(b.top, x), max(b.bottom, x)
		}
	}
	return b
}

// written is the room that a text takes: its letters stand on y, and the tails of some
// reach below.
func written(at map[string]string, words string) box {
	x, y, wide := number(at["x"]), number(at["y"]), wideness*letter*float64(utf8.RuneCountInString(words))
	left := x
	if at["text-anchor"] == "middle" {
		left -= wide / 2
	}
	if strings.HasPrefix(at["transform"], "rotate(-90") {
		return box{x - 0.8*letter, y - wide/2, x + 0.2*letter, y + wide/2}
	}
	return box{left, y - 0.8*letter, left + wide, y + 0.2*letter}
}
