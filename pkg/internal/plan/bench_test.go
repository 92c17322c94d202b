package plan

import (
	"math/rand/v2"
	"testing"

	"example.com/groundrule/pkg/quantity"
)

// BenchmarkLayRolls times what quantities ask for on every design.
func BenchmarkLayRolls(b *testing.B) {
	f := quantity.Feet
	patio, _ := Rectangle(f(40), f(20))
	round, _ := Circle(f(30))
	r := rand.New(rand.NewPCG(1, 1))
	var many []Shape
	for len(many) < 50 {
		many = append(many, anyShape(r, 12, 60))
	}
	p := Product{Width: f(12.5), Length: f(300), Lap: f(1), EndLap: f(3), Shortest: f(10)}
	for name, shapes := range map[string][]Shape{"patio": {patio}, "circle": {round}, "polygons": many} {
		b.Run(name, func(b *testing.B) {
			for i := range b.N {
				if _, err := LayRolls(shapes[i%len(shapes)], p, f(0.5), 2); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
