package gitrepo

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/history"
)

// FileVersion is one version of a file and who entered it.
type FileVersion struct {
	Commit string
	Author history.Person
	Blob   ledger.BlobID // "" when the commit took it away
}

// FileVersions lists the versions of a file on the way to a commit, newest
// first, at most so many; those in not, and before, are left out. path is
// from the top of the repository. It needs the git program.
func (r *Repo) FileVersions(ctx context.Context, tip string, not []string, path string, most int) ([]FileVersion, error) {
	args := []string{"log", "--no-color", "--format=%x01%H%x00%an%x00%ae%x00%at", "--raw", "--no-abbrev", "--no-renames", "-z", "-m", "--first-parent",
		"-n", strconv.Itoa(most), tip}
	for _, n := range not {
		args = append(args, "^"+n)
	}
	out, err := r.run(ctx, nil, append(args, "--", ":(top,literal)"+path)...)
	if err != nil {
		return nil, fmt.Errorf("list the versions of %s: %w", path, err)
	}
	var all []FileVersion
	for _, part := range strings.Split(string(out), "\x01") {
		f := strings.Split(part, "\x00")
		if len(f) < 5 {
			continue
		}
		sec, _ := strconv.ParseInt(strings.TrimSpace(f[3]), 10, 64)
		v := FileVersion{Commit: f[0], Author: history.Person{Name: f[1], Email: f[2], When: time.Unix(sec, 0)}}
		for _, word := range f[4:] {
			raw := strings.Fields(word)
			if i := slices.IndexFunc(raw, func(s string) bool { return strings.HasPrefix(s, ":") }); i >= 0 && len(raw) >= i+5 {
				if v.Blob = ledger.BlobID(raw[i+3]); strings.Trim(raw[i+3], "0") == "" {
					v.Blob = ""
				}
				break
			}
		}
		all = append(all, v)
	}
	return all, nil
}

// Bearer is the newest commit, among all that this copy knows, that brought a
// file its content; "" when none did. It needs the git program.
func (r *Repo) Bearer(ctx context.Context, blob ledger.BlobID, path string) (string, error) {
	out, err := r.run(ctx, nil, "log", "--no-color", "--format=%H", "-n", "1", "--all", "--find-object="+string(blob), "HEAD", "--", ":(top,literal)"+path)
	return strings.TrimSpace(string(out)), err
}

// Unsettled lists, of a merge under way, the files that it left for a person
// to decide, and all that differ from where this copy is, from the top of the
// repository. It needs the git program.
func (r *Repo) Unsettled(ctx context.Context) (left, changed []string, err error) {
	if left, err = r.differing(ctx, "--diff-filter=U"); err == nil {
		changed, err = r.differing(ctx, "HEAD")
	}
	return left, changed, err
}

// differing lists files by git diff with one more argument, from the top of the
// repository. It only looks: without the setting git diff writes the index anew.
func (r *Repo) differing(ctx context.Context, arg string) ([]string, error) {
	out, err := r.run(ctx, nil, "-c", "diff.autoRefreshIndex=false", "diff", "--name-only", "-z", "--no-relative", "--no-renames", arg)
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(strings.Split(string(out), "\x00"), func(s string) bool { return s == "" }), nil
}

// MendedInMerge lists the files that a merge under way altered and that were
// edited since, from the top of the repository. It needs the git program.
func (r *Repo) MendedInMerge(ctx context.Context) ([]string, error) {
	altered, err := r.differing(ctx, "--cached") // the index, from HEAD
	if err != nil {
		return nil, err
	}
	edited, err := r.differing(ctx, "--diff-filter=M") // the files, from the index
	return slices.DeleteFunc(edited, func(f string) bool { return !slices.Contains(altered, f) }), err
}

// Settled tells git that files which a merge under way left are decided. The
// caller holds the lock of the ledger.
func (r *Repo) Settled(ctx context.Context, paths []string) error {
	args := []string{"add", "--"}
	for _, p := range paths {
		args = append(args, ":(top,literal)"+p)
	}
	return r.alone(ctx, nil, args...)
}

// Sides are, of files of the ledger, the three versions from which a merge under
// way is to make one; left out is a file that one side has not, and all when more
// than two are brought together. It needs the git program.
func (r *Repo) Sides(ctx context.Context, paths []string) ([]Clash, error) {
	others, err := r.MergeHeads()
	if err != nil || len(others) != 1 || len(paths) == 0 {
		return nil, err
	}
	head, err := r.Head(ctx)
	if err != nil {
		return nil, err
	}
	bases, err := r.Bases(ctx, head, others[0])
	if err != nil {
		return nil, err
	}
	var all []Clash
	for _, path := range paths {
		c := Clash{Path: path}
		for _, side := range []struct {
			at   []string
			into *[]byte
		}{{bases, &c.Base}, {[]string{head}, &c.Ours}, {others, &c.Theirs}} {
			if *side.into, err = r.textAt(ctx, side.at, strings.TrimPrefix(path, r.prefix)); err != nil {
				return nil, err
			}
		}
		if c.Ours != nil && c.Theirs != nil {
			all = append(all, c)
		}
	}
	return all, nil
}

// textAt is a file of the ledger in the first of some commits; nil where there
// is none.
func (r *Repo) textAt(ctx context.Context, commits []string, path string) ([]byte, error) {
	if len(commits) == 0 {
		return nil, nil
	}
	id, err := r.BlobAt(ctx, commits[0], path)
	if err != nil || id == "" {
		return nil, err
	}
	return r.Blob(ctx, id)
}

// EndMerge makes the commit that a merge under way waits for, in the names of
// author and committer and with more trailers; hooks run. The caller holds the
// lock of the ledger.
func (r *Repo) EndMerge(ctx context.Context, author, committer history.Person, trailers []string) (string, error) {
	r.watch()
	defer r.keep()
	who := identityEnv(CommitRequest{Author: author, Committer: committer})
	args := []string{"commit", "--quiet", "--no-edit"}
	for _, t := range trailers {
		args = append(args, "--trailer", t)
	}
	if err := r.alone(ctx, who, args...); err != nil {
		return "", err
	}
	r.pool.drop()
	return r.Head(ctx)
}

// StagedText is a file as it is staged. It needs the git program.
func (r *Repo) StagedText(ctx context.Context, path string) ([]byte, error) {
	return r.run(ctx, nil, "cat-file", "blob", ":"+path)
}
