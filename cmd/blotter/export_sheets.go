package main

import (
	"cmp"
	"context"
	"io"
	"iter"
	"os"
	"slices"
	"sync"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/darwincore"
	"blotter/ledger/disk"
	"blotter/ledger/history"
	"blotter/ledger/public"
	"blotter/ledger/reading"
)

// exporting is one export: which sheets, for whom, and the file.
type exporting struct {
	desk *desk
	Data *darwincore.Dataset
	Out  io.Writer // the file, not yet in place
	Full bool      // for a partner: nothing is withheld
	Said string    // what Write has to say of the file when it is done; one line

	tip     string
	book    *book.Book
	view    *public.View
	load    *book.Loader
	story   *history.View
	chosen  []*book.Entry
	left    leftOut
	held    int
	some    bool      // not everything was asked for
	readers sync.Pool // of *reading.Reader
}

// leftOut counts what is in the selection and does not go out.
type leftOut struct{ drafts, stubs, mistakes, teaching int }

// exporting reads the version that is asked for and chooses the sheets.
func (d *desk) exporting(ctx context.Context, words []string) (*exporting, error) {
	tip, err := d.publishable(ctx)
	if err != nil {
		return nil, err
	}
	src, err := d.repo.At(ctx, tip)
	if err != nil {
		return nil, stuck("%v", err)
	}
	x := &exporting{desk: d, tip: tip, Full: d.opts.text("for") != ""}
	if x.book, err = book.Load(ctx, src, d.loadOptions()); err != nil {
		return nil, stuck("read the ledger: %v", err)
	}
	if x.story, err = d.repo.History(ctx, d.cache(), tip); err != nil {
		return nil, stuck("%v", err)
	}
	today, err := d.bookNow(ctx, tip)
	if err != nil {
		return nil, err
	}
	x.view = public.At(x.book, today)
	x.load = x.book.Loader(src, d.cache())
	if err := x.choose(ctx, words); err != nil {
		return nil, err
	}
	return x, x.dataset(ctx)
}

// dataset says of what museum and revision the export is.
func (x *exporting) dataset(ctx context.Context) error {
	commit, err := x.desk.repo.Revision(ctx, x.tip)
	if err != nil {
		return stuck("%v", err)
	}
	museum, cited := x.book.Museum, x.tip
	if !x.Full {
		museum = x.view.Book.Museum
		switch withheld, err := x.view.EverWithheld(ctx, x.story, x.desk.readVersion, x.desk.cache()); {
		case err != nil:
			return stuck("%v", err)
		case withheld: // its ids are computed from withheld words
			cited = ""
		}
	}
	x.Data = darwincore.NewDataset(museum, cited, commit.Committer.When, x.desk.zone, x.desk.opts.text("for"))
	return nil
}

// choose finds the sheets that SHEETS, --where and --except name in the
// version that is exported.
func (x *exporting) choose(ctx context.Context, words []string) error {
	on, err := x.named(ctx, words)
	if err != nil {
		return err
	}
	x.chooseFrom(on)
	return nil
}

// chooseFrom takes the sheets that may go out; on nil: of all.
func (x *exporting) chooseFrom(on map[ledger.Number]bool) {
	x.some = on != nil
	for e := range x.book.All() {
		if on != nil && !on[e.Number] {
			continue
		}
		switch {
		case e.Fate == "mistake", e.Fate == "same-as":
			x.left.mistakes++
		case x.book.Aside(e.Number):
			x.left.teaching++
		case e.Stage == ledger.Full, x.Full:
			x.chosen = append(x.chosen, e)
			if x.view.Hidden(e.Number) {
				x.held++
			}
		case e.Stage == ledger.Stub:
			x.left.stubs++
		default:
			x.left.drafts++
		}
	}
}

// named is the numbers that were asked for; nil: all.
func (x *exporting) named(ctx context.Context, words []string) (map[ledger.Number]bool, error) {
	on := map[ledger.Number]bool{}
	where := x.desk.opts.text("where")
	except, err := readSheets(x.desk.opts.list("except"), nil)
	if err != nil {
		return nil, err
	}
	all := &bookShelf{desk: x.desk, book: x.book}
	switch {
	case where != "" && len(words) > 0:
		return nil, misuse("SHEETS and --where are both given; one of them is enough")
	case where != "":
		q, err := readQuery(where)
		if err != nil {
			return nil, err
		}
		for e := range x.book.All() {
			ok, err := q.Match(sheetOf(ctx, x.book, x.load, e))
			if err == nil {
				err = ctx.Err()
			}
			if err != nil {
				return nil, stuck("read %s: %v", e.Path, err)
			}
			if ok {
				on[e.Number] = true
			}
		}
		leave, err := resolveSheets(except, all, nil)
		if err != nil {
			return nil, err
		}
		for _, n := range leave {
			delete(on, n)
		}
		return on, nil
	case len(words) == 0 && len(except) == 0:
		return nil, nil
	case len(words) == 0:
		words = []string{"all"}
	}
	terms, err := readSheets(words, x.desk.In)
	if err != nil {
		return nil, err
	}
	ns, err := resolveSheets(terms, all, except)
	for _, n := range ns {
		on[n] = true
	}
	return on, err
}

// bookShelf is a Book as a list of SHEETS is resolved against it.
type bookShelf struct {
	*desk
	book *book.Book
}

func (b *bookShelf) find(n ledger.Number) (ledger.Number, bool) {
	if e := b.book.Find(n); e != nil {
		return e.Number, true
	}
	return "", false
}

func (b *bookShelf) numbers() []ledger.Number {
	out := make([]ledger.Number, 0, b.book.Len())
	for e := range b.book.All() {
		out = append(out, e.Number)
	}
	slices.Sort(out)
	return out
}

// Sheets are the chosen sheets in order of path, each read when it is asked
// for. They may be asked for more than once.
func (x *exporting) Sheets(ctx context.Context) iter.Seq2[*darwincore.Sheet, error] {
	return func(yield func(*darwincore.Sheet, error) bool) {
		reader := reading.NewReader(x.Data.Museum.Conventions)
		show := x.desk.progress("Writing")
		for i, e := range x.chosen {
			s, err := x.sheet(ctx, reader, e)
			if err == nil {
				err = ctx.Err()
			}
			if !yield(s, err) || err != nil {
				return
			}
			if show != nil {
				show(i+1, len(x.chosen))
			}
		}
	}
}

func (x *exporting) sheet(ctx context.Context, reader *reading.Reader, e *book.Entry) (*darwincore.Sheet, error) {
	r, err := x.load.Record(ctx, e)
	if err != nil {
		return nil, err
	}
	shown, why := x.view.Published(r)
	if x.Full {
		shown = r
	}
	return &darwincore.Sheet{Dataset: x.Data, Number: e.Number, Record: shown, Reading: reader.Of(shown), Withheld: why, Modified: x.modified(e), Has: x.book.Has}, nil
}

// modified is when the record was last changed; zero when the history does
// not say.
func (x *exporting) modified(e *book.Entry) time.Time {
	rs := x.story.OfVersion(e.Number, e.Blob)
	if len(rs) == 0 {
		return time.Time{}
	}
	last := rs[0]
	for _, r := range rs[1:] {
		if r.Place > last.Place {
			last = r
		}
	}
	return x.story.Commit(last.Place).Author.When
}

// Scratch begins a file for what has to wait.
func (x *exporting) Scratch() (darwincore.Scratch, error) {
	f, err := disk.Scratch(cmp.Or(x.desk.getenv("TMPDIR"), os.TempDir()))
	if err != nil {
		return nil, err
	}
	return f, nil
}
