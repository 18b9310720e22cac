package gitrepo

import (
	"cmp"
	"context"
	"crypto/sha1"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"blotter/ledger"
	"blotter/ledger/disk"
)

// workSource is the ledger as it lies on disk.
type workSource struct {
	root string // the ledger's folder
	top  string // where .gitignore files begin to count
	repo *Repo  // nil for a folder without git

	cache *disk.Cache // keeps the ids of files; nil: every file is read
}

// WorkTree is the ledger as it lies on disk: every file that git does not
// ignore. Ids are those of the bytes as they lie there; a file larger than
// ledger.MaxFile has Blob "". Nil in a bare repository.
//
// A file is read for its id, unless cache keeps the id that its bytes had and
// size, times and inode are those of then, and its last change had been long
// over: a change of the same size within one tick of the clock is seen. With a
// nil cache, and on Windows, every file is read. Git's index is not asked: its
// ids are of what filters and settings make of the bytes.
func (r *Repo) WorkTree(cache *disk.Cache) ledger.Source {
	if r.Bare() {
		return nil
	}
	return workSource{root: r.Root(), top: r.top, repo: r, cache: cache}
}

// Folder is a ledger in a folder without git.
func Folder(dir string) ledger.Source { return workSource{root: dir, top: dir} }

func (s workSource) Files(ctx context.Context) ([]ledger.File, error) {
	files, err := s.list(ctx)
	if err != nil {
		return nil, err
	}
	slices.SortFunc(files, func(a, b ledger.File) int { return cmp.Compare(a.Path, b.Path) })
	if err := s.identify(ctx, files); err != nil {
		return nil, err
	}
	return slices.DeleteFunc(files, func(f ledger.File) bool { return f.Size < 0 }), nil
}

// list walks the folder. What ignore patterns match is left out unless git
// tracks it all the same.
func (s workSource) list(ctx context.Context) ([]ledger.File, error) {
	ig, err := newIgnore(s)
	if err != nil {
		return nil, err
	}
	files := make([]ledger.File, 0, s.likely())
	var skipped []string // ignored folders and files, relative to the ledger
	var walk func(rel string) error
	walk = func(rel string) error {
		if err := ctx.Err(); err != nil {
			return err
		}
		es, err := os.ReadDir(filepath.Join(s.root, filepath.FromSlash(rel)))
		if err != nil {
			return fmt.Errorf("list %s: %w", rel, err)
		}
		if rel != "" && slices.ContainsFunc(es, func(e fs.DirEntry) bool { return e.Name() == ".git" }) {
			return nil // another repository
		}
		if slices.ContainsFunc(es, func(e fs.DirEntry) bool { return e.Name() == ".gitignore" }) {
			ig.enter(rel)
		}
		for _, e := range es {
			p := e.Name()
			if p == ".git" || disk.IsTemp(p) {
				continue
			}
			if rel != "" {
				p = rel + "/" + p
			}
			switch {
			case ig.match(p, e.IsDir()):
				skipped = append(skipped, p)
			case e.IsDir():
				if err := walk(p); err != nil {
					return err
				}
			case e.Type()&fs.ModeSymlink != 0:
				files = append(files, ledger.File{Path: p, Link: true})
			case e.Type().IsRegular():
				files = append(files, ledger.File{Path: p})
			}
		}
		return nil
	}
	if err := walk(""); err != nil {
		return nil, err
	}
	tracked, err := s.trackedBelow(ctx, skipped)
	return append(files, tracked...), err
}

// likely is about how many files there are: as many as git's index says.
func (s workSource) likely() int {
	if s.repo == nil {
		return 0
	}
	f, err := os.Open(s.repo.index)
	if err != nil {
		return 0
	}
	defer f.Close()
	head := make([]byte, 12) // DIRC, the version, the number of entries
	if _, err := io.ReadFull(f, head); err != nil || string(head[:4]) != "DIRC" {
		return 0
	}
	return int(min(binary.BigEndian.Uint32(head[8:]), 1<<21))
}

// trackedBelow lists the files on disk that git tracks though they are, or
// lie below, one of skipped.
func (s workSource) trackedBelow(ctx context.Context, skipped []string) ([]ledger.File, error) {
	if s.repo == nil || len(skipped) == 0 {
		return nil, nil
	}
	paths, err := s.repo.trackedPaths(ctx)
	if err != nil {
		return nil, err
	}
	below := map[string]bool{}
	for _, p := range skipped {
		below[p] = true
	}
	var files []ledger.File
	for _, p := range paths {
		hit := below[p]
		for i := 0; i < len(p) && !hit; i++ {
			hit = p[i] == '/' && below[p[:i]]
		}
		if !hit {
			continue
		}
		st, err := os.Lstat(filepath.Join(s.root, filepath.FromSlash(p)))
		if err == nil && (st.Mode().IsRegular() || st.Mode()&fs.ModeSymlink != 0) {
			files = append(files, ledger.File{Path: p, Link: st.Mode()&fs.ModeSymlink != 0})
		}
	}
	return files, nil
}

// identify fills in size and id of each file, with a worker for each
// processor. A file that went away meanwhile gets Size -1.
func (s workSource) identify(ctx context.Context, files []ledger.File) error {
	begun := time.Now()
	folders := byFolder(files)
	workers := min(runtime.GOMAXPROCS(0), len(files)/64+1)
	errs := make([]error, workers)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			mine := folders[len(folders)*w/workers : len(folders)*(w+1)/workers]
			id := identifier{hash: s.newHash(), buf: make([]byte, ledger.MaxFile+1)}
			for group := range slices.Chunk(mine, seenGroup) {
				if errs[w] = s.identifyAll(ctx, group, &id); errs[w] != nil {
					return
				}
			}
		})
	}
	wg.Wait()
	if err := errors.Join(errs...); err != nil || s.cache == nil {
		return err
	}
	s.keepSeen(folders, begun)
	return nil
}

// identifyAll fills in size and id of the files of some folders.
func (s workSource) identifyAll(ctx context.Context, folders []*seenFolder, id *identifier) error {
	if s.cache != nil {
		s.recall(folders)
	}
	for _, d := range folders {
		if err := ctx.Err(); err != nil {
			return err
		}
		if s.cache != nil {
			if err := d.identify(id, s.root); err != nil {
				return err
			}
			continue
		}
		for _, f := range d.files {
			if err := id.file(filepath.Join(s.root, filepath.FromSlash(f.Path)), f); err != nil {
				return err
			}
		}
	}
	return nil
}

// identifier computes the ids of files on disk.
type identifier struct {
	hash hash.Hash
	buf  []byte // MaxFile+1 bytes, for file
}

func (d *identifier) file(path string, f *ledger.File) error {
	if f.Link {
		target, err := os.Readlink(path)
		f.Size = int64(len(target))
		f.Blob = d.sum([]byte(target))
		return gone(err, f)
	}
	n, err := readPlain(path, d.buf)
	if err != nil {
		return gone(err, f)
	}
	if n < len(d.buf) {
		f.Size, f.Blob = int64(n), d.sum(d.buf[:n])
		return nil
	}
	st, err := os.Lstat(path) // more than MaxFile bytes
	if err == nil {
		f.Size = st.Size()
	}
	return gone(err, f)
}

// gone marks f when it vanished while it was looked at.
func gone(err error, f *ledger.File) error {
	if errors.Is(err, fs.ErrNotExist) {
		f.Size = -1
		return nil
	}
	if err != nil {
		return fmt.Errorf("read %s: %w", f.Path, err)
	}
	return nil
}

func (d *identifier) sum(b []byte) ledger.BlobID {
	d.hash.Reset()
	head := append(strconv.AppendInt([]byte("blob "), int64(len(b)), 10), 0)
	d.hash.Write(head)
	d.hash.Write(b)
	return ledger.BlobID(hex.EncodeToString(d.hash.Sum(nil)))
}

// newHash is the hash that ids are made with.
func (s workSource) newHash() hash.Hash {
	if s.repo != nil {
		return newHash(s.repo.width)
	}
	return sha1.New()
}

// Read reads the file as it is on disk now.
func (s workSource) Read(ctx context.Context, f ledger.File) ([]byte, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	path := filepath.Join(s.root, filepath.FromSlash(f.Path))
	st, err := os.Lstat(path)
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", f.Path, err)
	}
	if !st.Mode().IsRegular() {
		return nil, fmt.Errorf("read %s: not a plain file, never followed", f.Path)
	}
	if st.Size() > ledger.LimitOf(f.Path) {
		return nil, fmt.Errorf("read %s: %w", f.Path, errTooLarge)
	}
	limit := int(ledger.LimitOf(f.Path))
	b := make([]byte, min(int(st.Size()), limit)+1)
	n, err := readPlain(path, b)
	for err == nil && n == len(b) && n <= limit { // it grew meanwhile
		b = make([]byte, min(2*n, limit)+1)
		n, err = readPlain(path, b)
	}
	if err == nil && n > limit {
		err = errTooLarge
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", f.Path, err)
	}
	return b[:n], nil
}

// trackedPaths lists the paths in the index, relative to the ledger.
func (r *Repo) trackedPaths(ctx context.Context) ([]string, error) {
	if r.git == "" {
		return r.nativeTracked()
	}
	out, err := r.run(ctx, nil, "ls-files", "-z", "--full-name", "--", ":/"+r.prefix)
	if err != nil {
		return nil, err
	}
	var paths []string
	for p := range strings.SplitSeq(strings.TrimSuffix(string(out), "\x00"), "\x00") {
		if p, ok := strings.CutPrefix(p, r.prefix); ok && p != "" {
			paths = append(paths, p)
		}
	}
	return paths, nil
}
