package page

import "fmt"

// Navigation is the row of links at the top of every page.
func (l *Language) Navigation() []Link {
	return []Link{
		{To: "families/index", Text: []Part{Said(l.Families)}},
		{To: "people/index", Text: []Part{Said(l.Collectors)}},
		{To: "places/index", Text: []Part{Said(l.Places)}},
		{To: "years/index", Text: []Part{Said(l.Years)}},
		{To: "names/index", Text: []Part{Said(l.AtoZ)}},
		{To: "changes/index", Text: []Part{Said(l.WhatChanged)}},
		{To: "search", Text: []Part{Said(l.Search)}},
	}
}

// Footer is the row of links at the foot of page p.
func (l *Language) Footer(p *Page) []Link {
	out := []Link{
		{To: "about/how-to-read", Text: []Part{Said(l.HowToRead)}},
		{To: "about/data", Text: []Part{Said(l.Data)}},
		{To: "feed.xml", Text: []Part{Said(l.Feed)}},
	}
	if !p.Twinless {
		out = append(out, Link{To: p.Address + ".md", Text: []Part{Said(l.AsMarkdown)}})
	}
	if p.JSON != "" {
		out = append(out, Link{To: p.JSON, Text: []Part{Said(l.AsJSON)}})
	}
	return out
}

// SearchPart is the address of part i of the data that search looks through.
func SearchPart(i int) string { return fmt.Sprintf("data/search-%03d.js", i) }
