package render

import (
	"context"
	"fmt"
	"iter"
	"sync"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/history"
	"blotter/ledger/public"
	"blotter/ledger/reading"
)

// Sources are one version of a ledger, all of it, from which Assemble takes
// what may be shown.
type Sources struct {
	Book    *book.Book
	Today   *book.Book // the ledger as it is now, when Book is a former version; nil: Book
	Loader  *book.Loader
	History *history.View  // nil: a folder without history
	Read    history.Read   // versions of records that History names
	Zone    *time.Location // the museum's; nil: UTC
	Prose   []ProseFile
	Image   func(ctx context.Context, path string) ([]byte, error)
	Cache   *disk.Cache // nil: nothing is kept
	Work    *StaffWork  // for AssembleStaff alone
	// Archive makes the archive for the public view v as of the revision rv,
	// cited as everybody may; nil: the site has none.
	Archive func(v *public.View, rv Revision) *Archive
	// Mirror is the commit of the public mirror that a commit of the ledger
	// became, "" when none; nil: there is no mirror.
	Mirror func(id string) string
}

// Assemble makes the Input of a site. Every record, in every version, has
// passed through ledger/public; a file that would still hold withheld words
// is refused by Build with a *Leak.
func Assemble(ctx context.Context, s Sources) (*Input, error) {
	v := public.At(s.Book, s.Today)
	in := s.input(v)
	secrets, err := v.SecretsOf(ctx, public.SecretsFrom{Load: s.Loader, Versions: s.versions, Mails: s.mails()})
	if err != nil {
		return nil, err
	}
	held, err := v.HeldPictures(ctx, s.Loader)
	if err != nil {
		return nil, err
	}
	if in.Image != nil && len(held) > 0 { // nor may a record that is not withheld show the picture of one that is
		in.Image = func(ctx context.Context, path string) ([]byte, error) {
			if held[path] {
				return nil, nil
			}
			return s.Image(ctx, path)
		}
	}
	in.Neighbours = v.Neighbours()
	if !secrets.Empty() {
		in.Secrets = secrets
		in.Look = secrets.Scanner(public.ScanOptions{Reviewed: s.Book.Museum.Reviewed, Whole: true})
	}
	if s.History == nil {
		return in, nil
	}
	cite, err := s.cite(ctx, v)
	if err != nil {
		return nil, err
	}
	err = s.tell(ctx, in, v, cite)
	in.Story = withoutSecrets(in.Story, secrets)
	return in, err
}

// input is the records as v shows them.
func (s *Sources) input(v *public.View) *Input {
	readers := sync.Pool{New: func() any { return reading.NewReader(v.Book.Museum.Conventions) }}
	return &Input{Book: v.Book, Prose: s.Prose, Image: s.Image, Reading: func(ctx context.Context, e *book.Entry) (*reading.Reading, *public.Withheld, error) {
		r, err := s.Loader.Record(ctx, e)
		if err != nil {
			return nil, nil, err
		}
		shown, w := v.Record(r)
		x := readers.Get().(*reading.Reader)
		defer readers.Put(x)
		return x.Of(shown), w, nil
	}}
}

// tell adds to in what the history says, as v shows it.
func (s *Sources) tell(ctx context.Context, in *Input, v *public.View, cite func(id string) string) error {
	read := func(ctx context.Context, n ledger.Number, id ledger.BlobID) (history.Version, error) {
		x, err := s.Read(ctx, n, id)
		if err == nil && x.Record != nil {
			x.Record, _ = v.Record(x.Record)
		}
		return x, err
	}
	h := NewChronicle(s.History, read, v.Book.Museum.Conventions, s.Zone, s.Cache, cite)
	h.Full = s.Read
	h.Stamp = v.Book.Museum.Stamp()
	for i := range h.commits {
		h.commits[i].By = v.Person(h.commits[i].By)
	}
	in.Story, in.StoryKey = h.Story, h.StoryKey
	in.Site = h.Head()
	in.Cut = s.History.Incomplete()
	in.Today = in.Site.When
	if s.Archive != nil {
		in.Archive = s.Archive(v, in.Site)
	}
	var err error
	in.Changes, err = h.Changes(ctx, v.Book, in.Reading)
	return err
}

// withoutSecrets is a record's story whose corrections do not tell what another
// record withholds: words once taken out of a text for that reason would
// otherwise stand there for ever as what it was before.
func withoutSecrets(story func(context.Context, *book.Entry, *ledger.Record) (Story, error), secrets *public.Secrets) func(context.Context, *book.Entry, *ledger.Record) (Story, error) {
	if secrets.Empty() {
		return story
	}
	return func(ctx context.Context, e *book.Entry, r *ledger.Record) (Story, error) {
		st, err := story(ctx, e, r)
		for i, c := range st.Corrections {
			if secrets.Find([]byte(c.Before+"\n"+c.After+"\n"+c.Reason)) != nil {
				st.Corrections[i] = Correction{Revision: c.Revision, Field: c.Field, Withheld: true}
			}
		}
		return st, err
	}
}

// cite says by which id everybody may cite a commit; nil: by its own. The id
// of a commit is computed from every word of the ledger, so one that withholds
// any cites the commits of its mirror, or none.
func (s *Sources) cite(ctx context.Context, v *public.View) (func(id string) string, error) {
	withheld, err := v.EverWithheld(ctx, s.History, s.Read, s.Cache)
	switch {
	case err != nil:
		return nil, err
	case !withheld:
		return nil, nil
	case s.Mirror != nil:
		return s.Mirror, nil
	}
	return func(string) string { return "" }, nil
}

// versions are those that a record had before, as the history has them.
func (s *Sources) versions(ctx context.Context, n ledger.Number) iter.Seq2[*ledger.Record, error] {
	return func(yield func(*ledger.Record, error) bool) {
		if s.History == nil {
			return
		}
		seen := map[ledger.BlobID]bool{"": true}
		if e := s.Book.Find(n); e != nil {
			seen[e.Blob] = true
		}
		for _, rev := range s.History.Of(n) {
			for _, id := range append([]ledger.BlobID{rev.Blob}, rev.Olds...) {
				if seen[id] {
					continue
				}
				seen[id] = true
				x, err := s.Read(ctx, n, id)
				if err == nil && x.Record == nil {
					continue
				}
				if !yield(x.Record, err) {
					return
				}
			}
		}
	}
}

// mails are the addresses of those who entered something.
func (s *Sources) mails() []string {
	if s.History == nil {
		return nil
	}
	seen := map[string]bool{}
	for p := range s.History.Len() {
		c := s.History.Commit(p)
		seen[c.Author.Email], seen[c.Committer.Email] = true, true
	}
	return sorted(seen)
}

// Leak is the error of a build that would have made withheld words public; it
// does not repeat them.
type Leak struct {
	Leaks []public.Leak // in order of file and line
}

func (e *Leak) Error() string {
	l := e.Leaks[0]
	who := string(l.Number)
	if who == "" {
		who = "a person"
	}
	return fmt.Sprintf("publish %s: withheld words of %s (%s) in line %d", l.File, who, l.Field, l.Line)
}
