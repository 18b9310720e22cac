package history

import (
	"encoding/binary"

	"blotter/ledger"
)

// FileRevision is what one commit made of one file: a record, known by its
// number whatever its folder, or another file.
type FileRevision struct {
	Number ledger.Number // "" for a file that is no record
	Path   string        // of a record the one that its number has
	Revision
}

// Files lists the files that a commit is a revision of, in the order in which
// the log brought them.
func (v *View) Files(place int) []FileRevision {
	var out []FileRevision
	v.each(uint32(place), func(key, at uint32) {
		f := FileRevision{Path: string(span(v.x.keyText, v.x.keyEnd, int(key)))}
		if f.Path[0] == '/' {
			f.Path = f.Path[1:]
		} else {
			f.Number = ledger.Number(f.Path)
			f.Path = f.Number.Path()
		}
		_, f.Revision = v.revision(ref{uint32(place), at})
		out = append(out, f)
	})
	return out
}

// TakenAway lists the numbers whose record some commit took away, in no order.
func (v *View) TakenAway() []ledger.Number {
	gone := map[uint32]bool{}
	var out []ledger.Number
	for p := range v.rows {
		v.each(uint32(p), func(key, at uint32) {
			name := span(v.x.keyText, v.x.keyEnd, int(key))
			if name[0] == '/' || gone[key] || blobAt(v.x.touches[at+4:], 0, v.x.idSize) != "" {
				return
			}
			gone[key] = true
			out = append(out, ledger.Number(name))
		})
	}
	return out
}

// Replaces reports whether a commit changed or took away a file that one of
// its parents has; one that only brings new files does not.
func (v *View) Replaces(place int) (yes bool) {
	v.each(uint32(place), func(_, at uint32) {
		yes = yes || binary.LittleEndian.Uint32(v.x.touches[at:])&absentBefore == 0
	})
	return yes
}

// Parents is how many parents the commit at a place has.
func (v *View) Parents(place int) int { return len(v.x.parentsOf(v.rows[place])) }

// ID is the id of the commit at a place.
func (v *View) ID(place int) string { return v.x.idText(v.x.commits[v.rows[place]]) }

// Place is the place of a commit in the view; false when it is not in it.
func (v *View) Place(id string) (int, bool) {
	row, ok := v.x.row(id)
	if !ok || int(row) >= len(v.place) || v.place[row] < 0 {
		return 0, false
	}
	return int(v.place[row]), true
}

// As is the history as another commit of the same index knows it. The error
// is ErrUnknownCommit.
func (v *View) As(tip string) (*View, error) { return v.x.At(tip) }
