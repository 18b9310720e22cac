package main

import (
	"context"
	"fmt"
	"strings"

	"blotter/ledger"
)

func foundCommand() *command {
	return &command{
		Name: "found", Family: famEnter, Synopsis: "SHEETS",
		Says: "Takes back that sheets were withdrawn: they are here again.",
		Examples: []example{
			{`blotter found 377 --why "in the cover of Ranunculus repens"`, "a lost sheet turned up"},
			{`blotter found 377,380 --why "came back from Fjellheim Museum" --date 2.xi.2026`, "two at once"},
			{`blotter found 377 --by "Ove Bannister" --why "behind the cabinet"`, "somebody else found it"},
		},
		Args:  []argument{{"SHEETS", "482, 480..489, 482,485 or -"}},
		Flags: joinFlags([]*flag{flagWhy, flagBy, flagDate}, sheetFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"withdraw", "history"}, Complete: "sheets",
		Run: runFound,
	}
}

func runFound(ctx context.Context, c *call) error {
	why := c.opts.text("why")
	if why == "" {
		return misuse("where, or how? --why is needed; the record keeps it").try(fmt.Sprintf(`blotter found %s --why "in the cover of Ranunculus repens"`, strings.Join(c.args, " ")))
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
	changes, err := d.editSheets(ns, func(r *ledger.Record) ([]ledger.Op, error) {
		if n := len(r.Fate); n == 0 || r.Fate[n-1].Is.Text == "found" {
			return nil, misuse("%s is not withdrawn", r.Specimen)
		}
		return []ledger.Op{fateOp("found", "", by, date, why)}, nil
	})
	if err != nil {
		return err
	}
	for _, n := range ns {
		c.say("%s", d.titleOf(n))
		c.say("  found, %s: %s", d.shownDate(date), why)
	}
	return d.enterPicked(ctx, changes, picked, "Enter this for "+count(len(ns), "sheet")+"?")
}
