package main

import (
	"context"
	"fmt"
	"strings"

	"blotter/ledger"
)

var noteKinds = []string{"seen", "photographed", "material-removed", "label-copied", "question", "note"}

func noteCommand() *command {
	return &command{
		Name: "note", Family: famEnter, Synopsis: "SHEETS|WORK TEXT",
		Says: "Notes something about sheets or a work without giving them another name.",
		Examples: []example{
			{`blotter note 312 "looks like Ranunculus repens; runners" --kind question --by me`, "a doubt for the curator; staff pages only"},
			{`blotter note 480..482 "one leaf each for DNA" --kind material-removed --by "M. Ostrander"`, "what was taken from the sheets"},
			{`blotter note 482 --kind seen --by "M. Ostrander" --date 2.xi.2026`, "a specialist looked and gave no opinion"},
		},
		Args:  []argument{{"SHEETS|WORK", "482, 480..489, 482,485, all or -; or one work: loan-2026-004"}, {"TEXT", "the note, in quotes; may be left out for seen, photographed, label-copied"}},
		Flags: joinFlags([]*flag{flagKind, flagBy, flagDate, flagSlip}, sheetFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"determine", "set", "history"}, Complete: "sheets",
		Run: runNote,
	}
}

func runNote(ctx context.Context, c *call) error {
	kind := c.opts.text("kind")
	if kind == "" {
		kind = "note"
	}
	if !contains(noteKinds, kind) {
		return misuse("--kind %s is not known; it is one of %s", kind, strings.Join(noteKinds, ", "))
	}
	words, text := c.args, ""
	if n := len(words); n > 0 && (n > 1 || c.opts.text("where") != "") {
		words, text = words[:n-1], words[n-1]
	}
	if text == "" && (kind == "note" || kind == "question" || kind == "material-removed") {
		return misuse("what is to be noted? The text stands after the sheets, in quotes").
			try(`blotter note 312 "looks like Ranunculus repens; runners" --kind question --by me`)
	}
	from := c.opts.text("slip")
	if from != "" && from != "slip" && from != "label" {
		return misuse("--slip %s is not known of a note; it is slip or label", from)
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	if len(words) == 1 && d.isWork(words[0]) {
		return d.noteWork(ctx, words[0], text)
	}
	ns, picked, err := d.sheets(ctx, words)
	if err != nil {
		return err
	}
	by, date, err := d.signed("me")
	if err != nil {
		return err
	}
	changes, err := d.editSheets(ns, func(*ledger.Record) ([]ledger.Op, error) {
		return []ledger.Op{ledger.Append("annotations", ledger.KV{Key: "kind", Value: kind}, ledger.KV{Key: "what", Value: text},
			ledger.KV{Key: "by", Value: by}, ledger.KV{Key: "date", Value: date}, ledger.KV{Key: "from", Value: from})}, nil
	})
	if err != nil {
		return err
	}
	for _, n := range ns {
		c.say("%s", strings.TrimRight(fmt.Sprintf("%s  %s  %s", n, kind, text), " "))
	}
	return d.enterPicked(ctx, changes, picked, "Note this on "+count(len(ns), "sheet")+"?")
}

// signed is who and when of an opinion: --by, or else whoever is left to be
// the one (me, or nobody), and --date, or else today.
func (d *desk) signed(otherwise string) (by, date string, err error) {
	by = d.opts.text("by")
	if by == "" {
		by = otherwise
	}
	if by, err = d.whoSays(by); err != nil {
		return "", "", err
	}
	date, err = d.dateArgument(d.opts.text("date"))
	return by, date, err
}

// consentIfPicked asks only when the sheets were not named one by one.
func (d *desk) consentIfPicked(ctx context.Context, picked bool, question string) (bool, error) {
	if !picked {
		return true, nil
	}
	return d.consent(ctx, question)
}

func contains(list []string, word string) bool {
	for _, w := range list {
		if w == word {
			return true
		}
	}
	return false
}
