package language
import ("testing";"fmt";"strings")
func TestProbe(t *testing.T) {
	e := testEnv(t)
	for _, s := range strings.Split(probes, "\n") {
		if s == "" { continue }
		s = strings.ReplaceAll(s, "⏎", "\n")
		func() {
			defer func() { if r := recover(); r != nil { fmt.Printf("!!PANIC %s: %v\n", s, r) } }()
			_, fs := e.Condition(s, nil)
			if len(fs) == 0 { fmt.Printf("C OK   %s\n", s) }
			for _, f := range fs { fmt.Printf("C %-30s => %s\n", s, written(s, f)) }
		}()
		func() {
			defer func() { if r := recover(); r != nil { fmt.Printf("!!PANIC E %s: %v\n", s, r) } }()
			x, fs := e.Expression(s, "", nil)
			if len(fs) == 0 { v, err := x.Eval(testFrame(e)); fmt.Printf("E OK   %s = %v %v (%T %v)\n", s, v.Kind(), v.Data(), v.Data(), err) }
			for _, f := range fs { fmt.Printf("E %-30s => %s\n", s, written(s, f)) }
		}()
	}
}
const probes = `
cover >= 6
6 <= cover
cover >= 6.5
cover + load > load
cover == load
cover == 6
cover in [6]
cover in [inches(6), 6]
base in [dense_graded, 3]
base in [dense_graded, biaxial]
base in []
base == "panel"
base == pannel
base == biaxial
base == grid
base == base_type
base_type == panel
base_type
length
double
int
string
bool
type
list
number
null
1u
b'abc'
'abc'
grid_product.strength
net.strength
net.strenght
net.aperture
known(net.aperture)
known(spare.aperture)
known(light_net.aperture)
known(light_net.aperture) && light_net.aperture > inches(1)
light_net.aperture
known(net.strength)
known(net.foo)
known(cbr)
known(foo)
known(wet && wet)
known()
known(cbr, cbr)
cbr.known()
known
has(net.aperture)
water > inches(3)
known(water) && water > inches(3)
known(water) || water > inches(3)
!known(water) || water > inches(3)
!(known(water) && wet) && water > inches(3)
known(water) && (known(swell) || wet) && swell > 2
frost + frost
frost - frost
frost * 2
2 * frost
-frost
frost < celsius(3)
frost == celsius(-5)
frost < 3
!cbr
-base
cbr % 2
cbr + label
label + label
label == 'north'
label < 'x'
wet == true
wet < true
wet + 1
cbr && wet
wet || 3
cbr = 3
cbr & 3
cbr &&& 3
cbr >
(cbr > 3
cbr > 3)
cbr > 3 wet
6 in
cover > 6 in
cover > 6"
cover > 6'
cover > 6 inches
in
while
cbr > in
a.in
cbr.foo
soil
soil.cbrr
soil.cbr > 3
liquid_limit > 3
cbrr > 3
inch(3)
inches(3, 4)
inches('a')
inches(inches(3))
inches()
inches
modulus(cbr)
modulus(cover)
modulus(0)
modulus(cbr, 3)
panics(3)
endless(1)
mean([])
mean([1, 2])
mean(readings)
mean([1, 'a'])
spread(cover, tyre)
spread(cover, 3)
tyre == tyre
tyre
cbr > 3 ? 1 : 2
[1,2][0]
readings[0]
{'a': 1}
grid{}
readings.all(x, x > 3)
readings.size()
size(readings)
count(readings)
1/0
0/0
1/zero
7/2
1e308 * 10
1e999
0.1 + 0.2 == 0.3
0.1 + 0.2 <= 0.3
0.1 + 0.2 in [0.3]
inches(2) + inches(4) == inches(6)
inches(2) + inches(4) in [inches(6)]
2 * inches(3)
inches(3) * 2
inches(3) * inches(2)
inches(3) / inches(2)
inches(3) / 0
inches(3) / inches(0)
force / area
volume * density
2 / cover
cover / time
cover * load
cover * density
9223372036854775808
9223372036854775807
0x10
1.5.5
1..5
.5
5.
cbr > 3 // comment
cbr > 3 # comment
"unclosed
'unclosed
cbr > 3 && 
&& cbr
cbr > > 3
cbr >< 3
cbr <> 3
cbr => 3
not wet
wet and wet
wet AND wet
cbr > 3 or wet
cbr ≥ 3
“north” == label
cbr > 3, wet
a b c
$x
@
\
` + "`cbr`" + `
wet == wet && wet
!(wet && wet) == wet
larger(wet && wet, 3)
larger(3, cover)
larger(3, 4)
larger(frost, frost)
[cover]
[cover, 3]
[]
[[1]]
[1, 'a'] == readings
readings == [3,5,4]
net.note == 'stiff'
known(net.note) && net.note == 'stiff'
heavy_net.strength
sand == sand
base == sand
river_sand == sand
open_graded.foo
cbr.(3)
cbr > 3;
-(-(3))
--3
!!wet
- - 3
.cbr > 3
wet⏎&& cbrr > 3
`
