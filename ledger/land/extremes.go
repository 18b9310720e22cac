package land

import (
	_ "embed"
	"strconv"
	"strings"
	"sync"
)

//go:embed extremes.txt
var extremesText string

// extreme is one row of extremes.txt.
type extreme struct {
	lowest, highest float64
	lat, lon        float64
}

var extremes = sync.OnceValue(func() map[string]extreme {
	out := map[string]extreme{}
	for row := range rows(extremesText) {
		f := strings.FieldsFunc(row, func(r rune) bool { return r == '|' || r == ' ' })
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(f[i+1], 64)
		}
		out[f[0]] = extreme{v[0], v[1], v[2], v[3]}
	}
	return out
})

// Heights gives the lowest and the highest point of a country in metres above
// the sea; not known for what the table lacks. Source: The World Factbook
// (README.md); sources differ by some metres, old surveys by tens.
func Heights(alpha2 string) (lowest, highest float64, known bool) {
	e, known := extremes()[alpha2]
	return e.lowest, e.highest, known
}
