package main

import (
	"context"
	"fmt"

	"blotter/ledger/book"
	"blotter/ledger/reading"
	"blotter/ledger/waypoints"
	"blotter/ledger/work"
	"blotter/render/field"
)

// gatheredAs are the records whose collector and number, made comparable, are
// wanted.
func gatheredAs(works *work.Works, wanted func(collector, number string) bool) []*book.Entry {
	var out []*book.Entry
	for e := range works.Book().All() {
		if e.CollNo != "" && e.Fate != "mistake" && e.Fate != "same-as" && wanted(e.Collector, waypoints.Number(e.CollNo)) {
			out = append(out, e)
		}
	}
	return out
}

// mustBeNew asks about gatherings that are in the ledger, or in the file,
// already: a second sheet of a gathering is made on purpose only.
func (d *desk) mustBeNew(ctx context.Context, from string, form field.Form) error {
	byNumber := map[string][]field.Gathering{}
	var known []string
	works, err := d.works(ctx)
	if err != nil {
		return err
	}
	for _, g := range form.Gatherings {
		no, who := g.Values["coll_no"], g.Values["collector"]
		if no == "" || who == "" || reading.AbsenceOf(no) != reading.Present {
			continue
		}
		key := waypoints.Number(no)
		for _, o := range byNumber[key] {
			if works.SamePerson(o.Values["collector"], who) {
				known = append(known, fmt.Sprintf("%s:%d: %s %s stands in line %d too", from, g.Line, who, no, o.Line))
			}
		}
		byNumber[key] = append(byNumber[key], g)
	}
	if len(byNumber) == 0 {
		return nil
	}
	for _, e := range gatheredAs(works, func(_, no string) bool { return byNumber[no] != nil }) {
		for _, g := range byNumber[waypoints.Number(e.CollNo)] {
			if works.SamePerson(e.Collector, g.Values["collector"]) {
				known = append(known, fmt.Sprintf("%s:%d: %s %s is in the ledger already: %s", from, g.Line, g.Values["collector"], g.Values["coll_no"], e.Number))
			}
		}
	}
	return d.allTheSame(ctx, known)
}

// allTheSame lets a person decide on gatherings that are known already.
func (d *desk) allTheSame(ctx context.Context, known []string) error {
	if len(known) == 0 || d.opts.on("yes") {
		return nil
	}
	if more := len(known) - manyOfOneCode; more > 0 {
		known = append(known[:manyOfOneCode], fmt.Sprintf("and %d more", more))
	}
	try := []string{"Typed in before: take it out of the file.", "A further sheet of the same gathering: add --yes"}
	if !d.Asks {
		return misuse("%s; nothing was made", known[0]).try(append(known[1:], try...)...)
	}
	for _, k := range known {
		d.say("%s", k)
	}
	ok, err := d.asker().yesNo(ctx, "Make further sheets of the same gatherings?", false)
	if err == nil && !ok {
		return misuse("nothing was made").try(try...)
	}
	return err
}
