package check

import (
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/names"
	"blotter/ledger/reading"
)

var nameRules = []Rule{
	{Code: "name-unread", Severity: ledger.Warning,
		Says: "A name can be read as a botanical name, or says that the plant was not named (indet.).",
		Why:  "A name that cannot be read stands upright on its page, has no place among the names and is found only by its words.",
		One:  nameUnread},
	{Code: "name-unlisted", Severity: ledger.Warning,
		Says: "The current name of a specimen stands in names/, if the museum keeps names.",
		Why:  "A name in no list has no family, no accepted name and no protection; or it is a slip of the pen.",
		Join: nameUnlisted},
	{Code: "name-address", Severity: ledger.Warning,
		Says: "Two names that would share one page address have an address of their own in names/.",
		Why:  "Addresses are folded to plain letters and leave out × and authors, so two different names may get one page. Give one of them its address in names/.",
		Join: nameAddress},
	{Code: "cover-name", Severity: ledger.Warning,
		Says: "The name on the cover of a full record is the current name or has a determination.",
		Why:  "A name on a cover that no determination gives is either an opinion that was never typed or a sheet in the wrong cover.",
		One:  coverName},
}

func nameUnread(d *reading.Reading, say say) {
	if !anyName(d, func(n *reading.Name) bool { return !n.Readable && n.Words != "" }) {
		return
	}
	eachName(d, func(n *reading.Name, l ledger.Leaf, field func() string) {
		if !l.Set() || n.Readable || n.Unnamed {
			return
		}
		say(at(l, field()), words{"cannot be read as a botanical name, so it stands under no genus or family",
			lines("Genus first, with a capital; qualifiers before the part in doubt: Ranunculus acris cf. subsp. pumilus", accept(numberOf(d), "name-unread"))})
	})
}

func nameUnlisted(e *book.Entry, a *Around, say say) {
	if a.Museum.Names.Empty() || e.NameKey == "" || a.Museum.Names.Lists(e.NameKey) {
		return
	}
	file := ledger.NamesDir + "/FAMILY.yaml"
	if f := a.Museum.Names.FamilyOf(e.NameKey); f != "" {
		file = ledger.NamesDir + "/" + f + ".yaml"
	}
	hint := []string{"Put it into " + file + ". " + accept(short(e.Number), "name-unlisted")}
	if near := a.Museum.Names.Near(e.NameKey, int(a.Settings.SpellingDistance)); near != "" {
		hint = append([]string{"Did you mean " + near + "? Look at the label."}, hint...)
	}
	say(place{line: int(e.Lines.Name), field: "determinations"}, words{"the name " + e.NameKey + " is not in names/, so it has no accepted name and no protection", lines(hint...)})
}

func nameAddress(e *book.Entry, a *Around, say say) {
	if e.NameKey == "" || a.Museum.Names.Find(e.NameKey) != nil {
		return
	}
	if n := a.Museum.Names.BySlug(names.Slug(e.NameKey)); n != nil {
		say(place{line: int(e.Lines.Name), field: "determinations"}, words{
			strconv.Quote(e.Name) + " would share the page " + n.Slug + " with " + strconv.Quote(n.Given.Name.Text),
			"Put this name into names/ with an address of its own, for example address: " + n.Slug + "-2"})
	}
}

// coverName compares the cover with the names given; a stub or draft may have
// a cover name alone.
func coverName(d *reading.Reading, say say) {
	cover := d.Record.CoverName
	if !d.Full() || !cover.Set() {
		return
	}
	n := reading.ReadName(cover.Text)
	if !n.Readable {
		return
	}
	if current, _ := d.Current(); current.Key() == n.Key() || firm(current) == n.Key() {
		return
	}
	for i := range d.Opinions {
		for _, k := range d.Opinions[i].Name.Keys {
			if k == n.Key() || strings.HasPrefix(k, n.Key()+" ") {
				return
			}
		}
	}
	say(at(cover, "cover_name"), words{"no determination gives the name on the cover, so nobody can say whose it is",
		lines("If it is an opinion: blotter determine "+numberOf(d)+" "+quoted(cover.Text)+" --by unsigned --date s.d.", accept(numberOf(d), "cover-name"))})
}

func firm(n reading.Name) string {
	if !n.Readable {
		return ""
	}
	return n.Read.Firm()
}
