package main

import (
	"blotter/ledger/book"
	"blotter/ledger/shelf"
	"blotter/ledger/work"
	"strings"
)

// sayMoves tells how many sheets show the new name, and what has to be carried
// where.
func (r *renaming) sayMoves(after *work.Works) error {
	shown := 0
	key := r.old.Key()
	for e := range after.Book().All() {
		if e.NameKey == key && e.Fate == "" && after.Book().Museum.Renamed(e) != nil {
			shown++
		}
	}
	r.desk.say("%s", wrap(showNew(shown, r.news[0].Words), r.desk.Width, "  "))
	m := movingBetween(r.before, after, r.desk.todayAsDay())
	for _, v := range m.pull[:min(len(m.pull), manyMoves)] {
		r.desk.say("%s", hang("  "+string(v.Now.Number)+"  ", v.From.Words()+"; put into "+v.To.Words(), r.desk.Width))
	}
	if more := len(m.pull) - manyMoves; more > 0 {
		r.desk.say("and %s more", count(more, "sheet"))
	}
	for _, a := range m.away {
		r.desk.say("%s", wrap("  "+string(a.Now.Number)+"  not in the cabinet ("+a.where+"); when it comes back: "+a.To.Words(), r.desk.Width, "      "))
	}
	if covers := coversNeeded(shelf.Needed(m.before, m.after), m.before); len(covers) > 0 {
		r.desk.say("%s", wrap("Covers needed: "+strings.Join(covers, "; ")+".", r.desk.Width, "  "))
	}
	return nil
}

// manyMoves is how many moves are shown one by one.
const manyMoves = 20

func showNew(n int, name string) string {
	if n == 0 {
		return "No sheet is determined as the old name."
	}
	return count(n, "sheet") + " " + plural(n, "shows", "show") + " " + name + " (det. as the old name); none was touched."
}

func plural(n int, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}

// sayDivided lists the sheets that need eyes.
func (r *renaming) sayDivided(after *book.Book) {
	var rows [][]string
	n := 0
	for e := range after.All() {
		if d := after.Museum.Divided(e); d != nil && d.Key() == r.old.Key() {
			if n++; n <= manyMoves {
				rows = append(rows, r.desk.findRow(e, after.Museum.Renamed(e)))
			}
		}
	}
	if n == 0 {
		r.desk.say("No sheet has the old name alone; nobody need look.")
		return
	}
	r.desk.say("%s %s eyes; %s until somebody looks:", count(n, "sheet"), plural(n, "needs", "need"), plural(n, "it stays where it is", "they stay where they are"))
	r.desk.table("  ", rows)
	if n > manyMoves {
		r.desk.say("and %s more: blotter find is:divided", count(n-manyMoves, "sheet"))
	}
}
