package groundrule

import (
	"cmp"
	"math"
	"strings"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
	"example.com/groundrule/pkg/value"
)

// weight is what a section takes: the mass of its material and, by a price list, its
// price.
type weight struct {
	mass quantity.Mass
	cost *takeoff.Cost // nil without a list
}

// weightOf takes a section off, of which no more is made than what is bought.
func (b *Book) weightOf(job *site.Site, o *engine.Outcome, prices *takeoff.Prices, day rulebook.Date) (out weight, err error) {
	made, err := begin(b, job, o)
	if err != nil {
		return out, err
	}
	made.s.Status, _ = inside.Status(o)
	made.courses()
	made.work([]section.Form{section.Takeoff})
	if made.err != nil {
		return out, made.err
	}
	t, err := takeoff.Of(made.s)
	if err != nil {
		return out, err
	}
	out.mass = t.Mass()
	if prices != nil {
		out.cost, err = prices.Cost(t, day)
	}
	return out, err
}

// stake is what one choice of a question changes: a thickness, mass and money, each
// below zero where it is saved.
type stake struct {
	by    quantity.Length
	of    string
	mass  quantity.Mass
	money takeoff.Money
}

// kilogram is less than anybody weighs.
const kilogram = quantity.Mass(1)

// compare puts stakes in order by money, then by mass, then by thickness.
func (s stake) compare(other stake) int {
	beyond := func(x, slack float64) int {
		if math.Abs(x) <= slack {
			return 0
		}
		return cmp.Compare(x, 0)
	}
	return cmp.Or(cmp.Compare(s.money, other.money), beyond(float64(s.mass-other.mass), float64(kilogram)), beyond(float64(s.by-other.by), float64(hair)))
}

// weigh tells of each question what its answers may save or add, and puts them in that
// order.
func (b *Book) weigh(first inside.Ran, job *site.Site, questions []question, prices *takeoff.Prices, day rulebook.Date) error {
	if first.Status != section.Designed {
		return nil // nothing can be set beside it
	}
	now, err := b.weightOf(job, first.Outcome, prices, day)
	if err != nil {
		return err
	}
	for i := range questions {
		q := &questions[i]
		var least, most stake
		thicker, ruledOut := false, false
		for at := range q.choices {
			o := &q.choices[at]
			if o.Status != section.Designed {
				ruledOut = true
				continue
			}
			then, err := b.weightOf(o.job, o.outcome, prices, day)
			if err != nil {
				return err
			}
			each := stake{by: o.by, of: o.of, mass: then.mass - now.mass}
			q.Choices[at].Mass = value.Measured(each.mass)
			if now.cost != nil {
				each.money = then.cost.Price - now.cost.Price
				q.Choices[at].Price = each.money.String()
			}
			thicker = thicker || o.by > hair
			if each.compare(least) < 0 {
				least = each
			}
			if each.compare(most) > 0 {
				most = each
			}
		}
		q.stake = stake{money: max(-least.money, most.money), mass: max(-least.mass, most.mass)}
		q.Worth = worth(b.rules, q.test, job.Part, least, most, thicker, ruledOut, now.cost)
	}
	sortQuestions(questions)
	return nil
}

// worth tells in one sentence what an answer may save and add.
func worth(rules *engine.Book, test, part string, least, most stake, thicker, ruledOut bool, cost *takeoff.Cost) section.Sentence {
	if test == "" {
		test = "The answer"
	}
	if part != "" {
		test += " on the " + part
	}
	return both(rules, func(in quantity.System) string {
		saves, adds := least.told(-1, in, cost), most.told(1, in, cost)
		out := test
		switch {
		case saves != "" && adds != "":
			out += " may save " + saves + ", or add " + adds
		case saves != "" && !thicker:
			out += " may save " + saves + "; it cannot make it thicker"
		case saves != "":
			out += " may save " + saves
		case adds != "":
			out += " may add " + adds + "; it cannot save any"
		case ruledOut:
			return out + " may rule this section out; otherwise it changes no quantity that is weighed."
		default:
			return out + " changes how it is built, and no quantity that is weighed."
		}
		if ruledOut {
			out += "; an answer may rule this section out"
		}
		if cost != nil && !cost.Complete {
			out += " (money: of what has a price)"
		}
		return out + "."
	})
}

// told tells amounts of a sign; "" if there is none.
func (s *stake) told(sign float64, in quantity.System, cost *takeoff.Cost) string {
	var parts []string
	if by := quantity.Length(sign) * s.by; by > hair {
		parts = append(parts, value.Measured(by).Brief(in)+" of "+s.of)
	}
	if mass := quantity.Mass(sign) * s.mass; mass > kilogram {
		parts = append(parts, value.Measured(mass).Brief(in))
	}
	if money := takeoff.Money(sign) * s.money; money > 0 {
		parts = append(parts, cost.Say(money))
	}
	return strings.Join(parts, ", ")
}
