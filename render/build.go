package render

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"blotter/ledger/disk"
	"blotter/render/figure"
)

// Foreign is the error of a build that would have to overwrite a file that no
// build made.
type Foreign struct{ Path string }

func (e *Foreign) Error() string {
	return fmt.Sprintf("publish: %s stands in the folder and was not made by a build", e.Path)
}

// Names of the files that a build keeps for itself in the output folder.
const (
	manifestFile   = "site-files.txt"  // every file of the site with a hash of its bytes; written last
	unfinishedFile = "site-unfinished" // there while a build is under way
)

// Build makes the site of in in the folder of out. state is what the last
// build into the same folder gave; nil or any other makes all pages anew. A
// page is written only when its bytes change; files that no build made are
// neither touched nor deleted. The same Input gives the same bytes, whatever
// was there before. The state returned belongs to out as it is then.
func Build(ctx context.Context, in *Input, out *disk.Tree, state []byte) (Report, []byte, error) {
	b := &build{in: in, out: out}
	if in.Look != nil {
		b.stage = out.Stage()
		defer b.stage.Discard() // of what is not in its place
	}
	defer func() {
		if b.waiting != nil {
			b.waiting.Discard()
		}
	}()
	next, err := b.all(ctx, state)
	if err != nil {
		return Report{}, nil, err
	}
	s := b.shelf
	b.report.Sheets, b.report.Withheld, b.report.Drafts, b.report.Stubs = len(s.sheets), s.withheld, s.drafts, s.stubs
	slices.Sort(b.report.Refused)
	b.report.Refused = slices.Compact(b.report.Refused)
	b.report.Written, b.report.Unchanged = int(b.written.Load()), b.files.made-int(b.written.Load())
	return b.report, next, nil
}

// all makes the site, step by step.
func (b *build) all(ctx context.Context, state []byte) ([]byte, error) {
	begun := make(chan error, 1)
	go func() {
		err := b.begin(state)
		if err == nil {
			err = b.archive(ctx)
		}
		begun <- err
	}()
	b.shelf = newShelf(b.in)
	jobs, err := b.shelf.jobs()
	if err := errors.Join(<-begun, err); err != nil {
		return nil, err
	}
	b.shelf.download = b.download
	if err := b.foreign(jobs); err != nil {
		return nil, err
	}
	if jobs, err = b.unchanged(ctx, jobs); err != nil {
		return nil, err
	}
	if jobs, err = b.lookAgain(ctx, jobs); err != nil {
		return nil, err
	}
	if err := b.run(ctx, jobs); err != nil {
		return nil, err
	}
	if err := b.rest(); err != nil {
		return nil, err
	}
	if err := b.looked(ctx); err != nil {
		return nil, err
	}
	if err := b.release(); err != nil {
		return nil, err
	}
	if err := b.placeArchive(); err != nil {
		return nil, err
	}
	return b.end()
}

// build is one run of Build.
type build struct {
	in    *Input
	out   *disk.Tree
	shelf *shelf
	stage *disk.Stage // nil: files are written at once

	download *archived     // nil: the site has none
	waiting  *disk.NewFile // it; nil: none is made anew
	replace  bool          // it differs from the one that stands

	files    siteFiles
	before   map[string]packed // job -> what the last build made of it; nil: not to be trusted
	temps    []string          // files in the folder that a killed build left
	fresh    bool              // no build has been here
	broken   bool              // the last build here did not finish
	marked   atomic.Bool
	markOnce sync.Once
	markErr  error

	large    sync.Mutex // held while a page of more than largeRows is made
	mu       sync.Mutex
	made     map[string]packed
	packer   packer
	doubtful []job           // of the pages that stand, those with a file in which something new may be found
	images   map[string]bool // shown
	pictures map[string]*pictureCopy
	written  atomic.Int64
	listing  sync.Mutex
	changed  []string // files written, which the disk need not have yet
	report   Report
}

// begin reads what earlier builds left.
func (b *build) begin(state []byte) error {
	b.images, b.pictures = map[string]bool{}, map[string]*pictureCopy{}
	manifest, err := b.out.Read(manifestFile)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	b.fresh = err != nil
	b.files.read(manifest)
	if err := b.list(); err != nil {
		return err
	}
	b.broken = b.files.of(unfinishedFile).present()
	if !b.fresh && !b.broken {
		b.before = parseState(state, manifest, &b.packer)
	}
	return nil
}

// list notes every file of the folder.
func (b *build) list() error {
	root, err := filepath.EvalSymlinks(b.out.Dir()) // WalkDir would stop at a link
	if err != nil {
		return fmt.Errorf("list %s: %w", b.out.Dir(), err)
	}
	err = filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel := filepath.ToSlash(strings.TrimLeft(p[len(root):], string(filepath.Separator)))
		b.files.found(rel)
		if disk.IsTemp(d.Name()) {
			b.temps = append(b.temps, rel) // few, if any
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("list %s: %w", root, err)
	}
	return nil
}

// foreign finds a file that no build made where a page would go, before
// anything is written.
func (b *build) foreign(jobs []job) error {
	if b.files.there == 0 {
		return nil
	}
	strange := map[string]bool{} // files that no build made
	if !b.broken {
		strange = b.files.strange()
	}
	if b.files.listed {
		delete(strange, manifestFile)
	}
	for _, f := range []string{"site.css", "search.js", "feed.xml", "sitemap.xml", "site.json", archiveFile, manifestFile} {
		if strange[f] {
			return &Foreign{f}
		}
	}
	last := "."
	for _, j := range jobs {
		if dir := path.Dir(j.name); dir != last {
			for last = dir; dir != "."; dir = path.Dir(dir) {
				if b.files.of(dir).present() { // a link or a file where a folder would go
					return &Foreign{dir}
				}
			}
		}
		if len(strange) == 0 {
			continue
		}
		for _, end := range []string{".html", ".md", ".json"} {
			if f := j.name + end; strange[f] && (end != ".json" || j.sheet != nil) {
				return &Foreign{f}
			}
		}
	}
	return nil
}

// mark says in the folder that a build is under way, before its first change.
func (b *build) mark() error {
	b.markOnce.Do(func() {
		b.markErr = b.out.WriteFile(unfinishedFile, []byte("A build of this site is under way, or was broken off; the next one finishes it.\n"))
		b.marked.Store(true)
	})
	return b.markErr
}

// put writes one file of the site.
func (b *build) put(file string, data []byte) error {
	sum := sumOf(data)
	before := b.files.makes(file, sum)
	if b.in.Look != nil && !strings.HasPrefix(file, "data/map/") { // the land's outline is the program's own
		b.in.Look.ScanSum(file, sum, data)
	}
	if before.is&inBuild != 0 {
		return fmt.Errorf("publish: two pages have the address %s", file)
	}
	if before.present() {
		if before.was() == "" && !b.broken {
			return &Foreign{file}
		}
		if before.was() == sum && !b.broken {
			if held, err := b.out.Read(file); err == nil && sumOf(held) == sum {
				return nil
			}
		}
	}
	changed, err := b.write(file, data)
	if changed {
		b.written.Add(1)
	}
	return err
}

// run does the jobs, several at once, in order of path.
func (b *build) run(ctx context.Context, jobs []job) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	workers := b.in.Options.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	var next atomic.Int64
	var wg sync.WaitGroup
	const stretch = 64
	for range workers {
		wg.Go(func() {
			w := &worker{b: b}
			for ctx.Err() == nil {
				from := int(next.Add(stretch)) - stretch
				if from >= len(jobs) {
					return
				}
				for i := from; i < min(from+stretch, len(jobs)) && ctx.Err() == nil; i++ {
					if err := w.do(ctx, &jobs[i]); err != nil {
						cancel(err)
						return
					}
				}
			}
		})
	}
	wg.Wait()
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	return nil
}

// rest writes what depends on all pages, and the files that are no pages.
func (b *build) rest() error {
	if err := b.assets(); err != nil {
		return err
	}
	for _, f := range sorted(b.images) {
		if err := b.image(f); err != nil {
			return err
		}
	}
	s := b.shelf
	if b.in.Options.HTMLOnly {
		return nil
	}
	if err := b.keepArchive(); err != nil {
		return err
	}
	feed, err := s.feed()
	if err != nil {
		return err
	}
	if err := b.put("feed.xml", feed); err != nil {
		return err
	}
	maps := s.sitemaps(b.addresses())
	for _, f := range sorted(maps) {
		if err := b.put(f, maps[f]); err != nil {
			return err
		}
	}
	return b.siteFile()
}

// addresses are those of the pages that the sitemap lists.
func (b *build) addresses() []string {
	var out []string
	for _, f := range sorted(b.made) {
		if !b.made[f].gone() {
			out = append(out, f+".html")
		}
	}
	return out
}

// image writes the land of maps; pictures were written with the pages that
// show them.
func (b *build) image(file string) error {
	if !strings.HasPrefix(file, "data/map/") {
		return nil
	}
	data, err := figure.Land(file)
	if err != nil {
		return err
	}
	return b.put(file, data)
}

// end takes away the pages that are no more, and writes the manifest last.
func (b *build) end() ([]byte, error) {
	if err := b.sweep(); err != nil {
		return nil, err
	}
	for _, f := range b.files.gone() {
		if err := b.mark(); err != nil {
			return nil, err
		}
		if err := b.out.Remove(f); err != nil {
			return nil, err
		}
		b.report.Removed++
	}
	manifest := b.files.manifest()
	if b.marked.Load() || b.broken || b.fresh || !b.files.same() {
		// Pages that stand by the manifest are not read again: a power cut must
		// not leave an empty one there.
		if err := disk.KeepMany(b.out.Dir(), b.changed); err != nil {
			return nil, fmt.Errorf("publish: %w", err)
		}
		if err := b.out.WriteFile(manifestFile, manifest); err != nil {
			return nil, err
		}
		if err := b.out.Remove(unfinishedFile); err != nil {
			return nil, err
		}
	}
	return formatState(manifest, b.made), nil
}
