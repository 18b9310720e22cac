package history

import (
	"cmp"
	"slices"

	"blotter/ledger"
)

// turned is a revision of the file of n with what its commit says of moves: the
// plant that came to n brings its versions from the number that it had, and of
// one that left only the number stays.
func (v *View) turned(r Revision, n ledger.Number) Revision {
	moves := v.moves(r.Place)
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

// moves are the moves that the message of the commit at a place tells of. Few
// messages tell of any, and a site asks a million times.
func (v *View) moves(place int) []Move {
	v.movesOnce.Do(func() {
		v.moved = map[int][]Move{}
		for p := range v.rows {
			if moves := Moves(v.Message(p)); moves != nil {
				v.moved[p] = moves
			}
		}
	})
	return v.moved[place]
}

// follow lists the revisions of the plant that bears n last, whose version is
// stands ("" if that is not known). A number that no message moves has those of
// its file.
func (v *View) follow(n ledger.Number, stands ledger.BlobID) []Revision {
	own := v.revisions(string(n))
	if !slices.ContainsFunc(own, func(r Revision) bool { return len(v.moves(r.Place)) > 0 }) {
		return own
	}
	turned := v.turnedAll(own, n)
	if !slices.ContainsFunc(turned, func(r Revision) bool { return r.From != "" || r.To != "" }) {
		return own
	}
	t := trail{v: v}
	last := standing(own, turned)
	if at := func(i int) bool { return own[i].Blob == stands }; stands != "" && slices.ContainsFunc(last, at) {
		last = slices.DeleteFunc(last, func(i int) bool { return !at(i) })
	}
	for _, i := range last {
		t.want(n, own[i].Blob, v.Len())
	}
	var out []Revision // newest first
	for l := t.newest(); l != nil; l = t.newest() {
		r := l.left[len(l.left)-1]
		l.left = l.left[:len(l.left)-1]
		if !l.wanted[r.Blob] {
			continue
		}
		r.Number = l.number
		out = append(out, r)
		for _, old := range r.Olds {
			if r.To == "" && old != "" {
				t.want(cmp.Or(r.From, l.number), old, r.Place)
			}
		}
	}
	slices.Reverse(out)
	return out
}

func (v *View) turnedAll(own []Revision, n ledger.Number) []Revision {
	out := make([]Revision, len(own))
	for i, r := range own {
		out[i] = v.turned(r, n)
	}
	return out
}

// standing are the places in own of the revisions that no later one stands on:
// the last, or that of each line of work that was brought together since. A
// plant that left counts only when none came: two copies that gave one number
// meanwhile both have it, and one gave it up.
func standing(own, turned []Revision) []int {
	var stay, gone []int
	for i, r := range own {
		over := func(later Revision) bool { return slices.Contains(later.Olds, r.Blob) }
		switch {
		case slices.ContainsFunc(own[i+1:], over):
		case turned[i].To != "":
			gone = append(gone, i)
		default:
			stay = append(stay, i)
		}
	}
	if len(stay) == 0 && len(gone) > 0 {
		return gone[len(gone)-1:]
	}
	return stay
}

// trail goes back over the revisions of one plant, through all numbers that it
// bore: several at a time, when it was renumbered in two lines of work.
type trail struct {
	v     *View
	lines []*trailLine
}

type trailLine struct {
	number ledger.Number
	left   []Revision // of the number's file, oldest first, that were not come to yet
	wanted map[ledger.BlobID]bool
}

// want adds a version that the plant had under n before a place.
func (t *trail) want(n ledger.Number, id ledger.BlobID, before int) {
	i := slices.IndexFunc(t.lines, func(l *trailLine) bool { return l.number == n })
	if i < 0 {
		l := &trailLine{number: n, wanted: map[ledger.BlobID]bool{}}
		for _, r := range t.v.turnedAll(t.v.revisions(string(n)), n) {
			if r.Place < before {
				l.left = append(l.left, r)
			}
		}
		i, t.lines = len(t.lines), append(t.lines, l)
	}
	t.lines[i].wanted[id] = true
}

// newest is the line whose next revision is the newest; nil when none is left.
func (t *trail) newest() *trailLine {
	var best *trailLine
	for _, l := range t.lines {
		if len(l.left) > 0 && (best == nil || l.left[len(l.left)-1].Place > best.left[len(best.left)-1].Place) {
			best = l
		}
	}
	return best
}

// After lists the revisions, after a place, of the plant that the commit there
// left under n or took from it, oldest first, and the number under which it
// goes now.
func (v *View) After(n ledger.Number, place int) (later []Revision, now ledger.Number) {
	if m, on := MovedTo(v.moves(place), n); on {
		n = m.To
	}
	for moved := true; moved; {
		moved = false
		for _, r := range v.revisions(string(n)) {
			if r.Place <= place {
				continue
			}
			place = r.Place
			if m, on := MovedTo(v.moves(place), n); on {
				if to, ok := v.at(place, m.To); ok {
					n, r, moved = m.To, to, true
				}
			}
			r.Number = n
			later = append(later, r)
			if moved {
				break
			}
		}
	}
	return later, n
}
