package check

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/opinion"
	"blotter/ledger/people"
	"blotter/ledger/reading"
)

var gatheringRules = []Rule{
	{Code: "collno-twice", Severity: ledger.Warning,
		Says:  "Two sheets with one collector and one collector's number have one date and one place.",
		Why:   "One number is one gathering. Where date or place differ, a number is misread or the collector used it twice.",
		Of:    &byGathering,
		Group: collNoTwice},
	{Code: "gathering-names", Severity: ledger.Warning,
		Says:  "Duplicates of one gathering have one current name.",
		Why:   "One gathering is one kind of plant, so one of the names is wrong, or the new name of one was never put on the other. Of 9,222 dipterocarp gatherings 29 % lay under different names in different herbaria (Goodwin and others, Current Biology 25, 2015).",
		Of:    &byGathering,
		Group: gatheringNames},
	{Code: "gathering-origin", Severity: ledger.Warning,
		Says:  "Duplicates of one gathering are all wild or all cultivated.",
		Why:   "A plant from a garden that counts as wild puts a dot on the map where it never grew.",
		Of:    &byGathering,
		Group: gatheringOrigin},
	{Code: "gathering-type", Severity: ledger.Warning,
		Says:  "Duplicates of a type are types too.",
		Why:   "A duplicate of a holotype is an isotype, and wants the same care and the same rules for loans. If it may be one: a type statement whose basis is suspected protects it as well.",
		Of:    &byGathering,
		Group: gatheringType},
	{Code: "collno-shared", Severity: ledger.Warning,
		Says:  "Two people who collected together have a number of their own for each gathering.",
		Why:   "Where both have the same number on the same day, the sheet of one was entered under the other.",
		Of:    &byNumberDay,
		Group: collNoShared},
}

// byGathering puts sheets of one collector and number together.
var byGathering = Grouping{Name: "collno", Keys: func(keys []string, e *book.Entry) []string {
	no := strings.ToLower(strings.TrimSpace(stated(e.CollNo)))
	if !led(e) || no == "" {
		return keys
	}
	if n, ok := reading.ReadCollNo(no); ok {
		no = n.Prefix + strconv.Itoa(int(n.Serial)) + n.Suffix
	}
	return append(keys, e.Who+"|"+no)
}}

// byNumberDay puts together what bears one collector's number and was
// collected on one day, whoever collected it.
var byNumberDay = Grouping{Name: "noday", Keys: func(keys []string, e *book.Entry) []string {
	n, ok := reading.ReadCollNo(e.CollNo)
	if !led(e) || !ok || !oneDay(e) {
		return keys
	}
	return append(keys, strconv.Itoa(int(e.First))+"|"+n.Prefix+strconv.Itoa(int(n.Serial))+n.Suffix)
}}

// oneDay reports whether a plant was surely collected on one day.
func oneDay(e *book.Entry) bool { return e.Dated && e.First == e.Last && !e.Uncertain }

// unlikes finds those of a gathering that do not go with its others: all are
// compared with the first, and those like it with the first that is not, for a
// number may stand on hundreds of sheets.
func unlikes(same []*book.Entry, unlike func(a, b *book.Entry) bool, use func(e, other *book.Entry)) {
	first := same[0]
	i := slices.IndexFunc(same[1:], func(e *book.Entry) bool { return unlike(first, e) })
	if i < 0 {
		return
	}
	other := same[i+1]
	for _, e := range same {
		switch {
		case unlike(e, first):
			use(e, first)
		case unlike(e, other):
			use(e, other)
		}
	}
}

func collNoTwice(g *group, say sayOf) {
	for _, same := range g.persons() {
		unlikes(same, func(a, b *book.Entry) bool { return differs(a, b) != "" }, func(e, other *book.Entry) {
			say(e, place{line: int(e.Lines.CollNo), field: "coll_no"}, words{
				fmt.Sprintf("%s has the same collector and number with another %s; one number is one gathering", other.Number, differs(e, other)),
				lines("Look at both labels. Duplicates have one date and one place.", accept(short(e.Number), "collno-twice"))}, other)
		})
	}
}

// samePlaceMetres is how far apart the positions of duplicates may lie beyond
// their uncertainties; where none is stated for one, unknownMetres more: two
// museums look up one label's place each in its own map. Our choice, no source.
const (
	samePlaceMetres = 1000
	unknownMetres   = 10000
)

// differs names what speaks against two sheets being of one gathering.
func differs(a, b *book.Entry) string {
	switch {
	case a.Dated && b.Dated && (a.Last < b.First || b.Last < a.First):
		return "date"
	case placed(a) && placed(b):
		if apart(a, b)*1000 > samePlaceMetres+unstated(a)+unstated(b) {
			return "position"
		}
	case unlike(a.Country, b.Country) || unlike(a.Province, b.Province) || unlike(a.District, b.District):
		return "place"
	}
	return ""
}

func unstated(e *book.Entry) float64 {
	if e.Flags.Has(book.Told) {
		return 0
	}
	return unknownMetres
}

// alike is those of each gathering of a group that are duplicates of each
// other as far as date and place say.
func (g *group) alike() [][]*book.Entry {
	var out [][]*book.Entry
	for _, same := range g.persons() {
		if slices.ContainsFunc(same[1:], func(e *book.Entry) bool { return differs(same[0], e) != "" }) {
			continue // a number used twice: nothing can be said of duplicates
		}
		out = append(out, same)
	}
	return out
}

func gatheringNames(g *group, say sayOf) {
	for _, same := range g.alike() {
		named := slices.DeleteFunc(slices.Clone(same), func(e *book.Entry) bool { return e.NameKey == "" || e.Fate != "" || e.Flags.Has(book.Mixed) })
		if len(named) < 2 {
			continue
		}
		unlikes(named, func(a, b *book.Entry) bool { return otherName(a, b, g.around) }, func(e, other *book.Entry) {
			say(e, place{line: int(e.Lines.Name), field: "determinations"}, words{
				fmt.Sprintf("its duplicate %s is %s, and this is %s; one gathering is one kind of plant", other.Number, other.NameKey, e.NameKey),
				lines("Compare the sheets. If this one follows: blotter determine "+short(e.Number)+" "+quoted(other.Name), accept(short(e.Number), "gathering-names"))}, other)
		})
	}
}

// otherName reports whether the current names of two sheets, as accepted, are
// different and neither lies within the other.
func otherName(a, b *book.Entry, around *Around) bool {
	x, y := accepted(a, around), accepted(b, around)
	return !opinion.Within(x, y) && !opinion.Within(y, x)
}

// accepted is the canonical name that names/ gives for an entry's own.
func accepted(e *book.Entry, around *Around) string {
	if n := around.Museum.Renamed(e); n != nil {
		return n.Key()
	}
	return e.NameKey
}

func gatheringOrigin(g *group, say sayOf) {
	garden := func(e *book.Entry) bool { return e.Flags.Has(book.Cultivated) }
	for _, same := range g.alike() {
		unlikes(same, func(a, b *book.Entry) bool {
			return garden(a) && b.Flags.Has(book.Wild) || garden(b) && a.Flags.Has(book.Wild)
		}, func(e, other *book.Entry) {
			say(e, place{line: int(e.Lines.CollNo), field: "coll_no"}, words{
				fmt.Sprintf("of it and its duplicate %s one is wild and one is cultivated, and both cannot be", other.Number),
				lines("Look at both labels. "+set(short(e.Number), "origin", "ORIGIN"), accept(short(e.Number), "gathering-origin"))}, other)
		})
	}
}

func gatheringType(g *group, say sayOf) {
	for _, same := range g.alike() {
		i := slices.IndexFunc(same, func(e *book.Entry) bool { return e.Flags.Has(book.Typed) && len(e.Types) > 0 })
		if i < 0 {
			continue
		}
		typed := same[i]
		for _, e := range same {
			if e.Flags.Has(book.Typed) {
				continue
			}
			say(e, place{line: int(e.Lines.CollNo), field: "coll_no"}, words{
				fmt.Sprintf("its duplicate %s is recorded as %s, and this is recorded as no type", typed.Number, typed.Types[0]),
				lines("If it is one: blotter typestatus "+short(e.Number)+" isotype --of NAME --by PERSON", accept(short(e.Number), "gathering-type"))}, typed)
		}
	}
}

func collNoShared(g *group, say sayOf) {
	if len(g.same) > 200 {
		return // one number and day on so many sheets is a distribution of duplicates
	}
	unlikes(g.same, g.around.together, func(e, other *book.Entry) {
		say(e, place{line: int(e.Lines.CollNo), field: "coll_no"}, words{
			fmt.Sprintf("%s has the same number and day under %s, who was there too; each has numbers of one's own", other.Number, other.Collector),
			lines("Look at both labels for whose number it is.", accept(short(e.Number), "collno-shared"))}, other)
	})
}

// together reports whether two sheets are of two collectors of whom one names
// the other as a companion.
func (a *Around) together(x, y *book.Entry) bool {
	return x.Who != y.Who && (a.among(x, y.Who) || a.among(y, x.Who))
}

// among reports whether who is in the team of an entry.
func (a *Around) among(e *book.Entry, who string) bool {
	for w := range strings.SplitSeq(e.With, "; ") {
		if team := a.team(w); len(team) > 0 && team[0] == who {
			return true
		}
	}
	return slices.Contains(a.team(e.Collector), who)
}

// team is who each of the persons is that words name, as reading.Who says it.
// The same words stand on thousands of sheets.
func (a *Around) team(words string) []string {
	team, known := a.teams[words]
	if known {
		return team
	}
	if first := reading.Who(words); first != "" {
		team = append(team, first)
		for _, p := range people.Read(words)[1:] {
			team = append(team, reading.Who(p.String()))
		}
	}
	if a.teams == nil {
		a.teams = map[string][]string{}
	}
	a.teams[words] = team
	return team
}
