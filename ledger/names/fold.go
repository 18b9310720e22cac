package names

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// transcribe writes an epithet or genus in the letters of the Code (Art.
// 60.7): ä ö ü become ae oe ue, ø oe, å ao, æ ae, œ oe, ß ss; the diaeresis
// (Isoëtes) and all other accents go; an apostrophe and a full stop go (Art.
// 60.13).
func transcribe(w string) string {
	plain := true
	for i := 0; i < len(w); i++ {
		if w[i] >= utf8.RuneSelf || w[i] == '\'' || w[i] == '.' || w[i] == '`' {
			plain = false
			break
		}
	}
	if plain {
		return w
	}
	var b strings.Builder
	for _, r := range w {
		if s, ok := transcriptions[r]; ok {
			b.WriteString(s)
			continue
		}
		if r < utf8.RuneSelf {
			if r != '\'' && r != '.' && r != '`' {
				b.WriteRune(r)
			}
			continue
		}
		for _, d := range norm.NFD.String(string(r)) {
			if unicode.IsLetter(d) || d == '-' {
				b.WriteRune(d)
			}
		}
	}
	return b.String()
}

var transcriptions = map[rune]string{
	'ä': "ae", 'ö': "oe", 'ü': "ue", 'ø': "oe", 'å': "ao", 'æ': "ae", 'œ': "oe", 'ß': "ss", 'ð': "d", 'þ': "th", 'ł': "l", 'đ': "d",
	'Ä': "Ae", 'Ö': "Oe", 'Ü': "Ue", 'Ø': "Oe", 'Å': "Ao", 'Æ': "Ae", 'Œ': "Oe", 'Ł': "L", 'Đ': "D", 'ı': "i", 'İ': "I",
	'’': "", '‘': "", '´': "",
}

// figures are the Latin beginnings that old labels shorten to a figure: Paris
// 4-folia (common practice, no source).
var figures = [...]string{"", "uni", "bi", "tri", "quadri", "quinque", "sex", "septem", "octo", "novem", "decem",
	"undecim", "duodecim", "tredecim", "quatuordecim", "quindecim", "sedecim", "septendecim", "octodecim", "novemdecim"}

// tens and ones make the figures from 20 to 99.
var (
	tens = [...]string{"", "", "viginti", "triginta", "quadraginta", "quinquaginta", "sexaginta", "septuaginta", "octoginta", "nonaginta"}
	ones = [...]string{"", "uno", "duo", "tri", "quatuor", "quinque", "sex", "septem", "octo", "novem"}
)

// leadingFigure parts an epithet into the word of its leading figure and the
// rest; rest is empty when it has none that is known.
func leadingFigure(w string) (word, rest string) {
	i, n := 0, 0
	for i < len(w) && i < 4 && w[i] >= '0' && w[i] <= '9' {
		n = 10*n + int(w[i]-'0')
		i++
	}
	switch {
	case i == 0 || w[0] == '0':
		return "", ""
	case n < len(figures):
		word = figures[n]
	case n < 100:
		word = tens[n/10] + ones[n%10]
	case n == 100:
		word = "centi"
	case n == 1000:
		word = "mille"
	default:
		return "", ""
	}
	return word, strings.TrimLeft(w[i:], "-.")
}

// spellFigures writes 4-folia as quadrifolia.
func spellFigures(e string) string {
	if e == "" || e[0] < '0' || e[0] > '9' {
		return e
	}
	word, rest := leadingFigure(e)
	return word + rest
}

// genusForm is a genus in normal spelling: one capital, the first.
func genusForm(w string) string {
	w = transcribe(w)
	for i := 1; i < len(w); i++ {
		if w[i] >= 'A' && w[i] <= 'Z' {
			return w[:1] + strings.ToLower(w[1:])
		}
	}
	if w != "" && w[0] >= 'a' && w[0] <= 'z' {
		return strings.ToUpper(w[:1]) + w[1:]
	}
	return w
}

// Slug is the page address of a name: lower-case ASCII, the rank kept, × left
// out, authors, qualifiers and notes left out (interface.md 2.1):
// ranunculus-acris-subsp-pumilus. A formula joins its parents by x
// (salix-aurita-x-salix-caprea), alternatives by or. The slug of a readable
// name is never empty and holds only a-z, 0-9 and inner hyphens.
func (n Name) Slug() string {
	return slugOf(n.Canonical())
}

// Slug is the page address of the name in a text; empty when the text cannot
// be read as a name.
func Slug(text string) string {
	n, err := Read(text)
	if err != nil {
		return ""
	}
	return n.Slug()
}

func slugOf(canonical string) string {
	b := make([]byte, 0, len(canonical))
	pending := false
	for i, r := range canonical {
		c := byte(0)
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			c = byte(r)
		case r >= 'A' && r <= 'Z':
			c = byte(r) + 'a' - 'A'
		case (r == '×' || r == '+') && isFormulaSign(canonical, i, len(string(r))):
			if len(b) > 0 {
				b = append(b, '-')
			}
			b = append(b, 'x')
			pending = true
			continue
		case r >= utf8.RuneSelf:
			for _, d := range strings.ToLower(transcribe(string(r))) {
				if d >= 'a' && d <= 'z' {
					if pending && len(b) > 0 {
						b = append(b, '-')
					}
					pending = false
					b = append(b, byte(d))
				}
			}
			continue
		}
		if c == 0 {
			pending = pending || r == ' ' || r == '-'
			continue
		}
		if pending && len(b) > 0 {
			b = append(b, '-')
		}
		pending = false
		b = append(b, c)
	}
	return string(b)
}

// isFormulaSign reports whether the sign at i stands between two names: a
// capital or nothing follows and something stands before.
func isFormulaSign(s string, i, size int) bool {
	if i == 0 {
		return false
	}
	rest := strings.TrimLeft(s[i+size:], " ")
	return rest == "" || upperAt(rest, 0) || strings.HasPrefix(rest, "×")
}

// Key is the name for comparison: two names are the same name exactly when
// their keys are equal. Authors, qualifiers, notes, × and notho- are left out
// (Art. H.3.3), ranks between are dropped as in ByCode, an autonym keeps its
// rank.
func (n Name) Key() string {
	var s string
	switch {
	case len(n.Or) > 0:
		return keys(n.Or, " or ")
	case len(n.Parents) > 0:
		return keys(n.Parents, " x ")
	default:
		s = n.ByCode()
	}
	if strings.ContainsAny(s, "×+") || strings.Contains(s, "notho") {
		s = withoutHybrid.Replace(s)
	}
	return strings.ToLower(s)
}

var withoutHybrid = strings.NewReplacer("× ", "", "×", "", "+ ", "", "nothosubsp.", "subsp.", "nothovar.", "var.", "nothof.", "f.",
	"nothosect.", "sect.", "nothoser.", "ser.", "nothosubg.", "subg.")

func keys(list []Name, sep string) string {
	out := make([]string, len(list))
	for i, n := range list {
		out[i] = n.Key()
	}
	return strings.Join(out, sep)
}

// Same reports whether a and b are the same name, authors and qualifiers
// left aside.
func Same(a, b Name) bool { return a.Key() == b.Key() }

// SortKey sorts names as a herbarium's list has them: by genus, species, then
// rank and epithet, × left aside; a name before all that are under it. Compare
// as bytes; not for reading.
func (n Name) SortKey() string {
	if len(n.Or)+len(n.Parents) > 0 {
		list := n.Or
		if len(list) == 0 {
			list = n.Parents
		}
		return list[0].SortKey() + "\x01\xff" + n.Key()
	}
	var b strings.Builder
	b.WriteString(strings.ToLower(n.Uninomial + n.Genus))
	if n.Species == "" {
		for _, p := range n.Ranks {
			b.WriteString("\x01\x02" + string(rune('A'+p.Rank)) + strings.ToLower(p.Epithet))
		}
	} else {
		b.WriteString("\x01\x03" + n.Species)
		for _, p := range n.Ranks {
			if !p.Rank.infrageneric() {
				b.WriteString("\x01" + string(rune('A'+p.Rank)) + p.Epithet)
			}
		}
	}
	if n.Group+n.Cultivar != "" {
		b.WriteString("\x01~" + strings.ToLower(n.Group+" "+n.Cultivar))
	}
	return b.String()
}
