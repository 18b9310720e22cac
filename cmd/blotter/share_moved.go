package main

import (
	"bytes"
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
	"blotter/ledger/renumber"
)

// movedSide is what one of two copies changed since both had the same, and
// where in it the plants and files of then are now.
type movedSide struct {
	desk      *desk
	base, tip string
	changes   map[string]gitrepo.Change // by path
	order     []string                  // their paths
	numbers   renumber.Moves            // of plants under another number now
	paths     map[string]string         // of other files that are at another place now
}

func (d *desk) movedSince(ctx context.Context, base, tip string) (*movedSide, error) {
	m := &movedSide{desk: d, base: base, tip: tip, changes: map[string]gitrepo.Change{}, numbers: renumber.Moves{}, paths: map[string]string{}}
	changes, err := d.repo.Changed(ctx, base, tip)
	if err != nil {
		return nil, stuck("%v", err)
	}
	for _, c := range changes {
		m.changes[c.Path] = c
		m.order = append(m.order, c.Path)
	}
	if err := m.findSwapped(ctx); err != nil {
		return nil, err
	}
	if err := m.findRetired(ctx); err != nil {
		return nil, err
	}
	return m, m.findMoved(ctx)
}

// at is a file as this side has it; nil: it has none.
func (m *movedSide) at(ctx context.Context, path string) ([]byte, error) {
	c, changed := m.changes[path]
	if !changed {
		return m.before(ctx, path)
	}
	return m.blob(ctx, c.New)
}

// before is a file as both had it; nil: neither had it.
func (m *movedSide) before(ctx context.Context, path string) ([]byte, error) {
	id, err := m.desk.repo.BlobAt(ctx, m.base, path)
	if err != nil {
		return nil, stuck("%v", err)
	}
	return m.blob(ctx, id)
}

func (m *movedSide) blob(ctx context.Context, id ledger.BlobID) ([]byte, error) {
	src, err := m.desk.blobOf(ctx, id)
	if err != nil {
		return nil, stuck("%v", err)
	}
	return src, nil
}

// findRetired finds the plants that go on under another number: what is left
// of the old one says so.
func (m *movedSide) findRetired(ctx context.Context) error {
	for _, path := range m.order {
		n, ok := ledger.NumberOfPath(path)
		c := m.changes[path]
		if !ok || c.Old == "" || c.New == "" {
			continue
		}
		to, err := m.retired(ctx, path)
		if err != nil {
			return err
		}
		if to == "" {
			continue
		}
		for range 8 { // it may have moved more than once
			next, err := m.retired(ctx, to.Path())
			if err != nil {
				return err
			}
			if next == "" {
				break
			}
			to = next
		}
		if now, err := m.at(ctx, to.Path()); err != nil {
			return err
		} else if now != nil {
			m.numbers[n.Key()] = to
		}
	}
	return nil
}

// retired is the number under which the plant of a record goes on, if this side
// says so and it was otherwise before; else "".
func (m *movedSide) retired(ctx context.Context, path string) (ledger.Number, error) {
	now, err := m.at(ctx, path)
	if err != nil || !bytes.Contains(now, []byte("same-as")) {
		return "", err
	}
	to, ok := history.Retired(decoded(path, now))
	if !ok {
		return "", nil
	}
	old, err := m.before(ctx, path)
	if err != nil {
		return "", err
	}
	if was, ok := history.Retired(decoded(path, old)); ok && was.Key() == to.Key() {
		return "", nil
	}
	return to, nil
}

// findSwapped finds the plants that exchanged their numbers: the entries say
// so.
func (m *movedSide) findSwapped(ctx context.Context) error {
	ids, err := m.desk.repo.Commits(ctx, gitrepo.Range{Tips: []string{m.tip}, Not: []string{m.base}})
	if err != nil {
		return stuck("%v", err)
	}
	plant := map[string]ledger.Number{} // by the key of the number that it bears now: the one that it bore
	for _, id := range ids {
		c, err := m.desk.repo.Revision(ctx, id)
		if err != nil {
			return stuck("%v", err)
		}
		moves := history.Moves(c.Message)
		for i := 0; i+1 < len(moves); i++ {
			a, b := moves[i], moves[i+1]
			if !a.Swap || !b.Swap || a.From != b.To || a.To != b.From {
				continue
			}
			of := func(n ledger.Number) ledger.Number {
				if was, ok := plant[n.Key()]; ok {
					return was
				}
				return n
			}
			plant[a.From.Key()], plant[a.To.Key()] = of(a.To), of(a.From)
			i++
		}
	}
	for now, was := range plant {
		c, changed := m.changes[was.Path()]
		if was.Key() != now && changed && c.Old != "" {
			m.numbers[was.Key()] = m.spelled(now)
		}
	}
	return nil
}

// spelled is a number of this side by its key.
func (m *movedSide) spelled(key string) ledger.Number {
	for _, path := range m.order {
		if n, ok := ledger.NumberOfPath(path); ok && n.Key() == key {
			return n
		}
	}
	return ledger.Number(key)
}

// findMoved finds the other files that are at another place: the same bytes,
// the record of the same number, or a text of which half the lines are the same.
func (m *movedSide) findMoved(ctx context.Context) error {
	var come []string
	for _, path := range m.order {
		if c := m.changes[path]; c.Old == "" && c.New != "" && !c.Link {
			come = append(come, path)
		}
	}
	for _, path := range m.order {
		c := m.changes[path]
		if c.New != "" || len(come) == 0 {
			continue
		}
		i := slices.IndexFunc(come, func(to string) bool { return m.changes[to].New == c.Old })
		if n, ok := ledger.NumberOfPath(path); ok && i < 0 {
			i = slices.IndexFunc(come, func(to string) bool {
				have, ok := ledger.NumberOfPath(to)
				return ok && have.Key() == n.Key()
			})
		}
		if i < 0 && len(come) <= manyMoved && strings.HasPrefix(path, ledger.PagesDir+"/") {
			var err error
			if i, err = m.alike(ctx, path, come); err != nil {
				return err
			}
		}
		if i >= 0 {
			m.paths[path] = come[i]
			come = slices.Delete(come, i, i+1)
		}
	}
	return nil
}

// manyMoved bounds how many new texts one that is gone is compared with.
const manyMoved = 50

// alike finds the text among those that came which has most of the lines of
// one that is gone, and at least half; -1: none.
func (m *movedSide) alike(ctx context.Context, gone string, come []string) (int, error) {
	was, err := m.before(ctx, gone)
	if err != nil {
		return -1, err
	}
	at, most := -1, 0.5
	for i, path := range come {
		if !strings.HasPrefix(path, ledger.PagesDir+"/") {
			continue
		}
		now, err := m.at(ctx, path)
		if err != nil {
			return -1, err
		}
		if share := commonLines(was, now); share >= most {
			at, most = i, share
		}
	}
	return at, nil
}

// commonLines is which share of the lines of two texts both have.
func commonLines(a, b []byte) float64 {
	have := map[string]int{}
	all, both := 0, 0
	for line := range bytes.Lines(a) {
		have[string(bytes.TrimSpace(line))]++
		all++
	}
	for line := range bytes.Lines(b) {
		key := string(bytes.TrimSpace(line))
		if all++; have[key] > 0 {
			have[key]--
			both += 2
		}
	}
	if all == 0 {
		return 0
	}
	return float64(both) / float64(all)
}
