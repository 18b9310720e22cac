package check

import (
	"fmt"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
)

var museumRules = []Rule{
	{Code: "names-twice", Severity: ledger.Warning,
		Says:  "A name stands once in names/.",
		Why:   "Of two entries one is never looked at.",
		Files: namesTwice},
	{Code: "names-of", Severity: ledger.Warning,
		Says:  "A synonym is of a name that stands in names/ and is accepted there.",
		Why:   "Otherwise it has no accepted name, and its sheets no place among the accepted.",
		Files: namesOf},
	{Code: "names-address", Severity: ledger.Warning,
		Says:  "No two names of names/ share a page address.",
		Why:   "Addresses are folded to plain letters and leave out × and authors. Two names with one address would be one page.",
		Files: namesAddress},
	{Code: "person-twice", Severity: ledger.Warning,
		Says:  "A name or spelling in people.yaml belongs to one person.",
		Why:   "A label with that spelling would always be given to the first of the two.",
		Files: personTwice},
	{Code: "place-twice", Severity: ledger.Warning,
		Says:  "A standing locality has a name of its own in places.yaml.",
		Why:   "Whoever asks for the name gets the first of the two.",
		Files: placeTwice},
	{Code: "block-overlap", Severity: ledger.Warning,
		Says:  "Blocks of numbers in blotter.yaml do not overlap, and each ends after it begins.",
		Why:   "Two people whose blocks overlap give the same numbers; one that ends before it begins has none.",
		Files: blockOverlap},
	{Code: "severity-code", Severity: ledger.Warning,
		Says: "The codes under severity in blotter.yaml are codes of findings.",
		Why:  "With another word nothing is raised.",
	},
}

func init() { museumRules[len(museumRules)-1].Files = severityCode }

func inNames(n *book.Name, l ledger.Leaf, field string) place {
	p := at(l, field)
	p.path = n.Path
	if p.line == 0 {
		p.line = int(n.Given.Line)
	}
	return p
}

func namesTwice(m *book.Museum, say func(place, words)) {
	all := m.Names.All
	for i := 1; i < len(all); i++ {
		a, b := all[i-1], all[i]
		if a.Key() != "" && a.Key() == b.Key() && a.Read.Read.Authors == b.Read.Read.Authors {
			say(inNames(b, b.Given.Name, "names"), words{"stands already in " + a.Path + "; one of the two is never looked at",
				"Take one of them away."})
		}
	}
}

func namesOf(m *book.Museum, say func(place, words)) {
	for _, n := range m.Names.All {
		of := n.Given.Of
		switch {
		case !of.Set():
		case n.Of == nil:
			say(inNames(n, of, "names.of"), words{"is not in names/ itself, so the synonym leads nowhere", "Add the accepted name, or mend the words."})
		case n.Of.Given.Of.Set() && len(m.Names.Renamings(n.Key())) == 0:
			say(inNames(n, of, "names.of"), words{"leads from synonym to synonym and to no accepted name, so no sheet is renamed by it", "Take out the of: of the name that is accepted."})
		case n.Of.Given.Of.Set():
			say(inNames(n, of, "names.of"), words{"is a synonym itself, of " + strconv.Quote(n.Of.Given.Of.Text), "Write: of: " + quotedYAML(n.Of.Given.Of.Text)})
		}
	}
}

// quotedYAML is a name as it may stand after a colon.
func quotedYAML(s string) string {
	if strings.ContainsAny(s, ":#'\"[]{}&*!?|>%@`") {
		return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
	}
	return s
}

func namesAddress(m *book.Museum, say func(place, words)) {
	first := map[string]*book.Name{}
	for _, n := range m.Names.All {
		if n.Slug == "" {
			continue
		}
		old, ok := first[n.Slug]
		if !ok {
			first[n.Slug] = n
			continue
		}
		if old.Key() == n.Key() && old.Read.Read.Authors == n.Read.Read.Authors {
			continue // names-twice
		}
		say(inNames(n, n.Given.Name, "names"), words{"shares the page address " + n.Slug + " with " + strconv.Quote(old.Given.Name.Text),
			"Give it one of its own, for example address: " + n.Slug + "-2"})
	}
}

func personTwice(m *book.Museum, say func(place, words)) {
	for _, c := range m.People.Clashes() {
		p := at(c.Spelling, "people")
		p.path = ledger.PeopleFile
		say(p, words{"belongs already to " + m.People.All[c.First].Name.Text + ", who would get every label with it",
			"Write the names in full, or leave the spelling with one of the two."})
	}
}

func blockOverlap(m *book.Museum, say func(place, words)) {
	span := func(b ledger.Block) (from, to uint64, ok bool) {
		from, err := strconv.ParseUint(b.From.Text, 10, 63)
		to, err2 := strconv.ParseUint(b.To.Text, 10, 63)
		return from, to, err == nil && err2 == nil
	}
	for i, b := range m.Museum.Blocks {
		from, to, ok := span(b)
		p := at(b.From, nth("blocks", i, "from"))
		p.path = ledger.MuseumFile
		if ok && to < from {
			say(p, words{"the block for " + b.For.Text + " ends at " + b.To.Text + ", before it begins", "Put the two the right way round."})
			continue
		}
		for _, o := range m.Museum.Blocks[:i] {
			f, t, ok2 := span(o)
			if ok && ok2 && f <= to && from <= t && f <= t {
				say(p, words{fmt.Sprintf("the block for %s overlaps with %s to %s for %s, so both would give the same numbers", b.For.Text, o.From.Text, o.To.Text, o.For.Text),
					fmt.Sprintf("Let it begin behind the other: from: \"%d\"", t+1)})
			}
		}
	}
}

func placeTwice(m *book.Museum, say func(place, words)) {
	first := map[string]bool{}
	for _, x := range m.Places {
		k := strings.ToLower(strings.Join(strings.Fields(x.Name.Text), " "))
		if k != "" && first[k] {
			p := at(x.Name, "places.name")
			p.path = ledger.PlacesFile
			say(p, words{"is the name of another place above, which is the one that is found", "Give one of the two another name, for example with its district."})
		}
		first[k] = true
	}
}

func severityCode(m *book.Museum, say func(place, words)) {
	for _, o := range m.Severity {
		if o.Code.Set() && !Known(o.Code.Text) {
			p := at(o.Code, "severity.code")
			p.path = ledger.MuseumFile
			say(p, words{"no finding has this code, so nothing is raised", "blotter check --explain CODE says what a code means."})
		}
	}
}
