package main

import (
	"context"
	"fmt"
	"strings"

	"blotter/ledger"
	"blotter/ledger/work"
)

func foundCommand() *command {
	return &command{
		Name: "found", Family: famEnter, Synopsis: "SHEETS",
		Says:  "Takes back that sheets were withdrawn, missing or misplaced: they are here again.",
		Notes: []string{"Of a sheet that a round through the cabinets missed, or found in another place, the round is told; of a withdrawn one its record."},
		Examples: []example{
			{`blotter found 377 --why "in the cover of Ranunculus repens"`, "a lost sheet turned up"},
			{`blotter found 377,380 --why "came back from Fjellheim Museum" --date 2.xi.2026`, "two at once"},
			{`blotter found 377 --by "Ove Bannister" --why "behind the cabinet" --to "cabinet 4"`, "somebody else found it, and put it into its cabinet"},
		},
		Args:  []argument{{"SHEETS", "482, 480..489, 482,485 or -"}},
		Flags: joinFlags([]*flag{flagWhy, flagBy, flagDate, flagTo}, sheetFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"withdraw", "log", "history"}, Complete: "sheets",
		Run: runFound,
	}
}

func runFound(ctx context.Context, c *call) error {
	why := c.opts.text("why")
	if why == "" {
		return misuse("where, or how? --why is needed; it is kept").try(fmt.Sprintf(`blotter found %s --why "in the cover of Ranunculus repens"`, strings.Join(c.args, " ")))
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	ns, picked, err := d.sheets(ctx, c.args)
	if err != nil {
		return err
	}
	by, date, err := d.signed("me")
	if err != nil {
		return err
	}
	lost, changes, err := d.foundInWorks(ctx, ns, by, why)
	if err != nil {
		return err
	}
	records, err := d.editSheets(lost, func(r *ledger.Record) ([]ledger.Op, error) {
		return []ledger.Op{fateOp("found", "", by, date, why)}, nil
	})
	if err != nil {
		return err
	}
	for _, n := range ns {
		c.say("%s", d.titleOf(n))
		c.say("  found, %s: %s", d.shownDate(date), why)
	}
	for _, x := range changes {
		c.say("Told to %s.", sheetOrPath(x.path))
	}
	return d.enterPicked(ctx, append(records, changes...), picked, "Enter this for "+count(len(ns), "sheet")+"?")
}

// foundInWorks parts sheets into those that their records say are withdrawn,
// and those that a round or the shelf missed or found elsewhere: these are
// found by a line of the same work.
func (d *desk) foundInWorks(ctx context.Context, ns []ledger.Number, by, why string) (lost []ledger.Number, changes []fileChange, err error) {
	date, err := d.lineDate("inventory")
	if err != nil {
		return nil, nil, err
	}
	day, _, _ := momentOf(date)
	var order []*work.File
	of := map[*work.File][]ledger.Number{}
	for _, n := range ns {
		_, _, r, err := d.record(n)
		if err != nil {
			return nil, nil, err
		}
		if f := len(r.Fate); f > 0 && r.Fate[f-1].Is.Text != "found" {
			lost = append(lost, n)
			continue
		}
		w, err := d.works(ctx)
		if err != nil {
			return nil, nil, err
		}
		s := w.State(n, day)
		switch {
		case s.Where != work.Missing && s.Where != work.Stray || s.By == nil:
			return nil, nil, misuse("%s is neither withdrawn nor missing", n).try("It is " + s.Words())
		case !contains(s.By.File.Kind.Events, "found"):
			return nil, nil, misuse("%s was %s in %s", n, s.By.Verb, s.By.File.Number).try("It came back: blotter log " + string(s.By.File.Number) + " returned " + d.brief(n))
		}
		if of[s.By.File] == nil {
			order = append(order, s.By.File)
		}
		of[s.By.File] = append(of[s.By.File], n)
	}
	for _, f := range order {
		line := append([]ledger.KV{{Key: "date", Value: date}, {Key: "event", Value: "found"}, {Key: "by", Value: by},
			{Key: "to", Value: d.opts.text("to")}, {Key: "note", Value: why}}, entryWords("sheets", spansOf(of[f])...)...)
		c, err := d.appendLine(f, line...)
		if err != nil {
			return nil, nil, err
		}
		changes = append(changes, c)
	}
	return lost, changes, nil
}
