package check

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/land"
	"blotter/ledger/reading"
)

var countryRules = []Rule{
	{Code: "country-unknown", Severity: ledger.Warning,
		Says: "A country has a name by which it is known: of ISO 3166, common, local or former.",
		Why:  "By its country a sheet is found, filed and published. A misspelt one is a country of its own.",
		One:  countryUnknown},
	{Code: "country-several", Severity: ledger.Warning,
		Says: "Where a label names a country that is several today, a reading says which (read: country).",
		Why:  "A sheet from the USSR goes out with the code of one country of today, or none; the label keeps its words.",
		One:  countrySeveral},
	{Code: "province-spelling", Severity: ledger.Warning,
		Says: "A province is spelt as its country's provinces are.",
		Why:  "Two spellings are two provinces to a list. Names are compared without capitals, accents and words such as County.",
		One:  provinceSpelling},
	{Code: "province-elsewhere", Severity: ledger.Warning,
		Says: "A province is one of the country that the record names.",
		Why:  "Country or province is misread. Only said when the name is known of another country and not of this one.",
		One:  provinceElsewhere},
}

// countryWords are the words for a country that a record has, and where.
func countryWords(d *reading.Reading) (words string, l ledger.Leaf, field string) {
	if h := d.Country.ByHand; h != nil {
		return h.Is.Text, h.Is, "read.country.is"
	}
	l = d.Record.Place.Country
	return stated(l.Text), l, "place.country"
}

func countryUnknown(d *reading.Reading, say say) {
	name, l, field := countryWords(d)
	if name == "" {
		return
	}
	if _, ok := land.Country(name); ok {
		return
	}
	n := numberOf(d)
	message, hint := quote(name)+" is no country that is known here", "If the label has it so, say which it is: blotter set "+n+" country-read=COUNTRY --why TEXT"
	if near := land.SuggestCountry(name); near != "" {
		message += "; did you mean " + near + "?"
		hint = lines(set(n, field, near), "or, if the label has it so: blotter set "+n+" country-read="+quoted(near)+" --why TEXT")
	}
	say(at(l, field), words{message, lines(hint, accept(n, "country-unknown"))})
}

func countrySeveral(d *reading.Reading, say say) {
	if !d.Full() || d.Country.ByHand != nil {
		return
	}
	l := d.Record.Place.Country
	is, ok := land.Country(stated(l.Text))
	if !ok || len(is.Codes) < 2 {
		return
	}
	names := make([]string, len(is.Codes))
	for i, c := range is.Codes {
		names[i] = called(c)
	}
	n := numberOf(d)
	message, which := quote(l.Text)+" is more than one country today", "COUNTRY"
	if p := d.Position; p.Known && !hidden(d) {
		if w, on := land.At(p.Lat, p.Lon); on && w.Metres == 0 {
			message += "; the point lies in " + called(w.Country)
			which = quoted(land.Name(w.Country))
		}
	}
	if which == "COUNTRY" && len(names) <= 4 {
		message += ": " + or(names)
	}
	say(at(l, "place.country"), words{message, lines("blotter set "+n+" country-read="+which+" --why TEXT", accept(n, "country-several"))})
}

// provinceIn looks for a record's province in its countries. codes are those
// that have boundaries with names; known says whether one of them has it.
func provinceIn(d *reading.Reading) (province string, codes []string, known bool) {
	province = stated(d.Record.Place.Province.Text)
	if province == "" {
		return "", nil, false
	}
	codes = countriesOf(d)
	for _, c := range codes {
		if _, ok := land.Region(c, province); ok {
			return province, codes, true
		}
	}
	return province, codes, false
}

func provinceSpelling(d *reading.Reading, say say) {
	province, codes, known := provinceIn(d)
	if known || len(codes) != 1 {
		return
	}
	near := land.SuggestRegion(codes[0], province)
	if near == "" {
		return
	}
	n, l := numberOf(d), d.Record.Place.Province
	if hidden(d) {
		say(at(l, "place.province"), words{"may be misspelt: the country has a province of nearly that name", lines("Look at the label.", accept(n, "province-spelling"))})
		return
	}
	say(at(l, "place.province"), words{quote(province) + " may be misspelt; did you mean " + near + "?",
		lines(set(n, "place.province", near), accept(n, "province-spelling"))})
}

func provinceElsewhere(d *reading.Reading, say say) {
	province, codes, known := provinceIn(d)
	if known || len(codes) != 1 || land.SuggestRegion(codes[0], province) != "" {
		return
	}
	var others []string
	for _, c := range land.CountriesOf(province) {
		if land.MayMean(codes[0], c, 0) {
			return
		}
		others = append(others, called(c))
	}
	if len(others) == 0 || len(others) > 3 {
		return
	}
	n, l := numberOf(d), d.Record.Place.Province
	message := "is not known as a province of the country, but of " + or(others)
	if !hidden(d) {
		message = quote(province) + " is not known as a province of " + called(codes[0]) + ", but of " + or(others)
	}
	say(at(l, "place.province"), words{message, lines("Look at the label: is the country right?", accept(n, "province-elsewhere"))})
}

// quote puts words of a record into a message.
func quote(s string) string { return `"` + strings.TrimSpace(s) + `"` }
