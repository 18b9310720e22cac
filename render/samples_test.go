package render

import "blotter/render/page"

// Pages made by hand, with invented people and an invented museum; the
// builder's own pages are tested beside it.

func la(s string) page.Piece { return page.Piece{Kind: page.Latin, Text: s} }
func up(s string) page.Piece { return page.Piece{Kind: page.Marker, Text: s} }
func au(s string) page.Piece { return page.Piece{Kind: page.Author, Text: s} }
func cr(s string) page.Piece { return page.Piece{Kind: page.Cross, Text: s} }

func nm(ps ...page.Piece) page.Name { return page.Name{Pieces: ps} }

func say(ps ...page.Part) []page.Part { return ps }

var (
	pumilus = nm(la("Ranunculus acris"), up("cf."), up("subsp."), la("pumilus"), au("(Wahlenb.) Á.Löve & D.Löve"))
	acris   = nm(la("Ranunculus acris"), au("L."))
	repens  = nm(la("Ranunculus repens"), au("L."))
	family  = nm(up("Ranunculaceae"))

	sampleSite = &page.Site{Title: "Lauvkroken Museum: herbarium", Museum: "Lauvkroken Museum", Language: page.English}
)

func link(to page.Address, ps ...page.Part) page.Link { return page.Link{To: to, Text: ps} }

func sampleSpecimen() *page.Page {
	return &page.Page{
		Address: "specimens/000/04/LK7-0000482", Title: "LK7-0000482: Ranunculus acris cf. subsp. pumilus",
		Trail:  []page.Link{link("families/ranunculaceae", family), link("names/ranunculus", nm(la("Ranunculus"))), link("names/ranunculus-acris", nm(la("Ranunculus acris")))},
		Number: "LK7-0000482", Heading: say(pumilus), JSON: "specimens/000/04/LK7-0000482.json",
		Standing: say(page.Said("Named so by "), link("people/m-ostrander", page.Person("M. Ostrander")), page.Said(", 2 November 2026; cf.: not certain of the subspecies.")),
		Jumps:    []page.Link{link("#names", page.Said("4 names")), link("#label", page.Said("label")), link("#place", page.Said("place")), link("#corrections", page.Said("corrections")), link("#cite", page.Said("cite"))},
		Notices: []page.Notice{
			{Kind: page.CautionNotice, Word: "Caution.", Text: say(page.Said(page.Fill(page.English.CautionTreated, "1985") + " " + page.English.CautionOwn))},
			{Kind: page.TypeNotice, Word: "Type.", Text: say(page.Said("Said to be an isotype of "), pumilus, page.Said("; not verified."))},
			{Kind: page.DisputedNotice, Text: say(page.Said("Two opinions stand; filed under "), acris, page.Said(" by the curator."))},
			{Kind: page.WithheldNotice, Word: "Place withheld.", Text: say(page.Said("The plant is at risk from collecting (category 2 of 4, to be looked at again in 2031). Shown: no place, date, number or picture."))},
		},
		Sections: []page.Section{
			{ID: "names", Heading: "Names given to it", Blocks: []page.Block{sampleOpinions()}},
			{ID: "label", Heading: "The label", Blocks: []page.Block{sampleLabel(),
				page.Letters{On: "the label", Text: "HERB. S. RASK\nRanunculus acris L.\n  Eng ovanfor Raundal kapell  [...]\n14.vii.2025   leg. S. Rask", Hand: "Signe Rask"}}},
			{ID: "place", Heading: "The place", Blocks: []page.Block{
				page.Map{Sentence: "Where it grew: Voss, with an error of 41 m. The error is smaller than this ring.", Spots: []page.Spot{{Lat: 60.7033, Lon: 6.6514, Metres: 41, N: 1}}},
				page.Lines{List: [][]page.Part{say(page.Said("± 8 m: shown by the device")), say(page.Said("± 33 m: seconds of arc"))}},
			}},
			{ID: "gathering", Heading: "The same gathering", Blocks: []page.Block{page.Lines{List: [][]page.Part{
				say(page.Said("Duplicates: sent to "), page.Person("Fjellheim Museum"), page.Said(", 3 August 2025")),
			}}}},
			{ID: "corrections", Heading: "Corrections", Blocks: []page.Block{page.Table{Caption: "What was corrected, newest first",
				Head: []page.Said{"Day", "Field", "Before", "After", "Reason", "By"},
				Rows: [][]page.Cell{{{Said: say(page.Said("3 August 2025"))}, {Said: say(page.Said("Elevation"))}, {Words: "384 m"}, {Words: "348 m"}, {Words: "label says 348"}, {Said: say(page.Person("Signe Rask"), page.Said(", revision 7d10f2b"))}}}}}},
			{ID: "cite", Heading: "To cite this sheet", Blocks: []page.Block{page.Para{Parts: say(page.Said("Lauvkroken Museum, specimen LK7-0000482: "), acris, page.Said(" Signe Rask 1207. Revision 3f2a91c, 3 November 2026."))}}},
		},
		Shown: say(page.Said("Shown as of 3 November 2026, revision 3f2a91c.")),
		LD:    []byte(`{"@context":"https://schema.org"}`),
	}
}

func sampleOpinions() page.Opinions {
	entered := func(s string) []page.Part { return say(page.Said(s)) }
	return page.Opinions{List: []page.Opinion{
		{Anchor: "name-4", Mark: page.Stands, Day: "2 November 2026", What: "named anew", State: "stands", Name: pumilus, By: say(page.Person("M. Ostrander"), page.Said(", "), page.Person("the visitor's institution")),
			Grounds: "Beak and receptacle hairs, against the regional flora.", More: say(page.Said("Looked at: the sheet.")), Entered: entered("Entered by Signe Rask, 3 November 2026, revision 3f2a91c."), Gap: "5 months before that:"},
		{Anchor: "name-3", Mark: page.Renamed, Day: "1 June 2026", What: "renamed, the plant was not looked at", State: "earlier", Name: acris, By: say(page.Person("Signe Rask")), Entered: entered("Entered by Signe Rask, 1 June 2026, revision 77aa012."), Gap: "11 months before that:"},
		{Anchor: "name-2", Mark: page.Earlier, Day: "20 July 2025", What: "named anew", State: "earlier", Mistake: say(page.Said("entered by mistake: "), page.Quote{Words: "meant for LK7-0000483"}), Name: repens, By: say(page.Person("Ove Bannister")), Gap: "6 days before that:"},
		{Anchor: "name-1", Mark: page.Earlier, Day: "14 July 2025", What: "on the label", State: "earlier", Name: acris, By: say(page.Person("Signe Rask")), Entered: entered("Entered by Signe Rask, 16 July 2025, revision 0c41d7e.")},
	}}
}

func sampleLabel() page.Fields {
	return page.Fields{List: []page.Field{
		{Name: "Collector", Words: []page.Run{page.WordsLink{To: "people/signe-rask", Words: "Signe Rask"}, page.Words(" 1207, with Ove Bannister")}},
		{Name: "Date", Words: []page.Run{page.Words("14.vii.2025")}, Readings: [][]page.Part{say(page.Said("read as 14 July 2025"))}},
		{Name: "Place", Words: []page.Run{page.WordsLink{To: "places/norway", Words: "Norway"}, page.Words(", Vestland, Voss")}},
		{Name: "Locality", None: page.Absence{Kind: page.WithheldWord, Reason: "the plant is at risk from collecting"}},
		{Name: "Position", Words: []page.Run{page.Words(`60°42′12″N 6°39′05″E`)}, Readings: [][]page.Part{say(page.Said("read as 60.7033° N, 6.6514° E, ± 41 m"))}},
		{Name: "Elevation", None: page.Absence{Kind: page.NotYetTyped}},
		{Name: "Habitat", Words: []page.Run{page.Words("Unfertilised hay meadow on moraine, with "), nm(la("Trollius europaeus")), page.Words(".")}},
		{Name: "Permit", None: page.Absence{Kind: page.NotLegible}},
	}}
}

func sampleRows(n int) page.Rows {
	r := page.Rows{}
	for i := range n {
		row := page.Row{Name: acris, Number: "LK7-0000482", To: "specimens/000/04/LK7-0000482", Collector: "Signe Rask 1207", Date: "14 July 2025", Place: say(page.Person("Voss, Vestland"))}
		switch i % 4 {
		case 1:
			row.Name, row.Tail = pumilus, say(page.Said("was "), acris, page.Said("; no image"))
		case 2:
			row.Name, row.Tail = nm(la("Mentha"), cr("×"), la("piperita"), au("L.")), say(page.Said("place withheld"))
			row.Place, row.Date = say(page.Absence{Kind: page.WithheldWord, Reason: "at risk from collecting"}), "some day in 1931"
		case 3:
			row.Name = nm(la("Salix alba"), page.Piece{Kind: page.Between, Text: "×"}, la("Salix fragilis"))
		}
		r.List = append(r.List, row)
	}
	return r
}

func sampleTaxon() *page.Page {
	var bars []page.Bar
	for i, n := range []int{0, 0, 0, 1, 4, 9, 14, 6, 2, 0, 0, 0} {
		bars = append(bars, page.Bar{Label: page.English.MonthsAbb[i], N: n})
	}
	bars = append(bars, page.Bar{Label: "date not known", N: 3, Doubt: true})
	return &page.Page{Address: "names/ranunculus-acris", Title: "Ranunculus acris", Heading: say(acris),
		Trail:    []page.Link{link("families/ranunculaceae", family), link("names/ranunculus", nm(la("Ranunculus")))},
		Standing: say(page.Said("Accepted in our list. 14 sheets bear this name now, 6 more bore it once.")),
		Notices:  []page.Notice{{Kind: page.WithheldNotice, Word: "Places withheld.", Text: say(page.Said("2 sheets are shown without their place."))}},
		Sections: []page.Section{
			{ID: "now", Heading: "So named now", Blocks: []page.Block{page.Group{Heading: "2020 to 2029", Blocks: []page.Block{sampleRows(5)}}}},
			{ID: "once", Heading: "So named once", Blocks: []page.Block{sampleRows(2)}},
			{ID: "months", Heading: "Sheets by month", Blocks: []page.Block{page.Chart{Sentence: "Most sheets are from July, none from October to March.", Category: "month", Measure: "sheets", Bars: bars}}},
			{ID: "parts", Heading: "Genera", Blocks: []page.Block{page.Tally{List: []page.TallyLine{{Link: link("names/ranunculus", nm(la("Ranunculus"))), Note: "14 sheets"}, {Link: link("names/thalictrum", nm(la("Thalictrum"))), Note: "1 sheet"}}}}},
		}}
}

func sampleFront() *page.Page {
	var bars []page.Bar
	for y := 1931; y < 2027; y++ {
		n := (y * 7919) % 13
		if y > 1939 && y < 1945 {
			n = 0
		}
		bars = append(bars, page.Bar{Label: page.Number(y)[:1] + page.Number(y)[2:], N: n})
	}
	return &page.Page{Address: "index", Title: "Lauvkroken Museum: herbarium", Heading: say(page.Quote{Words: "Lauvkroken Museum: herbarium"}),
		Lead: []page.Block{
			page.Prose{Markdown: "Pressed plants from Voss and the fjords about it, since 1871.\n", HTML: "<p>Pressed plants from Voss and the fjords about it, since 1871.</p>\n"},
			page.Search{},
			page.Para{Parts: say(page.Said("1,207 sheets, 611 names in 87 families, 42 collectors, 1871 to 2026; 96 named anew this year."))},
		},
		Sections: []page.Section{
			{ID: "last", Heading: "The last changes", Blocks: []page.Block{page.Lines{List: [][]page.Part{
				say(page.Said("2 November 2026: "), link("specimens/000/04/LK7-0000482", page.Said("LK7-0000482")), page.Said(", "), acris, page.Said(" is now "), pumilus, page.Said(" ("), page.Person("M. Ostrander"), page.Said(").")),
			}}}},
			{ID: "years", Heading: "Sheets by year", Blocks: []page.Block{page.Chart{Sentence: "Most sheets are from 1940, none from 1940 to 1944.", Category: "year", Measure: "sheets", Bars: bars}}},
			{ID: "rows", Heading: "All sheets", Blocks: []page.Block{sampleRows(8)}},
		}}
}

func sampleSearch() *page.Page {
	return &page.Page{Address: "search", Title: "Search", Heading: say(page.Said("Search")), Twinless: true, Lead: []page.Block{page.Search{Parts: 1}}}
}

func samples() []*page.Page {
	return []*page.Page{sampleSpecimen(), sampleTaxon(), sampleFront(), sampleSearch()}
}
