package main

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/drying"
	"blotter/ledger/treatment"
	"blotter/ledger/work"
	"blotter/ledger/work/due"
	"blotter/render/document"
)

// freezerForm is the sheet that lies beside the freezer.
func (p *formPaper) freezerForm(_ context.Context, doc *document.Document) error {
	doc.Title = p.titled("Freezing run")
	run := due.Freezer{}
	profile, err := due.Profile(p.w.Habits.Treatment, "")
	if p.file != nil {
		run = due.ReadFreezer(p.w, p.file, p.on, p.desk.zone)
		profile, err = run.Profile, nil
		if run.Problem != "" {
			err = stuck("%s", run.Problem)
		}
	}
	doc.Fill(known("Run", p.number()), known("Freezer", p.heading(func(w *ledger.Work) ledger.Leaf { return w.Place })))
	if err == nil {
		doc.Say(profileWords(profile))
	} else {
		doc.Blank("Profile", "colder than, °C", "hours")
	}
	var cautions []string
	for _, c := range treatment.Cautions(treatment.Freezing, profile) {
		cautions = append(cautions, c.Words)
	}
	doc.Caution(sentence(strings.Join(cautions, "; ")))
	doc.Heading("Bags")
	doc.Grid([]string{"bag", "what is in it", "sheets", "note"}, p.bagRows(), document.Grid{Blank: 5, Wide: []float64{1, 5, 1.2, 3}})
	doc.Heading("Times")
	doc.Grid([]string{"", "day", "time", "°C", "by"}, p.freezerTimes(run, profile), document.Grid{Wide: []float64{4, 2.6, 1.4, 1.2, 2}})
	doc.Blank("Logger", "its file")
	doc.Tick("The log says", document.Boxes([]string{"passed", "failed: once more", "no log, times only"}, freezerResult(run.Result))...)
	signed(doc, "Done by")
	return nil
}

func freezerResult(word string) string {
	return map[string]string{"passed": "passed", "failed": "failed: once more", "times-only": "no log, times only"}[word]
}

// profileWords says what a run has to keep.
func profileWords(p treatment.Profile) string {
	words := fmt.Sprintf("Profile %q: the middle of the load %g h at %g °C or colder", p.Name, p.Hours, p.SetPoint)
	if p.Cycles > 1 {
		words += fmt.Sprintf(", %d times, %g h warm between them", p.Cycles, p.Between)
	}
	if p.Closed > 0 {
		words += fmt.Sprintf(", then %g h in the closed bag", p.Closed)
	}
	return words + "."
}

// bagRows are what goes in; bags are written by hand.
func (p *formPaper) bagRows() (rows [][]string) {
	var ns []ledger.Number
	var other [][]string
	for _, t := range p.things() {
		switch {
		case t.Sheet != "":
			ns = append(ns, t.Sheet)
		case t.Item.Bundle():
			other = append(other, []string{"", t.Item.What, joinNonEmpty(" ", itoa(t.Item.Count), t.Item.Of), ""})
		default:
			other = append(other, []string{"", p.thingWords(t), "1", ""})
		}
	}
	for _, s := range spansOf(ns) {
		first, last, span := strings.Cut(s, "..")
		n := 1
		if span {
			n = spanLength(first, last)
		}
		rows = append(rows, []string{"", joinNonEmpty(" to ", first, last), itoa(n), ""})
	}
	return append(rows, other...)
}

// freezerTimes are the moments of a run: those that have been, those that are
// to come at the earliest, and room for the pencil.
func (p *formPaper) freezerTimes(run due.Freezer, profile treatment.Profile) [][]string {
	rows := [][]string{{"in the freezer", "", "", "", ""}}
	if n := len(run.Stays); n > 0 && run.Timed {
		at := run.Stays[0].In.In(p.desk.zone)
		rows[0][1], rows[0][2] = dates.Words(dayIn(at, p.desk.zone)), at.Format("15:04")
	}
	rows = append(rows, []string{"cold enough in the middle", "", "", "", ""})
	for c := range max(profile.Cycles, 1) {
		what := "out of the freezer"
		if profile.Cycles > 1 {
			what += fmt.Sprintf(", cycle %d of %d", c+1, profile.Cycles)
		}
		if c > 0 {
			rows = append(rows, []string{fmt.Sprintf("in again, cycle %d of %d", c+1, profile.Cycles), "", "", "", ""})
		}
		rows = append(rows, []string{what, "", "", "", ""})
	}
	rows = append(rows, []string{"bag opened", "", "", "", ""})
	if len(run.Stays) == 0 || run.Problem != "" {
		return rows
	}
	for i := range rows {
		if !strings.HasPrefix(rows[i][0], "out") && rows[i][0] != "bag opened" || run.Out != nil {
			continue
		}
		for _, s := range profile.Plan(run.Stays...) {
			if strings.HasPrefix(rows[i][0], "out") == (s.Stage == treatment.OutFrom) && (s.Stage == treatment.OutFrom || s.Stage == treatment.OpenFrom) {
				at := s.At.In(p.desk.zone)
				rows[i][0] += ", from " + dates.Words(dayIn(at, p.desk.zone)) + " " + at.Format("15:04")
				break
			}
		}
	}
	if run.Out != nil {
		last := &rows[len(rows)-2]
		(*last)[1], (*last)[2] = p.clock(run.Out)
	}
	return rows
}

// pressForm is the sheet that is tied to a press.
func (p *formPaper) pressForm(_ context.Context, doc *document.Document) error {
	doc.Title = p.titled("Press sheet")
	of := func(leaf func(*ledger.Work) ledger.Leaf) string { return p.heading(leaf) }
	press, began := p.pressLoad()
	doc.Fill(known("Press", of(func(w *ledger.Work) ledger.Leaf { return w.Place })), known("Begun on", began))
	doc.Fill(known("Plants", of(func(w *ledger.Work) ledger.Leaf { return w.Plants })), known("Method", of(func(w *ledger.Work) ledger.Leaf { return w.Method })),
		known("Weather", of(func(w *ledger.Work) ledger.Leaf { return w.Weather })))
	doc.Caution(joinNonEmpty(" ", sentence(strings.Join(press.Calendar.Cautions, "; ")), "Toxic sap, stinging hairs, spines: gloves, and a mark on the fold. "+ownRules))
	doc.Items(press.Calendar.Prepare...)
	doc.Heading("Folds")
	var rows [][]string
	for _, t := range p.things() {
		note := ""
		if t.Sheet != "" {
			note = p.nameOf(t.Sheet)
		}
		rows = append(rows, []string{"", p.thingWords(t), note})
	}
	doc.Grid([]string{"fold", "collector and number", "what it is, what to mind"}, rows, document.Grid{Blank: max(8-len(rows), 2), Wide: []float64{1, 4, 6}})
	doc.Names("what it is, what to mind")
	doc.Heading("Calendar")
	switch {
	case press.Problem != "" && p.file != nil:
		doc.Say(sentence("No calendar: " + press.Problem))
	case p.file == nil:
		doc.Say("For mixed plants without heat in ordinary weather, by habits.drying of blotter.yaml; day 0 is the day of pressing. The calendar of another load: blotter open press, then print its sheet.")
	}
	doc.Grid([]string{"day", "what", "done", "by"}, p.pressSteps(press), document.Grid{Blank: 2, Wide: []float64{3, 6, 1, 2}})
	doc.Say(sentence(prefixedAny("Test by hand: ", strings.Join(press.Calendar.ByHand, "; "))))
	doc.Heading("Weighings, if there is a balance")
	rows = nil
	for _, e := range p.events() {
		if e.Line.Weight.Set() {
			day, at := p.clock(e)
			rows = append(rows, []string{day, at, e.Line.Weight.Text, e.Line.By.Text})
		}
	}
	doc.Grid([]string{"day", "time", "weight", "by"}, rows, document.Grid{Blank: 4})
	signed(doc, "Dry, taken out by")
	return nil
}

// events are the lines of the work up to the day.
func (p *formPaper) events() (all []*work.Event) {
	if p.file == nil {
		return nil
	}
	for _, e := range p.file.Events {
		if e.Day <= p.on {
			all = append(all, e)
		}
	}
	return all
}

// pressLoad is the load of the work; of a blank form one of mixed plants
// without heat.
func (p *formPaper) pressLoad() (due.Press, string) {
	if p.file == nil {
		var press due.Press
		c, err := due.DryingSettings(p.w.Habits.Drying).Calendar(drying.Load{Kind: drying.Mixed, Method: drying.Unheated, Weather: drying.Ordinary, Start: p.on})
		if err != nil {
			press.Problem = err.Error()
		}
		press.Calendar = c
		return press, ""
	}
	press := due.ReadPress(p.w, p.file, p.on)
	if !press.Begun {
		return press, ""
	}
	return press, dates.Words(press.Load.Start)
}

// pressSteps are the rows of the calendar; what a line tells of is ticked.
func (p *formPaper) pressSteps(press due.Press) (rows [][]string) {
	verbs := map[drying.What][]string{drying.ChangePapers: {"papers"}, drying.TurnBag: {"turned"}, drying.OpenBag: {"drying"}, drying.TestByHand: {"tested"}}
	for _, s := range press.Calendar.Steps {
		row := []string{"", s.Words(), "", ""}
		if verbs[s.What] != nil {
			row[2] = document.EmptyBox
		}
		if p.file != nil {
			row[0] = dates.Words(s.Day)
			if s.Until > s.Day {
				row[0] += " to " + dates.Words(s.Until)
			}
		}
		for _, e := range p.events() {
			for _, v := range verbs[s.What] {
				if e.Verb == v && e.Day == s.Day {
					row[2], row[3] = document.TickedBox, e.Line.By.Text
				}
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// mountingForm is the sheet of a mounting session.
func (p *formPaper) mountingForm(_ context.Context, doc *document.Document) error {
	h := p.w.Habits.Mounting
	doc.Title = p.titled("Mounting session")
	doc.Fill(known("Place", p.heading(func(w *ledger.Work) ledger.Leaf { return w.Place })), known("Method", p.heading(func(w *ledger.Work) ledger.Leaf { return w.Method })), known("Date", ""))
	doc.Say(sentence(fmt.Sprintf("The glue sets in %s minutes; %s hours under weight, %s between sheet and weight", h.SetMinutes.Text, h.WeightHours.Text, h.Cover.Text)))
	doc.Caution(poison + " Dust of old plants and mould: a mask by your rules. Knives and needles: cut away from the hand.")
	var rows [][]string
	for _, t := range p.things() {
		name := ""
		if t.Sheet != "" {
			name = p.nameOf(t.Sheet)
		}
		rows = append(rows, []string{p.thingWords(t), name, document.EmptyBox, document.EmptyBox, document.EmptyBox, document.EmptyBox, ""})
	}
	doc.Grid([]string{"sheet", "name", "glued", "lifted", "label", "packet", "note"}, rows, document.Grid{Blank: max(10-len(rows), 2), ToFoot: true, Wide: []float64{3, 5, 1, 1, 1, 1.2, 3}})
	doc.Names("name")
	signed(doc, "Mounted by")
	return nil
}

// trapsForm is the sheet of a round to the insect traps.
func (p *formPaper) trapsForm(_ context.Context, doc *document.Document) error {
	h := p.w.Habits.Traps
	doc.Title = p.titled("Trap readings")
	doc.Fill(known("Place", p.heading(func(w *ledger.Work) ledger.Leaf { return w.Place })),
		known("Read every", cmp.Or(p.heading(func(w *ledger.Work) ledger.Leaf { return w.Every }), h.Every.Text)))
	doc.Blank("Read by", "Date", "Time")
	if alarm := leafList(h.Alarm); len(alarm) > 0 {
		doc.Say("A single live one of " + andJoin(alarm) + " is too many: tell whoever looks after the collection the same day, and leave the cabinet as it is. A trap without insects is read too: write 0.")
	}
	doc.Caution("Insects and dust from old cabinets may carry mercury or arsenic; glue and lures have the maker's own cautions: gloves, wash your hands. " + ownRules)
	var rows [][]string
	seen := map[string]bool{}
	for _, e := range p.events() {
		t := e.Line.Trap.Text
		if t == "" || seen[t] || p.trapRemoved(t) {
			continue
		}
		seen[t] = true
		rows = append(rows, []string{t, cmp.Or(e.Line.To.Text, e.Line.Note.Text), "", "", "", "", ""})
	}
	doc.Grid([]string{"trap", "where", "insect", "stage", "alive", "dead", "what was done"}, rows, document.Grid{Blank: 6, ToFoot: true, Wide: []float64{1.2, 3, 3, 1.6, 1, 1, 3}})
	signed(doc, "Entered in the ledger by")
	return nil
}

func (p *formPaper) trapRemoved(trap string) bool {
	gone := false
	for _, e := range p.events() {
		if e.Line.Trap.Text == trap {
			gone = e.Verb == "removed"
		}
	}
	return gone
}
