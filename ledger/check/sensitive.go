package check

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
)

var sensitiveRules = []Rule{
	{Code: "sensitive-category", Severity: ledger.Warning,
		Says: "A sensitive record has a category, 1 to 4.",
		Why:  "The category says how much of the place may be shown. Until there is one, nothing finer than the province is.",
		One:  sensitiveCategory},
	{Code: "sensitive-review", Severity: ledger.Warning,
		Says: "A sensitive record says when it is looked at again.",
		Why:  "What was at risk once need not be for ever, and a place withheld for ever is lost to science.",
		One:  sensitiveReview},
	{Code: "sensitive-why", Severity: ledger.Warning,
		Says: "A sensitive record says why it is.",
		Why:  "The sentence stands in public in the place of what is withheld, and tells who reviews the mark what to look for.",
		One:  sensitiveWhy},
	{Code: "sensitive-overdue", Severity: ledger.Warning,
		Says: "A sensitive record was looked at again when that was due.",
		Why:  "What was at risk once need not be for ever. Release it, or mark it again with a later review.",
		Join: sensitiveOverdue},
	{Code: "listed-sensitive", Severity: ledger.Warning,
		Says:  "A sensitive name or place has a reason, a category and a review.",
		Why:   "It withholds every sheet that bears the name or grew there; without a category all of them as strictly as can be.",
		Files: listedSensitive},
	{Code: "listed-overdue", Severity: ledger.Warning,
		Says: "A sensitive name or place was looked at again when that was due.",
		Why:  "It withholds every sheet that bears the name or grew there. Release it, or mark it again with a later review.",
		Due:  listedOverdue},
	{Code: "sensitive-looser", Severity: ledger.Warning,
		Says:  "Categories in blotter.yaml are held as strictly as another only to withhold more.",
		Why:   "The format says what each category withholds at least, so that it means the same in every museum. A line that would withhold less counts for nothing.",
		Files: sensitiveLooser},
}

func sensitiveWhy(d *reading.Reading, say say) {
	s := d.Record.Sensitive
	if !book.MarkedSensitive(s) || s.Why.Set() {
		return
	}
	say(place{line: int(s.Line), col: 1, field: "sensitive.why"}, words{"does not say why it is sensitive",
		"blotter set " + numberOf(d) + " sensitive.why=TEXT --why TEXT"})
}

func sensitiveOverdue(e *book.Entry, a *Around, say say) {
	m := e.Mark
	if a.Today == 0 || !m.Holds() || m.Review == 0 || m.Review >= a.Today {
		return
	}
	n := short(e.Number)
	say(place{line: int(e.Lines.Specimen), field: "sensitive.review"}, words{"was to be looked at again before today; until somebody does, it stays withheld",
		lines("Still at risk: blotter set "+n+" sensitive.review=YEAR --why TEXT", "Not any more: blotter edit "+n+"  and add released: with why, by and date")})
}

// listed is every mark of names/ and places.yaml that holds.
func listed(m *book.Museum, each func(s *ledger.Sensitive, at place)) {
	for _, n := range m.Names.All {
		if s := &n.Given.Sensitive; book.MarkedSensitive(*s) {
			each(s, place{path: n.Path, line: int(s.Line), col: 1, field: "names.sensitive"})
		}
	}
	for i := range m.Places {
		if s := &m.Places[i].Sensitive; book.MarkedSensitive(*s) {
			each(s, place{path: ledger.PlacesFile, line: int(s.Line), col: 1, field: "places.sensitive"})
		}
	}
}

func listedSensitive(m *book.Museum, say func(place, words)) {
	listed(m, func(s *ledger.Sensitive, at place) {
		var lacks []string
		for _, f := range []struct {
			name string
			leaf ledger.Leaf
		}{{"why", s.Why}, {"category", s.Category}, {"review", s.Review}} {
			if !f.leaf.Set() {
				lacks = append(lacks, f.name)
			}
		}
		if len(lacks) > 0 {
			say(at, words{"lacks " + strings.Join(lacks, ", "), "Add: why: TEXT, category: 1 to 4, review: YEAR"})
		}
	})
}

func listedOverdue(m *book.Museum, today dates.Day, say func(place, words)) {
	listed(m, func(s *ledger.Sensitive, at place) {
		if r := book.MarkOf(*s).Review; r != 0 && r < today {
			say(at, words{"was to be looked at again before today; until somebody does, its sheets stay withheld",
				"Still at risk: a later review. Not any more: add released: with why, by and date."})
		}
	})
}

func sensitiveLooser(m *book.Museum, say func(place, words)) {
	for i := range m.Sensitive.Categories {
		c := &m.Sensitive.Categories[i]
		if c.Category.Set() && c.As.Set() && c.As.Text >= c.Category.Text {
			p := at(c.As, "sensitive.categories.as")
			p.path = ledger.MuseumFile
			say(p, words{"would not withhold more, so it counts for nothing", "Take the entry out, or name a stricter category: a lesser figure."})
		}
	}
}

func sensitiveCategory(d *reading.Reading, say say) {
	s := d.Record.Sensitive
	if !book.MarkedSensitive(s) || s.Category.Set() {
		return
	}
	say(place{line: int(s.Line), col: 1, field: "sensitive.category"}, words{"has no category, so it is withheld as strictly as the strictest",
		"1 most sensitive, 4 least: blotter set " + numberOf(d) + " sensitive.category=2 --why TEXT"})
}

func sensitiveReview(d *reading.Reading, say say) {
	s := d.Record.Sensitive
	if !book.MarkedSensitive(s) || s.Review.Set() {
		return
	}
	say(place{line: int(s.Line), col: 1, field: "sensitive.review"}, words{"nothing says when this is to be looked at again",
		"blotter set " + numberOf(d) + " sensitive.review=YEAR --why TEXT"})
}
