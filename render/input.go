package render

import (
	"context"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/public"
	"blotter/ledger/reading"
	"blotter/render/page"
)

// Input is all that a site is made from. Everything in it may be shown: the
// Book, the records and their stories come from ledger/public.
type Input struct {
	Work *StaffWork // for the staff's site alone; nil on any other
	Book *public.Book
	// Reading is one record with every word read, and why some of it is
	// withheld, nil when none is. It may be called from several goroutines and
	// is asked in order of path.
	Reading func(ctx context.Context, e *book.Entry) (*reading.Reading, *public.Withheld, error)
	// Marks says on the staff's site why a record is withheld from the public;
	// nil on any other.
	Marks func(*ledger.Record) *public.Withheld
	// Story is what the history says of one record; nil when there is none.
	Story func(ctx context.Context, e *book.Entry, r *ledger.Record) (Story, error)
	// StoryKey is a text that changes whenever a record's Story does.
	StoryKey func(e *book.Entry) string
	// Changes are the months in which something changed, newest first.
	Changes []Month
	// Cut says that the history begins later than the ledger: a clone cut short.
	Cut bool
	// Prose is the museum's own pages, pages/*.md, in order of path.
	Prose []ProseFile
	// Image brings a picture below images/, no bytes for one that may not be
	// shown; nil: pictures are not shown.
	Image func(ctx context.Context, path string) ([]byte, error)
	// Look looks through every file before any is put in place; nil: there is
	// nothing that may not be public.
	Look Looker
	// Secrets is what Look looks for.
	Secrets *public.Secrets
	// Neighbours are the records that would give a withheld one away; nothing
	// may be published while there are any.
	Neighbours []public.Neighbour
	// Archive is the data set as one file; nil: the site has none.
	Archive *Archive
	// Site is the revision of the ledger that the site is made from.
	Site Revision
	// Today is the day that the site shows, the one of Site.
	Today time.Time

	Options Options
}

// Looker looks through files for what may not be public: a public.Scanner. A
// file is known again by its checksum.
type Looker interface {
	ScanSum(name, sum string, data []byte)
	Clean(name, sum string, data []byte) bool
	Known(name, sum string) bool
	Report(ctx context.Context) (public.ScanReport, error)
}

// Options are what a build may leave out.
type Options struct {
	HTMLOnly bool // no twins, no data (for measuring)
	Workers  int  // 0: as many as there are processors
}

// Revision is one entry of the ledger's history: a commit.
type Revision struct {
	ID    string // by which everybody may cite it, hexadecimal; "": by its date alone
	Stamp string // its name within the site, which no publication changes; "" when not yet entered
	By    string // who entered it
	When  time.Time
}

// Known reports whether there is such an entry.
func (r Revision) Known() bool { return r.Stamp != "" }

// Short is the id as it is shown.
func (r Revision) Short() string {
	if len(r.ID) > 7 {
		return r.ID[:7]
	}
	return r.ID
}

// Story is what the history says of one record.
type Story struct {
	Last        Revision   // the last one that changed the record
	Opinions    []Revision // who entered each determination, in the record's order; may be shorter
	Corrections []Correction
}

// Correction is one field as it was and as it is, newest first in a Story.
type Correction struct {
	Revision
	Field         string // dotted path
	Before, After string
	Reason        string
	Withheld      bool // its words may not be shown
	Decided       bool // between Before and After, which two copies had (history.FieldChange)
}

// Month is what changed in one month.
type Month struct {
	Year, Month int
	Days        []Day // newest first
}

// Day is what changed on one day, by kind in the order in which they are shown.
type Day struct {
	Date   time.Time
	Events []Event
}

// EventKind is what happened to a specimen.
type EventKind uint8

const (
	NamedAnew EventKind = iota
	Agreed
	New
	Corrected
	Noted
	Withdrawn
)

// Event is one thing that happened to one specimen. There is one at least for
// every record, so what many have in common stands once.
type Event struct {
	Number   ledger.Number
	Revision *Revision
	*Deed
}

// Deed is what was done.
type Deed struct {
	Kind     EventKind
	Was      string   `json:",omitempty"` // former name as written
	Now      string   `json:",omitempty"` // name as written
	By       string   `json:",omitempty"` // whose opinion
	Fields   []string `json:",omitempty"`
	Withheld []string `json:",omitempty"` // groups of fields whose words are withheld and were changed
	Reason   string   `json:",omitempty"`
}

// ProseFile is one page that the museum wrote.
type ProseFile struct {
	Path string // pages/SLUG.md
	Text string
}

// Report says what a build did.
type Report struct {
	Sheets    int // published
	Withheld  int // of these, without their place
	Drafts    int // counted, not published
	Stubs     int
	Written   int // files written
	Unchanged int
	Removed   int
	Look      public.ScanReport // what the look through all files said
	Refused   []string          // pictures left out: not the JPEG or PNG that their names say
}

func said(s string) page.Said { return page.Said(s) }
