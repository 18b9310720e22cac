package hooks

import (
	"context"
	"slices"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// lineOf are the entries of one line of work that a merge joins, those that the
// others have not, that corrected something or gave a plant another number;
// oldest first.
func (b Bench) lineOf(ctx context.Context, tips, not []string) ([]history.Commit, error) {
	if len(tips) == 0 {
		return nil, nil
	}
	ids, err := b.Repo.Commits(ctx, gitrepo.Range{Tips: tips, Not: not})
	if err != nil {
		return nil, err
	}
	var out []history.Commit
	for _, id := range ids {
		c, err := b.Repo.Revision(ctx, id)
		if err != nil {
			return nil, err
		}
		if t := toldBy(c.Message); len(t.corrections)+len(t.moves) > 0 {
			out = append(out, c)
		}
	}
	return out, nil
}

// joining is what the lines of work that a merge joins mean to one of its
// parents.
type joining struct {
	Bench
	others       []string         // the other parents
	theirs, mine []history.Commit // that told something: on their lines, on the parent's
	moves        []history.Move   // on the others' lines, and of the merge
}

func (b Bench) joining(ctx context.Context, parents []string, parent string, own told) (j joining, err error) {
	j = joining{Bench: b, others: slices.DeleteFunc(slices.Clone(parents), func(p string) bool { return p == parent })}
	if j.theirs, err = b.lineOf(ctx, j.others, []string{parent}); err != nil {
		return j, err
	}
	if j.mine, err = b.lineOf(ctx, []string{parent}, j.others); err != nil {
		return j, err
	}
	for _, c := range j.theirs {
		j.moves = append(j.moves, history.Moves(c.Message)...)
	}
	j.moves = append(j.moves, own.moves...)
	return j, nil
}

// elsewhere is what the other lines say of a number, and of those by which its
// plant goes on there.
func (j joining) elsewhere(ctx context.Context, s subject) (*history.Elsewhere, error) {
	all := []subject{s}
	for range j.moves {
		m, moved := history.MovedTo(j.moves, all[len(all)-1].name())
		if !moved {
			break
		}
		all = append(all, s.as(m.To))
	}
	e := &history.Elsewhere{}
	for _, s := range all {
		if err := j.corrected(ctx, s, j.theirs, e.Correct, e.Unread); err != nil {
			return nil, err
		}
		if err := j.corrected(ctx, s, j.mine, e.CorrectHere, func() {}); err != nil {
			return nil, err
		}
		for _, p := range j.others {
			v, err := j.versionAt(ctx, s, p)
			if err != nil {
				return nil, err
			}
			if d := v.document(); d != nil && !v.broken {
				e.Beside(d)
			}
		}
	}
	return e, nil
}

// corrected gives, of the entries that corrected a number, the versions before
// each and its own.
func (j joining) corrected(ctx context.Context, s subject, line []history.Commit, tell func(before, after ledger.Document), unread func()) error {
	for _, c := range line {
		if !slices.ContainsFunc(history.Corrections(c.Message), func(x history.Correction) bool { return x.Number.Key() == s.name().Key() }) {
			continue
		}
		after, err := j.versionAt(ctx, s, c.ID)
		if err != nil {
			return err
		}
		for _, p := range c.Parents {
			before, err := j.versionAt(ctx, s, p)
			if err != nil {
				return err
			}
			if before.broken || after.broken {
				unread()
				continue
			}
			tell(before.document(), after.document())
		}
	}
	return nil
}
