package paper

import (
	"math"
	"strconv"
	"strings"
)

// Pairs of letters that stand closer or wider than side by side, as the kern
// feature of the typeface has them, in 2048ths of an em: a first letter, then
// the second ones with their amount. A test holds this to the font, read by
// HarfBuzz. Letters with accents are not kerned in it; Greek ones are left out.
// The fonts have f ’ at 219 and 199: readers of PDF take a gap from a tenth of an em on
// for a space, so that it is a little nearer here.
var kernPairs = [2]string{
	`, ’”-219
. ’”-219
A ’”-201 Y-180 V-160 W-121 Tvy-100 Uw-80 CGOQ-31
C A-59
D AY-59 W-20 V+41
F ,.-201 A-150 aeo-80
K O-59
L ’”-201 V-180 Y-139 T-129 W-59
O AVY-59 X-49
P ,.-201 A-121
R V-80 W-59 T-41
T ,.-129 A-121 aeo-80
U A-100
V ,.-260 A-201 aeo-121 GO-80
W ,.-201 A-160 aeo-80 O-41
Y ,.-201 A-160 aeo-121 O-80 S-41
a vw-31
c hkl-31
e x-31
f ’”+194
k eo-41
o vx-41 w-31
r ,.-150 ceoq-31 ad-20
v ,.-201 e-49 ao-41
w ,.-150 e-41 ao-31
x o-41 e-31
y ,.-201 eo-41 a-31
‘ A-201
“ A-201`,
	`, ’”-250
. ’”-250
A ’”-180 VY-162 TUWvy-90 w-72 CGOQ-27
C A-53
D VY-53 A-49 W-20
F ,.-180 A-135 aeo-72
K O-53
L ’”-180 V-160 T-125 Y-121 W-80
O X-59 VY-53 A-41
P ,.-180 A-111
R V-111 W-53 T-37
T A-135 ,.-117 aeo-72
U A-90
V ,.-233 A-170 aeo-90 GO-59
W ,.-180 A-100 aeo-49 O-20
Y ,.-180 A-162 eo-129 a-121 O-90 u-59 S-41
a vw-27
c hk-27
e x-27
f ’”+194
k e-14
m y-31
n vy-31
o v-37 w-27 x-20
r ,.-180 a-59 e-49 cgq-41 d-31 o-20
v ,.-121 aeo-20
w ,.-41
x e-14
y ,.-121 e-31 ao-20
‘ A-180
“ A-180`,
}

// kerns is the kerning of one face: of each two letters of which both have a
// class, in thousandths of an em.
type kerns [kernClasses][kernClasses]int16

const kernClasses = 132

// kernClass is the row of a letter; -1: it is never kerned.
func kernClass(r rune) int {
	switch {
	case r < 128:
		return int(r)
	case r == '‘' || r == '’':
		return 128 + int(r-'‘')
	case r == '“' || r == '”':
		return 130 + int(r-'“')
	}
	return -1
}

// readKerns reads kernPairs.
func readKerns(pairs string) *kerns {
	var k kerns
	for _, line := range strings.Split(pairs, "\n") {
		words := strings.Split(line, " ")
		first := kernClass([]rune(words[0])[0])
		for _, w := range words[1:] {
			i := strings.IndexAny(w, "+-")
			amount, err := strconv.Atoi(w[i:])
			if err != nil {
				panic("paper: read kerning: " + err.Error())
			}
			for _, second := range w[:i] {
				k[first][kernClass(second)] = int16(math.Round(float64(amount) * 1000 / 2048))
			}
		}
	}
	return &k
}

// of is how much nearer b stands to a, in thousandths of an em; negative is nearer.
func (k *kerns) of(a, b int) int {
	if a < 0 || b < 0 {
		return 0
	}
	return int(k[a][b])
}
