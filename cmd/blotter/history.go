package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

func historyCommand() *command {
	return &command{
		Name: "history", Family: famAsk, Synopsis: "SHEET|WORK",
		Says: "Tells the names and corrections of a sheet, or the lines of a work: who, when, on what grounds, entered by whom.",
		Examples: []example{
			{"blotter history 482", "names newest first, then corrections"},
			{"blotter history 482 --at 2025-12-31", "as it was known at the end of that day"},
			{"blotter history 482 --json", "for a program"},
		},
		Args:  []argument{{"SHEET|WORK", "482 or LK7-0000482; loan-2026-004"}},
		Flags: joinFlags([]*flag{flagAt, flagNoCache}, askFlags),
		Kin:   []string{"show", "changes", "determine"}, Complete: "sheets",
		Run: runHistory,
	}
}

func runHistory(ctx context.Context, c *call) error {
	if len(c.args) != 1 {
		return misuse("which sheet? One at a time").try("blotter history 482")
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	if d.repo == nil {
		return stuck("this folder has no git repository, so it has no history")
	}
	if d.isWork(c.args[0]) {
		return d.historyOfWork(ctx, c.args[0])
	}
	s, err := d.versionOfSheet(ctx, c.args[0])
	if err != nil {
		return err
	}
	view, err := d.repo.History(ctx, d.cache(), s.tip)
	if err != nil {
		return stuck("%v", err)
	}
	a, err := view.AccountOf(ctx, s.number, s.blob, s.record, reading.ConventionsOf(d.museum), d.readVersion)
	if err != nil {
		return stuck("%v", err)
	}
	if c.asksJSON() {
		return c.printJSON(d.accountJSON(view, a, s.record))
	}
	if to, gone := history.Retired(s.record); gone {
		f := s.record.Fate[0]
		d.say("%s goes on as %s since %s: %s", s.number, to, d.shownDate(f.Date.Text), joinNonEmpty(", ", f.Why.Text, f.By.Text))
		d.next("blotter history %s", d.briefOf(to))
		return nil
	}
	t := &teller{desk: d, view: view}
	t.tell(a, s.record)
	return nil
}

// sheetVersion is one version of one sheet.
type sheetVersion struct {
	number ledger.Number
	path   string
	blob   ledger.BlobID
	src    []byte
	record *ledger.Record
	tip    string // the revision whose past is meant; "" before the first
}

// versionOfSheet finds the sheet that was typed, in the work tree or, with
// --at, in that revision.
func (d *desk) versionOfSheet(ctx context.Context, typed string) (sheetVersion, error) {
	rev := d.opts.text("at")
	if rev == "" {
		n, err := d.rowNumber(typed)
		if err != nil {
			return sheetVersion{}, err
		}
		path, src, r, err := d.record(n)
		if err != nil {
			return sheetVersion{}, err
		}
		tip, err := d.head(ctx)
		return sheetVersion{n, path, ledger.BlobOf(src), src, r, tip}, err
	}
	tip, err := d.revision(ctx, rev)
	if err != nil {
		return sheetVersion{}, err
	}
	terms, err := readSheets([]string{typed}, nil)
	if err != nil {
		return sheetVersion{}, err
	}
	if len(terms) != 1 || terms[0].all || terms[0].from != terms[0].to {
		return sheetVersion{}, misuse("%q is not one sheet", typed)
	}
	n := fullNumber(terms[0].from, d)
	blob, err := d.repo.BlobAt(ctx, tip, n.Path())
	if err != nil {
		return sheetVersion{}, stuck("%v", err)
	}
	if blob == "" {
		return sheetVersion{}, misuse("%s was not in this ledger then", n)
	}
	src, err := d.repo.Blob(ctx, blob)
	if err != nil {
		return sheetVersion{}, stuck("%v", err)
	}
	return sheetVersion{n, n.Path(), blob, src, decoded(n.Path(), src), tip}, nil
}

// readVersion reads a version of a record for the history.
func (d *desk) readVersion(ctx context.Context, n ledger.Number, id ledger.BlobID) (history.Version, error) {
	src, err := d.repo.Blob(ctx, id)
	if errors.Is(err, ledger.ErrLarge) {
		src, err = make([]byte, ledger.MaxFile+1), nil // a version that could not be read
	}
	if err != nil {
		return history.Version{}, err
	}
	r, found := ledger.Decode(n.Path(), src)
	return history.Version{Record: r, Unread: history.Unreadable(found)}, nil
}

// teller prints a history.
type teller struct {
	desk *desk
	view *history.View
}

func (t *teller) tell(a *history.Account, r *ledger.Record) {
	who := strings.TrimSpace(r.Collector.Text + " " + r.CollNo.Text)
	read := reading.Of(r, reading.ConventionsOf(t.desk.museum))
	t.desk.say("%s", joinNonEmpty("  ", string(a.Number), joinNonEmpty(", ", who, t.desk.shownReading(read.Date))))
	if t.view.Incomplete() {
		t.desk.say("This copy does not have the whole history: entries before its first are not known here.")
	}
	s := t.desk.standing(r)
	if len(s.steps) > 0 {
		t.desk.say("%s", s.shown)
	}
	if s.notBy != "" {
		t.desk.say("No name stands: the last was taken back by %s.", s.notBy)
	}
	sections := []struct {
		title string
		rows  [][]string
	}{
		{"Names, newest first", t.names(a, read)},
		{"Corrections", t.fieldRows(a, func(f history.FieldChange) bool { return f.Before != "" })},
		{"Filled in later", t.fieldRows(a, func(f history.FieldChange) bool { return f.Before == "" })},
		{"Also", t.otherRows(a, r)},
	}
	widths := widthsOf(sections[0].rows, sections[1].rows, sections[2].rows, sections[3].rows)
	if len(a.Opinions) == 0 {
		t.desk.say("No name yet.")
	}
	for _, s := range sections {
		if len(s.rows) > 0 {
			t.desk.say("%s", s.title)
			t.desk.tableOf("  ", widths, s.rows)
		}
	}
	if a.Pending {
		t.desk.say("The file holds edits that are not yet entered.")
	}
}

// names are the opinions, newest first.
func (t *teller) names(a *history.Account, read *reading.Reading) (rows [][]string) {
	r := read.Record
	for _, n := range slices.Backward(t.desk.standing(r).steps) {
		rows = append(rows, []string{t.desk.shownIfAny(n.date), "renamed", n.of + "\n" + joinNonEmpty("; ", joinNonEmpty(": ", n.by, n.source), "in names/, the plant was not looked at")})
	}
	for _, o := range slices.Backward(a.Opinions) {
		x := &r.Determinations[o.At-1]
		rows = append(rows, []string{t.desk.shownReading(read.Opinions[o.At-1].Date), o.Happened.String(), t.opinionWords(a, o, x)})
	}
	return rows
}

// opinionWords are the name, who says so on what grounds, and who entered it.
func (t *teller) opinionWords(a *history.Account, o history.Opinion, x *ledger.Determination) string {
	lines := []string{t.desk.withAuthors(x.Name.Text)}
	entry := "not yet entered"
	if o.Entered >= 0 {
		entry = "entered by " + t.entryWords(o.Entered)
	} else if !a.Pending {
		entry = "entered before the history that is known here"
	}
	who := joinNonEmpty(", ", x.By.Text, x.At.Text, prefixed("from the ", x.From.Text, "slip", "list", "letter", "publication"), prefixed("saw the ", x.Seen.Text, "picture", "duplicate"), x.Part.Text)
	if why := joinNonEmpty("; ", x.Why.Text, x.Source.Text); why != "" {
		lines = append(lines, who+": "+why, entry)
	} else {
		lines = append(lines, who+"; "+entry)
	}
	switch {
	case o.State == opinion.Mistake:
		lines = append(lines, "entered by mistake: "+x.Mistake.Text)
	case o.State == opinion.Aside:
		lines = append(lines, "of a duplicate: it is the name here when somebody who saw this sheet agrees (--conf)")
	case o.State == opinion.Ended && o.EndedBy > 0:
		lines = append(lines, "ended by opinion "+itoa(o.EndedBy))
	}
	return strings.Join(lines, "\n")
}

// prefixed is word after what, if it is one of those worth saying.
func prefixed(what, word string, worth ...string) string {
	if !contains(worth, word) {
		return ""
	}
	return what + word
}

func joinNonEmpty(sep string, words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), sep)
}

// entryWords are who made the entry at a place of the view, when, and its
// revision.
func (t *teller) entryWords(place int) string {
	c := t.view.Commit(place)
	return fmt.Sprintf("%s, %s, %s", c.Author.Name, t.dayOf(c), c.ID[:7])
}

func (t *teller) dayOf(c history.Commit) string {
	return c.Author.When.In(t.desk.zone).Format("2 January 2006")
}

// fieldRows are the changes of fields of a kind, newest first.
func (t *teller) fieldRows(a *history.Account, wanted func(history.FieldChange) bool) [][]string {
	var rows [][]string
	for _, ch := range slices.Backward(a.Changes) {
		if ch.Kinds.Has(history.New) || ch.Place < 0 {
			continue
		}
		c := t.view.Commit(ch.Place)
		for _, f := range together(ch.Fields) {
			if !wanted(f) {
				continue
			}
			rows = append(rows, []string{t.dayOf(c), fieldWords(f.Path), alteredWords(f, ch.Reason) + "   " + c.Author.Name + ", " + c.ID[:7]})
		}
	}
	return rows
}

// together makes one change of what was filled in of one group, such as
// filed_under, and leaves out that an opinion is a mistake: the opinion itself
// says so.
func together(fields []history.FieldChange) []history.FieldChange {
	var out []history.FieldChange
	for _, f := range fields {
		head, rest, _ := strings.Cut(f.Path, ".")
		switch {
		case f.Before == "" && head == "determinations" && strings.HasSuffix(f.Path, ".mistake"):
			continue
		case f.Before == "" && head == "read":
			what, _, _ := strings.Cut(rest, ".")
			f.Path = "read." + what
		case f.Before == "" && head == "filed_under":
			f.Path = head
		}
		if n := len(out); n > 0 && out[n-1].Path == f.Path && f.Before == "" && out[n-1].Before == "" {
			out[n-1].After += ", " + f.After
			continue
		}
		out = append(out, f)
	}
	return out
}

// fieldWords is a field's name in a history: its last part, or its path where
// that says more.
func fieldWords(path string) string {
	if rest, ok := strings.CutPrefix(path, "place."); ok {
		return rest
	}
	if path == "specimen" {
		return "number"
	}
	return path
}

func alteredWords(f history.FieldChange, reason string) string {
	s := f.Before + ", now " + f.After
	switch {
	case f.Before == "":
		s = f.After
	case f.After == "":
		s = f.Before + ", now nothing"
	}
	if f.Decided {
		s = cmp.Or(f.After, "nothing") + ", not " + cmp.Or(f.Before, "nothing") + " (decided between two)"
	}
	if reason != "" && f.Before != "" {
		s += fmt.Sprintf(": %q", reason)
	}
	return s
}

// otherRows are the entries in the other lists of the record: types, notes,
// fates.
func (t *teller) otherRows(a *history.Account, r *ledger.Record) [][]string {
	lists := map[string][]ledger.Entry{}
	for _, l := range ledger.Lists(r) {
		lists[l.Field] = l.Entries
	}
	var rows [][]string
	for _, ch := range slices.Backward(a.Changes) {
		for _, e := range ch.Entered {
			list := lists[e.List]
			if e.List == "determinations" || e.At < 1 || e.At > len(list) || ch.Place < 0 {
				continue
			}
			x := list[e.At-1]
			rows = append(rows, []string{t.desk.shownDate(x.Get("date")), otherWord(e.List, x), otherWords(e.List, x) + "   entered by " + t.entryWords(ch.Place)})
		}
	}
	return rows
}

func otherWord(list string, x ledger.Entry) string {
	switch list {
	case "types":
		return joinNonEmpty(" ", suspectedWord(x.Get("basis")), x.Get("status"))
	case "annotations":
		return x.Get("kind")
	}
	return x.Get("is")
}

func suspectedWord(basis string) string {
	if basis == "suspected" {
		return "possible"
	}
	return ""
}

func otherWords(list string, x ledger.Entry) string {
	switch list {
	case "types":
		return joinNonEmpty(", ", "of "+x.Get("of"), x.Get("published"), x.Get("by"))
	case "annotations":
		return joinNonEmpty(", ", x.Get("what"), x.Get("by"))
	}
	return joinNonEmpty(", ", x.Get("to"), x.Get("why"), x.Get("by"))
}
