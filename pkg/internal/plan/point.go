package plan

import "math"

// point is a point or an arrow of the plane, in meters.
type point struct{ x, y float64 }

func (p point) plus(q point) point           { return point{p.x + q.x, p.y + q.y} }
func (p point) minus(q point) point          { return point{p.x - q.x, p.y - q.y} }
func (p point) times(k float64) point        { return point{float64(p.x * k), float64(p.y * k)} }
func (p point) dot(q point) float64          { return float64(p.x*q.x) + float64(p.y*q.y) }
func (p point) cross(q point) float64        { return float64(p.x*q.y) - float64(p.y*q.x) }
func (p point) length() float64              { return math.Sqrt(p.dot(p)) }
func (p point) to(q point) float64           { return q.minus(p).length() }
func (p point) unit() point                  { return p.times(1 / p.length()) }
func (p point) right() point                 { return point{p.y, -p.x} }
func (p point) along(axis point) (q point)   { return point{axis.dot(p), axis.cross(p)} }
func (p point) back(axis point) (from point) { return axis.times(p.x).minus(axis.right().times(p.y)) }

// toSide returns how far p lies from the side between a and b.
func (p point) toSide(a, b point) float64 {
	side := b.minus(a)
	share := p.minus(a).dot(side) / side.dot(side)
	return p.to(a.plus(side.times(min(max(share, 0), 1))))
}

// heading returns the arrow of length 1 that a turn of so many degrees to the
// left makes of one to the right of the page. Whole quarter turns are exact.
func heading(degrees float64) point {
	degrees = math.Mod(degrees, 360)
	quarters := math.Round(degrees / 90)
	x := (degrees - float64(90*quarters)) * (math.Pi / 180)
	square, cosine, sine, term := float64(x*x), 1.0, x, x
	for k := 2.0; k < 24; k += 2 { // at 45 degrees the last term is below 1e-24
		cosine += float64(-term * x / k)
		term = -term * square / (k * (k + 1))
		sine += term
	}
	p := point{cosine, sine}
	for range (int(quarters)%4 + 4) % 4 {
		p = point{-p.y, p.x}
	}
	return p
}
