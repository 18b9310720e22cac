package darwincore

import (
	"context"
	"iter"
	"sync"
)

// MaxGroup is how many sheets a group has at most; a folder has a hundred,
// only that of numbers without figures may have more.
const MaxGroup = 1000

// made is the part of a group.
type made struct {
	group Group
	part  *part
	fresh bool // it was not kept
	err   error
}

// job is a group on its way to a part.
type job struct {
	group Group
	done  chan made
}

// parts makes the part of every group, several at once, and takes them in
// order.
func (a *archiver) parts(ctx context.Context) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	workers := a.in.Workers
	if workers <= 0 {
		workers = 2
	}
	queue, order := make(chan job, workers), make(chan job, 2*workers)
	var wg sync.WaitGroup
	defer wg.Wait()
	defer cancel()
	wg.Go(func() {
		defer close(order)
		defer close(queue)
		for g := range a.in.groups() {
			j := job{g, make(chan made, 1)}
			select {
			case order <- j:
			case <-ctx.Done():
				return
			}
			queue <- j // somebody waits for it now
		}
	})
	for range workers {
		wg.Go(func() {
			m := newMaker(a.in)
			for j := range queue {
				j.done <- m.group(ctx, j.group)
			}
		})
	}
	for j := range order {
		x := <-j.done
		if x.err != nil {
			return x.err
		}
		if x.fresh {
			a.done.Made++
			if a.in.Keep != nil && x.group.Stamp != "" {
				a.in.Keep(x.group, x.part.encode())
			}
		}
		if err := a.take(x.part); err != nil {
			return err
		}
	}
	return ctx.Err()
}

// group is the part of a group: as it was kept, or made.
func (m *maker) group(ctx context.Context, g Group) made {
	if g.Kept != nil {
		if p, err := decodePart(g.Kept); err == nil && p.known(m.look) {
			return made{group: g, part: p}
		}
	}
	if err := ctx.Err(); err != nil {
		return made{err: err}
	}
	sheets, err := g.Sheets(ctx)
	if err != nil {
		return made{err: err}
	}
	p, err := m.make(sheets)
	return made{group: g, part: p, fresh: true, err: err}
}

// groups are the groups of the input; sheets that come one by one are grouped
// by their folder.
func (in *Input) groups() iter.Seq[Group] {
	if in.Groups != nil {
		return in.Groups
	}
	return func(yield func(Group) bool) {
		var list []*Sheet
		flush := func() bool {
			sheets := list
			list = nil
			return len(sheets) == 0 || yield(Group{Name: sheets[0].Number.Folder(), Sheets: func(context.Context) ([]*Sheet, error) { return sheets, nil }})
		}
		for s, err := range in.Sheets {
			if err != nil {
				yield(Group{Sheets: func(context.Context) ([]*Sheet, error) { return nil, err }})
				return
			}
			if len(list) > 0 && (len(list) == MaxGroup || list[0].Number.Folder() != s.Number.Folder()) && !flush() {
				return
			}
			list = append(list, s)
		}
		flush()
	}
}
