package check

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
)

// spellingRules are about how a name is written. All but the first pass
// on what the reader of names warns of, by its code; a test holds that none is
// missing.
var spellingRules = []Rule{
	{Code: "name-letter-x", Severity: ledger.Warning,
		Says: "The sign of a hybrid is ×, not the letter x.",
		Why:  "It is read as the sign all the same. With the letter the catalogue prints another mark than the Code asks for (Art. H.3), and programs that know less take x for an epithet.",
		One:  nameLetterX},
	spelling("name-genus-short", "The genus of a name is written in full.",
		"R. acris is Ranunculus to whoever has the next slip in view, and Rhinanthus or Rosa to all others."),
	spelling("name-genus-small", "The genus of a name begins with a capital.",
		"Art. 20.1 of the Code. It was read as a genus all the same."),
	spelling("name-epithet-capital", "An epithet begins with a small letter.",
		"Old floras wrote epithets after persons with a capital; the Code asks for small ones (Art. 60.2 and Rec. 60F). It was read as an epithet all the same."),
	spelling("name-no-rank", "A name below species says its rank.",
		"Ranunculus acris pumilus may be a subspecies, a variety or a form: three different names (Art. 24.1)."),
	spelling("name-tautonym", "The epithet of a species does not repeat the genus.",
		"Art. 23.4 of the Code: such a name cannot be published among plants, so one of the two words is a slip."),
	spelling("name-autonym-author", "No author stands after an autonym.",
		"Art. 22.1 and 26.1 of the Code: the epithet that repeats the species has no author; the author belongs to the species."),
}

// spelling is a rule that passes on what the reader of names warns of.
func spelling(code, says, why string) Rule {
	return Rule{Code: code, Severity: ledger.Warning, Says: says, Why: why, One: func(d *reading.Reading, say say) {
		if !anyName(d, func(n *reading.Name) bool { return len(n.Read.Warnings) > 0 }) {
			return
		}
		eachName(d, func(n *reading.Name, l ledger.Leaf, field func() string) {
			for _, w := range n.Read.Warnings {
				if w.Code == code {
					say(at(l, field()), spelt(d, strings.TrimSuffix(w.Message, "."), code))
				}
			}
		})
	}}
}

func spelt(d *reading.Reading, message, code string) words {
	return words{message, lines("If the slip has it so, leave the words: blotter accept "+numberOf(d)+" "+code+" --why TEXT", "A slip of the pen: blotter edit "+numberOf(d))}
}

func nameLetterX(d *reading.Reading, say say) {
	if !anyName(d, func(n *reading.Name) bool { return n.Read.Hybrid() }) {
		return
	}
	eachName(d, func(n *reading.Name, l ledger.Leaf, field func() string) {
		if !n.Readable || !n.Read.Hybrid() || !letterX(l.Text) {
			return
		}
		say(at(l, field()), words{"the sign of a hybrid is written with the letter x",
			lines("Write: "+n.Read.Text, accept(numberOf(d), "name-letter-x"))})
	})
}

// letterX reports whether x or X stands in words as one by itself.
func letterX(s string) bool {
	for w := range strings.FieldsSeq(s) {
		if w == "x" || w == "X" {
			return true
		}
	}
	return false
}

// anyName reports whether a name of a record is of a kind. Most rules look
// for what few records have.
func anyName(d *reading.Reading, kind func(*reading.Name) bool) bool {
	for i := range d.Opinions {
		if kind(&d.Opinions[i].Name) {
			return true
		}
	}
	for i := range d.Types {
		if kind(&d.Types[i].Of) {
			return true
		}
	}
	return kind(&d.Filed)
}

// eachName calls use for every name of a record: of its determinations, of
// filed_under, of its type entries. The field is asked for only when it is
// needed.
func eachName(d *reading.Reading, use func(n *reading.Name, l ledger.Leaf, field func() string)) {
	list, i, key := "determinations", 0, "name"
	field := func() string {
		if list == "" {
			return "filed_under.name"
		}
		return nth(list, i, key)
	}
	for i = range d.Opinions {
		use(&d.Opinions[i].Name, d.Opinions[i].Given.Name, field)
	}
	list = ""
	use(&d.Filed, d.Record.FiledUnder.Name, field)
	list, key = "types", "of"
	for i = range d.Types {
		use(&d.Types[i].Of, d.Types[i].Given.Of, field)
	}
}
