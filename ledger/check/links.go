package check

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"blotter/ledger"
	"blotter/ledger/book"
)

var linkRules = []Rule{
	{Code: "link-missing", Severity: ledger.Warning,
		Says:  "Every number of this ledger that a record names is in the ledger.",
		Why:   "Whoever follows same_gathering, shares_sheet or a number that goes on under another finds nothing, and one of the two numbers is mistyped. A number is written whole, as its file is named.",
		Of:    &byNumber,
		Group: linkMissing},
	{Code: "link-one-sided", Severity: ledger.Warning,
		Says:  "Sheets of one gathering, and specimens on one board, name each other.",
		Why:   "From one side only, whoever lends or determines the other never hears of the first.",
		Of:    &byNumber,
		Group: linkOneSided},
	{Code: "part-number-twice", Severity: ledger.Warning,
		Says:  "A number that a part bears is borne by no other part and no other specimen.",
		Why:   "A box and a sheet with one number get into each other's place.",
		Of:    &byNumber,
		Group: partNumberTwice},
	{Code: "further-twice", Severity: ledger.Warning,
		Says:  "A further number that looks like a barcode stands on one specimen.",
		Why:   "Another museum's barcode is on one sheet; where two records have it, one sheet was entered twice or the number is mistyped. Old running numbers may repeat.",
		Of:    &byFurther,
		Group: furtherTwice},
}

// byNumber puts a record together with those that name its number.
var byNumber = Grouping{Name: "number", Alone: func(e *book.Entry) bool { return len(e.Links) > 0 }, Keys: func(keys []string, e *book.Entry) []string {
	keys = append(keys, e.Number.Key())
	for _, l := range e.Links {
		if l.Kind == book.FurtherNumber {
			continue
		}
		if k := ledger.Number(l.To).Key(); !slices.Contains(keys, k) {
			keys = append(keys, k)
		}
	}
	return keys
}}

// own is the records of a group of byNumber that bear its number.
func (g *group) own() []*book.Entry {
	if len(g.same) == 1 && g.same[0].Number.Key() == g.key {
		return g.same
	}
	return slices.DeleteFunc(slices.Clone(g.same), func(e *book.Entry) bool { return e.Number.Key() != g.key })
}

// naming calls use for every link of a group to its number.
func (g *group) naming(use func(e *book.Entry, l book.Link)) {
	for _, e := range g.same {
		for _, l := range e.Links {
			if l.Kind != book.FurtherNumber && ledger.Number(l.To).Key() == g.key {
				use(e, l)
			}
		}
	}
}

// linkFields are the fields whose numbers are of this ledger.
var linkFields = map[book.LinkKind]string{
	book.SameGathering: "same_gathering", book.SharesSheet: "shares_sheet", book.SameAs: "fate",
}

func linkMissing(g *group, say sayOf) {
	if len(g.own()) > 0 {
		return
	}
	g.naming(func(e *book.Entry, l book.Link) {
		if field := linkFields[l.Kind]; field != "" {
			say(e, place{line: int(l.Line), field: field}, words{
				fmt.Sprintf("there is no %s in the ledger, so nobody can follow it", l.To),
				lines("Write the whole number, as its file is named: blotter edit "+short(e.Number), accept(short(e.Number), "link-missing"))})
		}
	})
}

func linkOneSided(g *group, say sayOf) {
	own := g.own()
	if len(own) != 1 {
		return
	}
	to := own[0]
	g.naming(func(e *book.Entry, l book.Link) {
		if l.Kind != book.SameGathering && l.Kind != book.SharesSheet || e == to {
			return
		}
		back := slices.ContainsFunc(to.Links, func(o book.Link) bool {
			return o.Kind == l.Kind && ledger.Number(o.To).Key() == e.Number.Key()
		})
		if !back {
			field := linkFields[l.Kind]
			hint := fmt.Sprintf("Put %s under %s there: blotter edit %s", e.Number, field, short(to.Number))
			if !slices.ContainsFunc(to.Links, func(o book.Link) bool { return o.Kind == l.Kind }) {
				hint = set(short(to.Number), field, string(e.Number))
			}
			say(e, place{line: int(l.Line), field: field}, words{
				fmt.Sprintf("%s does not name this sheet in turn, so who looks there never hears of this one", to.Number),
				lines(hint, accept(short(e.Number), "link-one-sided"))}, to)
		}
	})
}

func partNumberTwice(g *group, say sayOf) {
	own := g.own()
	borne := len(own)
	var others []*book.Entry
	g.naming(func(e *book.Entry, l book.Link) {
		if l.Kind == book.PartNumber {
			borne++
			others = append(others, e)
		}
	})
	if borne < 2 {
		return
	}
	others = append(others, own...)
	g.naming(func(e *book.Entry, l book.Link) {
		if l.Kind != book.PartNumber {
			return
		}
		where := "another part of this specimen"
		i := slices.IndexFunc(others, func(o *book.Entry) bool { return o != e })
		if i >= 0 {
			where = string(others[i].Number)
		} else if borne == 2 && len(own) == 1 {
			return // a part that bears the specimen's own number
		}
		say(e, place{line: int(l.Line), field: "parts"}, words{
			fmt.Sprintf("the number %s stands on %s too, so the two get into each other's place", l.To, where),
			lines("Look at the part. "+"If the number is mistyped: blotter edit "+short(e.Number), accept(short(e.Number), "part-number-twice"))}, others...)
	})
}

// byFurther puts together what bears one further number that looks like a
// barcode.
var byFurther = Grouping{Name: "further", Keys: func(keys []string, e *book.Entry) []string {
	for _, l := range e.Links {
		if l.Kind != book.FurtherNumber {
			continue
		}
		if k := barcode(l.To); k != "" && !slices.Contains(keys, k) {
			keys = append(keys, k)
		}
	}
	return keys
}}

// barcode is a further number without blanks and in capitals, if it looks like
// one that a museum gave to one sheet: letters, then five figures or more.
func barcode(text string) string {
	k := strings.ToUpper(strings.Join(strings.Fields(text), ""))
	figures := 0
	for i := len(k); i > 0 && '0' <= k[i-1] && k[i-1] <= '9'; i-- {
		figures++
	}
	if front := k[:len(k)-figures]; figures < 5 || front == "" || strings.ContainsFunc(front, func(r rune) bool {
		return !unicode.IsLetter(r) && r != '-' && r != '.' && r != ':'
	}) {
		return ""
	}
	return k
}

func furtherTwice(g *group, say sayOf) {
	for i, e := range g.same {
		other := g.same[(i+1)%len(g.same)]
		if e.Fate == "mistake" || e.Fate == "same-as" || other.Fate == "mistake" || other.Fate == "same-as" || oneBoard(e, other) {
			continue
		}
		for _, l := range e.Links {
			if l.Kind == book.FurtherNumber && barcode(l.To) == g.key {
				say(e, place{line: int(l.Line), field: "further_numbers"}, words{
					fmt.Sprintf("%s bears the number %s as well; a barcode is on one sheet", other.Number, l.To),
					lines("Look whether one sheet was entered twice, or the number is mistyped.", accept(short(e.Number), "further-twice"))}, other)
			}
		}
	}
}

// oneBoard reports whether one of two records says that they share a sheet.
func oneBoard(a, b *book.Entry) bool {
	names := func(a, b *book.Entry) bool {
		return slices.ContainsFunc(a.Links, func(l book.Link) bool {
			return l.Kind == book.SharesSheet && ledger.Number(l.To).Key() == b.Number.Key()
		})
	}
	return names(a, b) || names(b, a)
}
