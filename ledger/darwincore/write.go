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

// Input is what an archive is made from.
type Input struct {
	*Dataset
	Sheets  iter.Seq2[*Sheet, error] // in order; asked for once
	Scratch func() (Scratch, error)  // one for each extension
}

// Written says what an archive holds.
type Written struct {
	Rows map[string]int // by the name of the kind
	Sum  Coverage
}

// WriteArchive writes a Darwin Core archive to w: meta.xml, the core, the
// extensions and their description. The same sheets give the same bytes. The
// core goes out as the sheets come, the extensions wait in scratch files, so
// that memory does not grow with their number.
func WriteArchive(ctx context.Context, w io.Writer, in Input) (Written, error) {
	a := &archiver{in: in, zip: archive.NewWriter(w, in.Date), done: Written{Rows: map[string]int{}}}
	defer a.discard()
	if err := a.write(ctx); err != nil {
		return a.done, fmt.Errorf("write the archive: %w", err)
	}
	return a.done, nil
}

// archiver is one archive being written.
type archiver struct {
	in   Input
	zip  *archive.Writer
	out  []*output
	done Written

	cells []string
	row   []byte
}

// output is the rows of one kind on their way.
type output struct {
	kind    *Kind
	to      *bufio.Writer
	scratch Scratch // nil: the core, which waits for nothing
}

func (a *archiver) write(ctx context.Context) error {
	if err := a.member(MetaFile, archive.AppendMeta(nil, Meta())); err != nil {
		return err
	}
	if err := a.open(); err != nil {
		return err
	}
	if err := a.rows(ctx); err != nil {
		return err
	}
	for _, o := range a.out[1:] {
		if err := a.release(o); err != nil {
			return err
		}
	}
	if err := a.member(EMLFile, a.in.AppendEML(nil, &a.done.Sum)); err != nil {
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

// open begins the core and the scratch files, each with its headings.
func (a *archiver) open() error {
	for i, k := range Kinds() {
		o := &output{kind: k}
		if i == 0 {
			core, err := a.zip.Create(k.File)
			if err != nil {
				return err
			}
			o.to = bufio.NewWriterSize(core, 64<<10)
		} else {
			s, err := a.in.Scratch()
			if err != nil {
				return err
			}
			o.scratch, o.to = s, bufio.NewWriterSize(s, 64<<10)
		}
		a.out = append(a.out, o)
		if _, err := o.to.Write(archive.AppendRow(nil, k.headings())); err != nil {
			return err
		}
	}
	return nil
}

// rows writes every row of every sheet.
func (a *archiver) rows(ctx context.Context) error {
	for s, err := range a.in.Sheets {
		if err == nil {
			err = ctx.Err()
		}
		if err != nil {
			return err
		}
		a.done.Sum.add(s)
		for _, o := range a.out {
			if err := a.sheet(o, s); err != nil {
				return err
			}
		}
	}
	return a.out[0].to.Flush()
}

func (a *archiver) sheet(o *output, s *Sheet) error {
	n := o.kind.Rows(s)
	for i := range n {
		a.cells = a.cells[:0]
		if o.scratch != nil {
			a.cells = append(a.cells, s.OccurrenceID())
		}
		a.cells = o.kind.Cells(a.cells, Row{s, i})
		a.row = archive.AppendRow(a.row[:0], a.cells)
		if _, err := o.to.Write(a.row); err != nil {
			return err
		}
	}
	a.done.Rows[o.kind.Name] += n
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
	m, err := a.zip.Create(o.kind.File)
	if err == nil {
		_, err = io.Copy(m, o.scratch)
	}
	return err
}

// discard closes the scratch files.
func (a *archiver) discard() {
	for _, o := range a.out {
		if o.scratch != nil {
			o.scratch.Close()
		}
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
