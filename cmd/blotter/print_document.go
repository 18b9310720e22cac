package main

import (
	"context"

	"blotter/render/document"
	"blotter/render/paper"
)

// documentPaper is a document as pages at true size on the paper in the printer.
func documentPaper(ctx context.Context, d *desk, doc *document.Document) (*paper.Paper, error) {
	state, words, err := d.documentState(ctx)
	if err != nil {
		return nil, err
	}
	sheet, err := doc.Paper(document.Options{Size: doc.Sheet, Day: state.when, Revision: words})
	if err != nil {
		return nil, stuck("%v", err).try("As a page for the browser, which has other typefaces: --to FILE.html")
	}
	return sheet, nil
}

// documentPDF is that as a file.
func documentPDF(ctx context.Context, d *desk, doc *document.Document) ([]byte, error) {
	sheet, err := documentPaper(ctx, d, doc)
	if err != nil {
		return nil, err
	}
	text, err := sheet.PDF()
	if err != nil {
		return nil, stuck("%v", err)
	}
	return text, nil
}

// documentState is the state that a document tells of, and how its foot calls
// that: a list may tell of edits that nobody entered yet.
func (d *desk) documentState(ctx context.Context) (printState, string, error) {
	s, err := d.headState(ctx)
	if err != nil || s.id == "" {
		return s, "", err
	}
	words := "revision " + s.short()
	if d.past != nil {
		return s, words, nil
	}
	open, err := d.pending(ctx)
	if err != nil {
		return s, "", err
	}
	if len(open) > 0 {
		words += " and edits not entered"
	}
	return s, words, nil
}
