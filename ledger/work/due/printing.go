package due

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/work"
)

// ToPrint is a paper that sheets wait for, as whoever knows what was printed
// has worked it out.
type ToPrint struct {
	Paper string // one of ledger.PaperWords
	Noun  string // of one of them
	Count int
	Of    []ledger.Number // the sheets, in order
}

// mostSpans is how many numbers and spans of sheets a command to be typed
// names; of more it asks for them by what they are.
const mostSpans = 3

// papers tells how many papers wait to be printed.
func (l *list) papers() {
	for _, p := range l.on.Print {
		things := make([]work.Thing, len(p.Of))
		for i, n := range p.Of {
			things[i].Sheet = n
		}
		spans := Spans(things)
		which := strings.Join(spans, ",")
		if len(spans) > mostSpans {
			which = "--where is:unprinted"
		}
		l.add(Thing{Day: l.on.Day, Clock: -1, Kind: Print, Step: p.Paper, What: count(p.Count, p.Noun) + " to print", Sheets: spans,
			Next: "blotter print " + p.Paper + " " + which + " --unprinted --to " + p.Paper + ".pdf"})
	}
}
