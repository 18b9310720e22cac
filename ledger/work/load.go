package work

import (
	"context"
	"errors"
	"slices"
	"sync"

	"blotter/ledger"
	"blotter/ledger/book"
)

// Works is the files of work/ of one version of a ledger, with what they say
// joined to the records of the same version. It does not change; several
// goroutines may ask it at once.
type Works struct {
	Files    []*File          // in order of number: kind, year, running number
	Findings []ledger.Finding // of the files' own form
	Habits   ledger.Habits    // the museum's, with the standard where it says nothing

	book    *book.Book
	byName  map[ledger.WorkNumber]*File
	events  []*Event
	things  []thing          // those that are no records of the book
	byKey   map[string]int32 // their places behind the book's
	join    join
	touches touches
	moments moments

	sentOnce sync.Once
	sent     map[string][]Despatch // see despatches
}

// File is one batch or movement as read.
type File struct {
	Number ledger.WorkNumber
	Kind   ledger.WorkKind
	Path   string
	Blob   ledger.BlobID
	Work   *ledger.Work
	Events []*Event // in the order of the file, mistakes left out

	ordered []*Event // in the order in which they count
}

// Load reads the files of work/ in src, which is the version that b was made
// of. Files that cannot be read are among the findings.
func Load(ctx context.Context, src ledger.Source, b *book.Book) (*Works, error) {
	return LoadKept(ctx, src, b, nil)
}

func newWorks(b *book.Book) *Works {
	return &Works{Habits: ledger.WithStandard(&b.Museum.Museum), book: b, byName: map[ledger.WorkNumber]*File{}, byKey: map[string]int32{}, moments: moments{}}
}

// read decodes a file; sound is whether nothing was found in it.
func (w *Works) read(ctx context.Context, src ledger.Source, file ledger.File) (as *ledger.Work, sound bool, err error) {
	text, err := src.Read(ctx, file)
	if errors.Is(err, ledger.ErrLarge) {
		text, err = make([]byte, ledger.MaxFile+1), nil // its one finding is that
	}
	if err != nil {
		return nil, false, err
	}
	as, fs := ledger.DecodeWork(file.Path, text)
	w.Findings = append(w.Findings, fs...)
	w.put(fileOf(file, as, w.moments))
	return as, len(fs) == 0, nil
}

// put takes a file as read.
func (w *Works) put(f *File) {
	if f != nil {
		w.Files = append(w.Files, f)
		w.byName[f.Number] = f
	}
}

// Read reads one file of work/ by itself; nil for one whose number is of no
// kind.
func Read(path string, text []byte) (*File, []ledger.Finding) {
	as, fs := ledger.DecodeWork(path, text)
	return fileOf(ledger.File{Path: path, Blob: ledger.BlobOf(text)}, as, moments{}), fs
}

// fileOf is a file as decoded; nil for one whose name gives no number of a
// kind that there is.
func fileOf(file ledger.File, as *ledger.Work, m moments) *File {
	n, ok := ledger.WorkNumberOfPath(file.Path)
	kind, known := ledger.WorkKindOf(n.Kind())
	if !ok || !known {
		return nil
	}
	f := &File{Number: n, Kind: kind, Path: file.Path, Blob: file.Blob, Work: as}
	for i := range as.Lines {
		if e := readEvent(f, i, &as.Lines[i], m); e != nil {
			f.Events = append(f.Events, e)
		}
	}
	f.turn()
	return f
}

// bring joins what all files say, and puts their events into order.
func (w *Works) bring() {
	slices.SortFunc(w.Files, func(a, b *File) int { return compareNumbers(a.Number, b.Number) })
	w.join = join{w: w}
	w.join.collect()
	for _, f := range w.Files {
		f.ordered = f.order()
		h := newHolding(w, f)
		for _, e := range f.ordered {
			e.on = h.take(e)
		}
		w.events = append(w.events, f.ordered...)
	}
	slices.SortStableFunc(w.events, compareEvents)
}

// Find is the work of a number; nil when there is none.
func (w *Works) Find(n ledger.WorkNumber) *File { return w.byName[n] }

// Events are all events in the order in which they count.
func (w *Works) Events() []*Event { return w.events }

// Book is the ledger that the works were joined to.
func (w *Works) Book() *book.Book { return w.book }
