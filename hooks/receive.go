package hooks

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
)

// Codes of the findings of Receive.
const (
	CodeCut     = "history-cut"   // a push would take shared entries away
	CodeRelease = "release-moved" // a push would move or take away a release, or brings one that is none
	CodeShallow = "history-short" // a push comes from a copy without the older history
)

// Update is one line that git gives pre-receive: a ref is to move.
type Update struct{ Old, New, Ref string }

func (u Update) made() bool { return none(u.Old) }
func (u Update) gone() bool { return none(u.New) }

// none reports whether an id is that of nothing.
func none(id string) bool { return strings.Trim(id, "0") == "" }

// Updates reads git's lines for pre-receive: old id, new id, ref.
func Updates(lines string) ([]Update, error) {
	var all []Update
	for line := range strings.Lines(lines) {
		f := strings.Fields(line)
		if len(f) == 0 {
			continue
		}
		if len(f) != 3 {
			return nil, fmt.Errorf("read what git sends: %q has not three parts", strings.TrimSpace(line))
		}
		all = append(all, Update{f[0], f[1], f[2]})
	}
	return all, nil
}

// Receive judges a push at the server end, of all its refs at once: what each
// brings, that the main branch is neither deleted nor made to forget, that no
// other branch's entries are lost, and that releases stay.
func (b Bench) Receive(ctx context.Context, updates []Update) (Verdict, error) {
	main, err := b.Repo.Branch()
	if err != nil {
		return Verdict{}, err
	}
	var v Verdict
	judged := map[string]bool{}
	for _, u := range updates {
		found, err := b.moves(ctx, u, main, updates)
		if err != nil {
			return Verdict{}, err
		}
		v.Findings = append(v.Findings, found...)
		if u.gone() || len(found) > 0 {
			continue
		}
		apart, err := b.apart(ctx, u.New)
		if err != nil {
			return Verdict{}, err
		}
		if apart && u.Ref != "refs/heads/"+main {
			continue
		}
		w, err := b.span(ctx, gitrepo.Range{Tips: []string{u.New}, NotAllRefs: true}, judged)
		if err != nil {
			if short := b.cutOff(ctx, u); short != nil {
				v.Findings = append(v.Findings, *short)
				continue
			}
			return Verdict{}, err
		}
		v.join(w)
	}
	ledger.SortFindings(v.Findings)
	return v, nil
}

// moves judges where one ref is to move.
func (b Bench) moves(ctx context.Context, u Update, main string, all []Update) ([]ledger.Finding, error) {
	if name, ok := strings.CutPrefix(u.Ref, "refs/tags/"); ok {
		return b.release(ctx, u, name)
	}
	if u.made() || u.Old == u.New {
		return nil, nil
	}
	if u.Ref == "refs/heads/"+main {
		kept := false
		if !u.gone() {
			var err error
			if kept, err = b.Repo.IsAncestor(ctx, u.Old, u.New); err != nil {
				return nil, err
			}
		}
		if kept {
			return nil, nil
		}
		if u.gone() {
			return refuse(u, CodeCut, "would take away the main branch, and with it what others have already; what is shared stays",
				"It gets another name on the server, by whoever looks after that."), nil
		}
		return refuse(u, CodeCut, "would take away entries that others have already; what is shared stays",
			"Fetch what others have sent, join it with yours, then send again."), nil
	}
	if apart, err := b.apart(ctx, u.Old); err != nil || apart {
		return nil, err
	}
	kept, err := b.stays(ctx, u.Old, all)
	if err != nil || kept {
		return nil, err
	}
	return refuse(u, CodeCut, "would take away entries that are shared on this branch and nowhere else",
		"Join them into the main branch first, or send the branch under a new name and leave this one."), nil
}

func refuse(u Update, code, message, hint string) []ledger.Finding {
	return []ledger.Finding{{Path: u.Ref, Severity: ledger.Error, Code: code, Message: message, Hint: hint}}
}

// stays reports whether a commit can be reached when all refs have moved: a
// branch that is renamed, or that was joined, loses nothing.
func (b Bench) stays(ctx context.Context, commit string, all []Update) (bool, error) {
	refs, err := b.Repo.Refs(ctx)
	if err != nil {
		return false, err
	}
	g := gitrepo.Range{Tips: []string{commit}}
	for _, r := range refs {
		if !slices.ContainsFunc(all, func(u Update) bool { return u.Ref == r.Name }) {
			g.Not = append(g.Not, r.Commit)
		}
	}
	for _, u := range all {
		if !u.gone() {
			g.Not = append(g.Not, u.New)
		}
	}
	left, err := b.Repo.Commits(ctx, g)
	return len(left) == 0, err
}

// release judges a tag: what was released is that for ever.
func (b Bench) release(ctx context.Context, u Update, name string) ([]ledger.Finding, error) {
	switch {
	case u.gone():
		return refuse(u, CodeRelease, "would take a release away; what was released stays", "If it never was one, whoever looks after the server removes it there."), nil
	case !u.made() && u.Old != u.New:
		return refuse(u, CodeRelease, "would make a release stand for something else; what was released stays", "Send it under a new name."), nil
	}
	r, err := b.Repo.Release(ctx, name, u.New)
	switch {
	case err != nil:
		return nil, err
	case r.Commit == "":
		return refuse(u, CodeRelease, "leads to no revision of the ledger, so it cannot be a release", "A release of what is entered: blotter release "+name), nil
	case r.Called != "" && r.Called != name:
		return refuse(u, CodeRelease, "was made under another name, "+r.Called, "Send it under that name: git push ADDRESS refs/tags/"+r.Called), nil
	}
	return nil, nil
}

// apart reports whether a commit stands beside the ledger's history: it is the
// one commit of a branch that holds no ledger, as publish --branch makes it, or
// no commit at all.
func (b Bench) apart(ctx context.Context, id string) (bool, error) {
	r, err := b.Repo.Release(ctx, "", id)
	if err != nil || r.Commit == "" {
		return err == nil, err
	}
	c, err := b.Repo.Revision(ctx, r.Commit)
	if err != nil || len(c.Parents) > 0 {
		return false, err
	}
	museum, err := b.Repo.BlobAt(ctx, r.Commit, ledger.MuseumFile)
	return museum == "", err
}

// mostWalked bounds the search for where a history was cut off.
const mostWalked = 200_000

// cutOff finds whether what a ref is to lead to lacks the older history, as a
// push from a shallow copy does where git lets it in; nil: no.
func (b Bench) cutOff(ctx context.Context, u Update) *ledger.Finding {
	seen := map[string]bool{}
	stack := []string{u.New}
	for len(stack) > 0 && len(seen) < mostWalked && ctx.Err() == nil {
		id := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if seen[id] {
			continue
		}
		seen[id] = true
		c, err := b.Repo.Revision(ctx, id)
		if errors.Is(err, gitrepo.ErrNoObject) && id != u.New {
			f := refuse(u, CodeShallow, "comes from a copy that does not have the older history, so it cannot be held to what stood before",
				"Get the rest in that copy, then send again: git fetch --unshallow")
			return &f[0]
		}
		if err == nil {
			stack = append(stack, c.Parents...)
		}
	}
	return nil
}

// Ready judges the last entry of the main branch, so that all that a push is
// held against has been read and is kept.
func (b Bench) Ready(ctx context.Context) (Verdict, error) {
	head, err := b.head(ctx)
	if err != nil || head == "" {
		return Verdict{}, err
	}
	if _, err := b.Repo.History(ctx, b.Cache, head); err != nil {
		return Verdict{}, err
	}
	c, err := b.Repo.Revision(ctx, head)
	if err != nil {
		return Verdict{}, err
	}
	before := ""
	if len(c.Parents) > 0 {
		before = c.Parents[0]
	}
	v, err := b.contentsOf(ctx, before, head)
	v.Entries = 1
	return v, err
}
