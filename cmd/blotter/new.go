package main

import (
	"context"
	"errors"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/render/field"
)

func newCommand() *command {
	return &command{
		Name: "new", Family: famEnter, Synopsis: "[FIELD=VALUE...]",
		Says: "Makes the record of a new sheet, asking for what the label has.",
		Notes: []string{"It first asks for the number already on the sheet, typed or scanned; only without one it takes the next free one. " +
			"Ctrl-C at any question keeps the sheet as a draft. With FIELD=VALUE or --from it asks nothing.",
			"--from FILE: what all have in common, then each plant after a line ---, a QUESTION: ANSWER a line: the questions of the field form " +
				"(blotter print field --to form.txt; its gatherings become drafts) or any field of FORMAT.md. All are made or none."},
		Examples: []example{
			{"blotter new", "asks for everything"},
			{"blotter new --many --hold", "a box of labels: sheet after sheet, entered at the end by blotter enter"},
			{"blotter new --like 1204", "Enter repeats place, date and collector of 1204"},
			{"blotter new --from day.txt", "a day's gathering, or the field form filled in: place and date once, many plants"},
		},
		Args:  []argument{{"FIELD=VALUE", "fills a field by its path in FORMAT.md, or its last part; name= is the name on the label"}},
		Flags: joinFlags([]*flag{flagMany, flagNumber, flagLike, flagFrom, flagDrafts}, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"edit", "enter", "import"},
		Run: runNew,
	}
}

func runNew(ctx context.Context, c *call) error {
	if c.opts.on("many") {
		return newMany(ctx, c)
	}
	return newOne(ctx, c, true)
}

// newMany asks for sheets until somebody breaks off, or one cannot be entered.
// What was made by then is made.
func newMany(ctx context.Context, c *call) error {
	if !c.Asks || len(c.args) > 0 || c.opts.given("sheet") || c.opts.given("from") {
		return misuse("--many asks for one sheet after another: at a terminal, and without fields, --sheet or --from")
	}
	for made := 0; ; made++ {
		one := c.in(c.Dir)
		err := newOne(ctx, one, made == 0)
		one.close()
		if errors.Is(err, errInterrupted) && made > 0 {
			c.say("%s made.", count(made, "sheet"))
			return nil
		}
		if err != nil {
			return err
		}
	}
}

// newOne makes one sheet, or those of --from; first says how to answer.
func newOne(ctx context.Context, c *call, first bool) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	free, err := d.freeNumbers(ctx)
	if err != nil {
		return err
	}
	if from := c.opts.text("from"); from != "" {
		if len(c.args) > 0 || c.opts.given("sheet") {
			return misuse("--from brings all fields; nothing else is taken beside it")
		}
		return d.newGathering(ctx, from, free)
	}
	var like *ledger.Record
	if typed := c.opts.text("like"); typed != "" {
		n, err := d.rowNumber(typed)
		if err != nil {
			return err
		}
		if _, _, like, err = d.record(n); err != nil {
			return err
		}
	}
	given, err := newAssignments(c.args)
	if err != nil {
		return err
	}
	if len(given) == 0 && c.Asks {
		return d.newAsking(ctx, free, like, first)
	}
	if len(given) == 0 && like == nil {
		return misuse("there is nobody to ask, and no field is given").
			try(`blotter new collector="Signe Rask" date=14.vii.2025 country=Norway name="Ranunculus acris L."`)
	}
	return d.newFromArguments(ctx, free, like, given)
}

// newName, newBy and newNamed are answers that make up the first opinion.
const (
	newNameKey  = "name"
	newBy       = "det. by"
	newNamed    = "det. date"
	labelOrigin = "label"
)

// newAssignments reads FIELD=VALUE; name, det-by and det-date are the opinion
// on the label.
func newAssignments(args []string) (map[string]string, error) {
	all := map[string]string{}
	for _, arg := range args {
		key, value, ok := strings.Cut(arg, "=")
		switch key {
		case "name":
			key = newNameKey
		case "det-by":
			key = newBy
		case "det-date":
			key = newNamed
		default:
			list, err := readAssignments([]string{arg})
			if err != nil {
				return nil, err
			}
			key, value = list[0].path, list[0].value
		}
		if !ok {
			return nil, misuse("%q is no FIELD=VALUE", arg)
		}
		all[key] = strings.TrimSpace(value)
	}
	return all, nil
}

// repeated are the fields that --like, and = at a question, take from the
// last sheet.
var repeated = []string{"collector", "with", "date", "place.country", "place.province", "place.district", "place.locality",
	"place.position", "place.datum", "place.elevation", "habitat"}

// likeAnswers are the repeated fields of a record.
func likeAnswers(r *ledger.Record) map[string]string {
	out := map[string]string{}
	if r == nil {
		return out
	}
	have := map[string]string{}
	for _, kv := range ledger.Flatten(r) {
		have[kv.Key] = kv.Value
	}
	for _, path := range repeated {
		if path == "with" {
			out[path] = strings.Join(listWords(have, path), "; ")
		} else {
			out[path] = have[path]
		}
	}
	return out
}

// newFromArguments makes one sheet without a question.
func (d *desk) newFromArguments(ctx context.Context, free func() (ledger.Number, error), like *ledger.Record, given map[string]string) error {
	answers := likeAnswers(like)
	for k, v := range given {
		answers[k] = v
	}
	n := ledger.Number(d.opts.text("sheet"))
	if n == "" {
		n = ledger.Number(given["specimen"])
	}
	delete(answers, "specimen")
	if n == "" {
		return d.newNextFree(ctx, free, answers)
	}
	if onlyDigits().MatchString(string(n)) {
		n = fullNumber(string(n), d)
	}
	if err := d.mayBeGiven(ctx, n); err != nil {
		return err
	}
	return d.enterNew(ctx, n, answers)
}

// newNextFree makes a sheet of the next free number; when another command
// takes that one meanwhile, of the one after.
func (d *desk) newNextFree(ctx context.Context, free func() (ledger.Number, error), answers map[string]string) error {
	for {
		n, err := free()
		if err != nil {
			return err
		}
		if err := d.enterNew(ctx, n, answers); !errors.Is(err, errOvertaken) {
			return err
		}
	}
}

// enterNew makes one sheet and enters it.
func (d *desk) enterNew(ctx context.Context, n ledger.Number, answers map[string]string) error {
	c, err := d.newRecord(n, answers, d.opts.on("draft"))
	if err != nil {
		return err
	}
	r, err := d.enter(ctx, entry{changes: []fileChange{c}})
	if err != nil {
		return err
	}
	d.reportNew(r, []fileChange{c})
	return nil
}

// reportNew says where the new sheets are, and how those of a practice museum
// compare with their labels.
func (d *desk) reportNew(r entered, changes []fileChange) {
	d.reportWritten(r, changes)
	if !d.isPractice() || r.dry {
		return
	}
	var numbers []ledger.Number
	for _, c := range changes {
		if n, ok := ledger.NumberOfPath(c.path); ok {
			numbers = append(numbers, n)
		}
	}
	if err := d.comparePractice(numbers); err != nil {
		d.tell("%v", err)
	}
}

func (d *desk) reportWritten(r entered, changes []fileChange) {
	if r.held {
		for _, c := range changes {
			d.say("%s written, not yet entered: %s", sheetOrPath(c.path), c.path)
		}
		if len(changes) == 1 {
			d.next("blotter edit %s", d.briefPath(changes[0].path))
		}
		return
	}
	first, last := sheetOrPath(changes[0].path), sheetOrPath(changes[len(changes)-1].path)
	what := "1 new sheet, " + first
	if len(changes) > 1 {
		what = count(len(changes), "new sheet") + ", " + first + " to " + last
	}
	d.report(r, what)
}

// newRecord is the file of a new sheet with these answers. It is a full
// record when it has place, date and collector, else a draft.
func (d *desk) newRecord(n ledger.Number, answers map[string]string, draft bool) (fileChange, error) {
	r := &ledger.Record{Path: n.Path()}
	r.Specimen.Text = string(n)
	r.Entry.Text = string(ledger.Full)
	placed := false
	for path, v := range answers {
		placed = placed || v != "" && strings.HasPrefix(path, "place.")
	}
	if draft || !placed || answers["date"] == "" || answers["collector"] == "" {
		r.Entry.Text = string(ledger.Draft)
	}
	if e := answers["entry"]; e != "" {
		r.Entry.Text = e
	}
	var ops []ledger.Op
	for _, f := range ledger.Fields() {
		v := answers[f.Path]
		if v == "" || f.Path == "entry" || f.Path == field.MadePath {
			continue
		}
		if f.Kind == ledger.Texts {
			ops = append(ops, ledger.SetList(f.Path, splitList(v)...))
		} else {
			ops = append(ops, ledger.Set(f.Path, v))
		}
	}
	for path, v := range answers { // entries of lists, such as read.date.is, stand in the table; what is left was typed with a number
		if _, ok := ledger.FieldAt(ledger.RecordKind, path); ok && strings.ContainsAny(path, "0123456789") {
			return fileChange{}, misuse("%s=%s: entries of lists are filled in with edit", path, v)
		}
	}
	if name := answers[newNameKey]; name != "" {
		ops = append(ops, firstOpinion(answers))
	}
	if made := answers[field.MadePath]; made != "" {
		ops = append(ops, ledger.Append("duplicates", ledger.KV{Key: "made", Value: made}))
	}
	src, err := ledger.Edit(ledger.Encode(r), ops...)
	if err != nil {
		return fileChange{}, refusedEdit(n, err)
	}
	return fileChange{path: n.Path(), new: src}, nil
}

// firstOpinion is the name on the label as the record's first determination.
// Whoever collected the plant named it, and on that day, unless it is said
// otherwise.
func firstOpinion(answers map[string]string) ledger.Op {
	by, date := answers[newBy], answers[newNamed]
	if by == "" {
		by = answers["collector"]
	}
	if by == "" {
		by = "unsigned"
	}
	if date == "" {
		date = answers["date"]
	}
	if date == "" {
		date = "s.d."
	}
	return ledger.Append("determinations", ledger.KV{Key: "name", Value: capitalGenus(answers[newNameKey])}, ledger.KV{Key: "kind", Value: "det"},
		ledger.KV{Key: "by", Value: by}, ledger.KV{Key: "date", Value: date}, ledger.KV{Key: "from", Value: labelOrigin})
}

// splitList cuts a list of words at semicolons, or at commas when there is
// none.
func splitList(v string) []string {
	sep := ";"
	if !strings.Contains(v, sep) {
		sep = ","
	}
	var out []string
	for _, w := range strings.Split(v, sep) {
		if w = strings.TrimSpace(w); w != "" {
			out = append(out, w)
		}
	}
	return out
}

// readBack is what the program reads in an answer, to be shown beside it; ""
// when there is nothing to say. doubt asks for the answer once more.
func (d *desk) readBack(path, typed string) (shown string, doubt bool) {
	switch path {
	case "date", newNamed:
		r := dates.Read(typed, dates.OrderOf(d.museum.Dates.Order.Text))
		if both := twoWays(typed, r, d.todayAsDay()); both != "" {
			return both, true
		}
		if r.Known() && r.String() != typed {
			return "read as " + r.String(), false
		}
		if !r.Known() && r.None == dates.Stated {
			return "is not read as a date; it stays as typed", false
		}
	case newNameKey:
		said := typed
		typed = capitalGenus(typed)
		if k, ok := d.authorsOf(typed); ok {
			return typed + " " + k.authors + " (authors from " + k.path + ")", false
		}
		if words := unreadName(typed); words != "" {
			return words, false
		}
		if typed != said {
			return typed, false
		}
	case "with":
		return noPerson(typed)
	case "place.position":
		return readPosition(typed)
	case "place.elevation":
		return readHeight(typed)
	case "place.uncertainty", "place.gps_accuracy":
		return readLength(typed)
	}
	return "", false
}
