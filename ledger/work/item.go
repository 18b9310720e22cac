package work

import (
	"regexp"
	"strconv"
	"strings"

	"blotter/ledger"
)

// Item is one thing that a line names: exactly one of Sheet, Who, Other, Of is
// filled in.
type Item struct {
	Sheet ledger.Number // a specimen, or the first of a span
	Last  ledger.Number // the last of the span; "" for one specimen
	Who   string        // collector of a gathering, as written
	No    string        // its number, or the first of a span
	LastN string        // the last of the span; ""
	Other string        // another herbarium's number, as written
	Of    string        // what a bundle counts: folds, sheets, specimens, gatherings, packets, boxes
	Count int           // of a bundle
	What  string        // of a bundle: what it is
	About bool          // the count is an estimate
	Leaf  ledger.Leaf   // where it stands
}

// Bundle reports whether the item is only counted.
func (i Item) Bundle() bool { return i.Of != "" }

var countWords = regexp.MustCompile(`^(?:ca\.? *|about *)?([0-9][0-9 ,']*) *([a-z]+)?$`)

func itemsOf(l *ledger.WorkLine) []Item {
	var all []Item
	for _, s := range l.Sheets {
		first, last, _ := strings.Cut(s.Text, "..")
		all = append(all, Item{Sheet: ledger.Number(strings.TrimSpace(first)), Last: ledger.Number(strings.TrimSpace(last)), Leaf: s})
	}
	for _, g := range l.Gatherings {
		if who, no, ok := cutGathering(g.Text); ok {
			no, last, _ := strings.Cut(no, "..")
			all = append(all, Item{Who: who, No: no, LastN: last, Leaf: g})
		}
	}
	for _, o := range l.Others {
		all = append(all, Item{Other: o.Text, Leaf: o})
	}
	if m := countWords.FindStringSubmatch(l.Count.Text); m != nil {
		n, err := strconv.Atoi(strings.NewReplacer(" ", "", ",", "", "'", "").Replace(m[1]))
		if of := m[2]; err == nil {
			if of == "" {
				of = "sheets"
			}
			all = append(all, Item{Of: of, Count: n, What: l.What.Text, About: l.How.Text == "estimated", Leaf: l.Count})
		}
	}
	return all
}

// cutGathering parts "Signe Rask 1311" into collector and number: the number
// is the last word when it holds a figure.
func cutGathering(words string) (who, no string, ok bool) {
	i := strings.LastIndexByte(strings.TrimSpace(words), ' ')
	if i < 0 || !strings.ContainsAny(words[i:], "0123456789") {
		return "", "", false
	}
	return strings.TrimSpace(words[:i]), strings.TrimSpace(words[i:]), true
}
