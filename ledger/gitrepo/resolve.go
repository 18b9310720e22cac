package gitrepo

import (
	"bytes"
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"

	git "github.com/go-git/go-git/v5"
	"github.com/go-git/go-git/v5/plumbing"
)

var (
	// ErrNoRevision is returned by Resolve for words that name no commit.
	ErrNoRevision = errors.New("no such revision")
	// ErrNoCommits is returned where a commit is needed and none was made yet.
	ErrNoCommits = errors.New("nothing has been entered yet")
	// ErrTooEarly is returned by AsOf for a moment before the first commit.
	ErrTooEarly = errors.New("the ledger did not exist yet")
)

// Head is the commit that HEAD is at; ErrNoCommits before the first.
func (r *Repo) Head(ctx context.Context) (string, error) {
	id, err := r.Resolve(ctx, "HEAD")
	if errors.Is(err, ErrNoRevision) {
		if _, torn := r.tornTip(); torn {
			return "", ErrTorn
		}
		return "", ErrNoCommits
	}
	return id, err
}

// Resolve is the full id of the commit that rev names: a branch, a tag, an id
// or its beginning, HEAD~2 and git's other forms.
func (r *Repo) Resolve(ctx context.Context, rev string) (string, error) {
	if rev == "HEAD" && r.refused == nil {
		if id, ok := r.readHead(); ok {
			return id, nil
		}
	}
	if len(rev) == 2*r.width && fullID().MatchString(rev) {
		if id, ok := r.commitOf(ctx, rev); ok {
			return id, nil
		}
	}
	if r.git == "" {
		if id, ok := r.resolveNative(rev); ok {
			return id, nil
		}
		return "", fmt.Errorf("resolve %q: %w", rev, ErrNoRevision)
	}
	out, err := r.run(ctx, nil, "rev-parse", "--verify", "--quiet", "--end-of-options", rev+"^{commit}")
	var pe *ProgramError
	switch {
	case err == nil:
		return strings.TrimSpace(string(out)), nil
	case errors.As(err, &pe) && pe.Code > 0:
		return "", fmt.Errorf("resolve %q: %w", rev, ErrNoRevision)
	}
	return "", fmt.Errorf("resolve %q: %w", rev, err)
}

// readHead reads the commit of HEAD out of git's plain files, the way that
// costs nothing; false when it is not to be had so.
func (r *Repo) readHead() (string, bool) {
	b, err := os.ReadFile(filepath.Join(r.gitDir, "HEAD"))
	if err != nil {
		return "", false
	}
	text := strings.TrimSpace(string(b))
	if name, ok := strings.CutPrefix(text, "ref: refs/"); ok {
		b, err = os.ReadFile(filepath.Join(r.common, "refs", filepath.FromSlash(name)))
		switch {
		case err == nil:
			text = strings.TrimSpace(string(b))
		case errors.Is(err, fs.ErrNotExist):
			text = r.packedRef("refs/" + name)
		default:
			return "", false
		}
	}
	return text, len(text) == 2*r.width && fullID().MatchString(text)
}

// packedRef is the id that packed-refs has for a ref of which there is no
// file of its own, as after git gc; "" when it has none.
func (r *Repo) packedRef(name string) string {
	b, err := os.ReadFile(filepath.Join(r.common, "packed-refs"))
	if err != nil {
		return ""
	}
	for line := range bytes.Lines(b) {
		if id, rest, ok := bytes.Cut(line, []byte{' '}); ok && string(bytes.TrimSpace(rest)) == name {
			return string(id)
		}
	}
	return ""
}

var fullID = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[0-9a-f]+$`) })

func (r *Repo) resolveNative(rev string) (string, bool) {
	store := r.storage()
	defer store.ObjectStorage.Close()
	g, err := git.Open(store, nil)
	if err != nil {
		return "", false
	}
	h, err := g.ResolveRevision(plumbing.Revision(rev))
	if err != nil {
		return "", false
	}
	return h.String(), true
}

var isoDay = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^\d{4}-\d{2}-\d{2}$`) })

// ResolveDay is Resolve, but an ISO day (2026-03-02) is the ledger at the end
// of that day in zone; see AsOf.
func (r *Repo) ResolveDay(ctx context.Context, rev string, zone *time.Location) (string, error) {
	if isoDay().MatchString(rev) {
		if day, err := time.ParseInLocation(time.DateOnly, rev, zone); err == nil {
			return r.AsOf(ctx, day.AddDate(0, 0, 1).Add(-time.Second))
		}
	}
	return r.Resolve(ctx, rev)
}

// AsOf is the first commit, along first parents from HEAD, whose committer
// time is not after the moment end. The error is ErrTooEarly when all are.
func (r *Repo) AsOf(ctx context.Context, end time.Time) (string, error) {
	id, err := r.Head(ctx)
	if err != nil {
		return "", err
	}
	for {
		c, err := r.Revision(ctx, id)
		if err != nil {
			return "", err
		}
		if !c.Committer.When.After(end) {
			return id, nil
		}
		if len(c.Parents) == 0 {
			return "", fmt.Errorf("the ledger on %s: %w", end.Format(time.DateOnly), ErrTooEarly)
		}
		id = c.Parents[0]
	}
}

// Branch is the name of the branch that HEAD is on, for example "main"; ""
// when HEAD is detached.
func (r *Repo) Branch() (string, error) {
	b, err := os.ReadFile(filepath.Join(r.gitDir, "HEAD"))
	if err != nil {
		return "", fmt.Errorf("read HEAD: %w", err)
	}
	ref, ok := strings.CutPrefix(strings.TrimSpace(string(b)), "ref: refs/heads/")
	if !ok {
		return "", nil
	}
	return ref, nil
}

// Ref is one name that points into the history.
type Ref struct {
	Name   string // refs/heads/main, refs/tags/2026, refs/remotes/origin/main
	Commit string // the commit it leads to, tags followed
}

// Refs lists every branch, tag and remote branch that leads to a commit, in
// order of name.
func (r *Repo) Refs(ctx context.Context) ([]Ref, error) {
	if r.git != "" {
		return r.refsProgram(ctx)
	}
	store := r.storage()
	defer store.ObjectStorage.Close()
	it, err := store.IterReferences()
	if err != nil {
		return nil, fmt.Errorf("list refs: %v", err)
	}
	var refs []Ref
	for {
		ref, err := it.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("list refs: %v", err)
		}
		if ref.Type() != plumbing.HashReference || !strings.HasPrefix(ref.Name().String(), "refs/") {
			continue
		}
		if id, ok := r.commitOf(ctx, ref.Hash().String()); ok {
			refs = append(refs, Ref{ref.Name().String(), id})
		}
	}
	slices.SortFunc(refs, func(a, b Ref) int { return strings.Compare(a.Name, b.Name) })
	return refs, nil
}

// commitOf follows tags to a commit.
func (r *Repo) commitOf(ctx context.Context, id string) (string, bool) {
	for range 8 {
		kind, body, err := r.pool.read(ctx, id, 0)
		if err != nil || kind != "tag" {
			return id, err == nil && kind == "commit"
		}
		id = headerValue(body, "object")
	}
	return "", false
}

func (r *Repo) refsProgram(ctx context.Context) ([]Ref, error) {
	out, err := r.run(ctx, nil, "for-each-ref", "--format=%(refname) %(objecttype) %(objectname) %(*objecttype) %(*objectname) %(symref)")
	if err != nil {
		return nil, fmt.Errorf("list refs: %w", err)
	}
	var refs []Ref
	for line := range strings.Lines(string(out)) {
		f := strings.Split(strings.TrimSuffix(line, "\n"), " ")
		switch {
		case len(f) < 6 || f[5] != "": // refs/remotes/origin/HEAD and the like
		case f[1] == "commit":
			refs = append(refs, Ref{f[0], f[2]})
		case f[1] == "tag":
			if id, ok := r.commitOf(ctx, f[2]); ok {
				refs = append(refs, Ref{f[0], id})
			}
		}
	}
	return refs, nil
}

// Missing lists the commits at which a shallow clone was cut: what came
// before them is not here. Empty for a whole repository.
func (r *Repo) Missing() ([]string, error) {
	b, err := os.ReadFile(filepath.Join(r.common, "shallow"))
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("read the shallow list: %w", err)
	}
	return strings.Fields(string(b)), nil
}

// cutAt reports whether the history was cut at commit id.
func (r *Repo) cutAt(id string) bool {
	cut, err := r.Missing()
	return err == nil && slices.Contains(cut, id)
}

// rawID is id without its hexadecimal dress.
func rawID(id string) (string, error) {
	b, err := hex.DecodeString(id)
	return string(b), err
}
