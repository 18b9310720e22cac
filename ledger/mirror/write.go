package mirror

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"slices"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// writer writes the commits that a mirror lacks.
type writer struct {
	*survey
	target *gitrepo.Bare
	pack   *gitrepo.Pack
	state  *State
	there  []gitrepo.ObjectID // in the target already, in order; nil when made anew

	place   map[string]int // of a commit of the ledger in the history
	strays  map[string]strays
	walked  map[string]bool // commits written in this run: strays has those that have any
	written int
	recent  []readSheet // sheets read last
}

// strays are records that lie in another folder than their number says.
type strays map[ledger.Number]map[string]ledger.BlobID

type readSheet struct {
	versionOf
	*sheet
}

// recentSheets is how many sheets are kept: the version before is often one of
// them.
const recentSheets = 64

// goOn takes over what old has, when the mirror can be gone on with, and says
// why not otherwise.
func (w *writer) goOn(ctx context.Context, old *State, ids []gitrepo.ObjectID) (Reason, error) {
	w.place = make(map[string]int, w.History.Len())
	for p := range w.History.Len() {
		w.place[w.History.Commit(p).ID] = p
	}
	w.strays, w.walked = map[string]strays{}, map[string]bool{}
	w.classes()
	switch {
	case old == nil && len(ids) == 0:
		return First, nil
	case old == nil:
		return Forgotten, nil
	case old.Version != Version:
		return Program, nil
	}
	reason, err := w.compare(ctx, old)
	if err != nil || reason != Not {
		return reason, err
	}
	if _, ok := w.place[old.Source]; !ok {
		return Rewritten, nil
	}
	w.there = ids
	w.state.commits, w.state.versions, w.state.Source, w.state.Mirror = old.commits, old.versions, old.Source, old.Mirror
	w.state.People = old.People
	return Not, nil
}

func (w *writer) classes() {
	for n, h := range w.held {
		w.state.Classes[n.Key()] = h.Class
	}
}

// compare looks whether anything that was mirrored would be otherwise now. The
// new keys of what stays are noted in old.
func (w *writer) compare(ctx context.Context, old *State) (Reason, error) {
	for name, shown := range old.People {
		if w.person(history.Person{Name: name}).Name != shown {
			return Stricter, nil
		}
	}
	changed := false
	for _, v := range slices.SortedFunc(maps.Keys(old.versions), compareVersions) {
		f, key := old.versions[v], w.key(v)
		if f.key == key {
			continue
		}
		text, err := w.text(ctx, v)
		if err != nil {
			return Rewritten, nil // the version is in the ledger's repository no more
		}
		if gitrepo.BlobID(text) != f.id {
			changed = true
			break
		}
		old.versions[v] = file{f.id, key}
	}
	if !changed {
		return Not, nil
	}
	looser := false
	for _, n := range slices.Sorted(maps.Keys(old.Classes)) {
		looser = looser || old.Classes[n] > w.state.Classes[n]
	}
	for n, c := range w.state.Classes {
		if c > old.Classes[n] {
			return Stricter, nil
		}
	}
	if looser {
		return Looser, nil
	}
	return Stricter, nil
}

// write writes every commit that the mirror lacks.
func (w *writer) write(ctx context.Context) error {
	var known []string
	if w.state.Source != "" {
		known = []string{w.state.Source}
	}
	if err := w.Source.Steps(ctx, w.Tip, known, func(s gitrepo.Step) error { return w.step(ctx, s) }); err != nil {
		return err
	}
	w.state.Source, w.state.Mirror = w.Tip, w.state.commits[w.Tip].commit.Hex()
	return nil
}

// step writes one commit.
func (w *writer) step(ctx context.Context, s gitrepo.Step) error {
	var parents []gitrepo.ObjectID
	for _, p := range s.Commit.Parents {
		m, ok := w.state.commits[p]
		if !ok {
			return fmt.Errorf("mirror %s: its parent %s is not known", s.Commit.ID, p)
		}
		parents = append(parents, m.commit)
	}
	var base gitrepo.ObjectID
	if len(parents) > 0 {
		base = w.state.commits[s.Commit.Parents[0]].tree
	}
	moves, err := w.moves(ctx, s)
	if err != nil {
		return err
	}
	var files []gitrepo.BareFile
	for _, m := range moves {
		f := gitrepo.BareFile{Path: m.to}
		if m.now != "" {
			if f.ID, err = w.file(ctx, versionOf{m.name, m.now}); err != nil {
				return fmt.Errorf("mirror %s of %s: %w", m.to, s.Commit.ID, err)
			}
		}
		files = append(files, f)
	}
	message, err := w.message(ctx, s, moves)
	if err != nil {
		return fmt.Errorf("mirror %s: %w", s.Commit.ID, err)
	}
	tree, err := w.target.Tree(ctx, w.pack, base, files)
	if err != nil {
		return err
	}
	author, committer := w.named(s.Commit.Author), w.named(s.Commit.Committer)
	id, err := w.pack.Commit(tree, parents, author, committer, message)
	if err != nil {
		return err
	}
	w.state.commits[s.Commit.ID] = made{id, tree}
	w.written++
	return nil
}

// named is person, noted for the next run.
func (w *writer) named(p history.Person) history.Person {
	out := w.person(p)
	w.state.People[p.Name] = out.Name
	return out
}

// file is the object that a version becomes, written when it is not there.
func (w *writer) file(ctx context.Context, v versionOf) (gitrepo.ObjectID, error) {
	f, ok := w.state.versions[v]
	if ok && (w.pack.Has(f.id) || w.has(f.id)) {
		return f.id, nil
	}
	var text []byte
	var err error
	if v.name[0] == '/' {
		text, err = w.text(ctx, v)
	} else {
		var x *sheet
		if x, err = w.read(ctx, ledger.Number(v.name), v.blob); err == nil {
			text = x.text()
		}
	}
	if err != nil {
		return f.id, err
	}
	f.key = w.key(v)
	if f.id, err = w.pack.Blob(text); err != nil {
		return f.id, err
	}
	w.state.versions[v] = f
	return f.id, nil
}

// has reports whether the target has an object already.
func (w *writer) has(id gitrepo.ObjectID) bool {
	_, ok := slices.BinarySearchFunc(w.there, id, func(a, b gitrepo.ObjectID) int { return bytes.Compare(a[:], b[:]) })
	return ok
}

// read is sheet, of which the last are kept.
func (w *writer) read(ctx context.Context, n ledger.Number, id ledger.BlobID) (*sheet, error) {
	v := versionOf{string(n), id}
	for _, r := range w.recent {
		if r.versionOf == v {
			return r.sheet, nil
		}
	}
	x, err := w.sheet(ctx, n, id)
	if err != nil || x == nil {
		return x, err
	}
	if len(w.recent) == recentSheets {
		w.recent = w.recent[1:]
	}
	w.recent = append(w.recent, readSheet{v, x})
	return x, nil
}

// finish completes the state and has it kept. p is what will be put in place,
// beside ids.
func (w *writer) finish(keep func(*State) error, ids []gitrepo.ObjectID, p *gitrepo.Pack) error {
	if p != nil {
		ids = slices.Concat(ids, p.IDs())
		slices.SortFunc(ids, func(a, b gitrepo.ObjectID) int { return bytes.Compare(a[:], b[:]) })
		ids = slices.Compact(ids)
	}
	w.state.Digest = digestOf(ids)
	return keep(w.state)
}
