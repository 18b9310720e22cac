package main

import (
	"context"
	"errors"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/work"
)

func openCommand() *command {
	return &command{
		Name: "open", Family: famEnter, Synopsis: "KIND [EVENT] [CONTENTS] [FIELD=VALUE...]",
		Says: "Opens a batch or movement, with its first line.",
		Notes: []string{"CONTENTS are sheets (482, 480..489, 482,485, all, - for a scanner), plants without a number by collector and number in quotes " +
			`("Signe Rask 1311..1320"), and a counted bundle ("120 folds" --what "Carex, box 3"). ` +
			"EVENT is the first thing that happened when that is another than usual. Fields of the heading that have no flag are FIELD=VALUE.",
			"Kinds: " + strings.Join(workKindNames(), ", ") + "."},
		Examples: []example{
			{"blotter open freezer 1180..1201", "these sheets go into the freezer now"},
			{`blotter open press "Signe Rask 1311..1320" --plants "thin herb" --weather humid`, "a load of the press, before there are numbers"},
			{`blotter open loan 480..489 --partner "FJ3 Fjellheim Museum" --purpose "revision of Ranunculus"`, "asked for; the next lines tell the rest"},
		},
		Args: []argument{{"KIND", "what it is, for example press, freezer, mounting, loan, permit"}, {"EVENT", "what happened first, for example granted; otherwise what usually opens the kind"},
			{"CONTENTS", "what it is about"}, {"FIELD=VALUE", "a field of the heading by its path in FORMAT.md, or its last part: permit.to=2026-09-30"}},
		Flags: joinFlags(workHeadFlags, workLineFlags, contentFlags, sheetFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"add", "log", "close", "show"}, Kinds: workKindNames(), Complete: "",
		Run: runOpen,
	}
}

// opening is one run of open.
type opening struct {
	desk   *desk
	kind   ledger.WorkKind
	plan   workPlan
	event  string
	head   []ledger.Op // on the heading
	inHead []string    // fields that stand in the heading
	line   []ledger.KV // "" for none
	contents
}

func runOpen(ctx context.Context, c *call) error {
	if len(c.args) == 0 {
		return misuse("what is opened?").try("Kinds: "+strings.Join(workKindNames(), ", "), "blotter open freezer 1180..1201")
	}
	kind, err := kindTyped(c.args[0])
	if err != nil {
		return err
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	o := &opening{desk: d, kind: kind, plan: workPlans[kind.Name], event: kind.Opens}
	words, pairs := splitPairs(c.args[1:])
	if len(words) > 0 && (slices.Contains(kind.Events, words[0]) || words[0] == ledger.EventClosed) {
		o.event, words = words[0], words[1:]
	}
	if o.contents, err = d.contents(ctx, words); err != nil {
		return err
	}
	if err := o.heading(pairs); err != nil {
		return err
	}
	if o.line, err = d.lineFields(kind.Name, o.inHead); err != nil {
		return err
	}
	o.line = append(append(o.line, ledger.KV{Key: "event", Value: o.event}), o.fields...)
	if err := o.whole(); err != nil {
		return err
	}
	if ok, err := d.consentIfPicked(ctx, o.picked, "Open a "+kind.Name+" with "+count(len(o.specimens), "sheet")+"?"); !ok {
		return err
	}
	return o.enter(ctx)
}

// kindTyped is the kind of work that was typed.
func kindTyped(typed string) (ledger.WorkKind, error) {
	if k, ok := ledger.WorkKindOf(typed); ok {
		return k, nil
	}
	if near := nearest(typed, workKindNames()); near != "" {
		return ledger.WorkKind{}, misuse("there is no kind of work %q; did you mean %s?", typed, near)
	}
	return ledger.WorkKind{}, misuse("there is no kind of work %q", typed).try("Kinds: " + strings.Join(workKindNames(), ", "))
}

// heading takes the flags and FIELD=VALUE that fill the heading.
func (o *opening) heading(pairs []string) error {
	has := append([]string{"title", "person", "note"}, o.kind.Heading...)
	for _, f := range slices.Concat(workHeadFlags, workLineFlags) {
		values, field := o.desk.opts.list(f.Name), strings.ReplaceAll(f.Name, "-", "_")
		row, isHead := ledger.FieldAt(ledger.WorkFileKind, field)
		if len(values) == 0 || !isHead {
			continue
		}
		if !slices.Contains(has, field) {
			if slices.Contains(workHeadFlags, f) {
				return misuse("a %s has no %s", o.kind.Name, field).try("Fields of its heading: " + strings.Join(has, ", "))
			}
			continue
		}
		o.inHead = append(o.inHead, f.Name)
		o.set(row, values)
	}
	for _, p := range pairs {
		name, value, _ := strings.Cut(p, "=")
		row, err := o.headField(strings.TrimSpace(name), has)
		if err != nil {
			return err
		}
		o.inHead = append(o.inHead, row.Path)
		if row.Kind == ledger.Texts {
			o.set(row, splitList(value))
		} else {
			o.set(row, []string{strings.TrimSpace(value)})
		}
	}
	return nil
}

func (o *opening) set(row ledger.Field, values []string) {
	if row.Kind == ledger.Texts {
		o.head = append(o.head, ledger.SetList(row.Path, values...))
	} else {
		o.head = append(o.head, ledger.Set(row.Path, values[0]))
	}
}

// headField is the field of the heading that a name means: its path, or the
// last part of it.
func (o *opening) headField(name string, has []string) (ledger.Field, error) {
	var names []string
	for _, f := range ledger.FieldsOf(ledger.WorkFileKind) {
		top, _, _ := strings.Cut(f.Path, ".")
		if !slices.Contains(has, top) || f.Kind == ledger.Group {
			continue
		}
		if f.Path == name || f.Key() == name {
			return f, nil
		}
		names = append(names, f.Path)
	}
	if near := nearest(name, names); near != "" {
		return ledger.Field{}, misuse("the heading of a %s has no field %q; did you mean %s?", o.kind.Name, name, near)
	}
	return ledger.Field{}, misuse("the heading of a %s has no field %q", o.kind.Name, name).try("Its fields: " + strings.Join(names, ", "))
}

// whole refuses a work that says too little to be one.
func (o *opening) whole() error {
	for _, need := range o.plan.needs {
		switch {
		case need == "contents" && len(o.fields) == 0:
			return misuse("what goes into the %s?", o.kind.Name).try("Sheets (1180..1201), - for a scanner, \"Signe Rask 1311..1320\", or a bundle: \"120 folds\"")
		case need != "contents" && !slices.Contains(o.inHead, need):
			return misuse("a %s wants its %s: --%s", o.kind.Name, need, need)
		}
	}
	if o.plan.bare && len(o.line) == 3 { // date, by and event say nothing yet
		o.line = nil
	}
	return nil
}

// enter gives the work the next free number of the year and enters it; when
// another command takes that one meanwhile, the one after.
func (o *opening) enter(ctx context.Context) error {
	free, err := o.desk.freeWorks(ctx, o.kind.Name, yearOf(o.line, o.desk.todayAsDay().Year()))
	if err != nil {
		return err
	}
	for {
		n := free()
		c, err := o.asFile(n)
		if err != nil {
			return err
		}
		f, _ := work.Read(c.path, c.new)
		if err := o.desk.mayGo(ctx, f, o.event, o.specimens, o.line); err != nil {
			return err
		}
		r, err := o.desk.enter(ctx, entry{changes: []fileChange{c}, subject: string(n) + " opened" + prefixedAny(": ", thingsIn(n.Kind(), o.line))})
		if errors.Is(err, errOvertaken) {
			continue
		}
		if err != nil {
			return err
		}
		o.desk.sayWork(r, f, o.line, string(n)+" opened")
		return nil
	}
}

// yearOf is the year of a line's day.
func yearOf(line []ledger.KV, otherwise int) int {
	for _, kv := range line {
		if day, _, ok := momentOf(kv.Value); kv.Key == "date" && ok {
			return day.Year()
		}
	}
	return otherwise
}

// asFile is the new work as a file.
func (o *opening) asFile(n ledger.WorkNumber) (fileChange, error) {
	w := &ledger.Work{Path: n.Path()}
	w.Work.Text = string(n)
	ops := o.head
	if len(o.line) > 0 {
		ops = append(slices.Clone(ops), ledger.Append("lines", o.line...))
	}
	src, err := ledger.EditFile(ledger.WorkFileKind, ledger.EncodeWork(w), ops...)
	if err != nil {
		return fileChange{}, refusedWork(n, err)
	}
	return fileChange{path: n.Path(), new: src}, nil
}

// freeWorks gives one free running number of a kind and year after the other:
// above all that are or ever were.
func (d *desk) freeWorks(ctx context.Context, kind string, year int) (func() ledger.WorkNumber, error) {
	used := d.workNumbers()
	if d.repo != nil {
		before, err := d.repo.WorkNumbersUsed(ctx, d.cache())
		if err != nil {
			return nil, stuck("%v", err)
		}
		used = append(used, before...)
	}
	highest, start := 0, kind+"-"+itoa(year)+"-"
	for _, n := range used {
		if no, ok := strings.CutPrefix(string(n), start); ok {
			highest = max(highest, atoi(no))
		}
	}
	return func() ledger.WorkNumber {
		highest++
		return workNumber(kind, itoa(year), itoa(highest))
	}, nil
}
