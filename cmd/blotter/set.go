package main

import (
	"context"
	"fmt"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

func setCommand() *command {
	return &command{
		Name: "set", Family: famEnter, Synopsis: "SHEETS|WORK FIELD=VALUE...",
		Says: "Corrects a fact of sheets or of a work, and says why.",
		Notes: []string{"The words of the label are altered only when they were typed wrongly. What a person reads in them stands beside them: " +
			"date-read=1934-04-03 writes read.date with who, when and why. A new opinion on the name is no correction: blotter determine."},
		Examples: []example{
			{`blotter set 517 elevation="348 m" --why "label says 348"`, "a typing error"},
			{`blotter set 482 mistake="given of the sheet above it"`, "an opinion on the wrong sheet: it stays, and is shown as a mistake"},
			{`blotter set 482 date-read=1934-04-03 --why "field book, p. 12"`, "a reading beside the words"},
			{`blotter set --where "collector:Rask lacks:country" country=Norway`, "many at once, shown first, then asked"},
		},
		Args:  []argument{{"SHEETS|WORK", "482, 480..489, 482,485, all or -; or one work: loan-2026-004"}, {"FIELD=VALUE", "a field by its path in FORMAT.md, or its last part; FIELD= empties it"}},
		Flags: joinFlags([]*flag{flagWhy, flagDate, flagBy}, sheetFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"edit", "determine", "accept"}, Complete: "sheets",
		Run: runSet,
	}
}

func runSet(ctx context.Context, c *call) error {
	words, pairs := splitPairs(c.args)
	if len(words) > 0 && len(pairs) > 0 {
		d, err := c.desk()
		if err != nil {
			return err
		}
		if d.isWork(words[0]) {
			return d.setWork(ctx, words, pairs)
		}
	}
	assigned, err := readAssignments(pairs)
	if err != nil {
		return err
	}
	if len(assigned) == 0 {
		return misuse("which field is to be what?").try(`blotter set 517 elevation="348 m" --why "label says 348"`)
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	ns, picked, err := d.sheets(ctx, words)
	if err != nil {
		return err
	}
	if err := oneByOneOnly(assigned, len(ns), picked); err != nil {
		return err
	}
	if len(ns) == 1 && !picked {
		if src, two := d.twoReadings(d.pathOf(ns[0])); two {
			return d.setUndecided(d.pathOf(ns[0]), src, valuesOf(assigned))
		}
	}
	given, err := d.mistaken(ns, picked, assigned)
	if err != nil {
		return err
	}
	s := &setting{desk: d, assigned: assigned, why: c.opts.text("why")}
	changes, err := d.editSheets(ns, s.ops)
	if err != nil {
		return err
	}
	s.show(ns)
	if len(changes) == 0 {
		c.say("Nothing to do: it is so already.")
		return nil
	}
	if given != "" {
		c.say("%s", wrap("  The opinion stays in its place and is shown as a mistake. If it was given of another sheet: "+given, c.Width, "  "))
	}
	if ok, err := d.consentIfPicked(ctx, picked, "Correct "+count(len(changes), "sheet")+"?"); !ok {
		return err
	}
	r, err := d.enter(ctx, entry{changes: changes, trailers: s.trailers})
	if err != nil {
		return err
	}
	d.report(r, "")
	return nil
}

// splitPairs parts the sheets from the FIELD=VALUE arguments.
func splitPairs(args []string) (words, pairs []string) {
	for _, a := range args {
		if strings.Contains(a, "=") {
			pairs = append(pairs, a)
		} else {
			words = append(words, a)
		}
	}
	return words, pairs
}

// valuesOf are assignments by their paths.
func valuesOf(assigned []assignment) map[string]string {
	m := map[string]string{}
	for _, a := range assigned {
		m[a.path] = a.value
	}
	return m
}

// oneByOneOnly keeps opinions, types, notes and fates out of corrections of
// many sheets: each was given by somebody for its own sheet.
func oneByOneOnly(assigned []assignment, sheets int, picked bool) error {
	if sheets == 1 && !picked {
		return nil
	}
	for _, a := range assigned {
		if top, _, _ := strings.Cut(a.path, "."); onlyGrows(a.path) {
			return misuse("%s is corrected one sheet at a time, by its number", top).
				try("A new opinion for many sheets: blotter determine SHEETS NAME --by PERSON")
		}
	}
	return nil
}

// onlyGrows reports whether a field lies in a list whose entries stay as they
// were given; any change in one, an added mistake too, is a correction.
func onlyGrows(path string) bool {
	top, _, _ := strings.Cut(path, ".")
	f, ok := ledger.FieldAt(ledger.RecordKind, top)
	return ok && f.AppendOnly
}

// setting is one run of set.
type setting struct {
	desk     *desk
	assigned []assignment
	why      string
	shown    map[ledger.Number][]string // what was and will be, by sheet
	trailers []string
}

// ops are the edits of one record.
func (s *setting) ops(r *ledger.Record) ([]ledger.Op, error) {
	have := map[string]string{}
	for _, kv := range ledger.Flatten(r) {
		have[kv.Key] = kv.Value
	}
	var ops []ledger.Op
	var lines []string
	corrects, why := false, s.why
	for _, a := range s.assigned {
		if strings.HasSuffix(a.path, ".mistake") && why == "" {
			why = a.value // the reason is the ground
		}
		was := have[a.path]
		if a.field.Kind == ledger.Texts {
			was = strings.Join(listWords(have, a.path), ", ")
		}
		if was == a.value {
			continue
		}
		altered := was != "" || onlyGrows(a.path)
		if altered && why == "" && a.path != "entry" && r.Entry.Text == string(ledger.Full) {
			return nil, misuse("%s: why is %s wrong? --why is missing", r.Specimen, a.path).
				try(`A correction of entered words says its grounds: --why "label says 348"`)
		}
		more, err := s.opsOf(a)
		if err != nil {
			return nil, err
		}
		corrects = corrects || altered
		ops = append(ops, more...)
		lines = append(lines, alteration(a, was))
	}
	n := ledger.Number(r.Specimen.Text)
	if s.shown == nil {
		s.shown = map[ledger.Number][]string{}
	}
	s.shown[n] = lines
	if corrects && why != "" && len(ops) > 0 {
		s.trailers = append(s.trailers, fmt.Sprintf("%s: %s %s", history.CorrectsKey, n, oneLine(why)))
	}
	return ops, nil
}

// opsOf are the edits of one assignment; a person's reading is signed.
func (s *setting) opsOf(a assignment) ([]ledger.Op, error) {
	if a.field.Kind == ledger.Texts {
		var values []string
		for _, v := range strings.Split(a.value, ",") {
			if v = strings.TrimSpace(v); v != "" {
				values = append(values, v)
			}
		}
		return []ledger.Op{ledger.SetList(a.path, values...)}, nil
	}
	group, isReading := strings.CutSuffix(a.path, ".is")
	if !isReading || !strings.HasPrefix(a.path, "read.") {
		return []ledger.Op{ledger.Set(a.path, a.value)}, nil
	}
	if a.value == "" {
		return []ledger.Op{ledger.Remove(group)}, nil
	}
	by, date, err := s.desk.signed("me")
	if err != nil {
		return nil, err
	}
	ops := []ledger.Op{ledger.Set(a.path, a.value), ledger.Set(group+".by", by), ledger.Set(group+".date", date)}
	if s.why != "" {
		ops = append(ops, ledger.Set(group+".why", s.why))
	}
	return ops, nil
}

func listWords(have map[string]string, path string) []string {
	var out []string
	for i := 1; ; i++ {
		w, ok := have[path+"."+itoa(i)]
		if !ok {
			return out
		}
		out = append(out, w)
	}
}

// alteration says what was and will be. Words are shown even of a place that
// is withheld: only the person who types sees them.
func alteration(a assignment, was string) string {
	switch {
	case was == "":
		return fmt.Sprintf("  %s: %s", a.path, a.value)
	case a.value == "":
		return fmt.Sprintf("  %s: %s, now nothing", a.path, was)
	}
	return fmt.Sprintf("  %s: %s, now %s", a.path, was, a.value)
}

func (s *setting) show(ns []ledger.Number) {
	shown := 0
	for _, n := range ns {
		if lines := s.shown[n]; len(lines) > 0 {
			if shown++; shown > manySheets {
				continue
			}
			s.desk.say("%s", s.desk.titleOf(n))
			for _, line := range lines {
				s.desk.say("%s", line)
			}
		}
	}
	if shown > manySheets {
		s.desk.say("and %s more", count(shown-manySheets, "sheet"))
	}
}

// manySheets is how many sheets of one run are shown one by one.
const manySheets = 20

// oneLine is text fit for a trailer.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
