package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
)

func acceptCommand() *command {
	return &command{
		Name: "accept", Family: famEnter, Synopsis: "SHEETS CODE",
		Says: "Lets a warning stand, because the label has it so.",
		Examples: []example{
			{`blotter accept 482 elevation-unit --why "the label has no unit"`, "this warning is not shown again for 482"},
			{`blotter accept 480..489 date-two-ways --why "the field book is lost"`, "for several sheets"},
			{`blotter accept --where "collector:Rask year:1934" date-two-ways --why "she never wrote it otherwise"`, "for all that match, after a question"},
		},
		Args:  []argument{{"SHEETS", "482, 480..489, 482,485, all or -"}, {"CODE", "the word in brackets at the end of a warning"}},
		Flags: joinFlags([]*flag{flagWhy, flagBy, flagDate}, sheetFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"check", "set", "note"}, Complete: "sheets",
		Run: runAccept,
	}
}

func runAccept(ctx context.Context, c *call) error {
	if len(c.args) == 0 {
		return misuse("which sheets, and which code?").try(`blotter accept 482 elevation-unit --why "the label has no unit"`)
	}
	words, code := c.args[:len(c.args)-1], c.args[len(c.args)-1]
	why := c.opts.text("why")
	if why == "" {
		return misuse("why may it stand? --why is needed; the record keeps it").try(fmt.Sprintf(`blotter accept %s --why "the label has it so"`, strings.Join(c.args, " ")))
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	ns, picked, err := d.sheets(ctx, words)
	if err != nil {
		return err
	}
	has, err := d.sheetsWith(ctx, ns, code)
	if err != nil {
		return err
	}
	by, date, err := d.signed("me")
	if err != nil {
		return err
	}
	changes, err := d.editSheets(ns, func(r *ledger.Record) ([]ledger.Op, error) {
		if !has[ledger.Number(r.Specimen.Text)] {
			if picked {
				return nil, nil
			}
			return nil, misuse("%s has no warning %s", r.Specimen, code).try("blotter check " + r.Specimen.Text)
		}
		return []ledger.Op{ledger.Append("sic", ledger.KV{Key: "code", Value: code}, ledger.KV{Key: "why", Value: why},
			ledger.KV{Key: "by", Value: by}, ledger.KV{Key: "date", Value: date})}, nil
	})
	if err != nil {
		return err
	}
	for _, ch := range changes {
		c.say("%s  %s: %s", sheetOrPath(ch.path), code, why)
	}
	return d.enterPicked(ctx, changes, picked, "Let it stand for "+count(len(changes), "sheet")+"?")
}

// sheetsWith are those of ns that have a warning of that code. An error
// cannot be accepted.
func (d *desk) sheetsWith(ctx context.Context, ns []ledger.Number, code string) (map[ledger.Number]bool, error) {
	found, _, err := d.findings(ctx)
	if err != nil {
		return nil, err
	}
	has := map[ledger.Number]bool{}
	for _, f := range found {
		n, ok := ledger.NumberOfPath(f.Path)
		if !ok || f.Code != code || !slices.Contains(ns, n) {
			continue
		}
		if f.Severity == ledger.Error {
			return nil, misuse("%s is an error and cannot be let stand: %s", code, f.Message)
		}
		has[n] = true
	}
	return has, nil
}
