package main

import (
	"cmp"
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// mayGo refuses a line that would send or sample what is not to go, unless a
// reason is given, which the line then keeps. named are the sheets that the
// line names; none: those that the work is about.
func (d *desk) mayGo(ctx context.Context, f *work.File, event string, named []ledger.Number, line []ledger.KV) error {
	if !work.Judged(f.Kind.Name, event) {
		return nil
	}
	w, err := d.works(ctx)
	if err != nil {
		return err
	}
	s := work.Sending{File: f, Verb: event, On: d.todayAsDay(), Sheets: named, Material: lineWord(line, "material")}
	if day, _, ok := momentOf(lineWord(line, "date")); ok {
		s.On = day
	}
	if len(named) == 0 {
		s.Sheets = w.Ripe(f, event, s.On)
	}
	bars, err := w.Bars(ctx, w.Book().Loader(d.source(), d.cache()), s)
	if err != nil {
		return stuck("%v", err)
	}
	if len(bars) == 0 {
		return nil
	}
	if lineWord(line, "why") != "" {
		d.tell("Written with your reason, although:")
		d.sayBars(bars, d.tell)
		return nil
	}
	sheets := map[ledger.Number]bool{}
	for _, b := range bars {
		sheets[b.Sheet] = true
	}
	fault := misuse("not %s: %d of %s %s", event, len(sheets), count(len(s.Sheets), "sheet"), verb(len(sheets), "is not to go", "are not to go"))
	d.sayBars(bars, func(format string, args ...any) { fault.try(fmt.Sprintf(format, args...)) })
	return fault.try("If there is a reason for it, add --why TEXT; it is kept on the line")
}

// sayBars says why sheets are not to go, a line a reason; of many the first
// twenty.
func (d *desk) sayBars(bars []work.Bar, say func(string, ...any)) {
	const most = 20
	for _, b := range bars[:min(len(bars), most)] {
		say("%s: %s [%s]", b.Sheet, b.Words, b.Rule)
	}
	if n := len(bars) - most; n > 0 {
		say("and %s more", count(n, "reason"))
	}
}

func lineWord(line []ledger.KV, key string) string {
	for _, kv := range line {
		if kv.Key == key {
			return kv.Value
		}
	}
	return ""
}

// annotated reports whether a file is a table of names that came back.
func annotated(from string) bool {
	return contains([]string{".csv", ".tsv", ".xlsx", ".ods"}, strings.ToLower(filepath.Ext(from)))
}

// takeUp enters the names that came back with a loan: each row an opinion on
// a sheet of the loan, the rest into a file with the reasons.
func (l *lining) takeUp(ctx context.Context, from string, on dates.Day) (bool, error) {
	w, err := l.works(ctx)
	if err != nil {
		return false, err
	}
	table, rows, err := l.readOpinionList(from)
	if err != nil {
		return false, err
	}
	lent := map[string]bool{}
	for _, t := range w.Loan(l.file, on).Things {
		if t.Sent != 0 {
			lent[t.Sheet.Key()] = true
		}
	}
	good := l.judgeRows(rows)
	var taken []*listRow
	for _, r := range good {
		if n, ok := ledger.NumberOfPath(r.change.path); !ok || !lent[n.Key()] {
			r.why = string(n) + " was not sent with " + string(l.file.Number)
			continue
		}
		taken = append(taken, r)
	}
	for _, r := range rows {
		if r.why == "" {
			l.say("line %-4d %s", r.line, r.words)
		}
	}
	for _, r := range rows {
		if r.why != "" {
			l.say("line %-4d not taken: %s", r.line, r.why)
		}
	}
	if len(taken) == 0 {
		return false, stuck("no row of %s could be taken; nothing was entered", from)
	}
	if len(taken) < len(rows) {
		if l.opts.on("strict") {
			return false, stuck("%s not taken, and --strict: nothing was entered", count(len(rows)-len(taken), "row"))
		}
		l.after = func() error { return cmp.Or(l.writeRest(table, rows), errFindings) }
	}
	l.also = append(l.also, mergedChanges(taken)...)
	return l.consent(ctx, "Take up "+count(len(taken), "opinion")+" of "+count(len(rows), "row")+"?")
}
