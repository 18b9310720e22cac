package land

import (
	_ "embed"
	"slices"
	"strconv"
	"strings"
	"sync"
)

//go:embed wider.txt
var widerText string

// span is what a country also held until a year.
type span struct {
	until int
	codes []string
}

var wider = sync.OnceValue(func() map[string][]span {
	out := map[string][]span{}
	for row := range rows(widerText) {
		f := strings.Split(row, "|")
		until, _ := strconv.Atoi(f[1])
		out[f[0]] = append(out[f[0]], span{until, strings.Fields(f[2])})
	}
	return out
})

// MayMean reports whether a label of a year that names one country may mean a
// place that is drawn as another's: a territory of it with a code of its own,
// or what it held in that year (year 0: at any time). From memory, and
// generous.
func MayMean(alpha2, other string, year int) bool {
	if alpha2 == other || PartOf(other) == alpha2 {
		return true
	}
	for _, s := range wider()[alpha2] {
		if year <= s.until && slices.Contains(s.codes, other) {
			return true
		}
	}
	return false
}
