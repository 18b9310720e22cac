package render

import (
	"cmp"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger/book"
	"blotter/render/page"
)

// personHolder is the page of a person as one that lists sheets.
func (s *shelf) personHolder(c *person) holder {
	return holder{func() *page.Page { return s.personHead(c) }, []holding{
		{"collected", s.lang.CollectedByThem, c.collected, "", nil},
		{"named", s.lang.NamedByThem, c.named, "", nil},
		{"with", s.lang.InTheParty, c.with, "", nil},
		{"earlier", s.lang.EarlierByThem, c.earlier, "", nil},
	}}
}

// personHead is the heading and the trail of a person's page.
func (s *shelf) personHead(c *person) *page.Page {
	p := s.newPage(personAddress(c), c.name, page.Quote{Words: page.Words(c.name)})
	p.Trail = []page.Link{{To: "people/index", Text: []page.Part{said(s.lang.Collectors)}}}
	return p
}

// personPage is the page of a collector or determiner.
func (s *shelf) personPage(c *person) *page.Page {
	p := s.personHead(c)
	p.Standing = s.life(c)
	p.Notices = s.heldNotice(c.collected, c.named)
	if len(c.spellings) > 0 {
		p.Lead = append(p.Lead, page.Para{Parts: []page.Part{said(s.lang.SpellingsMet + " "), page.Person(strings.Join(sorted(c.spellings), "; ")), said(".")}})
	}
	if c.listed != nil && c.listed.About.Set() && c.listed.Initials.Text != "yes" {
		p.Lead = append(p.Lead, page.Passage{Runs: []page.Run{page.Words(c.listed.About.Text)}})
	}
	section(p, "numbers", s.lang.NumberSeries, s.series(c)...)
	section(p, "journeys", s.lang.Journeys, s.journeys(c.collected)...)
	s.shelve(p, s.personHolder(c).lists...)
	section(p, "map", s.lang.MapHeading, s.distribution(c.collected)...)
	section(p, "years", s.lang.ByYear, s.yearChart(c.collected)...)
	return p
}

var orcidShape = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(https://orcid\.org/)?(\d{4}-\d{4}-\d{4}-\d{3}[\dX])$`)
})

// life is what is known of a person in one line.
func (s *shelf) life(c *person) []page.Part {
	var out []page.Part
	add := func(ps ...page.Part) {
		if len(out) > 0 {
			out = append(out, said(" "))
		}
		out = append(out, ps...)
	}
	if l := c.listed; l != nil && l.Initials.Text != "yes" {
		switch {
		case l.Born.Set() && l.Died.Set():
			add(said(page.Fill(s.lang.LifeYears, l.Born.Text, l.Died.Text)))
		case l.Born.Set():
			add(said(page.Fill(s.lang.BornYear, l.Born.Text)))
		case l.Died.Set():
			add(said(page.Fill(s.lang.DiedYear, l.Died.Text)))
		}
		if m := orcidShape().FindStringSubmatch(l.ORCID.Text); m != nil {
			add(page.Link{To: page.Address("https://orcid.org/" + m[2]), Text: []page.Part{said("ORCID " + m[2])}}, said("."))
		}
	}
	if n := len(c.collected); n > 0 {
		text := page.Fill(s.lang.CollectedN, s.sheetsWord(n))
		if y := s.yearsOf(c.collected); y != "" {
			text = page.Fill(s.lang.CollectedYears, s.sheetsWord(n), y)
		}
		add(said(text))
	}
	if n := len(c.named); n > 0 {
		add(said(page.Fill(s.lang.NamesStand, s.sheetsWord(n))))
	}
	return out
}

// series is the numbers of a collector, year by year: the first, the last,
// how many are here. Numbers that go back against the days are named.
func (s *shelf) series(c *person) []page.Block {
	type numbered struct {
		no int
		e  *book.Entry
	}
	years := map[int][]numbered{}
	for _, e := range c.collected {
		y, ok := yearOf(e)
		no, err := strconv.Atoi(e.CollNo)
		if ok && err == nil {
			years[y] = append(years[y], numbered{no, e})
		}
	}
	var out page.Lines
	highest := -1
	for _, y := range sorted(years) {
		list := years[y]
		slices.SortFunc(list, func(a, b numbered) int { return cmp.Compare(a.no, b.no) })
		first, last := list[0].no, list[len(list)-1].no
		text := page.Fill(s.lang.SeriesYear, itoa(y), itoa(first), itoa(last), s.sheetsWord(len(list)))
		if first == last {
			text = page.Fill(s.lang.SeriesOne, itoa(y), itoa(first))
		}
		if first < highest {
			text += page.Fill(s.lang.SeriesBack, itoa(highest))
		}
		highest = max(highest, last)
		out.List = append(out.List, []page.Part{said(text)})
	}
	if len(out.List) == 0 {
		return nil
	}
	return []page.Block{out}
}
