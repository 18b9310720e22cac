package main

import (
	"fmt"

	"blotter/ledger"
	"blotter/ledger/check"
)

// showSettled prints the warnings that somebody let stand.
func (d *desk) showSettled(settled []check.Settled, format string) error {
	switch format {
	case "json":
		for _, s := range settled {
			if err := d.printJSON(settledJSON(s)); err != nil {
				return err
			}
		}
		return nil
	case "sarif":
		return d.printSARIF(nil, settled)
	}
	sheets := []string{}
	for _, s := range settled {
		f := s.Finding
		sheets = append(sheets, f.Path)
		d.say("%s:%d:%d: settled: %s [%s]", ledger.ShownPath(f.Path), max(f.Line, 1), max(f.Col, 1), f.Message, f.Code)
		d.say("  %s", letBy(s))
	}
	d.say("%s let stand in %s.", count(len(settled), "warning"), count(distinct(sheets), "sheet"))
	return nil
}

// letBy says why a warning may stand, who said so, when, and where that is
// written when it is another sheet's record.
func letBy(s check.Settled) string {
	words := fmt.Sprintf("%s (%s, %s)", s.Sic.Why, s.Sic.By, s.Sic.Date)
	if n, ok := ledger.NumberOfPath(s.Path); ok && n != s.In {
		words = fmt.Sprintf("%s (%s, %s, in %s)", s.Sic.Why, s.Sic.By, s.Sic.Date, s.In)
	}
	return words
}
