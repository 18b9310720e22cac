package work

import (
	"regexp"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
)

// Item is one thing that a line names: exactly one of Sheet, Who, Other, Of is
// filled in.
type Item struct {
	Sheet ledger.Number // a specimen, or the first of a span
	Last  ledger.Number // the last of the span; "" for one specimen
	Who   string        // collector of a gathering, as written
	No    string        // its number, or the first of a span; "" when none is written
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

var countWords = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(?:ca\.? *|about *)?([0-9][0-9 ,']*) *([a-z]+)?$`) })

// ReadCount reads a line's count: 120 folds. Without a word it is sheets.
func ReadCount(words string) (n int, of string, ok bool) {
	m := countWords().FindStringSubmatch(strings.TrimSpace(words))
	if m == nil {
		return 0, "", false
	}
	n, err := strconv.Atoi(strings.NewReplacer(" ", "", ",", "", "'", "").Replace(m[1]))
	if of = m[2]; of == "" {
		of = "sheets"
	}
	return n, of, err == nil
}

// itemsOf is what a line names. A count beside sheets, gatherings or others
// says how many those are; by itself, or with what it is, it is a bundle.
func itemsOf(l *ledger.WorkLine) []Item {
	var all []Item
	for _, s := range l.Sheets {
		first, last, _ := strings.Cut(s.Text, "..")
		all = append(all, Item{Sheet: ledger.Number(strings.TrimSpace(first)), Last: ledger.Number(strings.TrimSpace(last)), Leaf: s})
	}
	for _, g := range l.Gatherings {
		who, no := cutGathering(g.Text)
		no, last, _ := strings.Cut(no, "..")
		all = append(all, Item{Who: who, No: no, LastN: last, Leaf: g})
	}
	for _, o := range l.Others {
		all = append(all, Item{Other: o.Text, Leaf: o})
	}
	if l.Count.Set() && (len(all) == 0 || l.What.Set()) {
		n, of, ok := ReadCount(l.Count.Text)
		if !ok {
			of = "things"
		}
		all = append(all, Item{Of: of, Count: n, What: l.What.Text, About: l.How.Text == "estimated", Leaf: l.Count})
	}
	return all
}

// cutGathering parts "Signe Rask 1311" into collector and number: the number
// is the last word when it holds a figure.
func cutGathering(words string) (who, no string) {
	words = strings.TrimSpace(words)
	i := strings.LastIndexByte(words, ' ')
	if i < 0 || !strings.ContainsAny(words[i:], "0123456789") {
		return words, ""
	}
	return strings.TrimSpace(words[:i]), strings.TrimSpace(words[i:])
}
