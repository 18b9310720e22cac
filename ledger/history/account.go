package history

import (
	"context"
	"fmt"
	"slices"

	"blotter/ledger"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

// Read gives the version of a record that has this content. A version whose
// text cannot be read is Unread, not an error; an error ends the work.
type Read func(ctx context.Context, n ledger.Number, id ledger.BlobID) (Version, error)

// Happening is what an opinion did in its chain.
type Happening uint8

const (
	OnLabel    Happening = iota // the name on the original label
	Named                       // the first name
	NamedAnew                   // another name than before
	NamedAgain                  // the name before, given by somebody anew
	Agrees                      // conf
	Renamed                     // name-change: the plant was not looked at
	Denied                      // not
)

// String is the word that lists of names use (interface.md 1.6 and 2.6).
func (h Happening) String() string {
	return [...]string{"on the label", "named", "named anew", "named again", "agrees", "renamed", "not so"}[h]
}

// Opinion is one determination with how it came into the ledger.
type Opinion struct {
	At       int // in the record's list, from 1
	Happened Happening
	State    opinion.State
	Link     int // the opinion that a conf renews or a name-change renames, from 1; 0: none
	EndedBy  int // the `not` that ended it, from 1; 0: none
	Entered  int // place of the commit that entered it; -1: not entered yet, or before the history that is known
}

// Account is the history of one record.
type Account struct {
	Number   ledger.Number
	Reading  *reading.Reading // the determinations of the version asked about
	Opinions []Opinion        // oldest first
	Changes  []Change         // one for each revision, oldest first
	Pending  bool             // the version asked about is in no commit of the view
}

// AccountOf tells the history of a record up to one version of it: id and now
// are the content and the words of that version, in the work tree or at the
// view's commit.
func (v *View) AccountOf(ctx context.Context, n ledger.Number, id ledger.BlobID, now *ledger.Record, c reading.Conventions, read Read) (*Account, error) {
	reader := reading.NewReader(c)
	current := Version{Record: now}
	current.facts = current.known(reader)
	t := teller{v: v, n: n, reader: reader, read: read, versions: map[ledger.BlobID]Version{id: current},
		origins: map[ledger.BlobID]origins{}, before: map[ledger.BlobID]ledger.BlobID{}}
	revisions := v.OfVersion(n, id)
	out := &Account{Number: n}
	last := ledger.BlobID("")
	for _, r := range revisions {
		t.n = r.was(n)
		change, err := t.tell(ctx, r)
		if err != nil {
			return nil, fmt.Errorf("history of %s: %w", n, err)
		}
		out.Changes = append(out.Changes, change)
		if r.Blob != "" && !t.versions[r.Blob].Unread {
			last = r.Blob
		}
	}
	from, ok := t.origins[id]
	if !ok {
		out.Pending = true
		from = t.inherit([]ledger.BlobID{last}, current, -1)
	}
	out.Reading = current.facts.read()
	out.opinions(from["determinations"])
	return out, nil
}

// origins is, for each append-only list of one version, the place of the
// commit that entered each entry; -1 where that is not known.
type origins map[string][]int

type teller struct {
	v        *View
	n        ledger.Number
	reader   *reading.Reader
	read     Read
	versions map[ledger.BlobID]Version
	origins  map[ledger.BlobID]origins
	before   map[ledger.BlobID]ledger.BlobID // an unread version -> the one before it
}

// readable is the version itself, or the last one before it whose text can be
// read.
func (t *teller) readable(id ledger.BlobID) ledger.BlobID {
	for range len(t.before) + 1 {
		if !t.versions[id].Unread {
			return id
		}
		id = t.before[id]
	}
	return ""
}

// parent is version for a parent: an unread one is stood in for by the last
// readable one before it, so that the commit that mended it is not taken for
// the one that entered everything.
func (t *teller) parent(ctx context.Context, id ledger.BlobID) (Version, error) {
	if _, err := t.version(ctx, id); err != nil {
		return Version{}, err
	}
	if r := t.readable(id); r != "" {
		return t.versions[r], nil
	}
	return t.version(ctx, id)
}

func (t *teller) version(ctx context.Context, id ledger.BlobID) (Version, error) {
	if id == "" {
		return Version{}, nil
	}
	if v, ok := t.versions[id]; ok {
		return v, nil
	}
	v, err := t.read(ctx, t.n, id)
	if err != nil {
		return v, err
	}
	if v.Record != nil {
		v.facts = v.known(t.reader)
	}
	t.versions[id] = v
	return v, nil
}

func (t *teller) tell(ctx context.Context, r Revision) (Change, error) {
	change, now, err := t.v.change(ctx, t.n, r, t.reader, t.parent, t.version)
	if err != nil {
		return change, err
	}
	if now.Unread {
		for _, old := range r.Olds {
			if old != "" && old != r.Blob && t.before[r.Blob] == "" {
				t.before[r.Blob] = old
			}
		}
	}
	if now.Record == nil || now.Unread {
		return change, nil
	}
	t.origins[r.Blob] = t.inherit(r.Olds, now, r.Place)
	return change, nil
}

// inherit gives each entry of a version the oldest origin that a parent's
// version has for it, or the place of the commit itself. Versions that no
// commit here made (before a shallow clone's edge) have unknown origins.
func (t *teller) inherit(olds []ledger.BlobID, now Version, place int) origins {
	out := origins{}
	if t.v.edge[place] {
		place = -1
	}
	for _, l := range now.known(t.reader).all() {
		at := slices.Repeat([]int{place}, len(l.Entries))
		for _, old := range olds {
			old = t.readable(old)
			before := t.versions[old]
			if old == "" || before.Record == nil {
				continue
			}
			known := t.origins[old][l.Field]
			for _, p := range Align(before.known(t.reader).list(l.Field), l.Entries) {
				if p.Old < 0 || p.New < 0 {
					continue
				}
				from := -1
				if p.Old < len(known) {
					from = known[p.Old]
				}
				if place < 0 || from < at[p.New] {
					at[p.New] = from
				}
			}
		}
		out[l.Field] = at
	}
	return out
}

// get finds one version; the zero Version for "".
type get func(ctx context.Context, id ledger.BlobID) (Version, error)

// change compares one revision with its parents.
func (v *View) change(ctx context.Context, n ledger.Number, r Revision, reader *reading.Reader, parent, self get) (Change, Version, error) {
	parents := make([]Version, len(r.Olds))
	for i, id := range r.Olds {
		var err error
		if parents[i], err = parent(ctx, id); err != nil {
			return Change{}, Version{}, err
		}
	}
	now, err := self(ctx, r.Blob)
	if err != nil {
		return Change{}, Version{}, err
	}
	message := v.Message(r.Place)
	out := compare(n, parents, now, Corrections(message), reader)
	out.decided(parents, now, Decisions(message), reader)
	out.Place = r.Place
	if r.From != "" || r.To != "" {
		if m, ok := MovedFrom(v.moves(r.Place), n); ok {
			out.Reason, out.Corrects = m.Reason, true
		}
	}
	return out, now, nil
}

func (a *Account) opinions(entered []int) {
	chain := a.Reading.Chain
	var before []string
	named := false
	for _, i := range chain.Order {
		o := Opinion{At: i + 1, State: chain.States[i], Link: chain.Links[i] + 1, EndedBy: chain.EndedBy[i] + 1, Entered: -1}
		if i < len(entered) {
			o.Entered = entered[i]
		}
		x := a.Reading.Opinions[i]
		keys := x.Name.Keys
		if len(keys) == 0 {
			keys = []string{x.Name.Words}
		}
		switch {
		case x.Kind == opinion.Conf:
			o.Happened = Agrees
		case x.Kind == opinion.Not:
			o.Happened = Denied
		case x.Kind == opinion.NameChange:
			o.Happened = Renamed
		case x.Given.From.Text == "label":
			o.Happened = OnLabel
		case !named:
			o.Happened = Named
		case opinion.Same(before, keys):
			o.Happened = NamedAgain
		default:
			o.Happened = NamedAnew
		}
		if x.Kind != opinion.Not && x.State != opinion.Mistake && x.Name.Words != "" {
			before, named = keys, true
		}
		a.Opinions = append(a.Opinions, o)
	}
}

// Changes tells what the commits at some places (View.Since) did, record by
// record in order of number, each record's changes oldest first.
func (v *View) Changes(ctx context.Context, places []int, c reading.Conventions, read Read) ([]Change, error) {
	var out []Change
	reader := reading.NewReader(c)
	for _, p := range places {
		for _, n := range v.Touched(p) {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			r, _ := v.At(p, n)
			if r.To != "" && r.From == "" {
				continue // the number alone is left; what was done is told of the one that the plant bears now
			}
			version := func(ctx context.Context, id ledger.BlobID) (Version, error) {
				if id == "" {
					return Version{}, nil
				}
				return read(ctx, n, id)
			}
			change, _, err := v.change(ctx, n, r, reader, version, version)
			if err != nil {
				return nil, fmt.Errorf("changes of %s: %w", n, err)
			}
			out = append(out, change)
		}
	}
	slices.SortStableFunc(out, func(a, b Change) int {
		switch {
		case a.Number < b.Number:
			return -1
		case a.Number > b.Number:
			return 1
		}
		return a.Place - b.Place
	})
	return out, nil
}
