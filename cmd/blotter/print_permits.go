package main

import (
	"context"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
	"blotter/render/document"
)

// permitsPrint is the list of all permits, with their days and what is left.
func permitsPrint() printKind {
	return printKind{
		Name: "permits", Says: "every permit with its days, its report, what was taken under it and what is left",
		Flags: []*flag{flagOn},
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			if len(words) > 0 {
				return nil, misuse("%q is too much; the list has all permits", words[0])
			}
			w, on, err := d.worksOnDay(ctx)
			if err != nil {
				return nil, err
			}
			doc := &document.Document{Title: "Permits of " + d.museum.Name.Text + ", " + dates.Words(on)}
			var rows [][]string
			for _, s := range standings(w, on) {
				paper := &s.File.Work.Permit
				rows = append(rows, []string{string(s.File.Number), paper.Number.Text, paper.For.Text, s.days(), s.mostWords(), itoa(s.Taken), s.leftWords(), s.report()})
			}
			if len(rows) == 0 {
				doc.Say("There is no permit in work/permit/. A new one: blotter open permit granted number=2026/318")
			}
			doc.Table([]string{"permit", "number", "for", "days", "most", "taken", "left", "report"}, rows)
			return doc, nil
		},
	}
}

// permitStanding is a permit on a day, with what was gathered under it.
type permitStanding struct {
	work.Permit
	work.Collected
	on   dates.Day
	most int // 0: its paper says no most
}

// standings are those of all permits.
func standings(w *work.Works, on dates.Day) []permitStanding {
	under := w.CollectedUnder()
	var out []permitStanding
	for _, f := range w.Files {
		if f.Kind.Name == "permit" {
			out = append(out, permitStanding{work.ReadPermit(f), under[f], on, atoi(f.Work.Permit.Most.Text)})
		}
	}
	return out
}

// days is whether it holds and for how many days more.
func (s permitStanding) days() string {
	switch {
	case s.Refused:
		return "refused"
	case !s.Granted:
		return "applied for, not granted"
	case s.Lapsed != 0 && s.Lapsed <= s.on:
		return "lapsed on " + dates.Words(s.Lapsed)
	case s.From > s.on:
		return "holds from " + dates.Words(s.From) + " on, in " + count(int(s.From-s.on), "day")
	case s.To == 0:
		return "holds, no last day"
	case s.To < s.on:
		return "ended on " + dates.Words(s.To)
	case s.To == s.on:
		return "holds, today is its last day"
	}
	return "holds until " + dates.Words(s.To) + ", " + count(int(s.To-s.on), "day") + " left"
}

// report is when a report is due, or was made.
func (s permitStanding) report() string {
	switch {
	case s.Reported != 0 && s.Reported <= s.on:
		return "made on " + dates.Words(s.Reported)
	case s.Report == 0:
		return ""
	case s.Report < s.on:
		return "overdue since " + dates.Words(s.Report)
	}
	return "due by " + dates.Words(s.Report)
}

func (s permitStanding) mostWords() string {
	if s.most == 0 {
		return s.File.Work.Permit.Most.Text // words, or nothing
	}
	return itoa(s.most)
}

// leftWords is how many plants more may be taken; "" when no most is known.
func (s permitStanding) leftWords() string {
	switch {
	case s.most == 0:
		return ""
	case s.Taken > s.most:
		return itoa(s.Taken-s.most) + " too many"
	}
	return itoa(s.most - s.Taken)
}

// breach is a sheet that does not keep to the permit it names.
type breach struct {
	Sheet string `json:"sheet"`
	Says  string `json:"says"`
}

// breachesOf are the sheets that name a permit and go beyond it.
func breachesOf(w *work.Works, f *work.File) []breach {
	names := map[string]bool{}
	var out []breach
	for e := range w.Book().All() {
		if e.Permit == "" {
			continue
		}
		its, known := names[e.Permit]
		if !known {
			for _, p := range w.PermitsOf(e.Permit) {
				its = its || p == f
			}
			names[e.Permit] = its
		}
		if !its {
			continue
		}
		for _, b := range w.Breaches(e) {
			out = append(out, breach{string(e.Number), b.Words})
		}
	}
	return out
}

// mostBreaches is how many sheets are listed one by one.
const mostBreaches = 40

// permit tells, of a permit, what was gathered under it.
func (v *workView) permit() {
	for _, s := range standings(v.works, v.on) {
		if s.File != v.file {
			continue
		}
		v.desk.say("On %s: %s.", dates.Words(v.on), joinNonEmpty("; ", s.days(), prefixedAny("report ", s.report())))
		taken := count(s.Sheets, "sheet") + " of " + count(s.Gatherings, "gathering") + " under it; " + count(s.Taken, "plant") + " taken"
		if s.most > 0 {
			taken += " of at most " + itoa(s.most)
			if s.Taken <= s.most {
				taken += ", " + itoa(s.most-s.Taken) + " left"
			} else {
				taken += ", " + s.leftWords()
			}
		}
		v.desk.say("%s.", taken)
	}
	var rows [][]string
	for _, b := range breachesOf(v.works, v.file) {
		rows = append(rows, []string{b.Sheet, b.Says})
	}
	if len(rows) == 0 {
		return
	}
	v.desk.say("Not covered by it, %s:", count(len(rows), "finding"))
	v.desk.table("  ", rows[:min(len(rows), mostBreaches)])
	if more := len(rows) - mostBreaches; more > 0 {
		v.desk.say("  and %s more: blotter check", thousands(more))
	}
}

// permitOut is that as JSON.
type permitOut struct {
	Days       string   `json:"days"`
	Report     string   `json:"report,omitempty"`
	Sheets     int      `json:"sheets"`
	Gatherings int      `json:"gatherings"`
	Taken      int      `json:"taken"`
	Most       string   `json:"most,omitempty"`
	Left       string   `json:"left,omitempty"`
	Breaches   []breach `json:"breaches"`
}

func (v *workView) permitJSON() *permitOut {
	for _, s := range standings(v.works, v.on) {
		if s.File == v.file {
			return &permitOut{s.days(), s.report(), s.Sheets, s.Gatherings, s.Taken, s.mostWords(), s.leftWords(), append([]breach{}, breachesOf(v.works, v.file)...)}
		}
	}
	return nil
}

// placesOf is a list of a permit's paper in a line, or that it sets no bounds.
func placesOf(ls []ledger.Leaf, none string) string {
	if len(ls) == 0 {
		return none
	}
	return strings.Join(leafList(ls), "; ")
}
