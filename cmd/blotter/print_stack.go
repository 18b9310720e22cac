package main

import (
	"context"
	"fmt"
	"math"

	"blotter/ledger/drying"
	"blotter/ledger/work"
	"blotter/ledger/work/due"
	"blotter/render/document"
)

// mostStacked is the most plants of one stack that are listed one by one.
const mostStacked = 500

// stackPrint is the order in which a load of the press is laid.
func stackPrint() printKind {
	return printKind{
		Name: "stack", Takes: "PRESS|PLANTS", Says: "in which order the boards, blotters and folds of a load lie, from the bottom", Flags: []*flag{flagMethod},
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			if len(words) != 1 {
				return nil, misuse("which load? A press, or a count of plants").try("blotter print stack press-2026-007", "blotter print stack 12 --method 'warm air'")
			}
			w, err := d.works(ctx)
			if err != nil {
				return nil, err
			}
			if onlyDigits().MatchString(words[0]) {
				return d.plannedStack(w, words[0])
			}
			if d.opts.text("method") != "" {
				return nil, misuse("--method is for a count of plants; a load has its own method")
			}
			n, err := d.workArgument(words[0])
			if err != nil {
				return nil, err
			}
			f := w.Find(n)
			if f == nil || f.Kind.Name != "press" && f.Kind.Name != "drying" {
				return nil, misuse("%s is no load of the press", n)
			}
			p := due.ReadPress(w, f, d.todayAsDay())
			build, _, plants, ok := due.Stack(p)
			if !ok {
				return nil, misuse("%s holds nothing that lies in a stack", n).try("Its method: blotter show " + string(n))
			}
			return stackList(string(n)+joinNonEmpty("", prefixedAny(", ", f.Work.Title.Text)), build, stackedNames(p.Holds), plants, w, p.Calendar.Cautions)
		},
	}
}

// plannedStack is a stack of so many plants that are not pressed yet.
func (d *desk) plannedStack(w *work.Works, typed string) (*document.Document, error) {
	method := drying.Unheated
	if m := d.opts.text("method"); m != "" {
		method = drying.Method(m)
	}
	build := due.BuildOf(method)
	plants := atoi(typed)
	switch {
	case build == "":
		return nil, misuse("--method %s: one of unheated, warm air, alcohol", method)
	case plants < 1 || plants > mostStacked:
		return nil, misuse("%s is no count of plants from 1 to %d", typed, mostStacked)
	}
	return stackList("Stack for "+count(plants, "plant")+", "+string(method), build, nil, plants, w, nil)
}

// stackedNames are the plants of a load in the order in which they were laid: a
// bundle fold by fold.
func stackedNames(holds []work.Thing) []string {
	var names []string
	for _, t := range holds {
		if !t.Item.Bundle() || t.Sheet != "" {
			names = append(names, t.String())
			continue
		}
		for i := range min(t.Item.Count, mostStacked+1) {
			names = append(names, joinNonEmpty(", ", t.Item.What, fmt.Sprintf("%d of %d", i+1, t.Item.Count)))
		}
	}
	return names
}

// stackList is the list to lay a stack by.
func stackList(title string, build drying.Build, names []string, plants int, w *work.Works, cautions []string) (*document.Document, error) {
	counts, err := build.Counts(plants)
	if err != nil {
		return nil, stuck("%v", err)
	}
	doc := &document.Document{Title: title}
	var parts []string
	for _, q := range counts {
		parts = append(parts, count(q.Count, string(q.Item)))
	}
	h := w.Habits.Drying.Stack
	each := make([]float64, plants)
	for i := range each {
		each[i] = figureOf(h.Plant)
	}
	height, err := build.Height(each, due.Thickness(h))
	if err != nil {
		return nil, stuck("%v", err)
	}
	doc.Say(sentence(andJoin(parts)) + fmt.Sprintf(" The stack stands about %.0f cm high as it is built and sinks under the straps.", math.Ceil(height/10)))
	if len(cautions) > 0 {
		doc.Caution(joinNonEmpty(" ", sentence(joinNonEmpty("; ", cautions...)), ownRules))
	}
	if plants > mostStacked {
		doc.Say("From the bottom: " + liesAs(build, plants) + ".")
		return doc, nil
	}
	var rows [][]string
	for l := range build.Layers(plants) {
		plant := ""
		if l.Item == drying.Fold {
			if plant = "plant " + itoa(l.Plant); l.Plant <= len(names) {
				plant = names[l.Plant-1]
			}
		}
		rows = append(rows, []string{itoa(len(rows) + 1), string(l.Item), plant})
	}
	doc.Heading("From the bottom")
	doc.Table([]string{"layer", "what", "plant"}, rows)
	return doc, nil
}
