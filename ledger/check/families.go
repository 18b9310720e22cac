package check

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/names"
)

var familyRules = []Rule{
	{Code: "family-differs", Severity: ledger.Warning,
		Says: "The family that a record writes is the one that names/ has for its name.",
		Why:  "The family in the record is for names that stand in no list. Where both speak, names/ goes before it. Compositae and Asteraceae, and the seven other pairs of the Code (Art. 18.5), are one family.",
		Join: familyDiffers},
	{Code: "family-form", Severity: ledger.Warning,
		Says: "The name of a family ends in -aceae, or is one of the eight that the Code allows beside it.",
		Why:  "Art. 18.1 and 18.5 of the Code: Compositae, Cruciferae, Gramineae, Guttiferae, Labiatae, Leguminosae, Palmae, Umbelliferae (and Papilionaceae). Another ending is a slip of the pen or the name of an order.",
		Join: familyForm},
	{Code: "names-family", Severity: ledger.Warning,
		Says:  "The family of a file in names/ has the form of a family's name.",
		Why:   "All names of the file stand under it, in the catalogue too.",
		Files: namesFamily},
	{Code: "genus-families", Severity: ledger.Warning,
		Says:  "The accepted names of one genus stand in one family.",
		Why:   "A name of the genus that is in no list gets its family from those that are; where they disagree it gets none.",
		Files: genusFamilies},
}

func familyDiffers(e *book.Entry, a *Around, say say) {
	f := a.Museum.Names.FamilyOf(e.NameKey)
	if e.Family == "" || e.NameKey == "" || f == "" || strings.EqualFold(names.FamilyByType(f), names.FamilyByType(e.Family)) {
		return
	}
	say(place{line: int(e.Lines.Family), field: "family"}, words{"names/ has this name under " + f + ", and names/ goes before the record",
		lines(set(short(e.Number), "family", f), accept(short(e.Number), "family-differs"))})
}

// formOfFamily reports whether words have the form of a family's name.
func formOfFamily(words string) bool {
	const ending = "aceae"
	return !strings.Contains(words, " ") && strings.HasSuffix(names.FamilyByType(words), ending) && len(words) > len(ending)
}

func familyForm(e *book.Entry, a *Around, say say) {
	if stated(e.Family) == "" || formOfFamily(e.Family) {
		return
	}
	n := short(e.Number)
	hint := []string{accept(n, "family-form")}
	if meant := familyMeant(e.Family, a.Museum.Names.Families(), int(a.Settings.SpellingDistance)); meant != "" {
		hint = append([]string{"Did you mean " + meant + "? " + set(n, "family", meant)}, hint...)
	}
	say(place{line: int(e.Lines.Family), field: "family"}, words{"is no name of a family by the Code, so the sheet would stand under a family of its own", lines(hint...)})
}

// otherFamilies are the names of families that the Code allows beside those
// in -aceae (Art. 18.5).
var otherFamilies = []string{"Compositae", "Cruciferae", "Gramineae", "Guttiferae", "Labiatae", "Leguminosae", "Palmae", "Umbelliferae"}

// familyMeant is the family that words are a slip for: the nearest of known,
// else the words with the ending put right; "" when neither is near.
func familyMeant(words string, known []string, letters int) string {
	for _, list := range [][]string{known, otherFamilies} {
		if near := names.Nearest(words, list, letters); near != "" {
			return near
		}
	}
	if i := strings.LastIndex(words, "ac"); i > 2 && len(words)-i <= len("aceae")+1 {
		return words[:i] + "aceae"
	}
	return ""
}

func namesFamily(m *book.Museum, say func(place, words)) {
	seen := map[string]bool{}
	for _, n := range m.Names.All {
		if seen[n.Path] {
			continue
		}
		seen[n.Path] = true
		if n.Family != "" && !formOfFamily(n.Family) {
			hint := "Rename the file and its family."
			if meant := familyMeant(n.Family, nil, int(SettingsOf(&m.Museum).SpellingDistance)); meant != "" {
				hint = "Did you mean " + meant + "? " + hint
			}
			say(place{path: n.Path, line: 1, field: "family"}, words{n.Family + " is no name of a family by the Code, and all names of this file stand under it", hint})
		}
	}
}

func genusFamilies(m *book.Museum, say func(place, words)) {
	first := map[string]*book.Name{}
	for _, n := range m.Names.All {
		if n.Given.Of.Set() || n.Key() == "" {
			continue
		}
		genus, _ := book.GenusOf(n.Key())
		old, ok := first[genus]
		if !ok {
			first[genus] = n
		} else if old.Family != n.Family && old.Key() != n.Key() { // names-twice
			say(inNames(n, n.Given.Name, "names"), words{"the genus " + genus + " stands in " + old.Family + " too (" + old.Path + ")",
				"Move the names of one genus into one file, or make one of the two names a synonym."})
		}
	}
}
