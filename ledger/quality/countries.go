package quality

import (
	"strings"

	"blotter/ledger/land"
)

// Codes that Darwin Core takes from the user's range of ISO 3166.
const (
	highSeas       = "XZ"
	unknownCountry = "ZZ"
)

// antarctica has a code of ISO 3166, but is no nation.
const antarctica = "AQ"

// countryCodeStandard asks whether countryCode is an ISO 3166-1 alpha-2 code,
// to the letter.
func countryCodeStandard(in *input) Response {
	if in.empty(dwcCountryCode) {
		return internal("dwc:countryCode is empty")
	}
	v := in.value(dwcCountryCode)
	if isCountryCode(v) {
		return compliant("dwc:countryCode is an ISO 3166-1 alpha-2 code")
	}
	why := "dwc:countryCode is no ISO 3166-1 alpha-2 code"
	if code, ok := codeMeant(v); ok {
		why += "; write " + code
	}
	return notCompliant(why)
}

func isCountryCode(s string) bool {
	return s == highSeas || s == unknownCountry || land.Official(s)
}

// codeMeant is the alpha-2 code that words mean: a name, a three-letter code,
// a code in small letters.
func codeMeant(words string) (string, bool) {
	w := trim(words)
	if up := strings.ToUpper(w); len(w) <= 3 && len(w) >= 2 {
		code, ok := land.CodeOf(up)
		return code, ok && isCountryCode(code)
	}
	if strings.EqualFold(w, "high seas") {
		return highSeas, true
	}
	code, ok := land.CodeOf(w)
	if !ok {
		code, ok = codeInAnyLanguage(w)
	}
	return code, ok && isCountryCode(code)
}

// standardCountryCode proposes the alpha-2 code of a country that is named
// otherwise.
func standardCountryCode(in *input) Response {
	if in.empty(dwcCountryCode) {
		return internal("dwc:countryCode is empty")
	}
	v := in.value(dwcCountryCode)
	if isCountryCode(v) {
		return notAmended("dwc:countryCode is an ISO 3166-1 alpha-2 code already")
	}
	code, ok := codeMeant(v)
	if !ok {
		return notAmended("dwc:countryCode names no one country")
	}
	return amended("dwc:countryCode means "+land.Name(code), Change{dwcCountryCode, code})
}

// countryFound asks whether country is the name of one nation, of today or of
// before with the same land. Names are those of ISO 3166 and Natural Earth, in
// the languages of CLDR. Territories of another nation are no nation.
func countryFound(in *input) Response {
	if in.empty(dwcCountry) {
		return internal("dwc:country is empty")
	}
	v := in.value(dwcCountry)
	if v != trim(v) {
		return notCompliant("blanks stand before or after dwc:country")
	}
	code, ok := nationOf(v)
	if !ok {
		why := "dwc:country names no one nation"
		if near := land.SuggestCountry(v); near != "" {
			why += "; near to it: " + near
		}
		return notCompliant(why)
	}
	if code == antarctica {
		return notCompliant("dwc:country names a continent, not a nation")
	}
	if of := land.PartOf(code); of != "" {
		return notCompliant("dwc:country names a territory of " + land.Name(of) + ", not a nation")
	}
	return compliant("dwc:country names a nation: " + land.Name(code))
}

// nationOf is the code of the country that a name means. Codes are no names,
// and the high seas no country.
func nationOf(name string) (string, bool) {
	if len(name) <= 3 && strings.ToUpper(name) == name && land.Official(name) {
		return "", false
	}
	is, ok := land.Country(name)
	if ok {
		if is.Kind == land.Part || len(is.Codes) != 1 || is.Codes[0] == highSeas {
			return "", false
		}
		return is.Codes[0], true
	}
	return codeInAnyLanguage(name)
}

// countryConsistent asks whether country and countryCode mean the same. With
// the code of the high seas country should be empty, says the standard's note.
func countryConsistent(in *input) Response {
	if in.empty(dwcCountry) || in.empty(dwcCountryCode) {
		return internal("dwc:country or dwc:countryCode is empty")
	}
	name, code := in.value(dwcCountry), in.value(dwcCountryCode)
	switch {
	case name != trim(name) || code != trim(code):
		return notCompliant("blanks stand before or after dwc:country or dwc:countryCode")
	case !isCountryCode(code):
		return notCompliant("dwc:countryCode is no ISO 3166-1 alpha-2 code")
	case code == highSeas:
		return notCompliant("the high seas belong to no country: dwc:country should be empty")
	}
	is, ok := nationOf(name)
	switch {
	case !ok:
		return notCompliant("dwc:country names no one country")
	case is != code:
		return notCompliant("dwc:country means " + is + ", not " + code)
	}
	return compliant("dwc:country and dwc:countryCode mean the same")
}
