package work

import "fmt"

// lots judges accessions: what was counted, and who is in two lots.
func (c *checking) lots() {
	lot := map[int32]*Event{}
	for _, e := range c.w.events {
		if e.File.Kind.Name != "accession" || e.Verb != "accessioned" {
			continue
		}
		for _, id := range e.on {
			if !c.w.record(id) {
				continue
			}
			if first := lot[id]; first == nil {
				lot[id] = e
			} else if first.File != e.File {
				c.about(e, codeTwoLots, string(first.File.Number), id)
			}
		}
	}
	for _, f := range c.w.Files {
		if f.Kind.Name == "accession" {
			c.lot(f)
		}
	}
}

// pieces are what a count of pieces of paper says: one for each sheet in the
// end.
var pieces = map[string]bool{"sheets": true, "sheet": true, "folds": true, "fold": true, "specimens": true, "specimen": true}

// lot compares the last count of a lot with what became of it: more than was
// counted at any time, less once it is closed.
func (c *checking) lot(f *File) {
	counted, became := -1, 0
	var at, closed *Event
	for _, e := range f.ordered {
		n, of, ok := ReadCount(e.Line.Count.Text)
		switch e.Verb {
		case "counted":
			if ok && pieces[of] && e.Line.How.Text != "estimated" {
				counted, at = n, e
			}
		case "accessioned", "discarded", "distributed":
			switch {
			case ok && pieces[of]:
				became += n
			case !ok:
				became += len(e.on)
			default:
				return // packets and boxes: nobody can add them
			}
		case eventClosed:
			closed = e
		}
	}
	if counted < 0 {
		return
	}
	on := at
	if closed != nil {
		on = closed
	}
	if became > counted || closed != nil && became < counted {
		c.say(on, codeLotCount, fmt.Sprintf("counted are %d, and accessioned, discarded and distributed together %d", counted, became))
	}
}
