package check

import (
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
)

// typifiedRules are about specimens that are types of one name.
var typifiedRules = []Rule{
	{Code: "type-twice", Severity: ledger.Warning,
		Says:  "A name has one holotype, or one lectotype or neotype in its stead.",
		Why:   "The type of a name is one specimen (Art. 8.1, 9.1 of the Code); a lectotype or neotype is chosen where there is no holotype (Art. 9.3, 9.8). Of two sheets one is an isotype, an isolectotype, or no type; parts of one specimen on several sheets stand under one number, or name each other in same_gathering.",
		Of:    &byTypified,
		Group: typeTwice},
	{Code: "type-gathering", Severity: ledger.Warning,
		Says:  "An isotype is a duplicate of the holotype: collector, number and day are the same.",
		Why:   "Art. 9.5 of the Code: another gathering is no isotype of it, perhaps a paratype or a syntype. An isolectotype and an isoneotype go with their lectotype and neotype in the same way.",
		Of:    &byTypified,
		Group: typeGathering},
}

// byTypified puts the types of one name together.
var byTypified = Grouping{Name: "typified", Keys: func(keys []string, e *book.Entry) []string {
	from := len(keys)
	for _, t := range e.Types {
		if _, of := typified(t); of != "" && !slices.Contains(keys[from:], of) {
			keys = append(keys, of)
		}
	}
	return keys
}}

// typified takes "isotype of Ranunculus pumilus Wahlenb." apart into the
// status and the name without authors. Possible types and names that cannot
// be read give "".
func typified(t string) (status, of string) {
	status, words, ok := strings.Cut(t, " of ")
	if !ok || strings.HasPrefix(status, "possible ") {
		return "", ""
	}
	return status, reading.ReadName(words).Key()
}

// statusOf is what an entry is of a name; "" when it is no type of it.
func statusOf(e *book.Entry, name string) string {
	for _, t := range e.Types {
		if status, of := typified(t); of == name {
			return status
		}
	}
	return ""
}

// single reports whether a name has one type of a status only.
func single(status string) bool {
	return status == "holotype" || status == "lectotype" || status == "neotype"
}

// inTypes is where the type statements of a record stand.
func inTypes(e *book.Entry) place { return place{line: int(e.Lines.Types), field: "types"} }

func typeTwice(g *group, say sayOf) {
	var first *book.Entry
	for _, e := range g.same {
		if !single(statusOf(e, g.key)) {
			continue
		}
		if first == nil {
			first = e
			continue
		}
		if linked(first, e) {
			continue
		}
		for _, pair := range [][2]*book.Entry{{e, first}, {first, e}} {
			say(pair[0], inTypes(pair[0]), words{
				fmt.Sprintf("%s is the %s of %s too, and a name has one", pair[1].Number, statusOf(pair[1], g.key), g.key),
				lines("Look at both against the first description; a second preparation is an isotype. One in several parts stands under one number.", accept(short(pair[0].Number), "type-twice"))}, pair[1])
		}
	}
}

// linked reports whether one of two records names the other as of the same
// gathering or board, or as the number under which it goes on.
func linked(a, b *book.Entry) bool {
	for _, pair := range [][2]*book.Entry{{a, b}, {b, a}} {
		for _, l := range pair[0].Links {
			if (l.Kind == book.SameGathering || l.Kind == book.SharesSheet || l.Kind == book.SameAs) && ledger.Number(l.To).Key() == pair[1].Number.Key() {
				return true
			}
		}
	}
	return false
}

func typeGathering(g *group, say sayOf) {
	for _, e := range g.same {
		of, iso := strings.CutPrefix(statusOf(e, g.key), "iso")
		if !iso {
			continue
		}
		if of == "type" {
			of = "holotype"
		}
		for _, t := range g.same {
			if statusOf(t, g.key) != of {
				continue
			}
			if what := otherGathering(e, t); what != "" {
				say(e, inTypes(e), words{
					fmt.Sprintf("has another %s than the %s %s, and is a duplicate of it only when that is the same", what, of, t.Number),
					lines("Look at both labels. Of another gathering it is no isotype: blotter typestatus "+short(e.Number)+" paratype --of "+quoted(g.key)+" --by NAME", accept(short(e.Number), "type-gathering"))}, t)
			}
			break
		}
	}
}

// otherGathering names what speaks against two sheets being of one gathering.
func otherGathering(a, b *book.Entry) string {
	switch {
	case unlike(a.Collector, b.Collector) && (a.Who == "" || a.Who != b.Who):
		return "collector"
	case unlike(a.CollNo, b.CollNo):
		return "number"
	}
	return differs(a, b)
}
