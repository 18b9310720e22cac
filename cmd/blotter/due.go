package main

import (
	"context"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/disk"
	"blotter/ledger/work"
	"blotter/ledger/work/due"
)

var flagWithin = &flag{Name: "within", Value: "TIME", Help: "how far ahead to look: 14d, 2 weeks; 7 days unless said"}

// dueDays is how far ahead due looks unless it is told.
const dueDays = 7

func dueCommand() *command {
	return &command{
		Name: "due", Family: famAsk,
		Says: "Tells what needs a hand: papers to change, loans due, traps to read; one list, sorted by date.",
		Notes: []string{"Of a batch the next step stands here; show WORK has all of them. --to FILE.ics writes a calendar for a phone, with every step: " +
			"what has an hour in UTC, all else as whole days, the same bytes for the same revision and day."},
		Examples: []example{
			{"blotter due", "today and the next 7 days"},
			{"blotter due --on 1.xii.2026 --within 30d", "the December to come"},
			{"blotter due --within 60d --to due.ics", "as a calendar (iCalendar)"},
		},
		Flags: joinFlags([]*flag{flagOn, flagWithin, flagAt, flagTo, flagNoCache}, askFlags),
		Kin:   []string{"status", "show", "log", "close"},
		Run:   runDue,
	}
}

func runDue(ctx context.Context, c *call) error {
	if len(c.args) > 0 {
		return misuse("due tells of the whole museum; %q is too much", c.args[0]).try("One work: blotter show " + c.args[0])
	}
	within, err := daysAhead(c.opts.text("within"))
	if err != nil {
		return err
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	day, err := d.onDay()
	if err != nil {
		return err
	}
	things, w, err := d.due(ctx, day, within)
	if err != nil {
		return err
	}
	if to := c.opts.text("to"); to != "" {
		return d.dueCalendar(ctx, to, things, day, within)
	}
	if c.asksJSON() {
		return d.dueJSON(things)
	}
	d.showDue(things, day, within)
	d.dueProblems(w)
	return nil
}

var daysWord = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([0-9]{1,4}) *(d|days?)?$`) })

// daysAhead reads --within.
func daysAhead(typed string) (int, error) {
	typed = strings.TrimSpace(typed)
	if typed == "" {
		return dueDays, nil
	}
	if m := daysWord().FindStringSubmatch(typed); m != nil {
		return atoi(m[1]), nil
	}
	if p, ok := work.ReadPeriod(typed); ok {
		return p.Days + p.Months*31, nil
	}
	return 0, misuse("--within %s is not read as a time", typed).try("For example 14d, 2 weeks, 1 month")
}

// due is what needs a hand on a day, by the work tree or by --at.
func (d *desk) due(ctx context.Context, day dates.Day, within int) ([]due.Thing, *work.Works, error) {
	w, err := d.worksAt(ctx, d.opts.text("at"))
	if err != nil {
		return nil, nil, err
	}
	src := d.source()
	if rev := d.opts.text("at"); rev != "" {
		id, err := d.revision(ctx, rev)
		if err == nil {
			src, err = d.repo.At(ctx, id)
		}
		if err != nil {
			return nil, nil, err
		}
	}
	load := w.Book().Loader(src, d.cache())
	print, err := d.toPrint(ctx, w, load)
	if err != nil {
		return nil, nil, err
	}
	things, err := due.List(ctx, w, due.On{Print: print.due(), Day: day, Within: within, Zone: d.zone, Record: func(ctx context.Context, e *book.Entry) (*ledger.Record, error) { return load.Record(ctx, e) }})
	if err != nil {
		return nil, nil, stuck("%v", err)
	}
	return things, w, nil
}

// showDue prints the list: when, which work, what to do.
func (d *desk) showDue(things []due.Thing, day dates.Day, within int) {
	d.say("%s %s", weekdays[day.Weekday()-1], dates.Words(day))
	var rows, questions [][]string
	late, next := 0, ""
	for _, t := range things {
		switch {
		case t.Kind == due.Question:
			questions = append(questions, []string{string(t.Sheet), t.What})
			continue
		case t.Later:
			continue
		}
		about := string(t.Work)
		if about == "" && len(t.Sheets) > 0 && t.Kind != due.Print {
			about = t.Sheets[0]
		}
		if t.Late {
			late++
		}
		if next == "" {
			next = t.Next
		}
		rows = append(rows, []string{pad(d.whenDue(t, day), 6), about, t.What})
	}
	widths := widthsOf(rows)
	for _, row := range rows {
		if strings.TrimSpace(row[0]) == "late" {
			row[0] = d.colour("31", row[0])
		}
	}
	d.tableOf("  ", widths, rows)
	if len(questions) > 0 {
		d.say("  questions")
		d.tableOf("    ", widthsOf(questions), questions)
		if next == "" {
			next = "blotter show " + questions[0][0]
		}
	}
	d.say("%s", dueSum(len(rows), late, len(questions), within))
	if next != "" {
		d.next("%s", next)
	}
}

// dueSum is the last line: how many things, how many of them late.
func dueSum(n, late, questions, within int) string {
	ahead := "today"
	switch {
	case within == 1:
		ahead = "today and tomorrow"
	case within > 1:
		ahead = "in the next " + count(within, "day")
	}
	words := "Nothing needs a hand " + ahead
	switch {
	case n > 0 && late > 0:
		words = count(n, "thing") + " " + ahead + ", " + thousands(late) + " of them late"
	case n > 0:
		words = count(n, "thing") + " " + ahead
	}
	if questions > 0 {
		words += "; " + count(questions, "question")
	}
	return words + "."
}

// whenDue is "late", "today" or the day in short.
func (d *desk) whenDue(t due.Thing, day dates.Day) string {
	switch {
	case t.Late:
		return "late"
	case t.Day <= day:
		return "today"
	case t.Day.Year() == day.Year():
		w := dates.Short(t.Day)
		return w[:strings.LastIndexByte(w, ' ')]
	}
	return dates.Short(t.Day)
}

var weekdays = [...]string{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"}

// dueProblems tells of habits by which a batch has no calendar.
func (d *desk) dueProblems(w *work.Works) {
	for _, p := range due.DryingSettings(w.Habits.Drying).Problems() {
		d.tell("%s: habits.drying: %s", ledger.MuseumFile, p)
	}
}

// dueOut is one thing for programs.
type dueOut struct {
	Day    string   `json:"day"`
	Until  string   `json:"until,omitempty"`
	Time   string   `json:"time,omitempty"`
	Work   string   `json:"work,omitempty"`
	Sheet  string   `json:"sheet,omitempty"`
	Kind   string   `json:"kind"`
	What   string   `json:"what"`
	Sheets []string `json:"sheets,omitempty"`
	Next   string   `json:"next,omitempty"`
	Late   bool     `json:"late,omitempty"`
	Later  bool     `json:"later,omitempty"` // another step of the same batch comes before
}

func (d *desk) dueJSON(things []due.Thing) error {
	for _, t := range things {
		o := dueOut{Day: t.Day.String(), Work: string(t.Work), Sheet: string(t.Sheet), Kind: string(t.Kind), What: t.What, Sheets: t.Sheets, Next: t.Next, Late: t.Late, Later: t.Later}
		if t.Until > t.Day {
			o.Until = t.Until.String()
		}
		if t.Clock >= 0 {
			o.Time = clockWords(t.Clock)
		}
		if err := d.printJSON(o); err != nil {
			return err
		}
	}
	return nil
}

// dueCalendar writes the list as iCalendar.
func (d *desk) dueCalendar(ctx context.Context, to string, things []due.Thing, day dates.Day, within int) error {
	if ending := strings.ToLower(filepath.Ext(to)); ending != ".ics" && to != "-" {
		return misuse("due is written as a calendar, and %s does not end in .ics", to).try("blotter due --to due.ics")
	}
	stamp, err := d.lastChanged(ctx, day)
	if err != nil {
		return err
	}
	b := due.Calendar{Museum: d.museum.Name.Text, Code: d.museum.Code.Text, Zone: d.zone, Stamp: stamp}.Write(things)
	if to == "-" {
		_, err := d.Out.Write(b)
		return err
	}
	if err := disk.WriteFile(inDir(d.Dir, to), b); err != nil {
		return stuck("%s not written: %v", to, err)
	}
	d.say("%s: %s, %s to %s.", to, count(len(things), "entry"), dates.Words(day), dates.Words(day+dates.Day(within)))
	return nil
}

// lastChanged is when the ledger was last entered into, by --at or at its head;
// in a folder without git the day itself.
func (d *desk) lastChanged(ctx context.Context, day dates.Day) (time.Time, error) {
	id, err := d.head(ctx)
	if rev := d.opts.text("at"); rev != "" {
		id, err = d.revision(ctx, rev)
	}
	if err != nil {
		return time.Time{}, err
	}
	if id == "" {
		y, m, dd := day.Date()
		return time.Date(y, time.Month(m), dd, 0, 0, 0, 0, time.UTC), nil
	}
	r, err := d.repo.Revision(ctx, id)
	if err != nil {
		return time.Time{}, stuck("%v", err)
	}
	return r.Committer.When, nil
}
