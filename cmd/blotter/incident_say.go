package main

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// mostSpans is how many spans of sheets a screen shows of one list.
const mostSpans = 40

// sayIncident says what was written, who is to be warned and what comes next.
func (x *incident) sayIncident(place string, r entered) {
	insect := joinNonEmpty(", ", x.desk.opts.text("insect"), x.desk.opts.text("stage"))
	switch x.desk.opts.text("alive") {
	case "yes":
		insect += ", alive"
	case "no":
		insect += ", dead"
	}
	x.desk.say("%s: %s found in %s on %s.", x.number, joinNonEmpty(", ", x.unlessInsects(), insect), place, dates.Words(x.on))
	x.saySheets("There", x.there)
	if len(x.about) > 0 {
		x.saySheets("In reach (cabinets "+strings.Join(x.about, ", ")+")", x.reach)
	} else if len(x.there) == 0 {
		x.desk.say("%s", wrap(place+" is no cabinet of the shelf, and no sheets are named: nothing is held. Name them: blotter incident SHEETS --place ...", x.desk.Width, ""))
	}
	x.sayMoved()
	if n := len(x.there) + len(x.reach); n > 0 {
		x.desk.say("%s", wrap("Held: "+count(n, "sheet")+"; not lent, given or sampled until blotter log "+string(x.number)+" cleared.", x.desk.Width, ""))
	}
	x.sayAgain()
	x.sayLoads()
	x.desk.say("%s", wrap("Caution: gloves and a mask for mould, frass and old poisons (mercury, arsenic), moving air, wash hands; bag before anything is moved. "+deferred, x.desk.Width, ""))
	switch {
	case r.held:
		x.desk.say("Written, not yet entered: %s", x.number.Path())
		x.desk.next("blotter enter %s", x.number)
	case r.dry:
		x.desk.tell("Nothing was changed: --dry-run.")
	case len(x.plans) > 0:
		x.desk.next("blotter log %s in", x.plans[0])
	default:
		x.desk.next("blotter log %s inspected --result clear", x.number)
	}
	if !r.held && !r.dry {
		x.desk.warnOfHooks()
	}
}

func (x *incident) saySheets(what string, ns []ledger.Number) {
	x.desk.say("%s", wrap(what+": "+count(len(ns), "sheet")+prefixedAny(": ", spansShown(ns))+".", x.desk.Width, "  "))
}

func spansShown(ns []ledger.Number) string {
	spans := spansOf(ns)
	if len(spans) > mostSpans {
		return strings.Join(spans[:mostSpans], ", ") + " and " + thousands(len(spans)-mostSpans) + " more"
	}
	return strings.Join(spans, ", ")
}

// sayMoved names whom to warn.
func (x *incident) sayMoved() {
	since := "no clear inspection is written down: all that the ledger has"
	if x.clear {
		since = "since the last clear inspection, " + dates.Words(x.after)
	}
	if len(x.moved) == 0 {
		x.desk.say("%s", wrap("To warn: nobody ("+since+").", x.desk.Width, ""))
		return
	}
	x.desk.say("%s", wrap("To warn ("+since+"):", x.desk.Width, ""))
	var rows [][]string
	for _, m := range x.moved {
		rows = append(rows, []string{dates.Short(m.Day), string(m.Work), verbWords(m.Verb), m.Who, spansShown(m.Sheets)})
	}
	x.desk.tableOf("  ", widthsOf(rows), rows)
}

// sayAgain says when the place is looked at again, and why then.
func (x *incident) sayAgain() {
	why := "habits: traps: return, " + x.works.Habits.Traps.Return.Text + " days"
	if !x.desk.museum.Habits.Traps.Return.Set() {
		why += "; common practice, no source"
	}
	switch {
	case x.desk.opts.text("until") != "":
		why = ""
	case x.wet():
		why = "mould grows within " + x.works.Habits.Salvage.Mould.Text + " hours; what is not dry by then is frozen"
	}
	x.desk.say("%s", wrap("To be looked at again: "+dates.Words(x.until)+parenthesised(why)+".", x.desk.Width, ""))
	if x.wet() {
		x.desk.say("%s", wrap("Order in which to save wet sheets: blotter print salvage.", x.desk.Width, ""))
	}
}

func parenthesised(s string) string {
	if s == "" {
		return ""
	}
	return " (" + s + ")"
}

// sayLoads says what is frozen in which load, or what to type for it.
func (x *incident) sayLoads() {
	n := 0
	for _, l := range x.loads {
		n += len(l)
	}
	switch away := len(x.there) + len(x.reach) - n; {
	case n == 0:
		return
	case away > 0:
		x.desk.say("%s", wrap(count(away, "sheet")+" of them not at hand now: to be frozen when they come back.", x.desk.Width, ""))
	}
	if len(x.plans) > 0 {
		x.desk.say("To be frozen, %s:", count(len(x.loads), "load"))
		for i, l := range x.loads {
			x.desk.say("  %s  %s, begun by: blotter log %s in", x.plans[i], count(len(l), "sheet"), x.plans[i])
		}
		return
	}
	x.desk.say("To be frozen, %s of at most %s (habits: traps: load):", count(len(x.loads), "load"), count(atoi(x.works.Habits.Traps.Load.Text), "sheet"))
	for _, l := range x.loads {
		x.desk.say("  blotter open freezer %s", strings.Join(spansOf(l), ","))
	}
}

// incidentJSON is what --json gives.
type incidentJSON struct {
	Work   string              `json:"work"`
	Place  string              `json:"place"`
	On     string              `json:"on"`
	There  []ledger.Number     `json:"there"`
	Reach  []ledger.Number     `json:"reach"`
	Since  string              `json:"since,omitempty"`
	Warn   []contactJSON       `json:"warn"`
	Until  string              `json:"until"`
	Loads  [][]ledger.Number   `json:"loads"`
	Plans  []ledger.WorkNumber `json:"freezer,omitempty"`
	DryRun bool                `json:"dry_run,omitempty"`
}

type contactJSON struct {
	Who    string            `json:"who,omitempty"`
	Verb   string            `json:"event"`
	Work   ledger.WorkNumber `json:"work"`
	On     string            `json:"on"`
	Sheets []ledger.Number   `json:"sheets"`
}

func (x *incident) sayJSON(place string, r entered) error {
	out := incidentJSON{Work: string(x.number), Place: place, On: x.on.String(), There: x.there, Reach: x.reach, Until: x.until.String(), Loads: x.loads, Plans: x.plans, DryRun: r.dry, Warn: contactsJSON(x.moved)}
	if x.clear {
		out.Since = x.after.String()
	}
	return x.desk.printJSON(out)
}

func contactsJSON(all []work.Contact) []contactJSON {
	out := []contactJSON{}
	for _, m := range all {
		out = append(out, contactJSON{m.Who, m.Verb, m.Work, m.Day.String(), m.Sheets})
	}
	return out
}
