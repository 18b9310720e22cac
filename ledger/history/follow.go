package history

import (
	"slices"

	"blotter/ledger"
)

// turned is a revision of the file of n with what its commit says of moves: the
// plant that came to n brings its versions from the number that it had, and of
// one that left only the number stays.
func (v *View) turned(r Revision, n ledger.Number) Revision {
	moves := Moves(v.Message(r.Place))
	if len(moves) == 0 {
		return r
	}
	if m, came := MovedFrom(moves, n); came {
		if before, ok := v.at(r.Place, m.From); ok {
			r.Olds, r.From = before.Olds, m.From
			return r
		}
	}
	if m, left := MovedTo(moves, n); left {
		r.Olds, r.To = nil, m.To
	}
	return r
}

// follow lists the revisions of the plant that bears n last. A number that no
// message moves has those of its file.
func (v *View) follow(n ledger.Number) []Revision {
	own := v.revisions(string(n))
	turned := make([]Revision, len(own))
	moves := false
	for i, r := range own {
		turned[i] = v.turned(r, n)
		moves = moves || turned[i].From != "" || turned[i].To != ""
	}
	if !moves {
		return own
	}
	last := len(turned) - 1
	for last > 0 && turned[last].To != "" && turned[last].Blob == "" { // this copy's, of a number that the other keeps
		last--
	}
	var out []Revision // newest first
	wanted := map[ledger.BlobID]bool{turned[last].Blob: true}
	for last >= 0 {
		r := turned[last]
		last--
		if !wanted[r.Blob] {
			continue
		}
		r.Number = n
		out = append(out, r)
		for _, old := range r.Olds {
			wanted[old] = true
		}
		if r.To != "" {
			break
		}
		if r.From == "" {
			continue
		}
		n = r.From
		own, wanted = v.revisions(string(n)), map[ledger.BlobID]bool{}
		for _, old := range r.Olds {
			wanted[old] = true
		}
		turned = turned[:0]
		for _, b := range own {
			if b.Place < r.Place {
				turned = append(turned, v.turned(b, n))
			}
		}
		last = len(turned) - 1
	}
	slices.Reverse(out)
	return out
}

// Moved tells where the plant went that bore a number first and bears it no
// more: the moves by which it did, oldest first, with the places of their
// commits. None for a number that kept its plant.
func (v *View) Moved(n ledger.Number) (moves []Move, places []int) {
	after := -1
	for range v.Len() {
		found := false
		for _, r := range v.revisions(string(n)) {
			if r.Place <= after {
				continue
			}
			if m, left := MovedTo(Moves(v.Message(r.Place)), n); left {
				moves, places = append(moves, m), append(places, r.Place)
				n, after, found = m.To, r.Place, true
				break
			}
		}
		if !found {
			return moves, places
		}
	}
	return moves, places
}
