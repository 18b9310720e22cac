package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
	"blotter/ledger/reading"
)

func changesCommand() *command {
	return &command{
		Name: "changes", Family: famAsk, Synopsis: "[SHEETS|WORK]",
		Says:  "Tells what was entered, sheet by sheet: new, named anew, agreed, corrected, annotated, withdrawn.",
		Notes: []string{"Since published tells what the catalogue will say otherwise than it does now, in the words that it will show: what is withheld is named and not told."},
		Examples: []example{
			{"blotter changes --since today", "what was entered today"},
			{"blotter changes --since 2026-01-01 --until 2026-06-30", "half a year"},
			{"blotter changes --since published", "what everybody will see anew: the difference, sheet by sheet"},
		},
		Args:  []argument{{"SHEETS|WORK", "only these; without any, all sheets"}},
		Flags: joinFlags([]*flag{flagSince, flagUntil, flagNoCache}, sheetFlags, askFlags),
		Kin:   []string{"history", "find", "undo"}, Complete: "sheets",
		Run: runChanges,
	}
}

func runChanges(ctx context.Context, c *call) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	if d.repo == nil {
		return stuck("this folder has no git repository, so it has no history")
	}
	if len(c.args) > 0 && d.isWork(c.args[0]) {
		return d.historyOfWork(ctx, c.args[0])
	}
	wanted, err := d.wanted(ctx)
	if err != nil {
		return err
	}
	if c.opts.text("since") == publishedRev {
		return d.sayNet(ctx, wanted)
	}
	view, places, err := d.stretch(ctx)
	if err != nil {
		return err
	}
	changes, err := view.Changes(ctx, places, reading.ConventionsOf(d.museum), d.readVersion)
	if err != nil {
		return stuck("%v", err)
	}
	changes = slices.DeleteFunc(changes, func(ch history.Change) bool {
		return ch.Kinds == 0 || wanted != nil && !wanted[ch.Number.Key()] // of no kind: what two copies brought together was done in them
	})
	if c.asksJSON() {
		for _, ch := range changes {
			if err := c.printJSON(changeJSON(view, ch)); err != nil {
				return err
			}
		}
		return nil
	}
	if err := d.showChanges(ctx, view, changes, len(places)); err != nil || wanted != nil {
		return err
	}
	return d.sayRenamed(ctx, view, places)
}

// wanted are the keys of the numbers that were asked for; nil: all.
func (d *desk) wanted(ctx context.Context) (map[string]bool, error) {
	if len(d.args) == 0 && d.opts.text("where") == "" {
		return nil, nil
	}
	ns, _, err := d.sheets(ctx, d.args)
	if err != nil {
		return nil, err
	}
	wanted := map[string]bool{}
	for _, n := range ns {
		wanted[n.Key()] = true
	}
	return wanted, nil
}

// stretch is the history up to --until, and the places of the entries after
// --since in it. A day of --since counts from its beginning.
func (d *desk) stretch(ctx context.Context) (*history.View, []int, error) {
	tip, err := d.head(ctx)
	if err != nil {
		return nil, nil, err
	}
	if until := d.opts.text("until"); until != "" {
		if tip, err = d.revision(ctx, until); err != nil {
			return nil, nil, err
		}
	}
	view, err := d.repo.History(ctx, d.cache(), tip)
	if err != nil {
		return nil, nil, stuck("%v", err)
	}
	before := map[string]bool{}
	if since := d.opts.text("since"); since != "" {
		before, err = d.before(ctx, view, since)
		if err != nil {
			return nil, nil, err
		}
	}
	var places []int
	for p := range view.Len() {
		if !before[view.Commit(p).ID] {
			places = append(places, p)
		}
	}
	return view, places, nil
}

// before are the entries of a view that --since leaves out: of a day, those
// made before it began; of a revision, itself and all before it.
func (d *desk) before(ctx context.Context, view *history.View, since string) (map[string]bool, error) {
	out := map[string]bool{}
	if day, ok := d.dayTyped(since); ok {
		for p := range view.Len() {
			if c := view.Commit(p); c.Committer.When.Before(day) {
				out[c.ID] = true
			}
		}
		return out, nil
	}
	id, err := d.revision(ctx, since)
	if err != nil {
		return nil, err
	}
	old, err := d.repo.History(ctx, d.cache(), id)
	if err != nil {
		return nil, stuck("%v", err)
	}
	for p := range old.Len() {
		out[old.Commit(p).ID] = true
	}
	return out, nil
}

// showChanges prints one line for each revision of a sheet.
func (d *desk) showChanges(ctx context.Context, view *history.View, changes []history.Change, entries int) error {
	t := &teller{desk: d, view: view}
	var rows [][]string
	counts := map[string]int{}
	var order []string
	for _, ch := range changes {
		what := ch.Kinds.String()
		for _, w := range strings.Split(what, ", ") {
			if counts[w] == 0 {
				order = append(order, w)
			}
			counts[w]++
		}
		c := view.Commit(ch.Place)
		also, err := d.addedWords(ctx, view, ch)
		if err != nil {
			return err
		}
		rows = append(rows, []string{string(ch.Number), t.dayOf(c), what, joinNonEmpty("\n", joinNonEmpty("; ", changeWords(ch), also), c.Author.Name+", "+c.ID[:7])})
	}
	if len(rows) == 0 {
		d.say("No sheet was changed: %s looked at.", count(entries, "entry"))
		return nil
	}
	d.table("", rows)
	var sums []string
	for _, w := range order {
		sums = append(sums, fmt.Sprintf("%s %s", thousands(counts[w]), w))
	}
	d.say("%s", wrap(strings.Join(sums, ", ")+".", d.Width, ""))
	return nil
}

// addedWords are the notes, types and fates that came with a change.
func (d *desk) addedWords(ctx context.Context, view *history.View, ch history.Change) (string, error) {
	if !ch.Kinds.Has(history.Annotated | history.Typed | history.Withdrawn | history.Found) {
		return "", nil
	}
	r, ok := view.At(ch.Place, ch.Number)
	if !ok || r.Blob == "" {
		return "", nil
	}
	v, err := d.readVersion(ctx, ch.Number, r.Blob)
	if err != nil || v.Record == nil {
		return "", err
	}
	lists := map[string][]ledger.Entry{}
	for _, l := range ledger.Lists(v.Record) {
		lists[l.Field] = l.Entries
	}
	var parts []string
	for _, e := range ch.Entered {
		if list := lists[e.List]; e.List != "determinations" && e.At >= 1 && e.At <= len(list) {
			parts = append(parts, otherWord(e.List, list[e.At-1])+" "+otherWords(e.List, list[e.At-1]))
		}
	}
	return strings.Join(parts, "; "), nil
}

// changeWords say what a change did, in a line.
func changeWords(ch history.Change) string {
	var parts []string
	switch {
	case ch.Kinds.Has(history.Redetermined) && ch.Before != "":
		parts = append(parts, fmt.Sprintf("%s, was %s", ch.After, ch.Before))
	case ch.Kinds.Has(history.New | history.Redetermined | history.Confirmed | history.Added):
		if ch.After != "" {
			parts = append(parts, ch.After)
		}
	}
	if !ch.Kinds.Has(history.New) {
		for _, f := range ch.Fields {
			parts = append(parts, fieldWords(f.Path)+": "+alteredWords(f, ""))
		}
	}
	if ch.Reason != "" {
		parts = append(parts, fmt.Sprintf("%q", ch.Reason))
	}
	return strings.Join(parts, "; ")
}
