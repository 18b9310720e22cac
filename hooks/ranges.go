package hooks

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// Range judges commits that are made already: the law of opinions for every
// one of them, the contents of the tips alone, so that a later commit can mend
// what an earlier one broke.
func (b Bench) Range(ctx context.Context, g gitrepo.Range) (Verdict, error) {
	return b.span(ctx, g, map[string]bool{})
}

// span is Range, without the commits and tips that were judged already, which
// it notes.
func (b Bench) span(ctx context.Context, g gitrepo.Range, judged map[string]bool) (Verdict, error) {
	ids, err := b.Repo.Commits(ctx, g)
	if err != nil || len(ids) == 0 {
		return Verdict{}, err
	}
	v := Verdict{Entries: len(ids)}
	inRange := map[string]bool{}
	for _, id := range ids {
		inRange[id] = true
	}
	outside := "" // the version that the range starts from
	for _, id := range ids {
		w, parents, err := b.lawsOf(ctx, id, judged[id])
		if err != nil {
			return Verdict{}, err
		}
		v.join(w)
		for _, p := range parents {
			if outside == "" && !inRange[p] {
				outside = p
			}
		}
	}
	for _, tip := range g.Tips {
		if none(tip) {
			continue
		}
		id, err := b.Repo.Resolve(ctx, tip)
		if err != nil {
			return Verdict{}, err
		}
		if judged["tip "+id] {
			continue
		}
		w, err := b.contentsOf(ctx, outside, id)
		if err != nil {
			return Verdict{}, err
		}
		v.join(w)
		if w, err = b.bridge(ctx, v, outside, id, ids); err != nil {
			return Verdict{}, err
		}
		v.join(w)
		judged["tip "+id] = true
	}
	for _, id := range ids {
		judged[id] = true
	}
	return v, nil
}

// bridge holds the tip of a range against the version before the range where
// some version between could not be read: breaking a file and mending it again
// takes no opinion away unseen.
func (b Bench) bridge(ctx context.Context, v Verdict, before, tip string, ids []string) (Verdict, error) {
	unread := slices.ContainsFunc(v.Findings, func(f ledger.Finding) bool { return f.Code == history.CodeUnread })
	if !unread || before == "" {
		return Verdict{}, nil
	}
	var messages strings.Builder
	for _, id := range ids {
		c, err := b.Repo.Revision(ctx, id)
		if err != nil {
			return Verdict{}, err
		}
		for _, x := range history.Corrections(c.Message) {
			fmt.Fprintf(&messages, "%s: %s %s\n", history.CorrectsKey, x.Number, x.Reason)
		}
	}
	changes, err := b.changed(ctx, before, tip)
	if err != nil {
		return Verdict{}, err
	}
	src, err := b.Repo.At(ctx, tip)
	if err != nil {
		return Verdict{}, err
	}
	return b.laws(ctx, []string{before}, src, changes, "bridge\n\n"+messages.String())
}

// contentsOf judges what commit id has otherwise than before.
func (b Bench) contentsOf(ctx context.Context, before, id string) (Verdict, error) {
	changes, err := b.changed(ctx, before, id)
	if err != nil {
		return Verdict{}, err
	}
	src, err := b.Repo.At(ctx, id)
	if err != nil {
		return Verdict{}, err
	}
	return b.Contents(ctx, before, src, changes)
}

// lawsOf judges one made commit by the law of opinions, unless it was judged;
// its parents are told either way.
func (b Bench) lawsOf(ctx context.Context, id string, judged bool) (Verdict, []string, error) {
	commit, err := b.Repo.Revision(ctx, id)
	if err != nil || judged {
		return Verdict{}, commit.Parents, err
	}
	v, err := b.lawsOfCommit(ctx, commit)
	for i := range v.Findings {
		v.Findings[i].Message += " (revision " + id[:7] + ")"
	}
	return v, commit.Parents, err
}

// lawsOfCommit is lawsOf without the revision in each message.
func (b Bench) lawsOfCommit(ctx context.Context, commit history.Commit) (Verdict, error) {
	if len(commit.Parents) == 0 {
		return Verdict{}, nil
	}
	changes, err := b.changed(ctx, commit.Parents[0], commit.ID)
	if err != nil {
		return Verdict{}, err
	}
	return b.laws(ctx, commit.Parents, b.Repo.Stored(), changes, commit.Message)
}

// Pushes reads git's lines for pre-push: local ref, local id, remote ref,
// remote id.
func Pushes(lines string) ([]Update, error) {
	var all []Update
	for line := range strings.Lines(lines) {
		f := strings.Fields(line)
		if len(f) == 0 {
			continue
		}
		if len(f) != 4 {
			return nil, fmt.Errorf("read what git sends: %q has not four parts", strings.TrimSpace(line))
		}
		all = append(all, Update{f[3], f[1], f[2]})
	}
	return all, nil
}

// Push judges what a push sends: all that the other end does not have.
func (b Bench) Push(ctx context.Context, pushes []Update) (Verdict, error) {
	var v Verdict
	for _, p := range pushes {
		g := gitrepo.Range{Tips: []string{p.New}, NotRemotes: true}
		if strings.Trim(p.Old, "0") != "" {
			if _, err := b.Repo.Revision(ctx, p.Old); err == nil {
				g.Not = append(g.Not, p.Old)
			}
		}
		w, err := b.Range(ctx, g)
		if err != nil {
			return Verdict{}, err
		}
		v.join(w)
	}
	return v, nil
}
