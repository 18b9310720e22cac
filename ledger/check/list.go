package check

import (
	"fmt"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/names"
	"blotter/ledger/reading"
)

// listRules are about the list of names in names/: whether it is in order,
// and whether records use it as it is meant.
var listRules = []Rule{
	{Code: "names-unread", Severity: ledger.Warning,
		Says:  "A name of names/ can be read as a botanical name.",
		Why:   "No record can be found to bear it, and it stands under no genus.",
		Files: namesUnread},
	{Code: "names-authors", Severity: ledger.Warning,
		Says:  "A species or a name below it in names/ has its authors.",
		Why:   "The list is where the catalogue takes authors from, and two different plants have sometimes been given one name (homonyms). Autonyms, hybrid formulas, cultivars and aggregates have none.",
		Files: namesAuthors},
	{Code: "names-early", Severity: ledger.Warning,
		Says:  "A name of names/ was published on 1 May 1753 or later.",
		Why:   "Before that day no name is validly published (Art. 13.1 of the Code; later for mosses, fossils and some algae: checks.names_from).",
		Files: namesEarly},
	{Code: "name-homonym", Severity: ledger.Warning,
		Says: "Where names/ has two names that differ only by their authors, a record says which it means.",
		Why:  "They are different plants, or a correct and an illegitimate name of one; without authors nobody can tell.",
		Join: nameHomonym},
	{Code: "name-later", Severity: ledger.Warning,
		Says: "A specimen is not named by a name that was published later.",
		Why:  "Nobody can use a name that does not exist yet: the date of the determination, the name, or the year of publication in names/ is wrong; or the slip was written anew later.",
		Join: nameLater},
	{Code: "synonym-anew", Severity: ledger.Warning,
		Says: "Nobody names a specimen by a name years after the museum gave that name up.",
		Why:  "The accepted name is looked up in names/, so older sheets need nothing. A new opinion under the old name shows that somebody works by another list, or means something else by it.",
		Join: synonymAnew},
	{Code: "origin-listed", Severity: ledger.Warning,
		Says: "A plant that names/ knows as cultivated only is not of wild origin.",
		Why:  "A plant from a garden that counts as wild puts a dot on the map where it never grew. Escaped and planted are origins of their own; native in names/ is said of the museum's own region.",
		Join: originListed},
}

func namesUnread(m *book.Museum, say func(place, words)) {
	for _, n := range m.Names.All {
		if n.Given.Name.Set() && !n.Read.Readable {
			say(inNames(n, n.Given.Name, "names"), words{"cannot be read as a botanical name, so no record is found to bear it", "Genus first, with a capital; then epithets and authors."})
		}
	}
}

func namesAuthors(m *book.Museum, say func(place, words)) {
	for _, n := range m.Names.All {
		if r := n.Read.Read; n.Read.Readable && r.Authors == "" && asksAuthors(r) {
			say(inNames(n, n.Given.Name, "names"), words{"has no authors, so it cannot be told from another plant's name of the same words",
				"Write them after the name, as in Ranunculus acris L."})
		}
	}
}

// asksAuthors reports whether a name of its kind has authors of its own.
func asksAuthors(n names.Name) bool {
	if len(n.Parents)+len(n.Or) > 0 || n.Cultivar != "" || n.Group != "" || n.Species == "" || n.Rank == names.Aggregate {
		return false
	}
	if k := len(n.Ranks); k > 0 {
		return n.Ranks[k-1].Epithet != n.Species // an autonym has none (Art. 22.1, 26.1)
	}
	return true
}

// publishedIn is the year that words about a publication end with, as in
// "Flora Vossensis: 31 (1907)"; 0 when they name none.
func publishedIn(words string) int {
	year := 0
	for _, f := range strings.FieldsFunc(words, func(r rune) bool { return r < '0' || r > '9' }) {
		if y, err := strconv.Atoi(f); err == nil && len(f) == 4 && y >= 1500 && y < 2200 {
			year = y
		}
	}
	return year
}

func namesEarly(m *book.Museum, say func(place, words)) {
	from := SettingsOf(&m.Museum).NamesFrom
	for _, n := range m.Names.All {
		if y := publishedIn(n.Given.Published.Text); y > 0 && dates.DayOf(y, 12, 31) < from {
			say(inNames(n, n.Given.Published, "names.published"), words{
				fmt.Sprintf("was published in %d, before names are valid (%s)", y, from),
				"Give the later publication that made the name valid, or mend the year. For mosses, fossils and some algae blotter.yaml may have another day: checks: {names_from: 1801-01-01}"})
		}
	}
}

func nameHomonym(e *book.Entry, a *Around, say say) {
	same := a.Museum.Names.Homonyms(e.NameKey)
	if len(same) < 2 {
		return
	}
	authors := reading.ReadName(e.Name).Read.Authorship()
	var all []string
	for _, n := range same {
		if authors != "" && n.Read.Read.Authorship() == authors {
			return
		}
		all = append(all, n.Given.Name.Text)
	}
	say(place{line: int(e.Lines.Name), field: "determinations"}, words{"names/ has this name by different authors, and the record does not say which is meant",
		lines("It may be " + or(all) + ". If the slip says no more: blotter accept " + short(e.Number) + " name-homonym --why TEXT")})
}

func nameLater(e *book.Entry, a *Around, say say) {
	n := a.Museum.Names.Find(e.NameKey)
	if n == nil || !e.Flags.Has(book.NamedDated) {
		return
	}
	if y := publishedIn(n.Given.Published.Text); y > 0 && e.NamedOn.Year() < y {
		say(place{line: int(e.Lines.Name), field: "determinations"}, words{
			fmt.Sprintf("was published in %d, after this determination, so nobody can have used it then", y),
			lines("Look at the slip, and at the year in "+n.Path+".", accept(short(e.Number), "name-later"))})
	}
}

func synonymAnew(e *book.Entry, a *Around, say say) {
	if !e.Flags.Has(book.NamedDated) {
		return
	}
	to := a.Museum.Renamed(e)
	if to == nil {
		return
	}
	given := a.Museum.Names.Find(e.NameKey).Given.Date
	since := dates.Read(given.Text, dates.Ask)
	if !given.Set() || !since.Known() || e.NamedFirst < since.Last+dates.Day(a.Settings.SynonymYears*365.25) {
		return
	}
	say(place{line: int(e.Lines.Name), field: "determinations"}, words{
		fmt.Sprintf("names/ has had this name as a synonym of %s since %s, years before it was used here", to.Given.Name.Text, given.Text),
		lines("If another plant is meant, the name needs sensu and an author.", accept(short(e.Number), "synonym-anew"))})
}

func originListed(e *book.Entry, a *Around, say say) {
	n := a.Museum.Names.Accepted(e.NameKey)
	if n == nil || n.Given.Native.Text != "cultivated" || !e.Flags.Has(book.Wild) {
		return
	}
	say(place{line: int(e.Lines.Name), field: "origin"}, words{"is wild by its record, and only cultivated by names/",
		lines("If it had got away from a garden: "+set(short(e.Number), "origin", "escaped"), "If it grows wild where it was collected, or here by now, mend native in "+n.Path+". "+accept(short(e.Number), "origin-listed"))})
}
