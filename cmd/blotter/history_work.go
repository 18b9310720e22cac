package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

// workEntry is one entry that touched a work.
type workEntry struct {
	Revision string   `json:"revision"`
	By       string   `json:"by"`
	On       string   `json:"on"`
	Did      []string `json:"did"`
	Reason   string   `json:"reason,omitempty"`
}

// historyOfWork tells who entered what of a work, newest first: lines that
// came, words that were corrected, with the reason.
func (d *desk) historyOfWork(ctx context.Context, typed string) error {
	tip, err := d.head(ctx)
	if rev := d.opts.text("at"); err == nil && rev != "" {
		tip, err = d.revision(ctx, rev)
	}
	if err != nil {
		return err
	}
	have := d.workNumbers()
	n, err := workAmong(typed, have)
	if err != nil {
		return err
	}
	var all []workEntry
	if tip != "" {
		err = d.repo.Log(ctx, []string{tip}, nil, func(c history.Commit) error {
			for _, t := range c.Touches {
				if t.Path == n.Path() {
					e, err := d.workEntry(ctx, n, c, t)
					all = append(all, e)
					return err
				}
			}
			return nil
		})
		if err != nil {
			return stuck("%v", err)
		}
	}
	if d.asksJSON() {
		for _, e := range all {
			if err := d.printJSON(e); err != nil {
				return err
			}
		}
		return nil
	}
	d.say("%s", d.workTitle(n))
	if len(all) == 0 {
		d.say("Not yet entered.")
	}
	for _, e := range all {
		d.say("%s, %s, %s", d.shownDate(e.On), e.By, e.Revision[:7])
		for _, did := range e.Did {
			d.say("%s", hang("  ", did, d.Width))
		}
		if e.Reason != "" {
			d.say("%s", hang("  reason: ", e.Reason, d.Width))
		}
	}
	return nil
}

// workEntry is what one entry did to a work.
func (d *desk) workEntry(ctx context.Context, n ledger.WorkNumber, c history.Commit, t history.Touch) (workEntry, error) {
	e := workEntry{Revision: c.ID, By: c.Author.Name, On: c.Author.When.In(d.zone).Format("2006-01-02")}
	now, err := d.workBlob(ctx, n, t.Blob)
	if err != nil {
		return e, err
	}
	old := &ledger.Work{}
	if i := slices.IndexFunc(t.Olds, func(b ledger.BlobID) bool { return b != "" }); i >= 0 {
		if old, err = d.workBlob(ctx, n, t.Olds[i]); err != nil {
			return e, err
		}
	}
	if t.Blob == "" {
		e.Did = append(e.Did, "the file was taken away")
	}
	was, is := ledger.Lists(old)[0].Entries, ledger.Lists(now)[0].Entries
	for _, p := range history.Align(was, is) {
		if p.Old < 0 {
			e.Did = append(e.Did, "line "+itoa(p.New+1)+": "+lineWords(is[p.New]))
		}
	}
	for _, ch := range history.DiffDocuments(old, now) {
		if ch.Path == "work" {
			continue
		}
		switch {
		case ch.Before == "":
			e.Did = append(e.Did, ch.Path+": "+ch.After)
		case ch.After == "":
			e.Did = append(e.Did, ch.Path+": "+ch.Before+", now nothing")
		default:
			e.Did = append(e.Did, ch.Path+": "+ch.Before+", now "+ch.After)
		}
	}
	for _, x := range history.Corrections(c.Message) {
		if strings.EqualFold(string(x.Number), string(n)) {
			e.Reason = x.Reason
		}
	}
	return e, nil
}

// lineWords is a line in one: its words in the order of the fields.
func lineWords(e ledger.Entry) string {
	var words []string
	for _, kv := range e.Fields {
		words = append(words, kv.Value)
	}
	return strings.Join(words, ", ")
}

// workBlob is a version of a work; one that cannot be read says nothing.
func (d *desk) workBlob(ctx context.Context, n ledger.WorkNumber, id ledger.BlobID) (*ledger.Work, error) {
	if id == "" {
		return &ledger.Work{}, nil
	}
	src, err := d.repo.Blob(ctx, id)
	if err != nil {
		return nil, err
	}
	w, _ := ledger.DecodeWork(n.Path(), src)
	return w, nil
}
