package exchange

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger/dates"
)

// opinions appends the determinations of one mapped column, oldest first.
func (p *Plan) opinions(f *fields, row Row, o *opinionPlan) {
	words := p.says(f, row, o.at[0], o.nothing)
	if words == "" {
		return
	}
	heads, cells := make([]string, len(o.at)), make([]string, len(o.at))
	for i, at := range o.at {
		heads[i], cells[i] = p.heads[at], p.says(f, row, at, o.nothing)
		if cells[i] != "" {
			f.used[at] = true
		}
	}
	words = composed(heads, cells)
	given := parted(words, o.Split.Text)
	people, days := p.each(f, row, o, o.by, len(given)), p.each(f, row, o, o.date, len(given))
	if o.Newest.Text == "first" {
		slices.Reverse(given)
		slices.Reverse(people)
		slices.Reverse(days)
	}
	why := p.says(f, row, o.why, nil)
	if why != "" {
		f.used[o.why] = true
	}
	kind, marked := p.mark(f, row, o)
	for i, name := range given {
		newest := i == len(given)-1
		x := opinion{name: name, kind: "det", by: cmp.Or(people[i], o.By.Text, "unsigned"), date: cmp.Or(days[i], o.Date.Text, "s.d."), from: o.From.Text}
		if newest || o.Mark.Text == "" {
			x.kind = kind
		}
		if newest {
			x.date, x.why = cmp.Or(marked, x.date), why
		}
		switch {
		case name == "!" && f.lastName != "": // somebody agreed with the name before
			x.name, x.kind = f.lastName, "conf"
			f.opinion(x)
		case name != "":
			f.opinion(x)
		}
	}
}

// parted are the parts of a cell, blanks around them left out.
func parted(words, split string) []string {
	if split == "" {
		return []string{words}
	}
	parts := strings.Split(words, split)
	for i, part := range parts {
		parts[i] = strings.TrimSpace(part)
	}
	return parts
}

// each gives every one of n names its person or date. A cell that is not
// parted into as many belongs to the newest name.
func (p *Plan) each(f *fields, row Row, o *opinionPlan, at, n int) []string {
	out := make([]string, n)
	words := p.says(f, row, at, nil)
	if words == "" {
		return out
	}
	f.used[at] = true
	if parts := parted(words, o.Split.Text); len(parts) == n {
		copy(out, parts)
	} else if o.Newest.Text == "first" {
		out[0] = words
	} else {
		out[n-1] = words
	}
	if at == o.date && o.Order.Set() {
		for i, day := range out {
			if r := dates.ReadWith(day, dateOptions(o.Order, o.Century)); day != "" && r.Single() && r.ISO() != day {
				out[i] = r.ISO()
				f.used[at] = false // the cell is kept to the letter besides
			}
		}
	}
	return out
}

type opinion struct{ name, kind, by, date, from, why string }

func (f *fields) opinion(x opinion) {
	f.lastName = x.name
	at := "determinations." + strconv.Itoa(f.opinions+1) + "."
	f.put(at+"name", x.name)
	f.put(at+"kind", x.kind)
	f.put(at+"by", x.by)
	f.put(at+"date", x.date)
	f.put(at+"from", x.from)
	f.put(at+"why", x.why)
}

// mark reads the kind and date of an opinion from the column of marks. The
// mark itself is kept to the letter besides.
func (p *Plan) mark(f *fields, row Row, o *opinionPlan) (kind, day string) {
	kind = cmp.Or(o.Kind.Text, "det")
	day = p.says(f, row, o.mark, nil)
	if day == "" {
		return kind, ""
	}
	for _, m := range o.Marks {
		if rest, ok := strings.CutPrefix(day, m.Sign.Text); ok {
			kind, day = m.Kind.Text, strings.TrimSpace(rest)
			break
		}
	}
	if o.Order.Set() {
		if r := dates.ReadWith(day, dateOptions(o.Order, o.Century)); r.Single() {
			day = r.ISO()
		}
	}
	return kind, day
}
