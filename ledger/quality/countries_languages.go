package quality

import (
	_ "embed"
	"strings"
	"sync"
	"unicode"
)

//go:embed countries.txt
var countriesText string

// countryLanguages is the code of a country by its folded name in some
// language. Read at the first name that ledger/land does not know.
var countryLanguages = sync.OnceValue(func() map[string]string {
	m := make(map[string]string, strings.Count(countriesText, ";"))
	for line := range strings.Lines(countriesText) {
		code, names, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "|")
		if !ok || line[0] == '#' {
			continue
		}
		for name := range strings.SplitSeq(names, ";") {
			m[name] = code
		}
	}
	return m
})

// FoldCountry keeps the letters and marks of a name, in lower case, as
// countries.txt has them.
func FoldCountry(s string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsLetter(c) || unicode.IsMark(c) {
			return unicode.ToLower(c)
		}
		return -1
	}, s)
}

// codeInAnyLanguage is the code of a country by its name in some language of
// CLDR.
func codeInAnyLanguage(name string) (string, bool) {
	code, ok := countryLanguages()[FoldCountry(name)]
	return code, ok
}
