package main

import (
	"context"
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
)

var bases = []string{"verified", "label", "picture", "suspected"}

func typestatusCommand() *command {
	return &command{
		Name: "typestatus", Family: famEnter, Synopsis: "SHEET STATUS",
		Says:  "States that a sheet is a type of a name, apart from what it is determined as.",
		Notes: []string{"A suspected type is protected as a type is, and reads \"possible type\" in public."},
		Examples: []example{
			{`blotter typestatus 482 isotype --of "Ranunculus pumilus Wahlenb." --published "Fl. Lapp.: 1 (1812)" --by "M. Ostrander" --basis verified`, "seen and compared with the first publication"},
			{`blotter typestatus 90 type --of "Hieracium vossense" --by me --basis suspected`, "perhaps one; protected all the same"},
			{`blotter typestatus 482 lectotype --of "Ranunculus pumilus Wahlenb." --by "M. Ostrander" --part "left-hand plant"`, "one plant of the sheet"},
		},
		Args:  []argument{{"SHEET", "482 or LK7-0000482"}, {"STATUS", strings.Join(reading.TypeStatuses, ", ")}},
		Flags: joinFlags([]*flag{flagOf, flagPub, flagBasis, flagBy, flagDate, flagPart}, enterFlags, sheetFlags), Exits: []int{exitFindings},
		Kin: []string{"determine", "history"}, Complete: "sheets",
		Run: runTypestatus,
	}
}

func runTypestatus(ctx context.Context, c *call) error {
	switch {
	case len(c.args) < 2 && c.opts.text("where") == "" || len(c.args) == 0:
		return misuse("which sheet, and which status?").try(`blotter typestatus 482 isotype --of NAME --by PERSON`)
	case c.opts.text("of") == "":
		return misuse("of which name? --of is missing").try("A type belongs to a name, not to a determination: --of \"Ranunculus pumilus Wahlenb.\"")
	case c.opts.text("by") == "":
		return misuse("who says so? --by is missing")
	}
	status, basis := c.args[len(c.args)-1], c.opts.text("basis")
	if !contains(reading.TypeStatuses, strings.ToLower(status)) {
		f := misuse("%q is no type status that we know", status)
		if near := nearest(status, reading.TypeStatuses); near != "" {
			f = misuse("%q is no type status that we know; did you mean %s?", status, near)
		}
		return f
	}
	if basis == "" {
		basis = "label"
	}
	if !contains(bases, basis) {
		return misuse("--basis %s is not known; it is one of %s", basis, strings.Join(bases, ", "))
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	ns, picked, err := d.sheets(ctx, c.args[:len(c.args)-1])
	if err != nil {
		return err
	}
	by, date, err := d.signed("")
	if err != nil {
		return err
	}
	changes, err := d.editSheets(ns, func(*ledger.Record) ([]ledger.Op, error) {
		return []ledger.Op{ledger.Append("types",
			ledger.KV{Key: "status", Value: strings.ToLower(status)}, ledger.KV{Key: "of", Value: c.opts.text("of")},
			ledger.KV{Key: "published", Value: c.opts.text("published")}, ledger.KV{Key: "basis", Value: basis},
			ledger.KV{Key: "by", Value: by}, ledger.KV{Key: "date", Value: date}, ledger.KV{Key: "part", Value: c.opts.text("part")})}, nil
	})
	if err != nil {
		return err
	}
	for _, n := range ns {
		c.say("%s", d.titleOf(n))
		c.say("  %s of %s (%s), %s, %s", strings.ToLower(status), c.opts.text("of"), basis, by, d.shownDate(date))
	}
	return d.enterPicked(ctx, changes, picked, "Enter this for "+count(len(ns), "sheet")+"?")
}
