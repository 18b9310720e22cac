package quality

import (
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/language"
	"golang.org/x/text/language/display"

	"blotter/ledger/land"
)

// countryLanguages is the names of countries in the languages of CLDR, as
// golang.org/x/text has them, folded. A name that means two countries is left
// out. Made at the first name that ledger/land does not know.
var countryLanguages = sync.OnceValue(func() map[string]string {
	m := map[string]string{}
	for _, tag := range display.Supported.Tags() {
		namer := display.Regions(tag)
		if namer == nil {
			continue
		}
		for _, code := range land.Codes() {
			region, err := language.ParseRegion(code)
			if err != nil {
				continue
			}
			name := foldCountry(namer.Name(region))
			switch old, taken := m[name]; {
			case name == "" || len(name) <= 2:
			case taken && old != code:
				m[name] = ""
			default:
				m[name] = code
			}
		}
	}
	return m
})

func foldCountry(s string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsLetter(c) || unicode.IsMark(c) {
			return unicode.ToLower(c)
		}
		return -1
	}, s)
}

// codeInAnyLanguage is the code of a country by its name in some language.
func codeInAnyLanguage(name string) (string, bool) {
	code := countryLanguages()[foldCountry(name)]
	return code, code != ""
}
