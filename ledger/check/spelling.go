package check

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
)

// spellingRules are about how a name is written. They pass on what the reader
// of names warns of, by its code; a test holds that none is missing.
var spellingRules = []Rule{
	spelling("name-letter-x", "The sign of a hybrid is ×, not the letter x.",
		"It is read as the sign all the same. With the letter the catalogue prints another mark than the Code asks for (Art. H.3), and programs that know less take x for an epithet."),
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
	spelling("name-tail", "Every word of a name is read as part of it.",
		"The name ends where it can no longer be read, and what follows is found by nobody who looks for names: a slip of the pen, or a remark that belongs elsewhere."),
	spelling("name-author-epithet", "Behind a genus alone stands an author, and no epithet with a capital.",
		"Lilium Martagon L. is Lilium martagon, as many old labels write it; Fonseca Ribeiro are the two surnames of one author. As it stands the sheet is named to its genus only."),
	spelling("name-genus-author", "No author stands between genus and epithet.",
		"An author there belongs to the genus (Art. 46.1), so whose the species is stays unsaid."),
	spelling("name-family-ending", "The name of a family ends in -aceae.",
		"Art. 18.1 of the Code; eight families have a second name (Art. 18.5). Spelt otherwise it is read as a genus."),
	spelling("name-rank-ending", "A subfamily ends in -oideae, a tribe in -eae, a subtribe in -inae.",
		"Art. 19 of the Code: with another ending either the rank or the name is a slip."),
	spelling("name-typical", "The part of a species that holds its type repeats the epithet.",
		"Names such as typicus, genuinus and verus for it are not validly published (Art. 24.3)."),
	spelling("name-rank-term", "A rank is abbreviated as the Code has it: subsp., var., f.",
		"Rec. 5A of the Code. It is read all the same. Words copied from a label may have it their own way."),
	spelling("name-letters", "A name is written in the letters of the Code.",
		"Accents, ligatures and figures are transcribed (Art. 60.7, 60.13, 23.3), so that one name is not listed twice. Words copied from a label may have it their own way."),
	spelling("name-capitals", "A name is not written in capitals.",
		"It is read all the same. Words copied from a label may have it their own way."),
	spelling("name-epithet-words", "An epithet of two words is joined or has a hyphen.",
		"Art. 23.1 of the Code: bursa pastoris is one epithet, and looks like two. Words copied from a label may have it their own way."),
	spelling("name-subgenus-brackets", "No subgenus stands in brackets within the name of a species.",
		"It is no part of the name (Art. 23.1), and in this form a habit of zoologists. Words copied from a label may have it their own way."),
	spelling("name-genitive", "An epithet after a person has the ending that the Code corrects to.",
		"Art. 60.8: -ii after a consonant, -i after a vowel and -er. It is found by its ending alone, so it may be no person's name. Words copied from a label may have it their own way."),
}

// spelling is a rule that passes on what the reader of names warns of. A habit
// of writing is not told of words that were copied.
func spelling(code, says, why string) Rule {
	return Rule{Code: code, Severity: ledger.Warning, Says: says, Why: why, One: func(d *reading.Reading, say say) {
		if !anyName(d, func(n *reading.Name) bool { return len(n.Read.Warnings) > 0 }) {
			return
		}
		eachName(d, func(n *reading.Name, l ledger.Leaf, field func() string) {
			for _, w := range n.Read.Warnings {
				if w.Code == code && !(w.Spelling && copied(d, n)) {
					say(at(l, field()), spelt(d, n, strings.TrimSuffix(w.Message, "."), code))
					return
				}
			}
		})
	}}
}

// copied reports whether the words of a name of d were written by others: a
// determination says where it is from, and a type entry repeats a label.
func copied(d *reading.Reading, n *reading.Name) bool {
	for i := range d.Opinions {
		if n == &d.Opinions[i].Name {
			return d.Opinions[i].Given.From.Set()
		}
	}
	return n != &d.Filed
}

func spelt(d *reading.Reading, n *reading.Name, message, code string) words {
	mend := "A slip of the pen: blotter edit " + numberOf(d)
	if s := n.Read.String(); s != n.Words {
		mend = "Write: " + s
	}
	return words{message, lines(mend, "If the slip has it so, leave the words: blotter accept "+numberOf(d)+" "+code+" --why TEXT")}
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
