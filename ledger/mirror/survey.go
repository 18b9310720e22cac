package mirror

import (
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"iter"
	"maps"
	"slices"

	"blotter/ledger"
	"blotter/ledger/history"
	"blotter/ledger/public"
)

// survey is what the whole history says of each number before anything is
// written.
type survey struct {
	*Job
	view   *public.View
	policy string // of the museum's files of today
	held   map[ledger.Number]*public.Withheld
	own    map[versionOf]*public.Withheld // of versions that are withheld for themselves
	links  map[versionOf][]ledger.Number  // of versions that name other numbers
}

// survey reads every version of every record and holds each number as
// strictly as the strictest of them.
func (j *Job) survey(ctx context.Context) (*survey, error) {
	s := &survey{Job: j, view: public.Of(j.Book), held: map[ledger.Number]*public.Withheld{}, own: map[versionOf]*public.Withheld{},
		links: map[versionOf][]ledger.Number{}}
	h := fnv.New64a()
	for _, f := range j.Book.Museum.Files {
		fmt.Fprintf(h, "%s %s\n", f.Path, f.Blob)
	}
	for e := range j.Book.All() {
		if j.Book.Aside(e.Number) {
			fmt.Fprintln(h, "aside", e.Number)
		}
	}
	s.policy = fmt.Sprintf("%d %x", Version, h.Sum64())
	for _, n := range j.History.Numbers() {
		if !n.Valid() {
			continue
		}
		for v := range s.versionsOf(n) {
			if err := s.look(ctx, n, v); err != nil {
				return nil, err
			}
		}
	}
	s.holdMoved()
	for n, w := range s.held {
		s.view.Hold(n, w)
	}
	return s, nil
}

// holdMoved holds a number under which a plant went as strictly as those under
// which it goes: its versions stand there, too.
func (s *survey) holdMoved() {
	var moves []history.Move
	for p := range s.History.Len() {
		for _, m := range history.Moves(s.History.Message(p)) {
			if m.From.Valid() && m.To.Valid() && !ledger.WorkNumber(m.From).Valid() {
				moves = append(moves, m, history.Move{From: m.To, To: m.From})
			}
		}
	}
	for grown := true; grown; {
		grown = false
		for _, m := range moves {
			if w := s.held[m.From]; w != nil && s.hold(m.To, w) {
				grown = true
			}
		}
	}
}

// versionsOf are the versions of a record, oldest first, each once.
func (s *survey) versionsOf(n ledger.Number) iter.Seq[versionOf] {
	return func(yield func(versionOf) bool) {
		seen := map[ledger.BlobID]bool{"": true}
		for _, r := range s.History.Borne(n) {
			if !seen[r.Blob] && !yield(versionOf{string(n), r.Blob}) {
				return
			}
			seen[r.Blob] = true
		}
	}
}

// look notes what one version says of its number.
func (s *survey) look(ctx context.Context, n ledger.Number, v versionOf) error {
	r, err := s.decode(ctx, n, v.blob)
	if err != nil || r == nil {
		return err
	}
	for _, list := range [][]ledger.Leaf{r.SameGathering, r.SharesSheet} {
		for _, l := range list {
			s.links[v] = append(s.links[v], ledger.Number(l.Text))
		}
	}
	w := s.view.Why(r)
	if w == nil {
		return nil
	}
	s.own[v] = w
	s.hold(n, w)
	return nil
}

// hold holds a number at least so strictly; false when it was. Of equals the
// first counts that says why, so that a new wording leaves old versions alone.
func (s *survey) hold(n ledger.Number, w *public.Withheld) bool {
	if h := s.held[n]; h == nil || w.Class > h.Class || w.Class == h.Class && h.Why == "" && w.Why != "" {
		s.held[n] = w
		return true
	}
	return false
}

// decode reads one version of a record; nil when it cannot be read.
func (s *survey) decode(ctx context.Context, n ledger.Number, id ledger.BlobID) (*ledger.Record, error) {
	src, err := s.bytes(ctx, id)
	if err != nil || src == nil {
		return nil, err
	}
	r, found := ledger.Decode(n.Path(), src)
	if history.Unreadable(found) {
		return nil, nil
	}
	return r, nil
}

// bytes is the content of a file; nil when it is too large to be read.
func (s *survey) bytes(ctx context.Context, id ledger.BlobID) ([]byte, error) {
	src, err := s.Source.Blob(ctx, id)
	if errors.Is(err, ledger.ErrLarge) {
		return nil, nil
	}
	return src, err
}

// key changes whenever a version may become another file: with today's
// policy, with why it is withheld, and with the numbers that it may name.
func (s *survey) key(v versionOf) uint64 {
	h := fnv.New64a()
	fmt.Fprintln(h, s.policy)
	if v.name[0] == '/' {
		return h.Sum64()
	}
	n := ledger.Number(v.name)
	for _, w := range []*public.Withheld{s.own[v], s.held[n]} {
		if w != nil {
			fmt.Fprintln(h, w.Class, w.Why, w.Category, w.Review, w.Name, w.Private)
		}
	}
	for _, l := range s.links[v] {
		if s.view.Hidden(l) {
			fmt.Fprintln(h, l)
		}
	}
	return h.Sum64()
}

// secrets is what may stand in no object: the words of every version of every
// number that is held.
func (s *survey) secrets(ctx context.Context) (*public.Secrets, error) {
	held := make([]ledger.Number, 0, len(s.held))
	for n := range s.held {
		held = append(held, n)
	}
	slices.Sort(held)
	earlier := func(yield func(*ledger.Record, error) bool) {
		for _, n := range held {
			for v := range s.versionsOf(n) {
				r, err := s.decode(ctx, n, v.blob)
				if r == nil && err == nil {
					continue
				}
				if r != nil {
					r.Specimen.Text = string(n)
				}
				if !yield(r, err) {
					return
				}
			}
		}
	}
	mails := map[string]bool{}
	for p := range s.History.Len() {
		c := s.History.Commit(p)
		mails[c.Author.Email], mails[c.Committer.Email] = true, true
	}
	delete(mails, "")
	return s.view.SecretsOf(ctx, public.SecretsFrom{Load: s.Loader, Earlier: []iter.Seq2[*ledger.Record, error]{earlier}, Mails: slices.Sorted(maps.Keys(mails))})
}
