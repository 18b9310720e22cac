package render

import (
	"blotter/ledger/dates"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
	"blotter/render/page"
)

// names are the names given to it, newest on top, the label's own last.
func (x *sheet) names() []page.Block {
	order := x.d.Chain.Order
	if len(order) == 0 {
		return []page.Block{page.Para{Parts: []page.Part{said(x.lang.NobodyNamed)}}}
	}
	bars := x.bars()
	list := make([]page.Opinion, 0, len(order)+len(bars))
	days := make([]reading.Date, 0, cap(list))
	for i := len(order); i >= 0; i-- {
		for len(bars) > 0 && bars[len(bars)-1].at == i {
			b := bars[len(bars)-1]
			list, days, bars = append(list, b.Opinion), append(days, b.day), bars[:len(bars)-1]
		}
		if i > 0 {
			list, days = append(list, x.opinion(order[i-1], i-1)), append(days, x.d.Opinions[order[i-1]].Date)
		}
	}
	for i := range len(list) - 1 {
		list[i].Gap = x.gap(days[i], days[i+1])
	}
	return []page.Block{page.Opinions{List: list}}
}

// opinion is the determination at place k of the record, which is the i-th
// from the oldest.
func (x *sheet) opinion(k, i int) page.Opinion {
	g := &x.d.Opinions[k]
	o := page.Opinion{
		Anchor: "name-" + itoa(k+1), Day: page.Said(x.opinionDay(g)), What: page.Said(x.what(g, i)),
		State: page.Said(x.lang.Earlier), Mark: page.Earlier, Name: readName(g.Name), Grounds: page.Words(g.Given.Why.Text),
	}
	switch {
	case g.State == opinion.Stands && (k == x.d.Chain.Current || k == x.d.Chain.Opinion || x.d.Chain.Disputed || g.Kind != opinion.NameChange):
		o.Mark, o.State = page.Stands, page.Said(x.lang.Stands)
	case g.State == opinion.Aside:
		o.State = page.Said(x.lang.OfDuplicate)
	case g.State == opinion.Mistake:
		o.State = page.Said(x.lang.MistakeWord)
		o.Mistake = page.FillParts(x.lang.EnteredByMistake, []page.Part{page.Quote{Words: page.Words(g.Given.Mistake.Text)}})
	}
	if g.Kind == opinion.NameChange {
		o.Mark = page.Renamed
	}
	o.By = []page.Part{x.personPart(g.Given.By.Text)}
	if g.Given.At.Set() {
		o.By = append(o.By, said(", "), page.Person(g.Given.At.Text))
	}
	o.More = x.more(g)
	if k < len(x.story.Opinions) && x.story.Opinions[k].Known() {
		rv := x.story.Opinions[k]
		o.Entered = []page.Part{said(x.enteredBy(rv))}
	}
	return o
}

// clerk is the name of the person who entered something, as shown.
func (x *shelf) clerk(by string) string {
	if name, _ := x.who(by); name != "" {
		return name
	}
	return by
}

// what happened: on the label, named, named anew, agrees, renamed.
func (x *sheet) what(g *reading.Opinion, i int) string {
	switch g.Kind {
	case opinion.Conf:
		return x.lang.Agrees
	case opinion.Not:
		return x.lang.NamedNot
	case opinion.NameChange:
		return x.lang.RenamedBar
	}
	switch {
	case g.Given.From.Text == "label":
		return x.lang.OnTheLabel
	case i == 0:
		return x.lang.Named
	case g.Name.Unnamed:
		return x.lang.LeftUnnamed
	case opinion.Same(g.Name.Keys, x.d.Opinions[x.d.Chain.Order[i-1]].Name.Keys) && g.Name.Readable:
		return x.lang.NamedAgain
	}
	return x.lang.NamedAnew
}

// more is what the slip says besides: part, what was looked at, source.
func (x *sheet) more(g *reading.Opinion) []page.Part {
	var out []page.Part
	add := func(ps []page.Part) {
		if len(out) > 0 {
			out = append(out, said(" "))
		}
		out = append(out, ps...)
	}
	if !g.Name.Readable && !g.Name.Unnamed && g.Name.Words != "" {
		add([]page.Part{said(upperFirst(x.lang.CouldNotReadName) + ".")})
	}
	if g.Given.Part.Set() {
		add(page.FillParts(x.lang.PartWord, []page.Part{page.Quote{Words: page.Words(g.Given.Part.Text)}}))
	}
	if v := g.Given.Seen.Text; v != "" {
		add([]page.Part{said(page.Fill(x.lang.SeenAs, x.lang.Kind(v)))})
	}
	if v := g.Given.From.Text; v != "" && v != "label" {
		add([]page.Part{said(page.Fill(x.lang.SourceWord, x.lang.Kind(v)))})
	}
	if g.Given.Source.Set() {
		add(page.FillParts(x.lang.AfterSource, []page.Part{page.Quote{Words: page.Words(g.Given.Source.Text)}}))
	}
	return out
}

// gap is the time between two opinions in words; "" when a day is not known.
func (x *sheet) gap(newer, older reading.Date) page.Said {
	if !newer.Known || !older.Known {
		return ""
	}
	if t := x.span(older.First, newer.First, older.Read.Single() && newer.Read.Single()); t != "" {
		return page.Said(page.Fill(x.lang.Before, t))
	}
	return ""
}

// span is a stretch of time in words: years from two years on, months from
// two months, else days when both days are known.
func (s *shelf) span(from, to dates.Day, exact bool) string {
	y1, m1, d1 := from.Date()
	y2, m2, d2 := to.Date()
	months := (y2-y1)*12 + m2 - m1
	if d2 < d1 {
		months--
	}
	switch days := int(to - from); {
	case days < 0:
		return ""
	case months >= 24:
		return page.Count(months/12, s.lang.Year1, s.lang.YearN)
	case !exact && months >= 12:
		return page.Count(1, s.lang.Year1, s.lang.YearN)
	case !exact:
		return ""
	case months >= 2:
		return page.Count(months, s.lang.Month1, s.lang.MonthN)
	case days == 0:
		return ""
	default:
		return page.Count(days, s.lang.Day1, s.lang.DayN)
	}
}
