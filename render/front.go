package render

import (
	"cmp"
	"slices"
	"strings"

	"blotter/render/page"
)

const lastChanges = 10

// front is the first page.
func (s *shelf) front(intro page.Block) *page.Page {
	p := s.newPage("index", string(s.site.Title), page.Quote{Words: s.site.Title})
	if intro != nil {
		p.Lead = append(p.Lead, intro)
	}
	p.Lead = append(p.Lead, page.Search{}, page.Para{Parts: []page.Part{said(s.figures())}})
	if len(s.sheets) == 1 {
		p.Lead = append(p.Lead, s.rowList(s.sheets, ""))
	}
	if s.in.Work != nil {
		section(p, "work", "Work", page.Lines{List: [][]page.Part{{page.Link{To: "work/index", Text: []page.Part{said("What needs a hand, and what is open")}}}}})
	}
	if last := s.lastChanges(); len(last) > 0 {
		section(p, "changes", s.lang.LastChanges, page.Lines{List: last})
	}
	if len(s.sheets) >= minChart {
		section(p, "by-year", s.lang.ByYear, s.yearChart(s.sheets)...)
		section(p, "by-month", s.lang.ByMonth, s.monthChart(s.sheets)...)
		section(p, "by-family", s.lang.ByFamily, s.familyChart()...)
	}
	section(p, "ways", s.lang.WaysIn, s.ways())
	if about := s.about(); len(about.List) > 0 {
		section(p, "about", s.lang.OwnPages, about)
	}
	if lines := s.archiveLines(); lines != nil {
		section(p, "download", s.lang.Download, page.Lines{List: lines})
	}
	cite := s.citeAll()
	if len(s.sheets) > 0 {
		cite = append(cite, s.midsFigures())
	}
	section(p, "cite", s.lang.CiteAll, cite...)
	p.Shown = s.shownSite()
	return p
}

func (s *shelf) shownSite() []page.Part {
	if !s.in.Site.Known() {
		return nil
	}
	return []page.Part{said(s.footShown(s.in.Site) + " " + page.Fill(s.lang.FootSheets, s.sheetsWord(len(s.sheets))))}
}

// figures is the collection in one sentence.
func (s *shelf) figures() string {
	if len(s.sheets) == 0 {
		return s.lang.FrontEmpty
	}
	standing := 0
	for _, t := range s.names {
		standing += boolInt(len(t.now) > 0)
	}
	collectors := 0
	for _, p := range s.people {
		collectors += boolInt(len(p.collected) > 0)
	}
	parts := []string{s.sheetsWord(len(s.sheets)),
		page.Fill(s.lang.NamesInFamilies, page.Count(standing, s.lang.Name1, s.lang.NameN), page.Count(len(s.families), s.lang.Family1, s.lang.FamilyN)),
		page.Count(collectors, s.lang.Collector1, s.lang.CollectorN)}
	if y := s.yearsOf(s.sheets); y != "" {
		parts = append(parts, y)
	}
	text := strings.Join(parts, ", ")
	if n := s.namedAnewThisYear(); n > 0 {
		text += "; " + page.Fill(s.lang.AnewThisYear, page.Number(n))
	}
	text += "."
	if n := s.drafts + s.stubs; n > 0 {
		text += " " + page.Fill(s.lang.NotYetPublished, page.Count(n, s.lang.More1, s.lang.MoreN))
	}
	return text
}

func (s *shelf) namedAnewThisYear() int {
	seen := map[string]bool{}
	for _, m := range s.in.Changes {
		if m.Year != s.in.Today.Year() {
			continue
		}
		for _, d := range m.Days {
			for _, e := range d.Events {
				if e.Kind == NamedAnew {
					seen[string(e.Number)] = true
				}
			}
		}
	}
	return len(seen)
}

func (s *shelf) lastChanges() [][]page.Part {
	var out [][]page.Part
	for _, m := range s.in.Changes {
		for i := range m.Days {
			d := &m.Days[i]
			for _, r := range s.dayRuns(d) {
				for _, l := range s.runLines(nil, r) {
					out = append(out, append([]page.Part{said(s.day(d.Date) + ", " + lowerFirst(r.heading) + ": ")}, l...))
					if len(out) == lastChanges {
						return out
					}
				}
			}
		}
	}
	return out
}

// familyChart is the twelve largest families and the rest.
func (s *shelf) familyChart() []page.Block {
	count := map[string]int{}
	for _, e := range s.sheets {
		if f := s.in.Book.Museum.FamilyOf(s.currentKey(e), e.Family); f != "" {
			count[f]++
		}
	}
	names := sorted(count)
	slices.SortStableFunc(names, func(a, b string) int { return cmp.Compare(count[b], count[a]) })
	if len(names) == 0 {
		return nil
	}
	var t page.Tally
	rest := 0
	for i, n := range names {
		if i < 12 {
			t.List = append(t.List, page.TallyLine{Link: page.Link{To: page.Address("families/" + s.slug(n)), Text: []page.Part{s.name(n)}}, Note: page.Said(s.sheetsWord(count[n]))})
		} else {
			rest += count[n]
		}
	}
	if rest > 0 {
		t.List = append(t.List, page.TallyLine{Link: page.Link{To: "families/index", Text: []page.Part{said(page.Fill(s.lang.MoreFamilies, page.Number(len(names)-12)))}}, Note: page.Said(s.sheetsWord(rest))})
	}
	return []page.Block{t}
}

func (s *shelf) ways() page.Tally {
	var out page.Tally
	for _, l := range s.lang.Navigation()[:6] {
		out.List = append(out.List, page.TallyLine{Link: l})
	}
	return out
}

func (s *shelf) about() page.Tally {
	var out page.Tally
	for _, l := range s.site.About {
		out.List = append(out.List, page.TallyLine{Link: l})
	}
	return out
}

func (s *shelf) citeAll() []page.Block {
	m := &s.in.Book.Museum.Museum
	parts := []page.Part{page.Person(m.Name.Text), said(": "), page.Person(string(s.site.Title))}
	if s.in.Site.Known() {
		parts = append(parts, said(". "+s.citedAs(s.in.Site)))
	}
	parts = append(parts, said("."))
	if s.site.Base != "" {
		parts = append(parts, said(" "), page.Person(s.site.Base))
	}
	out := []page.Block{page.Para{Parts: parts}}
	if m.Site.Licence.Set() {
		out = append(out, page.Para{Parts: page.FillParts(s.lang.LicenceLine, []page.Part{page.Person(m.Site.Licence.Text)})})
	}
	return out
}
