package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/check"
	"blotter/ledger/dates"
	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
	"blotter/ledger/work"
)

// overlay is a version of the ledger with some files changed.
type overlay struct {
	under   ledger.Source // nil: nothing under it
	changes map[string]fileChange
}

func overlayOf(under ledger.Source, changes []fileChange) overlay {
	o := overlay{under, make(map[string]fileChange, len(changes))}
	for _, c := range changes {
		o.changes[c.path] = c
	}
	return o
}

func (o overlay) Files(ctx context.Context) ([]ledger.File, error) {
	var files []ledger.File
	if o.under != nil {
		var err error
		if files, err = o.under.Files(ctx); err != nil {
			return nil, err
		}
	}
	out := make([]ledger.File, 0, len(files)+len(o.changes))
	for _, f := range files {
		if _, changed := o.changes[f.Path]; !changed {
			out = append(out, f)
		}
	}
	for _, c := range o.changes {
		if c.new != nil {
			out = append(out, ledger.File{Path: c.path, Blob: ledger.BlobOf(c.new), Size: int64(len(c.new))})
		}
	}
	slices.SortFunc(out, func(a, b ledger.File) int { return strings.Compare(a.Path, b.Path) })
	return out, nil
}

func (o overlay) Read(ctx context.Context, f ledger.File) ([]byte, error) {
	if c, ok := o.changes[f.Path]; ok && c.new != nil && (f.Blob == "" || ledger.BlobOf(c.new) == f.Blob) {
		return c.new, nil
	}
	return o.under.Read(ctx, f)
}

// cache is the ledger's disposable cache; nil without git or with --no-cache.
func (d *desk) cache() *disk.Cache {
	if d.repo == nil || d.opts.on("no-cache") {
		return nil
	}
	return d.repo.Cache()
}

// loadOptions are how this command loads a Book.
func (d *desk) loadOptions() book.Options {
	return book.Options{Cache: d.cache(), Judge: check.Judge(), Progress: d.progress("Reading"), Aside: work.Aside}
}

// checkOptions are what the rules know of the day.
func (d *desk) checkOptions() check.Options {
	return check.Options{Today: d.todayAsDay()}
}

func (d *desk) todayAsDay() dates.Day { return dayIn(d.Now(), d.zone) }

// dayIn is the day of a moment in a zone.
func dayIn(moment time.Time, zone *time.Location) dates.Day {
	now := moment.In(zone)
	return dates.DayOf(now.Year(), int(now.Month()), now.Day())
}

// progress tells a person how far a long work is, after its first second.
func (d *desk) progress(what string) func(done, total int) {
	if !d.Asks {
		return nil
	}
	start, last := time.Now(), time.Now()
	return func(done, total int) {
		if now := time.Now(); total > 0 && now.Sub(start) > time.Second && now.Sub(last) > time.Second {
			last = now
			d.tell("%s: %s of %s", what, thousands(done), thousands(total))
		}
	}
}

// head is the revision that the ledger is at; "" before the first.
func (d *desk) head(ctx context.Context) (string, error) {
	if d.repo == nil {
		return "", nil
	}
	id, err := d.repo.Head(ctx)
	if errors.Is(err, gitrepo.ErrNoCommits) {
		return "", nil
	}
	if err != nil {
		return "", stuck("%v", err)
	}
	return id, nil
}

// headSource is the ledger as entered last; nil before the first entry.
func (d *desk) headSource(ctx context.Context) (ledger.Source, string, error) {
	id, err := d.head(ctx)
	if err != nil || id == "" {
		return nil, "", err
	}
	src, err := d.repo.At(ctx, id)
	if err != nil {
		return nil, "", stuck("%v", err)
	}
	return src, id, nil
}

// atHead is a file as entered last; nil when it is not there.
func (d *desk) atHead(ctx context.Context, path string) ([]byte, error) {
	src, id, err := d.headSource(ctx)
	if err != nil || src == nil {
		return nil, err
	}
	blob, err := d.repo.BlobAt(ctx, id, path)
	if err != nil {
		return nil, stuck("%v", err)
	}
	if blob == "" {
		return nil, nil
	}
	b, err := src.Read(ctx, ledger.File{Path: path, Blob: blob, Size: -1})
	if errors.Is(err, ledger.ErrLarge) {
		return make([]byte, ledger.MaxFile+1), nil // it was entered past the hooks and cannot be read
	}
	if err != nil {
		return nil, stuck("%v", err)
	}
	if b == nil {
		b = []byte{}
	}
	return b, nil
}

// judged are the findings that some changes to the ledger as entered last
// bring in: what the hooks would say of them, by the same function.
func (d *desk) judged(ctx context.Context, changes []fileChange, message string) ([]ledger.Finding, error) {
	under, id, err := d.headSource(ctx)
	if err != nil {
		return nil, err
	}
	src := overlayOf(under, changes)
	if d.repo == nil {
		b, err := book.Load(ctx, src, d.loadOptions())
		if err != nil {
			return nil, err
		}
		o := d.checkOptions()
		if o.Works, err = work.LoadKept(ctx, src, b, nil); err != nil {
			return nil, err
		}
		return check.Run(b, o), nil
	}
	var list []ledger.Change
	blobAt := d.repo.BlobsAt(ctx, id)
	for _, c := range changes {
		x := ledger.Change{Path: c.path}
		if id != "" {
			if x.Old, err = blobAt(c.path); err != nil {
				return nil, stuck("%v", err)
			}
		}
		if c.new != nil {
			x.New = ledger.BlobOf(c.new)
		}
		list = append(list, x)
	}
	v, err := d.bench().Entry(ctx, src, list, message)
	if err != nil {
		return nil, stuck("%v", err)
	}
	return v.Findings, nil
}

// mustBeSound refuses an entry that brings an error in. Warnings that it
// brings in are shown and stop nothing.
func (d *desk) mustBeSound(ctx context.Context, changes []fileChange, message string) error {
	after, err := d.judged(ctx, changes, message)
	if err != nil {
		return err
	}
	touched := map[string]bool{}
	var before []fileChange
	for _, c := range changes {
		touched[c.path] = true
		if c.old != nil {
			before = append(before, fileChange{c.path, c.old, c.old})
		}
	}
	stood := map[string]int{} // what the changed files had before, by path, code and field
	if len(before) > 0 {
		was, err := d.judged(ctx, before, message)
		if err != nil {
			return err
		}
		for _, f := range was {
			stood[f.Path+"\x00"+f.Code+"\x00"+f.Field]++
		}
	}
	var fresh []ledger.Finding
	for _, f := range after {
		if !touched[f.Path] && f.Severity != ledger.Error {
			continue
		}
		if key := f.Path + "\x00" + f.Code + "\x00" + f.Field; f.Severity == ledger.Warning && stood[key] > 0 {
			stood[key]--
			continue
		}
		fresh = append(fresh, f)
	}
	if len(fresh) == 0 {
		return nil
	}
	e := *d.env
	errs, _ := countFindings(fresh)
	if errs == 0 {
		e.Out = d.Err
	}
	d.viewOf(&e, changes).show(fresh)
	if errs == 0 {
		return nil
	}
	d.say("Not entered, nothing was changed: %s.", count(errs, "error"))
	return errFindings
}

// findings are all that is found in the work tree.
func (d *desk) findings(ctx context.Context) ([]ledger.Finding, *book.Book, error) {
	r, b, err := d.judgedAll(ctx)
	if err != nil {
		return nil, nil, err
	}
	return r.Findings, b, nil
}

// picturesCode is the one finding that wants the bytes of every picture; it
// is looked for only when its code is typed (check --code, accept).
const picturesCode = "image-changed"

// judgedAll is all that judging the work tree gives.
func (d *desk) judgedAll(ctx context.Context) (*check.Report, *book.Book, error) {
	b, err := book.Load(ctx, d.source(), d.loadOptions())
	if err != nil {
		return nil, nil, err
	}
	o := d.checkOptions()
	if d.opts.text("code") == picturesCode || contains(d.args, picturesCode) {
		o.Sum = d.sumOf
	}
	if o.Works, err = work.LoadKept(ctx, d.source(), b, d.cache()); err != nil {
		return nil, nil, err
	}
	return check.Whole(b, o), b, nil
}

// sumOf is the checksum of a picture, "" when it is not there or cannot be
// read: then image-missing says so.
func (d *desk) sumOf(path string) string {
	f, err := os.Open(d.file(path))
	if err != nil {
		return ""
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return ""
	}
	return "sha256:" + hex.EncodeToString(h.Sum(nil))
}

// viewOf shows findings of files that may not be on disk yet.
func (d *desk) viewOf(e *env, changes []fileChange) findingsView {
	text := func(path string) []byte {
		for _, c := range changes {
			if c.path == path {
				return c.new
			}
		}
		b, err := d.read(path)
		if err != nil {
			return nil
		}
		return b
	}
	return findingsView{
		env: e,
		title: func(path string) string {
			n, ok := ledger.NumberOfPath(path)
			src := text(path)
			if !ok || src == nil {
				return ""
			}
			r, fs := ledger.Decode(path, src)
			if s := d.standing(r); s.words != "" || !slices.ContainsFunc(fs, func(f ledger.Finding) bool { return f.Severity == ledger.Error }) {
				return string(n) + "  " + s.shown
			}
			return string(n)
		},
		line: func(path string, line int) string { return lineOf(text(path), line) },
	}
}

// lineOf is one line of a file without its indent; "" when it has no such line.
func lineOf(src []byte, line int) string {
	lines := strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(string(src)), "\n")
	if line < 1 || line > len(lines) {
		return ""
	}
	return strings.TrimPrefix(strings.TrimSpace(lines[line-1]), "- ")
}
