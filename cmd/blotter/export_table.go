package main

import (
	"context"
	"iter"

	"blotter/ledger"
	"blotter/ledger/darwincore"
	"blotter/ledger/exchange"
	"blotter/ledger/public"
	"blotter/ledger/workbook"
)

// rowWriter writes a table row by row, the headings first.
type rowWriter interface {
	Write(cells []string) error
	Close() error
}

func exportCSV(ctx context.Context, x *exporting) error {
	return x.table(ctx, exchange.NewSeparated(x.Out, ',', x.desk.opts.on("utf8-mark")))
}

func exportTSV(ctx context.Context, x *exporting) error {
	return x.table(ctx, exchange.NewSeparated(x.Out, '\t', x.desk.opts.on("utf8-mark")))
}

func exportWorkbook(ctx context.Context, x *exporting) error {
	w, err := workbook.NewWriter(x.Out, "specimens")
	if err != nil {
		return err
	}
	return x.table(ctx, guarding{w})
}

// guarding guards the cells of a workbook: they are text in it, but no longer
// once somebody saves it as CSV.
type guarding struct{ *workbook.Writer }

func (g guarding) Write(cells []string) error {
	for i := range cells {
		cells[i] = exchange.Guard(cells[i])
	}
	return g.Writer.Write(cells)
}

// table writes the sheets as a table: every field, or Darwin Core terms.
func (x *exporting) table(ctx context.Context, w rowWriter) error {
	write := x.tableOfFields
	if x.desk.opts.text("terms") == darwinCoreTerms {
		write = x.tableOfTerms
	}
	if err := write(ctx, w); err != nil {
		return err
	}
	return w.Close()
}

// tableOfFields writes every field that any of the sheets has. The sheets are
// gone through twice, first for the headings, so that none is held.
func (x *exporting) tableOfFields(ctx context.Context, w rowWriter) error {
	var columns exchange.Columns
	for r, err := range x.records(ctx) {
		if err != nil {
			return err
		}
		columns.Add(r.fields)
	}
	heads := columns.Sort()
	if x.Full {
		heads = append(heads[:len(heads):len(heads)], exchange.NotAField)
	}
	if err := w.Write(append([]string(nil), heads...)); err != nil {
		return err
	}
	var row []string
	for r, err := range x.records(ctx) {
		if err != nil {
			return err
		}
		row = columns.Row(row, r.fields)
		if x.Full {
			row = append(row, r.closed)
		}
		if err := w.Write(row); err != nil {
			return err
		}
	}
	return nil
}

// tableOfTerms writes the core of the archive as a table of its own.
func (x *exporting) tableOfTerms(ctx context.Context, w rowWriter) error {
	core := &darwincore.Occurrence
	var row []string
	for i := range core.Terms {
		row = append(row, core.Terms[i].Name)
	}
	if err := w.Write(row); err != nil {
		return err
	}
	for s, err := range x.Sheets(ctx) {
		if err != nil {
			return err
		}
		row = core.Cells(row[:0], darwincore.Row{Sheet: s})
		if err := w.Write(row); err != nil {
			return err
		}
	}
	return nil
}

// outRecord is one record on its way out, to the letter.
type outRecord struct {
	fields []ledger.KV
	closed string // to a partner: that its exact place is not to be published
}

// records are the chosen records in order of path, as they may go out.
func (x *exporting) records(ctx context.Context) iter.Seq2[outRecord, error] {
	return func(yield func(outRecord, error) bool) {
		show := x.desk.progress("Writing")
		for i, e := range x.chosen {
			r, err := x.load.Record(ctx, e)
			if err == nil {
				err = ctx.Err()
			}
			if err != nil {
				yield(outRecord{}, err)
				return
			}
			shown, why := x.view.Published(r)
			if x.Full {
				shown = r
			}
			if !yield(outRecord{ledger.Flatten(shown), x.closed(why)}, nil) {
				return
			}
			if show != nil {
				show(i+1, len(x.chosen))
			}
		}
	}
}

// closed is the line on a sensitive sheet that goes to a partner.
func (x *exporting) closed(why *public.Withheld) string {
	if x.Full && why != nil {
		return darwincore.NotToBePublished
	}
	return ""
}

// exportJSON writes one object a line.
func exportJSON(ctx context.Context, x *exporting) error {
	var b []byte
	for r, err := range x.records(ctx) {
		if err != nil {
			return err
		}
		fields := r.fields
		if r.closed != "" {
			fields = append(fields, ledger.KV{Key: exchange.NotAField, Value: r.closed})
		}
		b = append(exchange.AppendJSONRecord(b[:0], fields), '\n')
		if _, err := x.Out.Write(b); err != nil {
			return err
		}
	}
	return nil
}
