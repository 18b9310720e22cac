package main

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
)

// following lets what one copy said of a plant or wrote into a file follow it to
// the number or place that the other copy gave it meanwhile.
type following struct {
	sharing *sharing
	cast    map[string]*gitrepo.Clash // by path in the ledger, where the file is now
	came    map[string]string         // where it was, by the same
	notes   []string                  // trailers
	told    []string                  // lines for the person
	mover   *movedSide                // the copy that moved, of the two looked at now
	writer  *movedSide                // the one whose words follow
	here    bool                      // the writer is this copy
}

// follow finds what must follow; nothing in most cases.
func (s *sharing) follow(ctx context.Context) (*following, error) {
	f := &following{sharing: s, cast: map[string]*gitrepo.Clash{}, came: map[string]string{}}
	ours, theirs, err := s.moved(ctx)
	if err != nil {
		return nil, err
	}
	for _, here := range []bool{true, false} {
		f.here, f.mover, f.writer = here, theirs, ours
		if !here {
			f.mover, f.writer = ours, theirs
		}
		if err := f.plants(ctx); err != nil {
			return nil, err
		}
		if err := f.places(ctx); err != nil {
			return nil, err
		}
		if err := f.mentions(ctx); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// plants brings what the writer said of plants to their new numbers.
func (f *following) plants(ctx context.Context) error {
	taken := map[string]bool{} // numbers that a plant moved to
	for _, to := range f.mover.numbers {
		taken[to.Key()] = true
	}
	for _, key := range slices.Sorted(maps.Keys(f.mover.numbers)) {
		to := f.mover.numbers[key]
		from := f.mover.spelled(key)
		_, touched := f.writer.changes[from.Path()]
		_, beside := f.writer.changes[to.Path()]
		if _, both := f.writer.numbers[key]; both {
			continue // to one number: settleAnew saw to that
		}
		if !touched && !beside {
			continue
		}
		if err := f.put(ctx, from.Path(), to.Path(), to); err != nil {
			return err
		}
		if !taken[key] { // what is left of the old number
			stub, err := f.mover.at(ctx, from.Path())
			if err != nil {
				return err
			}
			f.cast[from.Path()] = &gitrepo.Clash{Base: stub, Ours: stub, Theirs: stub}
		}
		if touched {
			f.tellMoved(string(from), string(to))
		}
	}
	return nil
}

// places brings what the writer changed in other files to their new places.
func (f *following) places(ctx context.Context) error {
	for _, from := range slices.Sorted(maps.Keys(f.mover.paths)) {
		to := f.mover.paths[from]
		c, touched := f.writer.changes[from]
		switch other := f.writer.paths[from]; {
		case !touched, other == to:
			continue
		case other != "":
			return f.twoPlaces(from, to, other)
		}
		if err := f.put(ctx, from, to, ""); err != nil {
			return err
		}
		f.cast[from] = &gitrepo.Clash{}
		if c.New != "" {
			f.tellMoved(from, to)
		}
	}
	return nil
}

// put sets the three versions of what was at from and is at to; number is its
// new number, "" where it keeps its words.
func (f *following) put(ctx context.Context, from, to string, number ledger.Number) error {
	base, moved, said, err := f.versions(ctx, from, to)
	if err != nil {
		return err
	}
	for _, src := range []*[]byte{&base, &said} {
		if number == "" || *src == nil {
			continue
		}
		if now, err := ledger.Edit(*src, ledger.Set("specimen", string(number))); err == nil {
			*src = now
		}
	}
	f.cast[to], f.came[to] = f.clash(base, moved, said), from
	return nil
}

// versions are a file as both had it, as the mover has it, where it is at to,
// and as the writer has it.
func (f *following) versions(ctx context.Context, from, to string) (base, moved, said []byte, err error) {
	if base, err = f.writer.before(ctx, from); err != nil {
		return nil, nil, nil, err
	}
	if moved, err = f.mover.at(ctx, to); err != nil {
		return nil, nil, nil, err
	}
	said, err = f.writer.at(ctx, from)
	return base, moved, said, err
}

// clash is the versions of a file by which copy each is of.
func (f *following) clash(base, mover, writer []byte) *gitrepo.Clash {
	if f.here {
		return &gitrepo.Clash{Base: base, Ours: writer, Theirs: mover}
	}
	return &gitrepo.Clash{Base: base, Ours: mover, Theirs: writer}
}

// mentions lets the records and lines that the writer wrote name the plants by
// their new numbers.
func (f *following) mentions(ctx context.Context) error {
	if len(f.mover.numbers) == 0 {
		return nil
	}
	base, err := f.sharing.repo.At(ctx, f.sharing.base)
	if err != nil {
		return stuck("%v", err)
	}
	named := &settling{desk: f.sharing.desk, base: base, moves: f.mover.numbers, because: "numbers that were put right meanwhile"}
	at := map[string]string{} // where a file of the writer is now
	for to, from := range f.came {
		at[from] = to
	}
	for _, path := range f.writer.order {
		c := f.writer.changes[path]
		_, isWork := ledger.WorkNumberOfPath(path)
		_, isRecord := ledger.NumberOfPath(path)
		if c.New == "" || c.Link || !isWork && !isRecord {
			continue
		}
		if err := f.mention(ctx, named, c, at[path]); err != nil {
			return err
		}
	}
	for _, t := range named.trailers {
		if !slices.Contains(f.notes, t) {
			f.notes = append(f.notes, t)
		}
	}
	return nil
}

func (f *following) mention(ctx context.Context, named *settling, c gitrepo.Change, now string) error {
	path := c.Path
	if now != "" {
		path = now
	}
	cast := f.cast[path]
	if cast == nil {
		base, moved, said, err := f.versions(ctx, path, path)
		if err != nil {
			return err
		}
		cast = f.clash(base, moved, said)
	}
	said := &cast.Theirs
	if f.here {
		said = &cast.Ours
	}
	if *said == nil {
		return nil
	}
	var words []byte
	var err error
	if _, isWork := ledger.WorkNumberOfPath(path); isWork {
		words, err = named.workNamed(ctx, ledger.Change{Path: c.Path, Old: c.Old, New: c.New}, *said)
	} else {
		words, err = named.recordNamed(path, *said)
	}
	if err != nil || string(words) == string(*said) {
		return nil // what cannot be read is left as it was written
	}
	*said = words
	f.cast[path] = cast
	return nil
}

// files are the versions that count instead of those in the two revisions, in
// order of path, and where each file was.
func (f *following) files() ([]gitrepo.Clash, map[string]string) {
	var all []gitrepo.Clash
	for _, path := range slices.Sorted(maps.Keys(f.cast)) {
		c := *f.cast[path]
		c.Path = f.sharing.repo.Prefix() + path
		all = append(all, c)
	}
	return all, f.came
}

// trailerBlock ends a message with trailers.
func trailerBlock(lines []string) string {
	if len(lines) == 0 {
		return ""
	}
	return "\n" + strings.Join(lines, "\n") + "\n"
}

func (f *following) tellMoved(from, to string) {
	if f.here {
		f.told = append(f.told, fmt.Sprintf("%s is now %s in the other copy; what was entered here follows it.", from, to))
		return
	}
	f.told = append(f.told, fmt.Sprintf("%s is now %s here; what was entered in the other copy follows it.", from, to))
}

// tell says what follows where.
func (f *following) tell() {
	for _, line := range f.told {
		f.sharing.say("%s", wrap(line, f.sharing.Width, ""))
	}
}

// twoPlaces refuses a file that both copies moved, to two places.
func (f *following) twoPlaces(from, there, here string) error {
	if !f.here {
		there, here = here, there
	}
	return stuck("%s is now %s in the other copy, and %s here; nothing was changed and nothing sent", from, there, here).
		try("To have it where the other copy has it: move it there, then blotter enter, then blotter share")
}
