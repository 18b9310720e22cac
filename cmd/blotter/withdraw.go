package main

import (
	"context"
	"strings"

	"blotter/ledger"
)

var fates = []string{"lost", "destroyed", "used-up", "exchanged", "transferred", "deaccessioned", "same-as", "mistake"}

func withdrawCommand() *command {
	return &command{
		Name: "withdraw", Family: famEnter, Synopsis: "SHEETS",
		Says: "Takes sheets out of the collection; record and number stay, with the reason.",
		Notes: []string{"A sheet that was never entered is a draft: it is removed after a question and its number is free again. " +
			"A sheet that is only missing is not withdrawn; note it instead."},
		Examples: []example{
			{`blotter withdraw 377 --is destroyed --why "eaten by beetles"`, "the record stays, with its fate"},
			{`blotter withdraw 418 --is transferred --to "Fjellheim Museum" --why "exchange of 2026"`, "where it went"},
			{"blotter withdraw 1212", "a draft typed twice: removed, its number is free"},
		},
		Args:  []argument{{"SHEETS", "482, 480..489, 482,485 or -"}},
		Flags: joinFlags([]*flag{flagIs, flagTo, flagWhy, flagBy, flagDate}, sheetFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"found", "undo", "set"}, Complete: "sheets",
		Run: runWithdraw,
	}
}

func runWithdraw(ctx context.Context, c *call) error {
	is, why := c.opts.text("is"), c.opts.text("why")
	if is != "" && !contains(fates, is) {
		return misuse("--is %s is not known; it is one of %s", is, strings.Join(fates, ", "))
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	ns, _, err := d.sheets(ctx, c.args)
	if err != nil {
		return err
	}
	drafts, err := d.neverEntered(ctx, ns)
	if err != nil {
		return err
	}
	if len(drafts) == len(ns) {
		return d.dropDrafts(ctx, ns)
	}
	if len(drafts) > 0 {
		return misuse("%s was never entered and the others were; withdraw them apart", drafts[0])
	}
	if is == "" || why == "" {
		return misuse("what became of it, and why? --is and --why are needed; the record keeps both").
			try(`blotter withdraw ` + strings.Join(c.args, " ") + ` --is destroyed --why "eaten by beetles"`)
	}
	return d.withdraw(ctx, ns, is, why)
}

func (d *desk) withdraw(ctx context.Context, ns []ledger.Number, is, why string) error {
	by, date, err := d.signed("me")
	if err != nil {
		return err
	}
	changes, err := d.editSheets(ns, func(r *ledger.Record) ([]ledger.Op, error) {
		if n := len(r.Fate); n > 0 && r.Fate[n-1].Is.Text != "found" {
			return nil, misuse("%s is withdrawn already: %s, %s", r.Specimen, r.Fate[n-1].Is, r.Fate[n-1].Why)
		}
		return []ledger.Op{fateOp(is, d.opts.text("to"), by, date, why)}, nil
	})
	if err != nil {
		return err
	}
	for _, n := range ns {
		d.say("%s", d.titleOf(n))
		d.say("  %s, %s: %s", is, d.shownDate(date), why)
	}
	if ok, err := d.consent(ctx, "Withdraw "+count(len(ns), "sheet")+"? The numbers are never used again."); !ok {
		return err
	}
	r, err := d.enter(ctx, entry{changes: changes})
	if err != nil {
		return err
	}
	d.report(r, "")
	return nil
}

func fateOp(is, to, by, date, why string) ledger.Op {
	return ledger.Append("fate", ledger.KV{Key: "is", Value: is}, ledger.KV{Key: "to", Value: to},
		ledger.KV{Key: "by", Value: by}, ledger.KV{Key: "date", Value: date}, ledger.KV{Key: "why", Value: why})
}

// dropDrafts removes records that were never entered.
func (d *desk) dropDrafts(ctx context.Context, ns []ledger.Number) error {
	var changes []fileChange
	for _, n := range ns {
		d.say("%s", d.titleOf(n))
		d.say("  never entered; its file is removed and its number is free again")
		path := d.pathOf(n)
		old, err := d.read(path)
		if err != nil {
			return err
		}
		changes = append(changes, fileChange{path: path, old: old})
	}
	if ok, err := d.consent(ctx, "Remove "+count(len(ns), "draft")+"?"); !ok {
		return err
	}
	unlock, err := d.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	if err := d.write(ctx, changes); err != nil {
		return err
	}
	d.say("Removed.")
	return nil
}

// neverEntered are the numbers whose record is in the work tree and in no
// revision that HEAD has.
func (d *desk) neverEntered(ctx context.Context, ns []ledger.Number) ([]ledger.Number, error) {
	var out []ledger.Number
	for _, n := range ns {
		old, err := d.atHead(ctx, d.pathOf(n))
		if err != nil {
			return nil, err
		}
		if old == nil {
			out = append(out, n)
		}
	}
	return out, nil
}
