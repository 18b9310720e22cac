package reading

import (
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// Number is a count in words as a span: 60, about 60, 20-30, more than 100.
// Most is 0 when nothing bounds it.
type Number struct {
	Least, Most int
	Known       bool
}

var figures = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`[0-9]{1,9}`) })

// ReadNumber reads how many plants were seen or taken. Words without a figure
// give none.
func ReadNumber(words string) Number {
	s := strings.ToLower(strings.NewReplacer(",", "", "'", "", "\u00a0", "").Replace(words))
	all := figures().FindAllString(s, 2)
	if len(all) == 0 || strings.Contains(s, "%") {
		return Number{}
	}
	a, _ := strconv.Atoi(all[0])
	b := a
	if len(all) == 2 {
		b, _ = strconv.Atoi(all[1])
	}
	n := Number{min(a, b), max(a, b), true}
	switch {
	case strings.ContainsAny(s, ">+") || hasAny(s, "more than", "over ", "at least", "min."):
		n.Most = 0
	case strings.ContainsAny(s, "<") || hasAny(s, "less than", "fewer than", "under ", "at most", "max."):
		n.Least = 0
	}
	return n
}

func hasAny(s string, words ...string) bool {
	for _, w := range words {
		if strings.Contains(s, w) {
			return true
		}
	}
	return false
}
