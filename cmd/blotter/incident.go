package main

import (
	"context"
	"errors"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/shelf"
	"blotter/ledger/work"
)

var (
	flagFolder = &flag{Name: "folder", Value: "FOLDER", Help: "which folder of the cabinet: its number, the name on it, or both: \"Ranunculus 2\""}
	flagFreeze = &flag{Name: "freeze", Help: "make the loads for the freezer too, each a batch that waits for being logged in"}
)

func incidentCommand() *command {
	return &command{
		Name: "incident", Family: famEnter, Synopsis: "[SHEETS] --place PLACE (--insect NAME | --what WORD)",
		Says: "Writes down insects, mould, water found: what is there and in reach, whom to warn, what is held.",
		Notes: []string{
			"The sheets are those of the cabinet that --place names, by the order of the shelf, and of the cabinets in reach of it (habits: traps: reach); elsewhere name the SHEETS. " +
				"All of them are held: they are not lent, given or sampled until blotter log INCIDENT cleared.",
			"--freeze plans the loads for the freezer (habits: traps: load); each is begun by blotter log FREEZER in. " + deferred,
		},
		Examples: []example{
			{`blotter incident --place "cabinet 4" --insect Anthrenus --stage larva --alive yes`, "who is in reach, whom to warn; held at once"},
			{`blotter incident --place "cabinet 4" --folder "Ranunculus acris" --insect Stegobium --stage adult --alive no --freeze`, "with the loads for the freezer"},
			{`blotter incident 480..489 --place workroom --what mould`, "sheets that lie in no cabinet"},
		},
		Args: []argument{{"SHEETS", "480..489, 480,482, - for a scanner; without them those of the cabinet"}},
		Flags: joinFlags([]*flag{flagPlace, flagFolder, flagInsect, flagStage, flagAlive, flagWhat, flagFreeze, flagProfile, flagDate, flagBy, flagUntil, flagNoteText},
			sheetFlags, enterFlags, askFlags),
		Exits: []int{exitFindings}, Kin: []string{"log", "due", "open", "show"}, Complete: "sheets",
		Run: runIncident,
	}
}

// deferred is what is said wherever something else than cold is meant.
const deferred = "On anything but freezing, and on old poisons, licensed practice and local rules decide."

// incident is one run of the command.
type incident struct {
	desk   *desk
	works  *work.Works
	on     dates.Day
	line   []ledger.KV     // of what was found
	what   string          // insects, mould, water, ...
	there  []ledger.Number // where it was found, in the order of the shelf
	reach  []ledger.Number // the others in reach
	about  []string        // the cabinets in reach
	after  dates.Day       // the last clear inspection
	clear  bool            // there was one
	until  dates.Day       // to be looked at again
	moved  []work.Contact
	loads  [][]ledger.Number // for the freezer
	number ledger.WorkNumber
	plans  []ledger.WorkNumber // of the loads, with --freeze
}

func runIncident(ctx context.Context, c *call) error {
	place, insect, what := c.opts.text("place"), c.opts.text("insect"), strings.ToLower(strings.TrimSpace(c.opts.text("what")))
	switch {
	case place == "":
		return misuse("where was it found? --place is missing").try(`blotter incident --place "cabinet 4" --insect Anthrenus --stage larva --alive yes`)
	case insect == "" && what == "":
		return misuse("what was found? --insect NAME, or --what mould, water, fire, theft").try(`blotter incident --place "` + place + `" --insect Anthrenus --stage larva --alive yes`)
	case insect != "" && what == "":
		what = "insects"
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	x := &incident{desk: d, what: what}
	if x.works, err = d.works(ctx); err != nil {
		return err
	}
	if x.line, err = d.lineFields("incident", []string{"until"}); err != nil {
		return err
	}
	day, _, ok := momentOf(lineWord(x.line, "date"))
	if !ok {
		return misuse("an incident has a day: %s", lineWord(x.line, "date"))
	}
	x.on = day
	if err := x.gather(ctx, c.args, place); err != nil {
		return err
	}
	if err := x.again(); err != nil {
		return err
	}
	x.warn(place)
	if err := x.enter(ctx, place); err != nil {
		return err
	}
	return nil
}

// gather finds the sheets where it was found and in reach.
func (x *incident) gather(ctx context.Context, words []string, place string) error {
	folder := x.desk.opts.text("folder")
	shelves := shelf.Fill(x.works.Book(), shelf.NewOrder(x.works.Habits.Filing, x.works.Book().Museum), nil)
	bay, isCabinet := shelves.Cabinet(place)
	if len(words) > 0 || x.desk.opts.text("where") != "" {
		ns, _, err := x.desk.sheets(ctx, words)
		if err != nil {
			return err
		}
		x.there = ns
	}
	switch {
	case !isCabinet && folder != "":
		return misuse("%s is no cabinet, so it has no folder %s", place, folder).try("Cabinets: " + cabinetNames(shelves))
	case !isCabinet:
		return nil
	}
	named := map[ledger.Number]bool{}
	for _, n := range x.there {
		named[n] = true
	}
	bays := shelves.Around(bay, atoi(x.works.Habits.Traps.Reach.Text))
	for _, i := range bays {
		x.about = append(x.about, shelves.Bays[i].Name)
	}
	found := 0
	for _, n := range shelves.In(bays, bay, folder) {
		switch there := n.There && len(named) == 0; {
		case named[n.Entry.Number]:
		case there:
			x.there = append(x.there, n.Entry.Number)
			found++
		default:
			x.reach = append(x.reach, n.Entry.Number)
		}
	}
	if folder != "" && found == 0 && len(named) == 0 {
		return misuse("there is no folder %s in %s", folder, place).try("All of it: leave --folder out")
	}
	return nil
}

func cabinetNames(s *shelf.Shelves) string {
	var names []string
	for i := range s.Bays {
		names = append(names, s.Bays[i].Name)
	}
	return strings.Join(names[:min(len(names), 20)], ", ")
}

// again is when the place is to be looked at again: --until, two days after
// water or mould by the hours in which mould grows, else the museum's days.
func (x *incident) again() error {
	if typed := x.desk.opts.text("until"); typed != "" {
		words, err := x.desk.dayWords(typed)
		if err != nil {
			return err
		}
		day, _, ok := momentOf(words)
		if !ok || day < x.on {
			return misuse("--until %s is no day after the incident", typed)
		}
		x.until = day
		return nil
	}
	days := atoi(x.works.Habits.Traps.Return.Text)
	if h := atoi(x.works.Habits.Salvage.Mould.Text); x.wet() && h > 0 {
		days = (h + 23) / 24
	}
	x.until = x.on + dates.Day(max(days, 1))
	return nil
}

func (x *incident) wet() bool { return x.what == "mould" || x.what == "water" }

// warn finds who had the sheets since the last clear inspection, and makes up
// the loads for the freezer.
func (x *incident) warn(place string) {
	x.after, x.clear = x.works.LastClear(place, x.on)
	all := slices.Concat(x.there, x.reach)
	x.moved = x.works.Moved(all, x.after, max(x.on, x.desk.todayAsDay()))
	load := atoi(x.works.Habits.Traps.Load.Text)
	var at []ledger.Number
	for _, n := range all {
		if x.works.State(n, x.desk.todayAsDay()).AtHand() {
			at = append(at, n)
		}
	}
	if load <= 0 {
		load = max(len(at), 1)
	}
	x.loads = slices.Collect(slices.Chunk(at, load))
}

// enter writes the incident, and the loads with --freeze, as one entry.
func (x *incident) enter(ctx context.Context, place string) error {
	year := yearOf(x.line, x.desk.todayAsDay().Year())
	free, err := x.desk.freeWorks(ctx, "incident", year)
	if err != nil {
		return err
	}
	freezer, err := x.desk.freeWorks(ctx, "freezer", year)
	if err != nil {
		return err
	}
	for {
		x.number, x.plans = free(), nil
		changes, err := x.changes(place, freezer)
		if err != nil {
			return err
		}
		subject := string(x.number) + " opened: " + joinNonEmpty(", ", joinNonEmpty(" ", x.desk.opts.text("insect"), x.desk.opts.text("stage")), prefixedAny("", x.unlessInsects()), place)
		r, err := x.desk.enter(ctx, entry{changes: changes, subject: subject})
		switch {
		case errors.Is(err, errOvertaken):
			continue
		case err != nil:
			return err
		case x.desk.opts.on("json") || x.desk.opts.text("format") == "json":
			return x.sayJSON(place, r)
		}
		x.sayIncident(place, r)
		return nil
	}
}

func (x *incident) unlessInsects() string {
	if x.what == "insects" {
		return ""
	}
	return x.what
}

// changes are the files of the incident and of the loads.
func (x *incident) changes(place string, freezer func() ledger.WorkNumber) ([]fileChange, error) {
	by := lineWord(x.line, "by")
	date := lineWord(x.line, "date")
	found := append(slices.Clone(x.line), ledger.KV{Key: "event", Value: "found-pest"})
	if f := x.desk.opts.text("folder"); f != "" {
		found = append(found, ledger.KV{Key: "to", Value: place + ", folder " + strings.TrimPrefix(f, "folder ")})
	}
	if w := x.unlessInsects(); w != "" {
		found = append(found, ledger.KV{Key: "what", Value: w})
	}
	found = append(found, entryWords("sheets", spansOf(slices.Sorted(slices.Values(x.there)))...)...)
	held := []ledger.KV{{Key: "date", Value: date}, {Key: "event", Value: "held"}, {Key: "by", Value: by}, {Key: "until", Value: x.until.String()}}
	held = append(held, entryWords("sheets", spansOf(slices.Sorted(slices.Values(slices.Concat(x.there, x.reach))))...)...)
	title := joinNonEmpty(" ", x.desk.opts.text("insect"), x.desk.opts.text("stage"))
	if w := x.unlessInsects(); w != "" {
		title = joinNonEmpty(", ", w, title)
	}
	c, err := newWorkFile(x.number, []ledger.Op{ledger.Set("title", title), ledger.Set("place", place)}, found, held)
	if err != nil || !x.desk.opts.on("freeze") {
		return []fileChange{c}, err
	}
	out := []fileChange{c}
	for i, load := range x.loads {
		n := freezer()
		head := []ledger.Op{ledger.Set("title", string(x.number)+", load "+itoa(i+1)+" of "+itoa(len(x.loads)))}
		if p := x.desk.opts.text("profile"); p != "" {
			head = append(head, ledger.Set("profile", p))
		}
		c, err := newWorkFile(n, head, append([]ledger.KV{{Key: "date", Value: date}, {Key: "event", Value: ledger.EventNoted}, {Key: "by", Value: by}, {Key: "note", Value: "to be frozen: " + string(x.number)}},
			entryWords("sheets", spansOf(slices.Sorted(slices.Values(load)))...)...))
		if err != nil {
			return nil, err
		}
		out, x.plans = append(out, c), append(x.plans, n)
	}
	return out, nil
}

// newWorkFile is a new work with its first lines.
func newWorkFile(n ledger.WorkNumber, head []ledger.Op, lines ...[]ledger.KV) (fileChange, error) {
	w := &ledger.Work{Path: n.Path()}
	w.Work.Text = string(n)
	ops := slices.Clone(head)
	for _, l := range lines {
		ops = append(ops, ledger.Append("lines", l...))
	}
	src, err := ledger.EditFile(ledger.WorkFileKind, ledger.EncodeWork(w), ops...)
	if err != nil {
		return fileChange{}, refusedWork(n, err)
	}
	return fileChange{path: n.Path(), new: src}, nil
}
