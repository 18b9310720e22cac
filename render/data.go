package render

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"strings"
	"time"

	"blotter/ledger/book"
	"blotter/render/page"
)

// howToRead is the page that explains the voices, the rail and the phrases,
// with one example each.
func (s *shelf) howToRead() *page.Page {
	l := s.lang
	p := s.newPage("about/how-to-read", l.HowToRead, said(l.HowToRead))
	p.Lead = []page.Block{page.Para{Parts: []page.Part{said(l.HowVoices)}},
		page.Fields{List: []page.Field{{Name: page.Said(l.FieldName["date"]), Words: []page.Run{page.Words("14.vii.87")}, Readings: [][]page.Part{{said(page.Fill(l.ReadAs, l.HowDate))}}}}}}
	name := setName("Ranunculus acris L.")
	rail := page.Opinions{List: []page.Opinion{
		{Anchor: "how-1", Mark: page.Stands, Day: page.Said(l.HowDay), What: page.Said(l.NamedAnew), State: page.Said(l.Stands), Name: name, By: []page.Part{said(l.HowStands)}},
		{Anchor: "how-2", Mark: page.Renamed, Day: page.Said(l.HowDay), What: page.Said(l.RenamedBar), State: page.Said(l.Earlier), Name: name, By: []page.Part{said(l.HowRenamed)}},
		{Anchor: "how-3", Mark: page.Earlier, Day: page.Said(l.HowDay), What: page.Said(l.OnTheLabel), State: page.Said(l.Earlier), Name: name, By: []page.Part{said(l.HowEarlier)}},
	}}
	section(p, "rail", l.NamesGiven, rail)
	var absences page.Fields
	for _, a := range []struct {
		kind page.AbsenceKind
		why  string
	}{{page.NoneOnLabel, l.HowNone}, {page.NotLegible, l.HowIllegible}, {page.NotYetTyped, l.HowUntyped}, {page.WithheldWord, l.HowWithheld}, {page.NotRead, l.HowUnread}} {
		absences.List = append(absences.List, page.Field{Name: page.Said(l.HowPhrase), None: page.Absence{Kind: a.kind, Reason: page.Said(l.WithheldReason)}, Readings: [][]page.Part{{said(a.why)}}})
	}
	section(p, "phrases", l.HowAbsences, absences)
	section(p, "names-set", l.HowNamesSet, page.Para{Parts: []page.Part{said(l.HowNames)}})
	return p
}

// dataPage says what there is for machines.
func (s *shelf) dataPage() *page.Page {
	l := s.lang
	p := s.newPage("about/data", l.Data, said(l.Data))
	p.Lead = []page.Block{page.Lines{List: [][]page.Part{
		{said(l.DataJSON)}, {said(l.DataMarkdown)},
		{page.Link{To: "feed.xml", Text: []page.Part{said(l.Feed)}}, said(l.DataFeed)},
		{page.Link{To: "sitemap.xml", Text: []page.Part{said(l.DataSitemap)}}},
		{page.Link{To: "site.json", Text: []page.Part{said(l.DataSite)}}},
	}}}
	if lines := s.archiveLines(); lines != nil {
		p.Lead = append([]page.Block{page.Lines{List: lines}}, p.Lead...)
	}
	if m := &s.in.Book.Museum.Museum; m.Site.Licence.Set() {
		p.Lead = append(p.Lead, page.Para{Parts: page.FillParts(l.LicenceLine, []page.Part{page.Person(m.Site.Licence.Text)})})
	}
	return p
}

func (s *shelf) notFound() *page.Page {
	p := s.newPage("404", s.lang.NotFoundTitle, said(s.lang.NotFoundTitle))
	p.Twinless, p.Gone = true, true
	p.Lead = []page.Block{page.Para{Parts: []page.Part{said(s.lang.NotFoundText)}}, page.Search{}}
	section(p, "ways", s.lang.WaysIn, s.ways())
	return p
}

func (s *shelf) searchPage(parts int) *page.Page {
	p := s.newPage("search", s.lang.Search, said(s.lang.Search))
	p.Twinless = true
	p.Lead = []page.Block{page.Search{Parts: parts}}
	section(p, "ways", s.lang.WaysIn, s.ways())
	return p
}

// searchPart is how many sheets one file of search data holds: a change to a
// sheet makes one such file anew.
const searchPart = 10_000

func (s *shelf) searchParts() int { return (len(s.sheets) + searchPart - 1) / searchPart }

// searchData is one of the files that the search page looks through.
func (s *shelf) searchData(list []*book.Entry) ([]byte, error) {
	var b bytes.Buffer
	for _, e := range list {
		s.searchRow(&b, e)
	}
	text, err := json.Marshal(b.String())
	if err != nil {
		return nil, fmt.Errorf("write search data: %w", err)
	}
	return append(append([]byte("blotterRows("), text...), ");\n"...), nil
}

// searchRow is one line: address, number, name, collector, date, place,
// marks, and words that are looked through but not shown.
func (s *shelf) searchRow(b *bytes.Buffer, e *book.Entry) {
	r := s.row(e, "")
	clean := func(t string) string {
		return strings.Map(func(r rune) rune {
			if r == '\n' || r == 0x1f {
				return ' '
			}
			return r
		}, t)
	}
	fam := s.in.Book.Museum.FamilyOf(s.currentKey(e), e.Family)
	place := plain(s.lang, r.Place)
	hiddenWords := append([]string{fam}, e.Once...)
	name := searchName(r.Name)
	if len(r.As) > 0 {
		hiddenWords = append(hiddenWords, e.NameKey)
		name += " (" + page.Fill(s.lang.DetAs, searchName(s.name(e.Name))) + ")"
	}
	hiddenWords = append(hiddenWords, e.Country, e.Locality)
	for i, v := range []string{string(sheetAddress(e.Number)), string(e.Number), name, string(r.Collector), string(r.Date), place, plain(s.lang, r.Tail), strings.Join(nonEmpty(hiddenWords), "; ")} {
		if i > 0 {
			b.WriteByte(0x1f)
		}
		if i != 2 {
			v = page.Visible(v)
		}
		b.WriteString(clean(v))
	}
	b.WriteByte('\n')
}

// searchName is a name with its Latin between U+0011 and U+0012, for the
// script to set.
func searchName(n page.Name) string {
	var b strings.Builder
	for i, p := range n.Pieces {
		if i > 0 && n.Pieces[i-1].Kind != page.Cross {
			b.WriteByte(' ')
		}
		if p.Kind == page.Latin {
			b.WriteString("\x11" + page.Visible(p.Text) + "\x12")
		} else {
			b.WriteString(page.Visible(p.Text))
		}
	}
	return b.String()
}

// plain is a line as plain text.
func plain(l *page.Language, ps []page.Part) string {
	var b strings.Builder
	for _, p := range ps {
		switch p := p.(type) {
		case page.Said:
			b.WriteString(string(p))
		case page.Name:
			b.WriteString(p.Plain())
		case page.Quote:
			b.WriteString(string(p.Words))
		case page.Absence:
			b.WriteString(p.Phrase(l))
		case page.Link:
			b.WriteString(plain(l, p.Text))
		}
	}
	return b.String()
}

// maxFeed is how many entries the feed has.
const maxFeed = 50

type atomFeed struct {
	XMLName xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
	Title   string      `xml:"title"`
	ID      string      `xml:"id"`
	Updated string      `xml:"updated"`
	Author  atomPerson  `xml:"author"`
	Links   []atomLink  `xml:"link"`
	Entries []atomEntry `xml:"entry"`
}

type atomPerson struct {
	Name string `xml:"name"`
}

type atomLink struct {
	Rel  string `xml:"rel,attr,omitempty"`
	Href string `xml:"href,attr"`
}

type atomEntry struct {
	Title   string     `xml:"title"`
	ID      string     `xml:"id"`
	Updated string     `xml:"updated"`
	Link    atomLink   `xml:"link"`
	Author  atomPerson `xml:"author"`
	Summary string     `xml:"summary"`
}

// feed is the Atom feed (RFC 4287) of the last names given anew.
func (s *shelf) feed() ([]byte, error) {
	base := s.site.Base
	title := string(s.site.Title) + ": " + s.lang.Feed
	if s.site.Staff {
		title = s.lang.StaffOnlyWord + " " + title
	}
	f := atomFeed{Title: title, ID: feedID(base, "feed", string(s.site.Museum)), Author: atomPerson{string(s.site.Museum)},
		Updated: "1970-01-01T00:00:00Z", Links: []atomLink{{"self", base + "feed.xml"}, {"alternate", base + "index.html"}}}
	for _, m := range s.in.Changes {
		for _, d := range m.Days {
			for i := range d.Events {
				e := &d.Events[i]
				if e.Kind != NamedAnew || s.published(e.Number) == nil || len(f.Entries) == maxFeed {
					continue
				}
				when := e.Revision.When.UTC().Format(time.RFC3339)
				f.Updated = max(f.Updated, when)
				text := page.Visible(plain(s.lang, s.event(e)))
				f.Entries = append(f.Entries, atomEntry{Title: text, ID: feedID(base, e.Revision.Stamp, string(e.Number)), Updated: when,
					Link: atomLink{"alternate", base + string(sheetAddress(e.Number)) + ".html"}, Author: atomPerson{page.Visible(s.clerk(e.By))}, Summary: text})
			}
		}
	}
	b, err := xml.MarshalIndent(f, "", " ")
	if err != nil {
		return nil, fmt.Errorf("write feed: %w", err)
	}
	return append([]byte(xml.Header), append(b, '\n')...), nil
}

// feedID is a name for the feed or an entry that never changes: a tag URI
// (RFC 4151) of the site's host, else of the museum.
func feedID(base, kind, what string) string {
	host := strings.TrimSuffix(strings.TrimPrefix(base, "https://"), "/")
	if i := strings.IndexByte(host, '/'); i >= 0 {
		host = host[:i]
	}
	if host == "" {
		host = "blotter.invalid"
	}
	return "tag:" + host + ",2000:" + kind + "/" + page.Slug(what)
}

// maxSitemap is the most addresses that one file may have (sitemaps.org,
// protocol 0.9).
const maxSitemap = 50_000

// sitemaps are sitemap.xml and, for large sites, its parts. Without an
// address of the site there is none: the protocol wants whole addresses.
func (s *shelf) sitemaps(addresses []string) map[string][]byte {
	out := map[string][]byte{}
	head := xml.Header + `<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">` + "\n"
	part := func(list []string) []byte {
		b := []byte(head)
		for _, a := range list {
			b = append(b, "<url><loc>"...)
			b = append(b, xmlText(s.site.Base+a)...)
			b = append(b, "</loc></url>\n"...)
		}
		return append(b, "</urlset>\n"...)
	}
	if len(addresses) <= maxSitemap || s.site.Base == "" {
		if s.site.Base == "" {
			addresses = nil
		}
		out["sitemap.xml"] = part(addresses)
		return out
	}
	index := xml.Header + `<sitemapindex xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">` + "\n"
	for i := 0; i*maxSitemap < len(addresses); i++ {
		name := fmt.Sprintf("data/sitemap-%03d.xml", i)
		out[name] = part(addresses[i*maxSitemap : min((i+1)*maxSitemap, len(addresses))])
		index += "<sitemap><loc>" + xmlText(s.site.Base+name) + "</loc></sitemap>\n"
	}
	out["sitemap.xml"] = []byte(index + "</sitemapindex>\n")
	return out
}

func xmlText(s string) string {
	var b bytes.Buffer
	xml.EscapeText(&b, []byte(s))
	return b.String()
}
