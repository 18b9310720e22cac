package dates

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// The parts of a month, year or decade that words name.
const (
	early = iota + 1
	middle
	late
)

// The bounds that words set.
const (
	before = iota + 1 // not the day itself
	upTo
	after // not the day itself
	since
)

// meaning is what a word can be in a date. A word may be more than one
// thing ("au" is French "to" and an old "Aug."); where it stands decides.
type meaning struct {
	month, season, weekday, part, bound, ordinal uint8

	about, to, and, between, decade, century, time, hour, filler, doubt, week, half, not bool
}

// ordinals count weeks and halves: "first half of June".
var ordinals = map[string]uint8{"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "last": 9,
	"erste": 1, "ersten": 1, "zweite": 2, "zweiten": 2, "dritte": 3, "letzte": 9, "letzten": 9,
	"premiere": 1, "premier": 1, "seconde": 2, "deuxieme": 2, "derniere": 9, "primera": 1, "segunda": 2, "ultima": 9,
	"forste": 1, "andre": 2, "siste": 9}

var (
	weekWords  = []string{"week", "weeks", "wk", "woche", "semaine", "semana", "uke", "uge", "vecka"}
	halfWords  = []string{"half", "halfte", "halvdel", "halva", "moitie", "mitad"}
	doubtWords = []string{"doubtful", "uncertain", "fraglich", "perhaps", "maybe", "vermutlich", "wahrscheinlich", "trolig", "likely"}
)

// vocabulary holds the words of all languages; made on first use.
var vocabulary = sync.OnceValue(buildVocabulary)

func buildVocabulary() map[string]*meaning {
	v := map[string]*meaning{}
	at := func(w string) *meaning {
		w = fold(w)
		if v[w] == nil {
			v[w] = &meaning{}
		}
		return v[w]
	}
	each := func(list string, put func(m *meaning, i uint8)) {
		for i, g := range groups(list) {
			for _, w := range g {
				put(at(w), uint8(i+1))
			}
		}
	}
	set := func(p *uint8, i uint8) {
		if *p == 0 {
			*p = i
		}
	}
	for i := range languages {
		l := &languages[i]
		each(l.months, func(m *meaning, i uint8) { set(&m.month, i) })
		each(l.seasons, func(m *meaning, i uint8) { set(&m.season, i) })
		each(l.weekdays, func(m *meaning, i uint8) { set(&m.weekday, i) })
		each(l.parts, func(m *meaning, i uint8) { set(&m.part, i) })
		each(l.bounds, func(m *meaning, i uint8) { set(&m.bound, i) })
		each(l.about, func(m *meaning, _ uint8) { m.about = true })
		each(l.to, func(m *meaning, _ uint8) { m.to = true })
		each(l.and, func(m *meaning, _ uint8) { m.and = true })
		each(l.between, func(m *meaning, _ uint8) { m.between = true })
		each(l.decade, func(m *meaning, _ uint8) { m.decade = true })
		each(l.century, func(m *meaning, _ uint8) { m.century = true })
		each(l.times, func(m *meaning, _ uint8) { m.time = true })
		each(l.hours, func(m *meaning, _ uint8) { m.hour = true })
		each(l.fillers, func(m *meaning, _ uint8) { m.filler = true })
	}
	for w, n := range ordinals {
		at(w).ordinal = n
	}
	for _, w := range weekWords {
		at(w).week = true
	}
	for _, w := range halfWords {
		at(w).half = true
	}
	for _, w := range doubtWords {
		at(w).doubt = true
	}
	at("not").not, at("no").not = true, true
	abbreviate(v)
	return v
}

// abbreviate adds the beginnings of the months' full words, where all
// languages that have such a beginning agree on the month and the beginning
// is no word already.
func abbreviate(v map[string]*meaning) {
	short := map[string]uint8{}
	for i := range languages {
		l := &languages[i]
		for m, group := range groups(l.months) {
			w := fold(group[0])
			for n := l.shortest; n > 0 && n < len(w); n++ {
				old, met := short[w[:n]]
				switch {
				case !met:
					short[w[:n]] = uint8(m + 1)
				case old != uint8(m+1) && l.shortest == 3:
					short[w[:n]] = 0
				}
			}
		}
	}
	for w, m := range short {
		if !utf8.ValidString(w) || m == 0 {
			continue
		}
		if v[w] == nil {
			v[w] = &meaning{month: m}
		} else if v[w].month == 0 && len(w) >= 3 && !v[w].to && v[w].season == 0 {
			v[w].month = m
		}
	}
}

// lookup is the meaning of a word as written; nil when it has none.
func lookup(w string) *meaning {
	var low [24]byte
	if len(w) > len(low) {
		return nil
	}
	for i := 0; i < len(w); i++ {
		c := w[i]
		switch {
		case c >= utf8.RuneSelf:
			return vocabulary()[fold(w)]
		case c >= 'A' && c <= 'Z':
			c += 'a' - 'A'
		}
		low[i] = c
	}
	return vocabulary()[string(low[:len(w)])]
}

// fold is w in lower case without accents; ø and å become o and a, ß ss.
func fold(w string) string {
	ascii := true
	for i := 0; i < len(w); i++ {
		if w[i] >= utf8.RuneSelf {
			ascii = false
			break
		}
	}
	if ascii {
		return strings.ToLower(w)
	}
	var b strings.Builder
	for _, r := range norm.NFD.String(w) {
		switch r {
		case 'Ø', 'ø':
			b.WriteByte('o')
		case 'Æ', 'æ':
			b.WriteString("ae")
		case 'Œ', 'œ':
			b.WriteString("oe")
		case 'ł', 'Ł':
			b.WriteByte('l')
		case 'ß':
			b.WriteString("ss")
		default:
			if !unicode.Is(unicode.Mn, r) {
				b.WriteRune(unicode.ToLower(r))
			}
		}
	}
	return b.String()
}

// roman is the number that a roman numeral I to XXI names, in either case;
// 0 when it is none. IIII and VIIII are accepted as old labels have them.
func roman(w string) int {
	if len(w) == 0 || len(w) > 5 {
		return 0
	}
	n, last := 0, 0
	for i := len(w) - 1; i >= 0; i-- {
		v := 0
		switch w[i] | 0x20 {
		case 'i':
			v = 1
		case 'v':
			v = 5
		case 'x':
			v = 10
		default:
			return 0
		}
		if v < last {
			n -= v
		} else {
			n, last = n+v, v
		}
	}
	if n > 21 || !isRoman(w, n) {
		return 0
	}
	return n
}

var romanMonths = [...]string{"i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"}

// isRoman refuses spellings such as iix and vv.
func isRoman(w string, n int) bool {
	if n < 1 {
		return false
	}
	tens, rest := (n-1)/10, (n-1)%10 // xx is taken for a blank, not 20
	want := "xx"[:tens] + romanMonths[rest]
	if rest == 9 {
		want = "xx"[:tens] + "x"
	}
	return strings.EqualFold(w, want) || n%10 == 4 && strings.EqualFold(w, "xx"[:n/10]+"iiii") || n%10 == 9 && strings.EqualFold(w, "xx"[:n/10]+"viiii")
}

// romanYear is the year from 1500 to 2099 that a numeral in capitals names,
// MDCCCLXXXVII or MDCCCCX; 0 when it is none.
func romanYear(w string) int {
	if len(w) < 3 || len(w) > 16 || w[0] != 'M' || strings.Trim(w, "MDCLXVI") != "" {
		return 0
	}
	short := additive.Replace(w)
	n, rest := 0, short
	for i, sign := range romanSigns {
		for strings.HasPrefix(rest, sign) {
			n, rest = n+romanValues[i], rest[len(sign):]
		}
	}
	var b strings.Builder
	for i, left := 0, n; i < len(romanSigns); i++ {
		for ; left >= romanValues[i]; left -= romanValues[i] {
			b.WriteString(romanSigns[i])
		}
	}
	if rest != "" || b.String() != short || n < 1500 || n > 2099 {
		return 0
	}
	return n
}

var (
	additive    = strings.NewReplacer("DCCCC", "CM", "CCCC", "CD", "LXXXX", "XC", "XXXX", "XL", "VIIII", "IX", "IIII", "IV")
	romanSigns  = [...]string{"M", "CM", "D", "CD", "C", "XC", "L", "XL", "X", "IX", "V", "IV", "I"}
	romanValues = [...]int{1000, 900, 500, 400, 100, 90, 50, 40, 10, 9, 5, 4, 1}
)

// groups are the words of a language's groups.
func groups(s string) [][]string {
	var out [][]string
	for g := range strings.SplitSeq(s, "|") {
		out = append(out, strings.Fields(g))
	}
	return out
}
