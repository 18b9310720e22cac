package due

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// lending tells of a loan, borrowing, gift, exchange or sampling.
func (l *list) lending() error {
	loan := l.w.Loan(l.f, l.on.Day)
	if loan == nil {
		return nil
	}
	partner := l.partner()
	l.request(loan, partner)
	l.word(loan, partner)
	l.dueBack(loan, partner)
	return l.determined(loan, partner)
}

// partner is the other side by its name alone.
func (l *list) partner() string {
	words := l.f.Work.Partner.Text
	if p := l.w.PartnerOf(words); p != nil && p.Name.Set() {
		return p.Name.Text
	}
	if _, name := work.ReadPartner(words); name != "" {
		return name
	}
	return cmp.Or(words, l.f.Work.Person.Text, "the other side")
}

// request tells of what was asked for and not answered.
func (l *list) request(loan *work.Loan, partner string) {
	asked := lastOf(l.events, "requested")
	n := loan.Count(work.Asked)
	if asked == nil || n == 0 && len(loan.Things) > 0 || lastOf(l.events, "approved", "selected", "packed", "sent", "received", "sampled") != nil {
		return
	}
	day := asked.Day + dates.Day(whole(l.w.Habits.Loans.Answer, 14))
	much := ""
	if n > 0 {
		much = count(n, "sheet")
	}
	if l.f.Kind.Name == "borrowing" {
		l.add(Thing{Day: day, Clock: -1, Kind: Request, Step: "asked", What: with("no answer yet from "+partner+", asked "+l.date(asked.Day), much), Next: "blotter show " + string(l.f.Number), Sheets: words(loan, work.Asked)})
		return
	}
	l.add(Thing{Day: day, Clock: -1, Kind: Request, Step: "asked", What: with("answer the request of "+partner+" of "+l.date(asked.Day), much), Next: l.log("approved"), Sheets: words(loan, work.Asked)})
}

// word tells of a parcel of which nobody has said that it came.
func (l *list) word(loan *work.Loan, partner string) {
	sent := lastOf(l.events, "sent", "received")
	if sent == nil || loan.Acked != nil && loan.Acked.Day >= sent.Day {
		return
	}
	switch l.f.Kind.Name {
	case "loan", "gift", "exchange":
		n := loan.Outstanding()
		if l.f.Kind.Name != "loan" {
			n = loan.Gone()
		}
		if sent.Verb == "sent" && n > 0 {
			l.add(Thing{Day: sent.Day + dates.Day(whole(l.w.Habits.Loans.Word, 30)), Clock: -1, Kind: Word, Step: "sent", Next: l.log("acknowledged"), Sheets: words(loan, work.Out),
				What: fmt.Sprintf("no word yet from %s that %s came, sent %s", partner, count(n, "sheet"), l.date(sent.Day))})
		}
	case "borrowing":
		l.add(Thing{Day: sent.Day + dates.Day(whole(l.w.Habits.Loans.Answer, 14)), Clock: -1, Kind: Word, Step: "received", Next: l.log("acknowledged"), Sheets: words(loan, work.Out),
			What: fmt.Sprintf("tell %s that %s came, received %s", partner, count(loan.Outstanding(), "sheet"), l.date(sent.Day))})
	}
}

// dueBack tells of the day by which sheets are to be back, and of the days on
// which somebody is written to. Sheets of one loan may be due on several days.
func (l *list) dueBack(loan *work.Loan, partner string) {
	if loan.Outstanding() == 0 || l.f.Kind.Name != "loan" && l.f.Kind.Name != "borrowing" {
		return
	}
	by := map[dates.Day]int{}
	named := map[dates.Day][]string{}
	var days []dates.Day
	for _, t := range loan.Things {
		if t.Stage != work.Out || t.Due == 0 {
			continue
		}
		if by[t.Due] == 0 {
			days = append(days, t.Due)
		}
		by[t.Due] += t.Count
		named[t.Due] = append(named[t.Due], t.Words)
	}
	slices.Sort(days)
	for _, day := range days {
		n := min(by[day], loan.Outstanding())
		step := "due"
		if day != days[0] {
			step = "due-" + strconv.Itoa(int(day-days[0]))
		}
		l.dueOn(day, n, loan, partner, step, collapse(named[day]))
	}
}

// dueOn tells of n sheets that are to be back on one day.
func (l *list) dueOn(day dates.Day, n int, loan *work.Loan, partner, step string, sheets []string) {
	gone, ours := loan.Gone(), l.f.Kind.Name == "loan"
	kind, next := Loan, l.log("recalled")
	if day >= l.on.Day {
		next = "blotter print reminder " + string(l.f.Number)
	}
	what := fmt.Sprintf("%s still at %s, due %s", part(n, gone), partner, l.date(day))
	if !ours {
		kind, next = Borrowing, l.log("sent-back")
		what = fmt.Sprintf("send back %s to %s, due %s", part(n, gone), partner, l.date(day))
	}
	l.add(Thing{Day: day, Clock: -1, Kind: kind, Step: step, What: what, Next: next, Sheets: sheets})
	h := l.w.Habits.Loans
	for _, before := range h.Remind {
		if d, err := strconv.Atoi(before.Text); err == nil && d > 0 && day-dates.Day(d) >= l.on.Day {
			words := fmt.Sprintf("remind %s: %s due %s, in %s", partner, part(n, gone), l.date(day), count(d, "day"))
			if !ours {
				words = fmt.Sprintf("%s of %s due back %s, in %s: finish or ask for more time", part(n, gone), partner, l.date(day), count(d, "day"))
			}
			l.add(Thing{Day: day - dates.Day(d), Clock: -1, Kind: Remind, Step: step + "-before-" + before.Text, What: words, Next: next, Sheets: sheets})
		}
	}
	for _, after := range h.Overdue {
		if d, err := strconv.Atoi(after.Text); err == nil && ours && day+dates.Day(d) >= l.on.Day {
			l.add(Thing{Day: day + dates.Day(d), Clock: -1, Kind: Remind, Step: step + "-after-" + after.Text, Next: l.log("recalled"), Sheets: sheets,
				What: fmt.Sprintf("write to %s: %s overdue by %s, due %s", partner, part(n, gone), count(d, "day"), l.date(day))})
		}
	}
}

// part is "14 of 40 sheets", or "40 sheets" when all are meant.
func part(n, of int) string {
	if n >= of {
		return count(n, "sheet")
	}
	return fmt.Sprintf("%d of %s", n, count(of, "sheet"))
}

// determined tells of sheets that came back from loan without an opinion of
// those who had them.
func (l *list) determined(loan *work.Loan, partner string) error {
	if l.f.Kind.Name != "loan" || l.on.Record == nil {
		return nil
	}
	var waiting []string
	last := dates.Day(0)
	for _, t := range loan.Things {
		if t.Stage != work.Back || t.Entry == nil {
			continue
		}
		r, err := l.on.Record(l.ctx, t.Entry)
		if err != nil {
			return err
		}
		if !looked(r, t.Sent) {
			waiting = append(waiting, t.Words)
			last = max(last, t.Back)
		}
	}
	if len(waiting) > 0 {
		l.add(Thing{Day: last + dates.Day(whole(l.w.Habits.Loans.Named, 30)), Clock: -1, Kind: Determined, Step: "named", Sheets: collapse(waiting), Next: "blotter show " + string(l.f.Number),
			What: fmt.Sprintf("no opinion of %s yet on %s back since %s", partner, count(len(waiting), "sheet"), l.date(last))})
	}
	return nil
}

// looked reports whether somebody looked at a sheet since a day.
func looked(r *ledger.Record, since dates.Day) bool {
	on := func(l ledger.Leaf) bool {
		d := dates.Read(l.Text, dates.Ask)
		return d.Known() && d.Last >= since
	}
	return slices.ContainsFunc(r.Determinations, func(d ledger.Determination) bool { return on(d.Date) }) ||
		slices.ContainsFunc(r.Annotations, func(a ledger.Annotation) bool { return on(a.Date) && a.Kind.Text != "question" })
}

// words are the things of a loan that have come as far as a stage.
func words(loan *work.Loan, s work.Stage) []string {
	var out []string
	for _, t := range loan.Things {
		if t.Stage == s {
			out = append(out, t.Words)
		}
	}
	return collapse(out)
}

// collapse writes numbers that follow each other as spans.
func collapse(all []string) []string {
	things := make([]work.Thing, len(all))
	for i, s := range all {
		if _, ok := ledger.Number(s).Serial(); ok && !strings.ContainsRune(s, ' ') {
			things[i].Sheet = ledger.Number(s)
		} else {
			things[i].Item.Other = s
		}
	}
	return Spans(things)
}
