package quality

import (
	"regexp"
	"strings"
	"sync"
)

// The licences that the standard takes: Creative Commons 4.0 and CC0 1.0, by
// their addresses. Translations of the deed and of the legal code have a
// language behind a full stop.
var (
	ccKinds     = wordSet("by by-sa by-nc by-nc-sa by-nd by-nc-nd")
	ccLanguages = wordSet("id eu da de en es fr fy hr it lv lt mi ni no pl pt ro si fi sv tr cs el ru uk ar jp zh-hans zh-hant ko")
)

const ccHome = "https://creativecommons.org/"

// licenceStandard asks whether the licence is the address of one of these.
func licenceStandard(in *input) Response {
	if in.empty(dctermsLicense) {
		return internal("dcterms:license is empty")
	}
	return complies(isLicence(in.value(dctermsLicense)), "dcterms:license is the address of a Creative Commons 4.0 licence or CC0",
		"dcterms:license is not the address of a Creative Commons 4.0 licence or CC0")
}

// isLicence reads https://creativecommons.org/licenses/by/4.0/, perhaps with
// deed or legalcode behind it.
func isLicence(s string) bool {
	rest, ok := strings.CutPrefix(s, ccHome)
	if !ok {
		rest, ok = strings.CutPrefix(s, "http://creativecommons.org/")
	}
	if !ok {
		return false
	}
	tail, ok := strings.CutPrefix(rest, "publicdomain/zero/1.0/")
	if !ok {
		kind, after, _ := strings.Cut(strings.TrimPrefix(rest, "licenses/"), "/")
		tail, ok = strings.CutPrefix(after, "4.0/")
		if !ok || !strings.HasPrefix(rest, "licenses/") || !ccKinds[kind] {
			return false
		}
	}
	page, language, more := strings.Cut(tail, ".")
	return tail == "" || (page == "deed" || page == "legalcode") && (!more || ccLanguages[language])
}

// standardLicence proposes the address of a licence that is named otherwise.
// A Creative Commons licence without its version is not guessed, nor is one of
// another version turned into 4.0: the giver of the licence chose it. The
// published answer for CC0 is the address of the legal code, so all are.
func standardLicence(in *input) Response {
	v := in.value(dctermsLicense)
	if in.empty(dctermsLicense) {
		return notAmended("dcterms:license is empty")
	}
	if isLicence(v) {
		return notAmended("dcterms:license is such an address already")
	}
	address, why := licenceMeant(trim(v))
	if address == "" {
		return notAmended("dcterms:license " + why)
	}
	return amended("dcterms:license names this licence", Change{dctermsLicense, address})
}

// underlined is a version with an underline for its point: CC_BY_4_0.
var underlined = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`([1-9])_([0-9])`) })

// licenceMeant reads CC0, CC BY 4.0, CC-BY-NC-4.0, Creative Commons
// Attribution 4.0 International, and addresses with small slips.
func licenceMeant(s string) (address, why string) {
	w := underlined().ReplaceAllString(strings.ToLower(s), "$1.$2")
	for _, r := range [][2]string{
		{"https://", ""}, {"http://", ""}, {"www.", ""}, {"creativecommons.org/licenses/", "cc "}, {"creativecommons.org/publicdomain/zero", "cc0 "},
		{"creative commons", "cc"}, {"public domain dedication", ""}, {"universal", ""}, {"international", ""}, {"licence", ""}, {"license", ""}, {"legalcode", ""}, {"deed", ""},
		{"attribution", "by"}, {"non-commercial", "nc"}, {"noncommercial", "nc"}, {"share-alike", "sa"}, {"sharealike", "sa"}, {"no-derivatives", "nd"}, {"noderivatives", "nd"},
		{"no-derivs", "nd"}, {"noderivs", "nd"}, {"unported", ""},
	} {
		w = strings.ReplaceAll(w, r[0], r[1])
	}
	words := strings.FieldsFunc(w, func(c rune) bool { return strings.ContainsRune(" -_/,()", c) })
	version, kinds, cc, zero := "", []string{}, false, false
	for _, word := range words {
		switch {
		case word == "cc":
			cc = true
		case word == "cc0" || word == "zero":
			cc, zero = true, true
		case word == "by" || word == "nc" || word == "sa" || word == "nd":
			kinds = append(kinds, word)
		case strings.HasPrefix(word, "ccby") && ccKinds[strings.TrimPrefix(word, "cc")]:
			cc, kinds = true, append(kinds, "by")
		case strings.TrimLeft(strings.TrimPrefix(word, "v"), "0123456789.") == "" && version == "":
			version = strings.TrimPrefix(word, "v")
		default:
			return "", "names no licence of the list"
		}
	}
	kind := strings.Join(kinds, "-")
	page := "legalcode"
	if strings.Contains(s, "creativecommons.org/") { // an address with a slip: its canonical form
		page = ""
	}
	switch {
	case zero && kind == "" && (version == "" || version == "1.0" || version == "1"):
		return ccHome + "publicdomain/zero/1.0/" + page, ""
	case !cc || zero || !ccKinds[kind]:
		return "", "names no licence of the list"
	case version == "":
		return "", "does not say which version of the licence is meant"
	case version != "4.0" && version != "4":
		return "", "names another version of the licence"
	}
	return ccHome + "licenses/" + kind + "/4.0/" + page, ""
}
