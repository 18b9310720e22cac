package work

import (
	"context"
	"errors"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
)

// Works is the files of work/ of one version of a ledger, with what they say
// joined to the records of the same version.
type Works struct {
	Files    []*File          // in order of number: kind, year, running number
	Findings []ledger.Finding // of the files' own form
	Habits   ledger.Habits    // the museum's, with the standard where it says nothing

	book   *book.Book
	byName map[ledger.WorkNumber]*File
	events []*Event
	index  *index
}

// File is one batch or movement as read.
type File struct {
	Number ledger.WorkNumber
	Kind   ledger.WorkKind
	Path   string
	Blob   ledger.BlobID
	Work   *ledger.Work
	Events []*Event // in the order of the file, mistakes left out
}

// Load reads the files of work/ in src, which is the version that b was made
// of. Files that cannot be read are among the findings.
func Load(ctx context.Context, src ledger.Source, b *book.Book) (*Works, error) {
	w := &Works{Habits: ledger.WithStandard(&b.Museum.Museum), book: b, byName: map[ledger.WorkNumber]*File{}}
	for path := range b.Others() {
		if _, ok := ledger.WorkNumberOfPath(path); !ok {
			continue
		}
		if err := w.read(ctx, src, path); err != nil {
			return nil, err
		}
	}
	slices.SortFunc(w.Files, func(a, b *File) int { return strings.Compare(string(a.Number), string(b.Number)) })
	for _, f := range w.Files {
		w.events = append(w.events, f.Events...)
	}
	slices.SortStableFunc(w.events, compareEvents)
	w.index = newIndex(w)
	return w, nil
}

func (w *Works) read(ctx context.Context, src ledger.Source, path string) error {
	text, err := src.Read(ctx, ledger.File{Path: path, Size: -1})
	if errors.Is(err, ledger.ErrLarge) {
		text, err = make([]byte, ledger.MaxFile+1), nil // its one finding is that
	}
	if err != nil {
		return err
	}
	f, fs := Read(path, text)
	w.Findings = append(w.Findings, fs...)
	if f != nil {
		w.Files = append(w.Files, f)
		w.byName[f.Number] = f
	}
	return nil
}

// Read reads one file of work/ by itself; nil for one whose number is of no
// kind.
func Read(path string, text []byte) (*File, []ledger.Finding) {
	as, fs := ledger.DecodeWork(path, text)
	n, _ := ledger.WorkNumberOfPath(path)
	kind, ok := ledger.WorkKindOf(n.Kind())
	if !ok {
		return nil, fs
	}
	f := &File{Number: n, Kind: kind, Path: path, Blob: ledger.BlobOf(text), Work: as}
	for i := range as.Lines {
		if e := readEvent(f, i, &as.Lines[i]); e != nil {
			f.Events = append(f.Events, e)
		}
	}
	return f, fs
}

// Find is the work of a number; nil when there is none.
func (w *Works) Find(n ledger.WorkNumber) *File { return w.byName[n] }

// Events are all events in the order in which they count.
func (w *Works) Events() []*Event { return w.events }

// Book is the ledger that the works were joined to.
func (w *Works) Book() *book.Book { return w.book }
