package gitrepo

import (
	"bytes"
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/go-git/go-git/v5/plumbing/filemode"
	"github.com/go-git/go-git/v5/plumbing/format/index"

	"blotter/ledger/disk"
	"blotter/ledger/internal/fault"
)

// Restore makes the empty folder dir a repository that holds what a verified
// bundle holds: all objects, all refs, and the files of its last revision.
// Nothing of the bundle is run, and no filter or line-end setting of this
// machine touches the files. Broken off, it leaves a folder that is no whole
// ledger; the caller makes it under another name. The error is
// ErrStray before anything is written.
func (b *Bundle) Restore(ctx context.Context, dir string, environ []string) (*Repo, error) {
	if b.stray != "" {
		return nil, fmt.Errorf("restore: %w: %q", ErrStray, b.stray)
	}
	r, err := b.emptyRepo(ctx, dir, environ)
	if err != nil {
		return nil, err
	}
	for _, step := range []func(context.Context, *Repo) error{b.putPack, b.putRefs, b.putFiles} {
		if err := step(ctx, r); err != nil {
			r.Close()
			return nil, fmt.Errorf("restore: %w", err)
		}
	}
	r.pool.drop()
	return r, nil
}

func (b *Bundle) emptyRepo(ctx context.Context, dir string, environ []string) (*Repo, error) {
	if b.width == 20 {
		return Init(ctx, dir, environ)
	}
	probe := &Repo{place: place{top: dir}, environ: environ, git: findProgram(environ)}
	if _, err := probe.run(ctx, nil, "init", "--quiet", "--initial-branch=main", "--object-format=sha256"); err != nil {
		return nil, fmt.Errorf("restore: objects named by SHA-256: %w", err)
	}
	return Open(dir, environ)
}

// putPack copies the pack into its place and makes its index.
func (b *Bundle) putPack(ctx context.Context, r *Repo) error {
	folder := filepath.Join(r.common, "objects", "pack")
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return err
	}
	sum := make([]byte, b.width)
	if _, err := b.in.ReadAt(sum, b.packEnd()); err != nil && err != io.EOF {
		return err
	}
	base := filepath.Join(folder, "pack-"+hex.EncodeToString(sum))
	f, err := disk.Begin(base + ".pack")
	if err != nil {
		return err
	}
	defer f.Discard()
	if _, err := io.Copy(f, io.NewSectionReader(b.in, b.start, 12)); err != nil {
		return err
	}
	rows := make([]packRow, len(b.rows))
	crc := crc32.NewIEEE()
	for i, row := range b.rows {
		if err := ctx.Err(); err != nil {
			return err
		}
		end := b.packEnd()
		if i+1 < len(b.rows) {
			end = b.rows[i+1].at
		}
		crc.Reset()
		if _, err := io.Copy(io.MultiWriter(f, crc), io.NewSectionReader(b.in, row.at, end-row.at)); err != nil {
			return err
		}
		rows[i] = packRow{id: objectID(row.id[:20]), offset: row.at - b.start, crc: crc.Sum32()}
	}
	if _, err := f.Write(sum); err != nil {
		return err
	}
	if err := f.Commit(); err != nil {
		return err
	}
	if b.width != 20 {
		_, err := r.run(ctx, nil, "index-pack", base+".pack")
		return err
	}
	return disk.WriteFile(base+".idx", packIndex(rows, sum))
}

// putRefs writes all refs as packed ones, and HEAD.
func (b *Bundle) putRefs(_ context.Context, r *Repo) error {
	refs := slices.Clone(b.Refs)
	slices.SortFunc(refs, func(x, y BundleRef) int { return strings.Compare(x.Name, y.Name) })
	var text bytes.Buffer
	text.WriteString("# pack-refs with: sorted \n")
	for _, ref := range refs {
		if ref.Name != "HEAD" {
			fmt.Fprintf(&text, "%s %s\n", ref.ID, ref.Name)
		}
	}
	if err := disk.WriteFile(filepath.Join(r.common, "packed-refs"), text.Bytes()); err != nil {
		return err
	}
	head := b.Head() + "\n"
	if branch := b.Branch(); branch != "" {
		head = "ref: refs/heads/" + branch + "\n"
	}
	return disk.WriteFile(filepath.Join(r.gitDir, "HEAD"), []byte(head))
}

// putFiles writes the files of the last revision and the index.
func (b *Bundle) putFiles(ctx context.Context, r *Repo) error {
	id, err := r.Head(ctx)
	if err != nil {
		return err
	}
	_, body, err := b.read(id, 0)
	if err != nil {
		return err
	}
	raw, err := rawID(headerValue(body, "tree"))
	if err != nil {
		return err
	}
	idx := &index.Index{Version: 2}
	if err := b.putTree(ctx, r.top, "", raw, idx); err != nil {
		return err
	}
	if r.git != "" {
		if _, err := r.run(ctx, nil, "read-tree", "HEAD"); err != nil {
			return err
		}
		_, err := r.run(ctx, nil, "update-index", "-q", "--refresh")
		var pe *ProgramError
		if errors.As(err, &pe) && pe.Code == 1 {
			err = nil // a file that this system cannot hold as it was, such as a link
		}
		return err
	}
	slices.SortFunc(idx.Entries, func(x, y *index.Entry) int { return strings.Compare(x.Name, y.Name) })
	finish, err := r.prepareIndex(idx)
	if err != nil {
		return err
	}
	return finish()
}

// putTree writes the files of one tree below top.
func (b *Bundle) putTree(ctx context.Context, top, folder, raw string, idx *index.Index) error {
	body, err := treeReader{r: b.repo(), ctx: ctx}.body(raw)
	if err != nil {
		return err
	}
	es, err := parseTree(body, b.width)
	if err != nil {
		return err
	}
	for _, e := range es {
		full := filepath.Join(top, filepath.FromSlash(folder+e.name))
		if e.isTree() || e.mode == modeModule {
			if err := os.Mkdir(full, 0o777); err != nil {
				return err
			}
		}
		mode := filemode.Submodule
		switch {
		case e.isTree():
			if err := b.putTree(ctx, top, folder+e.name+"/", e.id, idx); err != nil {
				return err
			}
			continue
		case e.isFile():
			if mode, err = b.putFile(full, e); err != nil {
				return err
			}
		}
		at := &index.Entry{Name: folder + e.name, Mode: mode}
		copy(at.Hash[:], e.id)
		if st, err := os.Lstat(full); err == nil && e.isFile() {
			at.Size, at.ModifiedAt, at.CreatedAt = uint32(st.Size()), st.ModTime(), st.ModTime()
		}
		idx.Entries = append(idx.Entries, at)
	}
	return ctx.Err()
}

func (b *Bundle) putFile(full string, e entry) (filemode.FileMode, error) {
	_, body, err := b.read(e.hex(), 0)
	if err != nil {
		return 0, err
	}
	if _, err := fault.Step("create", filepath.Base(full)); err != nil {
		return 0, err
	}
	perm, mode := os.FileMode(0o666), filemode.Regular
	switch e.mode {
	case modeLink:
		return filemode.Symlink, os.Symlink(string(body), full)
	case modeExec:
		perm, mode = 0o777, filemode.Executable
	}
	f, err := os.OpenFile(full, os.O_WRONLY|os.O_CREATE|os.O_EXCL, perm)
	if err != nil {
		return 0, err
	}
	_, err = f.Write(body)
	return mode, errors.Join(err, f.Close())
}
