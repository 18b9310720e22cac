package main

import (
	"context"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

func addCommand() *command {
	return &command{
		Name: "add", Family: famEnter, Synopsis: "WORK CONTENTS",
		Says: "Adds to a batch or movement what it did not hold yet.",
		Examples: []example{
			{"blotter add freezer-2026-003 1202..1204", "three more sheets go in"},
			{`blotter add press-2026-007 "Signe Rask 1321..1324"`, "plants without a number yet"},
			{`blotter add accession-2026-002 "40 folds" --what "mosses, box 2" --how estimated`, "a counted bundle"},
		},
		Args:  []argument{{"WORK", "its number: freezer-2026-003"}, {"CONTENTS", `sheets (480..489, - for a scanner), "Signe Rask 1311", "120 folds"`}},
		Flags: joinFlags(workLineFlags, contentFlags, sheetFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"open", "log", "show"}, Complete: "sheets",
		Run: runAdd,
	}
}

func logCommand() *command {
	return &command{
		Name: "log", Family: famEnter, Synopsis: "WORK EVENT [CONTENTS]",
		Says: "Writes what happened to a batch or movement, as one more line.",
		Notes: []string{"Without CONTENTS the line is about all that the work holds at that moment. Nothing that was written is altered: " +
			"a line that should not be there is marked: blotter set WORK lines.2.mistake=REASON --why TEXT.",
			"Sheets that are not to go (types, the only ones of their kind, protected or listed plants, what a permit keeps) are not sent or sampled without --why TEXT. " +
				"A round through the cabinets takes any list of scans, seen - or seen --from FILE: what belongs in another cabinet than --to is misplaced, what no record bears is noted as scanned. " +
				"Else --from FILE is kept beside the work's own file; with a returned loan a table of it (.csv, .tsv, .xlsx) is the names that came back, and is taken up as by determine --from."},
		Examples: []example{
			{"blotter log loan-2026-004 sent --number 'parcel 31'", "all of it went off today"},
			{"blotter log loan-2026-004 returned 480..484 --grade 2", "some came back"},
			{"blotter log loan-2026-004 returned --from slips.csv", "all are back, with new names: number,name,by,date,kind,why"},
		},
		Args: []argument{{"WORK", "its number: loan-2026-004"}, {"EVENT", "a word of FORMAT.md: approved, sent, returned, ..."},
			{"CONTENTS", "to what; without them to all that it holds"}},
		Flags: joinFlags([]*flag{flagFrom}, workLineFlags, contentFlags, sheetFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"open", "close", "show"}, Complete: "sheets",
		Run: runLog,
	}
}

func closeCommand() *command {
	return &command{
		Name: "close", Family: famEnter, Synopsis: "WORK",
		Says: "Ends a batch or movement: the papers are dry, the freezer is empty, the loan is back.",
		Examples: []example{
			{"blotter close freezer-2026-003 --from logger.csv", "out of the freezer, with the logger's table"},
			{"blotter close mounting-2026-004", "the weights are lifted"},
			{"blotter close loan-2026-004 --note 'all 40 back'", "nothing is open any more"},
		},
		Args:  []argument{{"WORK", "its number: freezer-2026-003"}},
		Flags: joinFlags([]*flag{flagFrom}, workLineFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"open", "log", "show"}, Complete: "sheets",
		Run: runClose,
	}
}

// lining is one run of add, log or close.
type lining struct {
	*desk
	file  *work.File
	event string
	contents
	also  []fileChange // files that come with the line
	after func() error // what is left to do when it is entered; nil: nothing
}

func (c *call) lining(example string) (*lining, error) {
	if len(c.args) == 0 {
		return nil, misuse("which work?").try(example)
	}
	d, err := c.desk()
	if err != nil {
		return nil, err
	}
	n, err := d.workArgument(c.args[0])
	if err != nil {
		return nil, err
	}
	src, _, err := d.work(n)
	if err != nil {
		return nil, err
	}
	f, found := work.Read(n.Path(), src)
	if errs, _ := countFindings(found); errs > 0 {
		d.viewOf(d.env, nil).show(found)
		return nil, errFindings
	}
	return &lining{desk: d, file: f}, nil
}

func runAdd(ctx context.Context, c *call) error {
	l, err := c.lining("blotter add freezer-2026-003 1202..1204")
	if err != nil {
		return err
	}
	l.event = l.file.Kind.Opens
	if l.contents, err = l.desk.contents(ctx, c.args[1:]); err != nil {
		return err
	}
	if len(l.fields) == 0 {
		return misuse("what is added to %s?", l.file.Number).try("Sheets (1202..1204), - for a scanner, \"Signe Rask 1311\", or a bundle: \"40 folds\"")
	}
	return l.enter(ctx, string(l.file.Number))
}

func runLog(ctx context.Context, c *call) error {
	l, err := c.lining("blotter log loan-2026-004 sent")
	if err != nil {
		return err
	}
	if len(c.args) < 2 {
		return misuse("what happened to %s?", l.file.Number).try("Events of a " + l.file.Kind.Name + ": " + strings.Join(append(slices.Clone(l.file.Kind.Events), ledger.EventClosed), ", "))
	}
	if l.event, err = mayHappen(l.file.Kind, c.args[1]); err != nil {
		return err
	}
	if l.scanned(c.args[2:]) {
		return l.enterScans(ctx, c.args[2:])
	}
	if l.contents, err = l.desk.contents(ctx, c.args[2:]); err != nil {
		return err
	}
	return l.enter(ctx, string(l.file.Number))
}

func runClose(ctx context.Context, c *call) error {
	l, err := c.lining("blotter close freezer-2026-003")
	if err != nil {
		return err
	}
	if len(c.args) > 1 {
		return misuse("close is about all that %s holds; %q is too much", l.file.Number, c.args[1]).
			try("Only some of it: blotter log " + string(l.file.Number) + " " + l.file.Kind.Closes + " " + c.args[1])
	}
	l.event = l.file.Kind.Closes
	for _, e := range l.file.Events {
		if e.Verb == l.event && e.All() {
			return misuse("%s is closed already: %s, %s", l.file.Number, e.Verb, l.shownMoment(e.Line.Date.Text)).
				try("What happened after it: blotter log "+string(l.file.Number)+" EVENT", "Entered by mistake: blotter set "+string(l.file.Number)+" lines."+itoa(e.N+1)+".mistake=REASON --why TEXT")
		}
	}
	return l.enter(ctx, string(l.file.Number)+" closed")
}

// enter writes the line and enters it.
func (l *lining) enter(ctx context.Context, title string) error {
	fields, err := l.lineFields(l.file.Kind.Name, nil)
	if err != nil {
		return err
	}
	fields = append(append(fields, ledger.KV{Key: "event", Value: l.event}), l.fields...)
	if err := l.mayGo(ctx, l.file, l.event, l.specimens, fields); err != nil {
		return err
	}
	switch from := l.opts.text("from"); {
	case from == "":
	case l.file.Kind.Name == "loan" && l.event == "returned" && annotated(from):
		day, _, _ := momentOf(lineWord(fields, "date"))
		if ok, err := l.takeUp(ctx, from, day); !ok {
			return err
		}
	default:
		kv, err := l.bring(from)
		if err != nil {
			return err
		}
		fields = append(fields, kv)
	}
	if fields, err = l.judgeFreezer(fields); err != nil {
		return err
	}
	if fields, err = l.judgeClimate(fields); err != nil {
		return err
	}
	c, err := l.appendLine(l.file, fields...)
	if err != nil {
		return err
	}
	if ok, err := l.consentIfPicked(ctx, l.picked, "Write this of "+count(len(l.specimens), "sheet")+"?"); !ok {
		return err
	}
	r, err := l.desk.enter(ctx, entry{changes: append([]fileChange{c}, l.also...), subject: string(l.file.Number) + " " + l.event + prefixedAny(": ", thingsIn(l.file.Kind.Name, fields))})
	if err != nil {
		return err
	}
	f, _ := work.Read(c.path, c.new)
	l.sayWork(r, f, fields, title)
	if l.after != nil && r.id != "" {
		return l.after()
	}
	return nil
}

// bring puts a file beside the work's own: a logger's table, a scanned paper.
func (l *lining) bring(from string) (ledger.KV, error) {
	name := inDir(l.Dir, from)
	b, err := os.ReadFile(name)
	if err != nil {
		return ledger.KV{}, stuck("read %s: %v", from, err)
	}
	if len(b) > ledger.MaxFile {
		return ledger.KV{}, stuck("%s is larger than %d bytes, the most that a file of the ledger may have", from, ledger.MaxFile)
	}
	ending := strings.ToLower(filepath.Ext(name))
	for i := 1; ; i++ {
		base := string(l.file.Number) + ending
		if i > 1 {
			base = string(l.file.Number) + "-" + itoa(i) + ending
		}
		at := path.Join(path.Dir(l.file.Path), base)
		old, err := l.read(at)
		if err != nil {
			return ledger.KV{}, err
		}
		if old == nil && ending != ".yaml" {
			l.also = append(l.also, fileChange{path: at, new: b})
			return ledger.KV{Key: "file", Value: base}, nil
		}
	}
}

// sayWork says what was done to a work, what its plan makes of it, what to be
// careful of and what comes next.
func (d *desk) sayWork(r entered, f *work.File, line []ledger.KV, title string) {
	p := &planned{desk: d, file: f, habits: ledger.WithStandard(d.museum)}
	p.event = eventOfLine(f, line)
	plan := workPlans[f.Kind.Name]
	words := title
	if p.event != nil {
		verb := verbWords(p.event.Verb)
		if strings.HasSuffix(title, " "+verb) {
			verb = ""
		}
		what := joinNonEmpty(" ", thingsOf(p.event.Items), verb, d.whenWords(p.event))
		if title == string(f.Number) {
			words += ": " + what
		} else {
			words += prefixedAny(", ", what)
		}
	}
	words = strings.TrimSuffix(words, ".") + "."
	if plan.said != nil {
		words = joinNonEmpty(" ", words, plan.said(p))
	}
	d.say("%s", wrap(words, d.Width, ""))
	if opened := strings.HasSuffix(title, " opened"); plan.caution != "" && opened {
		d.say("%s", wrap("Caution: "+joinNonEmpty(" ", plan.caution, ownRules), d.Width, ""))
	}
	switch {
	case r.held:
		d.say("Written, not yet entered: %s", f.Path)
		d.next("blotter enter %s", f.Number)
		return
	case r.dry:
		d.tell("Nothing was changed: --dry-run.")
		return
	}
	next := nextOf(f)
	if plan.next != nil {
		next = plan.next(p)
	}
	if next != "" {
		d.next("%s", next)
	}
	d.warnOfHooks()
}

// eventOfLine is the event that the line just written is.
func eventOfLine(f *work.File, line []ledger.KV) *work.Event {
	want := ledger.KV{}
	verb := ""
	for _, kv := range line {
		switch kv.Key {
		case "date":
			want = kv
		case "event":
			verb = kv.Value
		}
	}
	for _, e := range slices.Backward(f.Events) {
		if e.Line.Date.Text == want.Value && e.Verb == verb {
			return e
		}
	}
	return nil
}

// thingsIn says how much the fields of a line name.
func thingsIn(kind string, line []ledger.KV) string {
	w, err := ledger.EditFile(ledger.WorkFileKind, nil, ledger.Append("lines", line...))
	if err != nil || len(line) == 0 {
		return ""
	}
	f, _ := work.Read(ledger.WorkNumber(kind+"-2000-001").Path(), w)
	if f == nil || len(f.Events) == 0 {
		return ""
	}
	return thingsOf(f.Events[0].Items)
}

// verbWords is an event as a person says it.
func verbWords(verb string) string { return strings.ReplaceAll(verb, "-", " ") }

// whenWords is "at 09:40", or "on 1 November 2026" for another day.
func (d *desk) whenWords(e *work.Event) string {
	on := ""
	if e.Day != d.todayAsDay() || e.First != e.Day {
		on = "on " + dates.Words(e.Day)
		if e.First != e.Day {
			on = "in " + d.shownDate(e.Line.Date.Text)
		}
	}
	if e.Clock >= 0 {
		on = joinNonEmpty(" ", on, "at "+clockWords(e.Clock))
	}
	return on
}

// shownMoment is a line's date in words, with its time of day.
func (d *desk) shownMoment(words string) string {
	r, clock := work.ReadMoment(words)
	if !r.Known() {
		return words
	}
	if clock < 0 {
		return r.String()
	}
	return r.String() + ", " + clockWords(clock)
}
