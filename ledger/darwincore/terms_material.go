package darwincore

import (
	"cmp"
	"regexp"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/book"
)

// withheldInfo is what is withheld of a public sheet, and why.
func withheldInfo(s *Sheet) string {
	if s.Withheld == nil || s.Partner != "" {
		return ""
	}
	return s.Withheld.WithheldInfo()
}

// generalized is how the position of a public sheet was made coarser.
func generalized(s *Sheet) string {
	if s.coarse() == nil {
		return ""
	}
	return s.Withheld.Generalized()
}

// disposition is a fate in the words of the list of terms.
func disposition(fate string) string {
	switch fate {
	case "":
		return "in collection"
	case "lost":
		return "missing"
	case "destroyed":
		return "destroyed"
	case "used-up":
		return "used up"
	}
	return "deaccessioned"
}

// firstType is the first statement of type status that holds, of one name; a
// suspected type is none.
func firstType(s *Sheet) (status, of string) {
	for i := range s.Reading.Types {
		if t := &s.Reading.Types[i]; t.Holds() && !t.Suspected && t.Known && t.Of.Words != "" {
			return t.Status, t.Of.Words
		}
	}
	return "", ""
}

// typeStatus are the statements that hold and are not merely suspected, of all names or of the name with
// this key: "isotype of NAME. Publication".
func typeStatus(s *Sheet, key string) string {
	var out []string
	for i := range s.Reading.Types {
		t := &s.Reading.Types[i]
		if !t.Holds() || t.Suspected || key != "" && t.Of.Key() != key {
			continue
		}
		words := t.String()
		if p := t.Given.Published.Text; p != "" {
			words = strings.TrimRight(words, ".") + ". " + p
		}
		out = append(out, words)
	}
	return Join(out)
}

// labels are the writings on the sheet, to the letter.
func labels(r *ledger.Record) string {
	var out []string
	for i := range r.Writings {
		if t := r.Writings[i].Text; t.Set() {
			out = append(out, t.Text)
		}
	}
	return strings.Join(out, labelGap)
}

// labelGap stands between two writings of verbatimLabel.
const labelGap = "\n\n"

// materialRemarks is what whoever handles the sheet must know, and where it
// comes from.
func materialRemarks(s *Sheet) string {
	var out []string
	for _, c := range s.Reading.Cautions {
		if c.Assumed && s.Withheld != nil && s.Partner == "" { // from a date that is not shown
			continue
		}
		words := "caution: " + c.Words
		switch {
		case c.Perhaps:
			words += " (assumed, its age is not known)"
		case c.Assumed:
			words += " (assumed from its age)"
		}
		out = append(out, words)
	}
	for i := range s.Reading.Types {
		if t := &s.Reading.Types[i]; t.Holds() && t.Suspected {
			out = append(out, t.String())
		}
	}
	for _, w := range saidTexts(s.Record.FormerHerb) {
		out = append(out, "from: "+w)
	}
	return Join(out)
}

// recordedBy is the collectors as written.
func recordedBy(r *ledger.Record) string {
	var out []string
	if r.Collector.Set() {
		out = append(out, r.Collector.Text)
	}
	return Join(append(out, texts(r.With)...))
}

// recordedByID is the iDs of the collectors; a person's reading of who it was
// goes before the words.
func (s *Sheet) recordedByID() string {
	who := cmp.Or(s.Record.Read.Person.Is.Text, s.Record.Collector.Text)
	ids := s.orcidsOf(who)
	for _, l := range s.Record.With {
		if more := s.orcidsOf(l.Text); more != "" && ids != "" {
			ids += separator + more
		} else {
			ids += more
		}
	}
	return ids
}

// exsiccata is the printed set: series, part, number.
func exsiccata(r *ledger.Record) string {
	x := &r.Exsiccata
	out := x.Series.Text
	for _, l := range []ledger.Leaf{x.Fascicle, x.Number} {
		if l.Set() && out != "" {
			out += ", "
		}
		out += l.Text
	}
	return out
}

// associates are the plants beside it, in the form of the list of terms:
// "host":"Betula pubescens".
func associates(r *ledger.Record) string {
	var out []string
	add := func(what string, l ledger.Leaf) {
		switch {
		case isSentence(l):
			out = append(out, l.Text)
		case l.Set():
			out = append(out, `"`+what+`":"`+l.Text+`"`)
		}
	}
	add(hostWord, r.Host)
	for _, l := range r.Associates {
		add(besideWord, l)
	}
	return Join(out)
}

// What stands before the names of associatedTaxa.
const (
	hostWord   = "host"
	besideWord = "growing with"
)

// media are the addresses of the pictures that have one.
func media(s *Sheet) string {
	var out []string
	for i := range s.Record.Images {
		if a := s.mediaAddress(&s.Record.Images[i]); strings.Contains(a, "://") {
			out = append(out, a)
		}
	}
	return Join(out)
}

// mediaAddress is where a picture is found: its web address, that on the
// museum's site, or when the site has none its path there.
func (s *Sheet) mediaAddress(im *ledger.Image) string {
	file := im.File.Text
	if s.Partner == "" {
		file = cmp.Or(im.Public.Text, file)
	}
	if file == "" || book.IsAddress(file) {
		return file
	}
	if s.Has != nil && !s.Has(file) { // outside of the ledger: not on the site
		return ""
	}
	return s.ids.base + file
}

// creativeCommons is a licence of Creative Commons in capitals.
var creativeCommons = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(?:CC|CREATIVE COMMONS)[ -]?(BY(?:[- ](?:NC|SA|ND))*)[ -]V?([1-4]\.0|2\.5)(?: INTERNATIONAL)?$`)
})

// LicenceAddress is the address of a licence named in its usual short form,
// CC BY 4.0; other words, addresses among them, stay as they are.
func LicenceAddress(words string) string {
	w := strings.ToUpper(strings.Join(strings.Fields(words), " "))
	switch w {
	case "CC0", "CC0 1.0", "CC-0", "CC ZERO", "CC0-1.0":
		return "https://creativecommons.org/publicdomain/zero/1.0/legalcode"
	case "PUBLIC DOMAIN MARK 1.0", "PDM 1.0", "PDM":
		return "https://creativecommons.org/publicdomain/mark/1.0/"
	}
	if m := creativeCommons().FindStringSubmatch(w); m != nil {
		return "https://creativecommons.org/licenses/" + strings.ToLower(strings.ReplaceAll(m[1], " ", "-")) + "/" + m[2] + "/"
	}
	return words
}

// LicenceWords is the usual short form of a licence of Creative Commons by its
// address; other words stay as they are.
func LicenceWords(address string) string {
	switch rest, ok := strings.CutPrefix(address, "https://creativecommons.org/"); {
	case !ok:
	case rest == "publicdomain/zero/1.0/legalcode":
		return "CC0 1.0"
	case rest == "publicdomain/mark/1.0/":
		return "Public Domain Mark 1.0"
	default:
		rest, ok = strings.CutPrefix(rest, "licenses/")
		if terms, version, two := strings.Cut(strings.TrimSuffix(rest, "/"), "/"); ok && two {
			return "CC " + strings.ToUpper(terms) + " " + version
		}
	}
	return address
}
