package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/check"
)

func checkCommand() *command {
	return &command{
		Name: "check", Family: famAsk, Synopsis: "[SHEETS|PATH...]",
		Says:  "Looks for errors and doubts in what is written, entered or not.",
		Notes: []string{"An error harms the ledger and stops an entry that brings it in. A warning stops nothing; one that is true stands after: blotter accept."},
		Examples: []example{
			{"blotter check", "everything"},
			{"blotter check --explain date-two-ways", "what a code means and what to do"},
			{"blotter check --settled", "what was let stand, by whom and why"},
		},
		Args:  []argument{{"SHEETS|PATH", "sheets or files; without any, all"}},
		Flags: joinFlags([]*flag{flagStrict, flagCode, flagExplain, flagSettled, flagCommits, flagNoCache}, sheetFlags, askFlags), Exits: []int{exitFindings},
		Kin: []string{"accept", "edit", "tidy", "enter"}, Complete: "sheets",
		Run: runCheck,
	}
}

func runCheck(ctx context.Context, c *call) error {
	if code := c.opts.text("explain"); code != "" {
		return c.explainCode(code)
	}
	format, err := c.findingsFormat()
	if err != nil {
		return err
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	if commits := c.opts.text("commits"); commits != "" {
		return d.checkCommits(ctx, commits, format)
	}
	report, b, err := d.judgedAll(ctx)
	if err != nil {
		return err
	}
	keep, sheets, err := d.checked(ctx, b)
	if err != nil {
		return err
	}
	code := c.opts.text("code")
	if code != "" && !check.Known(code) {
		return unknownCode(code)
	}
	leave := func(f ledger.Finding) bool { return !keep(f.Path) || code != "" && f.Code != code }
	found := slices.DeleteFunc(report.Findings, leave)
	settled := slices.DeleteFunc(report.Settled, func(s check.Settled) bool { return leave(s.Finding) })
	if c.opts.on("settled") {
		return d.showSettled(settled, format)
	}
	return d.showFindings(found, settled, format, summary(found, len(settled), sheets))
}

// findingsFormat is how findings are to be printed.
func (c *call) findingsFormat() (string, error) {
	switch f := c.opts.text("format"); {
	case c.opts.on("json"):
		return "json", nil
	case f == "":
		return "text", nil
	case contains([]string{"text", "json", "sarif"}, f):
		return f, nil
	default:
		return "", misuse("--format %s is not known; it is one of text, json, sarif", f)
	}
}

// checked says which files the arguments mean, and how many sheets these are.
func (d *desk) checked(ctx context.Context, b *book.Book) (keep func(path string) bool, sheets int, err error) {
	if len(d.args) == 0 && d.opts.text("where") == "" && len(d.opts.list("except")) == 0 {
		return func(string) bool { return true }, b.Len(), nil
	}
	var words []string
	prefixes := map[string]bool{}
	for _, a := range d.args {
		if p, ok := d.ledgerPath(a); ok {
			prefixes[strings.TrimSuffix(p, "/")] = true
		} else {
			words = append(words, a)
		}
	}
	if len(words) == 0 && len(prefixes) == 0 && d.opts.text("where") == "" {
		words = []string{"all"}
	}
	wanted := map[ledger.Number]bool{}
	if len(words) > 0 || d.opts.text("where") != "" {
		ns, _, err := d.sheets(ctx, words)
		if err != nil {
			return nil, 0, err
		}
		for _, n := range ns {
			wanted[n] = true
		}
	}
	keep = func(path string) bool {
		if n, ok := ledger.NumberOfPath(path); ok && wanted[n] {
			return true
		}
		for up := path; up != ""; {
			if prefixes[up] {
				return true
			}
			i := strings.LastIndexByte(up, '/')
			if i < 0 {
				break
			}
			up = up[:i]
		}
		return false
	}
	for e := range b.All() {
		if keep(e.Path) {
			sheets++
		}
	}
	return keep, sheets, nil
}

// showFindings prints findings in a format; the last line is last. The settled
// ones are told of only to code hosts, which show them as closed.
func (d *desk) showFindings(found []ledger.Finding, settled []check.Settled, format, last string) error {
	errs, warns := countFindings(found)
	switch format {
	case "json":
		for _, f := range found {
			if err := d.printJSON(findingJSON(f)); err != nil {
				return err
			}
		}
	case "sarif":
		if err := d.printSARIF(found, settled); err != nil {
			return err
		}
	default:
		v := d.viewOf(d.env, nil)
		v.whole = d.opts.text("code") != ""
		v.show(found)
		d.say("%s", last)
	}
	if errs > 0 || d.opts.on("strict") && warns > 0 {
		return errFindings
	}
	return nil
}
