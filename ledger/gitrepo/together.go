package gitrepo

import (
	"bytes"
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"strings"

	"blotter/ledger/history"
)

// Clash is a file that two lines of work changed in two ways, with its three
// versions; nil: it is not there.
type Clash struct {
	Path               string // from the top of the repository
	Base, Ours, Theirs []byte
}

// Joiner makes one file of two versions that grew apart from base; nil is no
// base, or a version that is not there. merged nil takes the file away. ok is
// false when a person must decide.
type Joiner func(ctx context.Context, c Clash) (merged []byte, ok bool, err error)

// Bases are the best common ancestors of two commits; none: they are of two
// histories.
func (r *Repo) Bases(ctx context.Context, a, b string) ([]string, error) {
	out, err := r.run(ctx, nil, "merge-base", "--all", a, b)
	var program *ProgramError
	if errors.As(err, &program) && program.Code == 1 && program.Text == "" {
		return nil, nil
	}
	return strings.Fields(string(out)), err
}

// Together makes one tree of two commits that grew apart, and returns its id.
// What only one side changed is taken; of what both did, join makes one file.
// Files for which it does not are listed, and then there is no tree. Of the
// files in recast these versions count, not those that the commits hold: by
// them what one side says follows a file that the other side moved. Nothing but
// objects is written. It needs the git program.
func (r *Repo) Together(ctx context.Context, ours, theirs string, recast []Clash, join Joiner) (tree string, clashes []Clash, err error) {
	defer r.pool.drop()
	w := weaver{r.In(""), join, recast}
	tree, clashes, err = w.commits(ctx, ours, theirs)
	if err != nil {
		return "", nil, fmt.Errorf("bring together: %w", err)
	}
	if len(clashes) > 0 {
		tree = ""
	}
	return tree, clashes, nil
}

type weaver struct {
	*Repo
	join   Joiner
	recast []Clash
}

// commits is the tree of two commits. Of several common ancestors one is made
// first, as git does; what they do not agree on it lacks, so that both
// versions are looked at anew.
func (w weaver) commits(ctx context.Context, ours, theirs string) (string, []Clash, error) {
	bases, err := w.Bases(ctx, ours, theirs)
	if err != nil {
		return "", nil, err
	}
	base := ""
	for i, b := range bases {
		if i == 0 {
			base = b
			continue
		}
		tree, _, err := weaver{w.Repo, w.join, nil}.commits(ctx, base, b)
		if err != nil {
			return "", nil, err
		}
		nobody := history.Person{Name: "blotter", Email: "blotter@localhost"}
		if base, err = w.CommitTree(ctx, tree, []string{base, b}, "ancestors\n", nobody, nobody); err != nil {
			return "", nil, err
		}
	}
	return w.trees(ctx, base, ours, theirs)
}

// sided is one file that a side changed.
type sided struct{ base, now entry }

func (w weaver) side(ctx context.Context, base, tip string) (map[string]sided, []string, error) {
	roots := [2]string{}
	for i, id := range []string{base, tip} {
		var err error
		if roots[i], err = w.rootTree(ctx, id); err != nil {
			return nil, nil, err
		}
	}
	all := map[string]sided{}
	var order []string
	err := treeReader{r: w.Repo, ctx: ctx}.diff(roots[1], []string{roots[0]}, "", func(path string, now entry, olds []entry) error {
		all[path] = sided{olds[0], now}
		order = append(order, path)
		return ctx.Err()
	})
	return all, order, err
}

func (w weaver) trees(ctx context.Context, base, ours, theirs string) (string, []Clash, error) {
	mine, _, err := w.side(ctx, base, ours)
	if err != nil {
		return "", nil, err
	}
	others, order, err := w.side(ctx, base, theirs)
	if err != nil {
		return "", nil, err
	}
	ups, clashes, err := w.recasts(ctx, mine, others)
	if err != nil {
		return "", nil, err
	}
	for _, path := range order {
		t, ok := others[path]
		if !ok {
			continue
		}
		o, both := mine[path]
		switch {
		case !both:
			ups = append(ups, treeUpdate{path, t.now.mode, t.now.id})
			continue
		case o.now == t.now:
			continue
		}
		up, clash, err := w.file(ctx, path, o, t)
		if err != nil {
			return "", nil, err
		}
		if clash != nil {
			clashes = append(clashes, *clash)
			up.id = "" // in an ancestor that is made: it lacks the file
		}
		ups = append(ups, up)
	}
	root, err := w.rootTree(ctx, ours)
	if err != nil {
		return "", nil, err
	}
	raw, err := treeWriter{programTrees{treeReader{r: w.Repo, ctx: ctx}}}.update(root, ups)
	return hex.EncodeToString([]byte(raw)), clashes, err
}

// file makes one file of two; a clash when a person must decide.
func (w weaver) file(ctx context.Context, path string, o, t sided) (up treeUpdate, clash *Clash, err error) {
	up = treeUpdate{path: path, mode: o.now.mode, id: o.now.id}
	if o.base.mode == o.now.mode && t.now.mode != "" {
		up.mode = t.now.mode
	}
	c := Clash{Path: path}
	plain := true
	for _, side := range []struct {
		e    entry
		into *[]byte
	}{{o.base, &c.Base}, {o.now, &c.Ours}, {t.now, &c.Theirs}} {
		if side.e.id == "" {
			continue
		}
		plain = plain && side.e.isFile() && side.e.mode != modeLink
		if !side.e.isFile() {
			continue
		}
		if _, *side.into, err = w.pool.read(ctx, side.e.hex(), 0); err != nil {
			return up, nil, err
		}
		*side.into = append([]byte{}, *side.into...)
	}
	if !plain {
		return up, &c, nil
	}
	if o.now.id == t.now.id { // only the modes differ
		return up, nil, nil
	}
	if up.mode == "" {
		up.mode = t.now.mode
	}
	return w.joined(ctx, up, c)
}

// joined is an update with what join makes of a file.
func (w weaver) joined(ctx context.Context, up treeUpdate, c Clash) (treeUpdate, *Clash, error) {
	merged, ok, err := w.join(ctx, c)
	if err != nil || !ok {
		return up, &c, err
	}
	if up.id = ""; merged == nil {
		return up, nil, nil
	}
	out, err := w.run(ctx, bytes.NewReader(merged), "hash-object", "-w", "--stdin", "--no-filters")
	if err != nil {
		return up, nil, err
	}
	up.id, err = rawID(strings.TrimSpace(string(out)))
	return up, nil, err
}

// recasts makes one file of each of recast, and takes it out of what the two
// sides changed.
func (w weaver) recasts(ctx context.Context, mine, others map[string]sided) (ups []treeUpdate, clashes []Clash, err error) {
	same := func(a, b []byte) bool { return (a == nil) == (b == nil) && bytes.Equal(a, b) }
	for _, c := range w.recast {
		up := treeUpdate{path: c.Path, mode: modeFile}
		for _, e := range []entry{mine[c.Path].now, others[c.Path].now} {
			if e.mode == modeExec {
				up.mode = modeExec
			}
		}
		delete(mine, c.Path)
		delete(others, c.Path)
		of := weaver{w.Repo, func(ctx context.Context, c Clash) ([]byte, bool, error) {
			switch {
			case same(c.Ours, c.Theirs), same(c.Base, c.Theirs):
				return c.Ours, true, nil
			case same(c.Base, c.Ours):
				return c.Theirs, true, nil
			}
			return w.join(ctx, c)
		}, nil}
		up, clash, err := of.joined(ctx, up, c)
		if err != nil {
			return nil, nil, err
		}
		if clash != nil {
			clashes = append(clashes, *clash)
		}
		ups = append(ups, up)
	}
	return ups, clashes, nil
}

// programTrees writes trees through the git program, which knows every kind
// of repository.
type programTrees struct{ treeReader }

func (s programTrees) putTree(body []byte, _ string) (string, error) {
	out, err := s.r.run(s.ctx, bytes.NewReader(body), "hash-object", "-w", "--stdin", "-t", "tree")
	if err != nil {
		return "", err
	}
	return rawID(strings.TrimSpace(string(out)))
}

// CommitTree makes a commit of a tree. No branch leads to it yet, and no hook
// runs.
func (r *Repo) CommitTree(ctx context.Context, tree string, parents []string, message string, author, committer history.Person) (string, error) {
	args := []string{"-c", "i18n.commitEncoding=UTF-8", "commit-tree", tree}
	for _, p := range parents {
		args = append(args, "-p", p)
	}
	for _, p := range []*history.Person{&author, &committer} {
		p.Name, p.Email = cleanIdentity(p.Name), cleanIdentity(p.Email)
	}
	out, err := r.runWith(ctx, identityEnv(CommitRequest{Author: author, Committer: committer}), strings.NewReader(message), slices.Concat(args, []string{"-F", "-"})...)
	r.pool.drop()
	return strings.TrimSpace(string(out)), err
}
