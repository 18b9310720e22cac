package darwincore

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"iter"

	"blotter/ledger/archive"
)

// The files of an archive beside those of the kinds. The Text Guide wants
// meta.xml called so; the other name is ours.
const (
	MetaFile = "meta.xml"
	EMLFile  = "about.xml"
)

// Scratch is a file for what has to wait: written, then read from its
// beginning, then closed, which removes it.
type Scratch interface {
	io.ReadWriteSeeker
	io.Closer
}

// Group is sheets that lie in one folder of the ledger: the rows of a group
// are made together, and can be kept together.
type Group struct {
	Name   string // of the folder
	Stamp  string // changes whenever any of its rows may; "": it is not kept
	Kept   []byte // what Keep was given for this name and stamp; nil: nothing
	Sheets func(context.Context) ([]*Sheet, error)
}

// Looker looks through what is about to become public, as a public.Scanner
// does: a text is known again by its checksum. It is called by several
// goroutines.
type Looker interface {
	Known(member, sum string) bool
	ScanSum(member, sum string, text []byte)
}

// Input is what an archive is made from: Groups, or Sheets in order of number
// when they do not come in groups.
type Input struct {
	*Dataset
	Groups  iter.Seq[Group]
	Sheets  iter.Seq2[*Sheet, error]
	Scratch func() (Scratch, error)    // one for each kind
	Keep    func(g Group, part []byte) // nil: nothing is kept; called by one goroutine at a time
	Look    Looker                     // sees every text that it does not know; nil: nobody looks
	Workers int                        // 0: two
}

// Written says what an archive holds.
type Written struct {
	Rows map[string]int // by the name of the kind
	Made int            // groups that were not kept
	Sum  Coverage
}

// WriteArchive writes a Darwin Core archive to w: meta.xml, the core, the
// extensions and their description. The same sheets give the same bytes,
// whatever was kept. Rows wait in scratch files, so that memory does not grow
// with their number.
func WriteArchive(ctx context.Context, w io.Writer, in Input) (Written, error) {
	a := &archiver{in: &in, zip: archive.NewWriter(w, in.Date), done: Written{Rows: map[string]int{}}}
	defer a.discard()
	if err := a.write(ctx); err != nil {
		return a.done, fmt.Errorf("write the archive: %w", err)
	}
	return a.done, nil
}

// archiver is one archive being written.
type archiver struct {
	in   *Input
	zip  *archive.Writer
	out  []*output
	done Written
}

// output is the rows of one kind on their way.
type output struct {
	kind    *Kind
	to      *bufio.Writer
	scratch Scratch
	joined  *archive.Joined
}

func (a *archiver) write(ctx context.Context) error {
	if err := a.member(MetaFile, archive.AppendMeta(nil, Meta())); err != nil {
		return err
	}
	if err := a.open(); err != nil {
		return err
	}
	if err := a.parts(ctx); err != nil {
		return err
	}
	for _, o := range a.out {
		if err := a.release(o); err != nil {
			return err
		}
	}
	about := a.in.AppendEML(nil, &a.done.Sum)
	if a.in.Look != nil {
		a.in.Look.ScanSum(EMLFile, "", about)
	}
	if err := a.member(EMLFile, about); err != nil {
		return err
	}
	return a.zip.Close()
}

// member writes a whole file.
func (a *archiver) member(name string, data []byte) error {
	m, err := a.zip.Create(name)
	if err == nil {
		_, err = m.Write(data)
	}
	return err
}

// open begins the scratch files, each with its headings.
func (a *archiver) open() error {
	pack := &archive.Packer{}
	for _, k := range Kinds() {
		s, err := a.in.Scratch()
		if err != nil {
			return err
		}
		o := &output{kind: k, scratch: s, to: bufio.NewWriterSize(s, 64<<10)}
		o.joined = archive.Join(o.to)
		a.out = append(a.out, o)
		head, err := pack.Pack(archive.AppendRow(nil, k.headings()))
		if err == nil {
			err = o.joined.Add(head)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// take adds a part to what waits.
func (a *archiver) take(p *part) error {
	for i, o := range a.out {
		if p.rows[i] == 0 {
			continue
		}
		if err := o.joined.Add(p.pieces[i]); err != nil {
			return err
		}
		a.done.Rows[o.kind.Name] += p.rows[i]
	}
	a.done.Sum.join(&p.sum)
	return nil
}

// release puts the rows that waited into the archive.
func (a *archiver) release(o *output) error {
	if err := o.to.Flush(); err != nil {
		return err
	}
	if _, err := o.scratch.Seek(0, io.SeekStart); err != nil {
		return err
	}
	return a.zip.Put(o.kind.File, o.joined, o.scratch)
}

// discard closes the scratch files.
func (a *archiver) discard() {
	for _, o := range a.out {
		o.scratch.Close()
	}
}

// headings are the first line of a kind's file: the names of its terms, in an
// extension behind that of the core's id.
func (k *Kind) headings() []string {
	var out []string
	if k != Kinds()[0] {
		out = append(out, "coreid")
	}
	for i := range k.Terms {
		out = append(out, k.Terms[i].Name)
	}
	return out
}

// Meta is the meta.xml of every archive.
func Meta() *archive.Meta {
	m := &archive.Meta{Metadata: EMLFile}
	for i, k := range Kinds() {
		e := archive.Entity{RowType: k.Type, Files: []string{k.File}, Skip: 1}
		first := 1
		if i == 0 {
			first = 0
		}
		for j := range k.Terms {
			e.Fields = append(e.Fields, archive.Field{Term: k.Terms[j].IRI(), Index: first + j})
		}
		if i == 0 {
			m.Core = e
		} else {
			m.Extensions = append(m.Extensions, e)
		}
	}
	return m
}
