package main

import (
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"os"
	"path/filepath"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/public"
	"blotter/render"
)

// siteFolder is where the catalogue goes when --to does not say; init tells
// git to leave it alone.
const siteFolder = "site"

// siteInput gathers what the catalogue of one version of the ledger is made
// from: of revision tip, or of the work tree with the history up to tip; with
// the full Book of that version.
func (d *desk) siteInput(ctx context.Context, tip string, worktree, staff bool) (*render.Input, *book.Book, error) {
	src := d.repo.WorkTree(d.cache())
	if !worktree {
		var err error
		if src, err = d.repo.At(ctx, tip); err != nil {
			return nil, nil, stuck("%v", err)
		}
	}
	b, err := book.Load(ctx, src, d.loadOptions())
	if err != nil {
		return nil, nil, stuck("read the ledger: %v", err)
	}
	view, err := d.repo.History(ctx, d.cache(), tip)
	if err != nil {
		return nil, nil, stuck("%v", err)
	}
	read := func(ctx context.Context, path string) ([]byte, error) {
		f := ledger.File{Path: path, Size: -1}
		if worktree {
			return src.Read(ctx, f)
		}
		var err error
		if f.Blob, err = d.repo.BlobAt(ctx, tip, path); err != nil {
			return nil, err
		}
		return src.Read(ctx, f)
	}
	today, err := d.bookNow(ctx, tip)
	if err != nil {
		return nil, nil, err
	}
	s := render.Sources{Book: b, Today: today, Loader: b.Loader(src, d.cache()), History: view, Read: d.readVersion, Zone: d.zone, Image: read, Cache: d.cache(), Mirror: d.cited(b)}
	for path := range b.Others() {
		if strings.HasPrefix(path, ledger.PagesDir+"/") && strings.HasSuffix(path, ".md") {
			text, err := read(ctx, path)
			if err != nil {
				return nil, nil, stuck("%v", err)
			}
			s.Prose = append(s.Prose, render.ProseFile{Path: path, Text: string(text)})
		}
	}
	if !worktree && !staff {
		if s.Archive, err = d.siteArchive(ctx, tip, s); err != nil {
			return nil, nil, err
		}
	}
	assemble := render.Assemble
	if staff {
		if s.Work, err = d.staffWork(ctx, src, b, s.Loader); err != nil {
			return nil, nil, err
		}
		assemble = render.AssembleStaff
	}
	in, err := assemble(ctx, s)
	if err != nil {
		return nil, nil, stuck("%v", err)
	}
	return in, b, nil
}

// bookNow is the ledger as last entered when tip is another revision, since
// what is withheld now is withheld of every version; nil when it is the same.
func (d *desk) bookNow(ctx context.Context, tip string) (*book.Book, error) {
	head, err := d.head(ctx)
	if err != nil || head == "" || head == tip {
		return nil, err
	}
	src, err := d.repo.At(ctx, head)
	if err != nil {
		return nil, stuck("%v", err)
	}
	b, err := book.Load(ctx, src, d.loadOptions())
	if err != nil {
		return nil, stuck("read the ledger: %v", err)
	}
	return b, nil
}

// buildSite makes the site of in in the folder dir. A link in the place of
// the ledger's own folder for it may have come with somebody's entry, so it is
// not followed; a folder that a person names may be one.
func (d *desk) buildSite(ctx context.Context, in *render.Input, dir string) (render.Report, error) {
	if target, err := os.Readlink(dir); err == nil && dir == filepath.Join(d.root, siteFolder) {
		return render.Report{}, stuck("%s is a link to %s, which is not followed; nothing was changed", siteFolder, target).
			try("Publish there by its name: blotter publish --to DIR")
	}
	if len(in.Neighbours) > 0 {
		return render.Report{}, d.giveAway("published", in.Neighbours)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return render.Report{}, stuck("%v", err)
	}
	out, err := disk.OpenTree(dir)
	if err != nil {
		return render.Report{}, stuck("%v", err)
	}
	defer out.Close()
	stateFile := d.stateFile(dir)
	state, err := os.ReadFile(stateFile)
	if err != nil || d.opts.has("no-cache") && d.opts.on("no-cache") {
		state = nil
	}
	var scan *public.Scanner
	if in.Secrets != nil {
		scan = d.scanner(in.Secrets, stateFile+".leaks", true)
		in.Look = scan
	}
	report, state, err := render.Build(ctx, in, out, state)
	var leak *render.Leak
	var foreign *render.Foreign
	switch {
	case errors.As(err, &leak):
		return report, d.leaked("published", leak.Leaks)
	case errors.As(err, &foreign):
		return report, stuck("%s in %s was not made by Blotter and would be overwritten", foreign.Path, dir).
			try("The site is as it was. Move that file away, or publish elsewhere: --to DIR")
	case ctx.Err() != nil:
		return report, errInterrupted
	case err != nil:
		return report, stuck("not published: %v", err).try("The pages that stand are whole; publish again to finish.")
	}
	d.stale(report.Look.Stale)
	if err := errors.Join(d.keepState(stateFile, state), d.keepScan(stateFile+".leaks", scan)); err != nil {
		d.tell("what was published could not be noted (%v); the next publication looks at every page again", err)
	}
	return report, nil
}

// keepState notes what a build made, for the next one into the same folder.
func (d *desk) keepState(file string, state []byte) error {
	if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
		return err
	}
	return disk.WriteFile(file, state)
}

// stateFile is where the state of the site in dir is kept, outside of it.
func (d *desk) stateFile(dir string) string {
	h := fnv.New64a()
	h.Write([]byte(dir))
	return filepath.Join(d.repo.StateDir(), fmt.Sprintf("site-%016x", h.Sum64()))
}

// fitsForSite refuses folders in which a site would stand among the ledger's
// own files.
func (d *desk) fitsForSite(dir string) error {
	rel, err := filepath.Rel(d.root, dir)
	if err != nil || strings.HasPrefix(rel, "..") {
		return nil
	}
	top, _, _ := strings.Cut(filepath.ToSlash(rel), "/")
	switch top {
	case ".", ledger.SpecimensDir, ledger.NamesDir, ledger.PagesDir, ledger.ImagesDir, ledger.WorkDir, ".git":
		return misuse("the catalogue cannot stand among the ledger's own files").try("blotter publish --to ../site")
	}
	return nil
}
