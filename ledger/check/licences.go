package check

import (
	"regexp"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
)

var licenceRules = []Rule{
	{Code: "image-licence", Severity: ledger.Warning,
		Says: "The licence of a picture is one that others know: a Creative Commons licence with its version, CC0 1.0, Public Domain Mark 1.0, or all rights reserved.",
		Why:  "With other words nobody can tell what he may do with it, and aggregators take it for none. (TDWG data quality test VALIDATION_LICENSE_STANDARD takes CC0 and Creative Commons 4.0; older versions are met on older pictures.)",
		One:  imageLicence},
	{Code: "site-licence", Severity: ledger.Warning,
		Says:  "The catalogue's licence stands in blotter.yaml and is one that others know.",
		Why:   "Without a licence nobody may use the catalogue's data, and aggregators do not take it in (TDWG data quality test VALIDATION_LICENSE_NOTEMPTY).",
		Files: siteLicence},
}

// licenceForm is a Creative Commons licence in capitals: terms, then version.
var licenceForm = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(?:HTTPS://CREATIVECOMMONS\.ORG/LICENSES/|CC |CC-|CREATIVE COMMONS )(BY(?:[- ]NC)?(?:[- ](?:SA|ND))?)(?:[ /-]+V?([1-4]\.0|2\.5|[1-4]))?(?:/(?:DEED|LEGALCODE)(?:\.[-A-Z]+)?)?/?$`)
})

// licenceOf reads words for a licence: its usual short form, and whether the
// words are that form, its address or words that reserve all rights. "" when
// they are no licence that is known.
func licenceOf(words string) (short string, plain bool) {
	w := strings.Replace(strings.ToUpper(strings.Join(strings.Fields(words), " ")), "HTTP://", "HTTPS://", 1)
	switch strings.TrimRight(strings.Replace(w, "/DEED.EN", "", 1), "/.") {
	case "CC0", "CC0 1.0", "HTTPS://CREATIVECOMMONS.ORG/PUBLICDOMAIN/ZERO/1.0":
		return "CC0 1.0", true
	case "CC 0", "CC-0", "CC ZERO", "CC0-1.0":
		return "CC0 1.0", false
	case "PDM", "PDM 1.0", "PUBLIC DOMAIN MARK 1.0", "HTTPS://CREATIVECOMMONS.ORG/PUBLICDOMAIN/MARK/1.0":
		return "Public Domain Mark 1.0", true
	case "PUBLIC DOMAIN":
		return "Public Domain Mark 1.0", false
	case "ALL RIGHTS RESERVED", "IN COPYRIGHT":
		return "all rights reserved", true
	}
	m := licenceForm().FindStringSubmatch(w)
	if m == nil {
		return "", false
	}
	terms, version := strings.ReplaceAll(m[1], " ", "-"), m[2]
	if version != "" && !strings.Contains(version, ".") {
		version += ".0"
	}
	if version == "" {
		return "CC " + terms + " 4.0", false
	}
	short = "CC " + terms + " " + version
	return short, w == short || strings.HasPrefix(w, "HTTPS")
}

// licenceWords says what is wrong with a licence; false when nothing is.
func licenceWords(text string) (message, meant string, wrong bool) {
	short, plain := licenceOf(text)
	switch {
	case plain:
		return "", "", false
	case short != "":
		return "is nearly a licence that others know; programs look for its exact form", short, true
	}
	return "is no licence that others know, so nobody can tell what may be done with it", "", true
}

func imageLicence(d *reading.Reading, say say) {
	n := numberOf(d)
	for i, im := range d.Record.Images {
		message, meant, wrong := licenceWords(im.Licence.Text)
		if !im.Licence.Set() || !wrong {
			continue
		}
		field := nth("images", i, "licence")
		hint := set(n, field, "CC BY 4.0") + "   or whatever was agreed"
		if meant != "" {
			hint = "Did you mean " + meant + "? " + set(n, field, meant)
		}
		say(at(im.Licence, field), words{message, lines(hint, accept(n, "image-licence"))})
	}
}

func siteLicence(m *book.Museum, say func(place, words)) {
	l := m.Site.Licence
	p := at(l, "site.licence")
	p.path = ledger.MuseumFile
	if !l.Set() {
		if m.Site.Address.Set() {
			p.line = int(m.Site.Address.Line)
			say(p, words{"the catalogue has an address and no licence, so nobody may use what it says", "Write below site: licence: CC BY 4.0   or what the museum decides"})
		}
		return
	}
	if message, meant, wrong := licenceWords(l.Text); wrong {
		hint := "For example: licence: CC BY 4.0"
		if meant != "" {
			hint = "Did you mean: licence: " + meant
		}
		say(p, words{message, hint})
	}
}
