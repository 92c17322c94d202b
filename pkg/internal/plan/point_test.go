package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestPoints(t *testing.T) {
	for d := -720.0; d <= 720; d += 7.3 {
		sine, cosine := math.Sincos(d * math.Pi / 180)
		h := heading(d)
		require.InDeltaSlice(t, []float64{cosine, sine}, []float64{h.x, h.y}, 2e-15, "%g degrees", d)
	}
	for d, want := range map[float64]point{0: {1, 0}, 90: {0, 1}, 180: {-1, 0}, 270: {0, -1}, -90: {0, -1}, -360: {1, 0}, 450: {0, 1}} {
		h := heading(d)
		require.True(t, h == want, "quarter turns are exact: %g degrees", d)
	}
	for _, c := range []struct {
		name string
		p    point
		want float64
	}{
		{"above the side", point{4, 3}, 2}, {"below it", point{6, -2}, 3}, {"before it", point{-2, 5}, 5}, {"beyond it", point{16, 13}, 13}, {"on it", point{5, 1}, 0},
	} {
		require.InDelta(t, c.want, c.p.toSide(point{1, 1}, point{11, 1}), 1e-12, c.name)
	}
	axis := point{0.6, 0.8}
	for _, p := range []point{{3, 4}, {-1, 2}} {
		q := p.along(axis)
		require.InDeltaSlice(t, []float64{0.6*p.x + 0.8*p.y, 0.6*p.y - 0.8*p.x}, []float64{q.x, q.y}, 1e-12, "so far along it, and so far to its left")
		require.InDelta(t, 0, q.back(axis).to(p), 1e-12)
	}
}

// TestWhereSidesCross holds where two sides are in one place between their ends.
func TestWhereSidesCross(t *testing.T) {
	for _, c := range []struct {
		name string
		a, b side
		want []float64
	}{
		{"crossing", side{a: point{0, 0}, b: point{10, 10}}, side{a: point{10, 0}, b: point{0, 10}}, []float64{5}},
		{"crossing, of different heights", side{a: point{0, 0}, b: point{10, 10}}, side{a: point{6, 2}, b: point{6, 30}}, []float64{6}},
		{"crossing, the other way around", side{a: point{6, 2}, b: point{6, 30}}, side{a: point{0, 0}, b: point{10, 10}}, []float64{6}},
		{"side by side", side{a: point{0, 0}, b: point{10, 10}}, side{a: point{1, 0}, b: point{11, 10}}, nil},
		{"one above the other", side{a: point{0, 0}, b: point{10, 10}}, side{a: point{10, 10}, b: point{0, 20}}, nil},
		{"meeting at the low end", side{a: point{0, 0}, b: point{10, 10}}, side{a: point{0, 0}, b: point{-5, 10}}, nil},
		{"meeting at the high end", side{a: point{0, 0}, b: point{10, 10}}, side{a: point{20, 0}, b: point{10, 10}}, nil},
	} {
		require.InDeltaSlice(t, c.want, crossings([]side{c.a, c.b}), 1e-12, c.name)
	}
	s := side{a: point{1, 2}, b: point{5, 10}}
	for y, want := range map[float64]float64{0: 1, 2: 1, 4: 2, 8: 4, 10: 5, 12: 5} {
		require.InDelta(t, want, s.at(y), 1e-12, "at %g", y)
	}
}
