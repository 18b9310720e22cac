package main

import (
	"context"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/annual"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/disk"
	"blotter/ledger/work"
	"blotter/render/document"
	"blotter/render/figure"
	"blotter/render/page"
)

var flagCompare = &flag{Name: "compare", Value: "YEAR", Help: "beside the figures of that year"}

var fourFigures = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[0-9]{4}$`) })

// yearOut is the year's figures for programs.
type yearOut struct {
	Museum   string       `json:"museum"`
	Code     string       `json:"code"`
	Revision string       `json:"revision,omitempty"`
	Year     int          `json:"year"`
	From     string       `json:"from"`
	To       string       `json:"to"`
	Whole    bool         `json:"whole"`
	Compare  int          `json:"compare,omitempty"`
	Figures  []yearFigure `json:"figures"`
}

type yearFigure struct {
	Section string `json:"section"`
	Key     string `json:"key"`
	Label   string `json:"label"`
	N       int    `json:"n"`
	Of      int    `json:"of,omitempty"`
	Words   string `json:"words,omitempty"`
	Then    *int   `json:"then,omitempty"` // of the year compared with
	ThenOf  int    `json:"then_of,omitempty"`
}

// runYear is `report YEAR`.
func runYear(ctx context.Context, c *call) error {
	year, err := readYear("the year", c.args[0])
	if err != nil {
		return err
	}
	other := 0
	if typed := c.opts.text(flagCompare.Name); typed != "" {
		if other, err = readYear("--compare", typed); err != nil {
			return err
		}
	}
	form, err := c.documentForm()
	if err != nil {
		return err
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	e, err := d.yearsSource(ctx)
	if err != nil {
		return err
	}
	on, err := d.onDay()
	if err != nil {
		return err
	}
	r, err := e.report(ctx, year, on)
	if err != nil {
		return err
	}
	var then *annual.Report
	if other != 0 {
		if then, err = e.report(ctx, other, on); err != nil {
			return err
		}
	}
	if c.asksJSON() {
		return c.printJSON(e.out(r, then))
	}
	doc := e.document(r, then)
	if form.ending == ".pdf" && e.revision != "" {
		if err := d.turnTo(ctx, e.revision); err != nil { // its foot names the state that was counted
			return err
		}
	}
	text, err := form.text(ctx, d, doc)
	if err != nil {
		return err
	}
	if err := d.putDocument(text); err != nil {
		return err
	}
	return d.putCharts(doc, form)
}

func readYear(what, typed string) (int, error) {
	if !fourFigures().MatchString(typed) {
		return 0, misuse("%s is %q; a year has four figures", what, typed).try("blotter report 2026 --compare 2025")
	}
	return strconv.Atoi(typed)
}

// yearSource is the version of the ledger that the figures are made of.
type yearSource struct {
	d        *desk
	works    *work.Works
	loader   *book.Loader
	revision string
}

// yearsSource is what was last entered, or what --at names; a folder without
// git has only its files.
func (d *desk) yearsSource(ctx context.Context) (*yearSource, error) {
	src, revision, err := d.entered(ctx)
	if err != nil {
		return nil, err
	}
	w, err := d.worksOf(ctx, src)
	if err != nil {
		return nil, err
	}
	return &yearSource{d: d, works: w, loader: w.Book().Loader(src, d.cache()), revision: revision}, nil
}

func (s *yearSource) report(ctx context.Context, year int, on dates.Day) (*annual.Report, error) {
	if on < dates.DayOf(year, 1, 1) {
		return nil, misuse("%d has not begun on %s", year, s.d.shownDate(on.String())).try("A year that has: blotter report " + strconv.Itoa(on.Year()))
	}
	load := func(ctx context.Context, e *book.Entry) (*ledger.Record, error) { return s.loader.Record(ctx, e) }
	r, err := annual.Of(ctx, annual.Source{Works: s.works, Load: load, Entered: s.d.repo != nil}, year, on)
	if err != nil {
		return nil, stuck("%v", err)
	}
	return r, nil
}

func (s *yearSource) out(r, then *annual.Report) *yearOut {
	m := s.works.Book().Museum
	out := &yearOut{Museum: m.Museum.Name.Text, Code: m.Code.Text, Revision: s.revision, Year: r.Year, From: r.From.String(), To: r.To.String(), Whole: r.Whole, Figures: []yearFigure{}}
	if then != nil {
		out.Compare = then.Year
	}
	for _, x := range r.Sections {
		for _, row := range x.Rows {
			f := yearFigure{x.Key, row.Key, row.Label, row.N, row.Of, row.Words, nil, 0}
			if then != nil {
				old, _ := then.Find(x.Key, row.Key)
				f.Then, f.ThenOf = &old.N, old.Of
			}
			out.Figures = append(out.Figures, f)
		}
	}
	return out
}

// chartRows is how many rows a chart shows at most.
const chartRows = 15

// document is the report as a page. Its one table for spreadsheets has every
// figure.
func (s *yearSource) document(r, then *annual.Report) *document.Document {
	m := s.works.Book().Museum
	doc := &document.Document{Title: m.Museum.Name.Text + " (" + m.Code.Text + "): the year " + strconv.Itoa(r.Year)}
	doc.Say(s.head(r))
	heads := []string{"", strconv.Itoa(r.Year), ""}
	if then != nil {
		heads = append(heads, strconv.Itoa(then.Year), "")
	}
	data := &document.Block{Kind: document.Table, Heads: []string{"section", "key", "label", "n", "of", "words"}}
	if then != nil {
		data.Heads = append(data.Heads, "n "+strconv.Itoa(then.Year), "of "+strconv.Itoa(then.Year), "words "+strconv.Itoa(then.Year))
	}
	doc.Data = data
	for _, x := range s.sections(r, then) {
		doc.Heading(x.Title)
		for _, n := range x.Notes {
			doc.Say(n)
		}
		var rows [][]string
		for _, row := range x.Rows {
			shown, cells := yearCells(row), []string{x.Key, row.Key, row.Label, strconv.Itoa(row.N), strconv.Itoa(row.Of), row.Words}
			line := append([]string{row.Label}, shown...)
			if then != nil {
				old, _ := then.Find(x.Key, row.Key)
				line = append(line, yearCells(old)...)
				cells = append(cells, strconv.Itoa(old.N), strconv.Itoa(old.Of), old.Words)
			}
			rows, data.Rows = append(rows, line), append(data.Rows, cells)
		}
		doc.Table(heads, rows)
		if bars := barsOf(x); len(bars) > 1 {
			title := x.Title + ", " + strconv.Itoa(r.Year)
			doc.Chart(title, chartFile(s.d.opts.text("to"), x.Key), figure.AppendRanks(nil, title, bars), bars)
		}
	}
	return doc
}

// sections are those of the year, with rows that only the other year has put
// at the end of theirs.
func (s *yearSource) sections(r, then *annual.Report) []annual.Section {
	if then == nil {
		return r.Sections
	}
	var all []annual.Section
	for _, x := range r.Sections {
		all = append(all, withOlder(x, r, then))
	}
	for _, x := range then.Sections {
		if !hasSection(r, x.Key) {
			all = append(all, withOlder(annual.Section{Key: x.Key, Title: x.Title, Notes: x.Notes}, r, then))
		}
	}
	return all
}

func hasSection(r *annual.Report, key string) bool {
	for _, x := range r.Sections {
		if x.Key == key {
			return true
		}
	}
	return false
}

func withOlder(x annual.Section, r, then *annual.Report) annual.Section {
	for _, old := range then.Sections {
		if old.Key != x.Key {
			continue
		}
		for _, row := range old.Rows {
			if _, ok := r.Find(x.Key, row.Key); !ok {
				x.Rows = append(x.Rows[:len(x.Rows):len(x.Rows)], annual.Row{Key: row.Key, Label: row.Label})
			}
		}
	}
	return x
}

// head says what was counted, as of when, from which revision.
func (s *yearSource) head(r *annual.Report) string {
	words := "Counted from " + s.d.shownDate(r.From.String()) + " to " + s.d.shownDate(r.To.String())
	if !r.Whole {
		words += "; the year is not over"
	}
	if s.revision != "" {
		words += ". Revision " + s.revision[:7] + ": the same revision and day give the same figures"
	}
	return words + "."
}

// yearCells are a figure and its share as shown.
func yearCells(r annual.Row) []string {
	switch {
	case r.Words != "":
		return []string{r.Words, ""}
	case r.Of > 0:
		return []string{thousands(r.N), share(r.N, r.Of)}
	}
	return []string{thousands(r.N), ""}
}

// barsOf are the bars of a section that is worth a picture, the smallest put
// together.
func barsOf(x annual.Section) []page.Bar {
	if !x.Chart {
		return nil
	}
	var bars []page.Bar
	for i, row := range x.Rows {
		if i < chartRows || len(x.Rows) == chartRows+1 || x.Key == "decades" {
			bars = append(bars, page.Bar{Label: row.Label, N: row.N})
			continue
		}
		if i == chartRows {
			bars = append(bars, page.Bar{Label: count(len(x.Rows)-chartRows, "other")})
		}
		bars[chartRows].N += row.N
	}
	return bars
}

// chartFile is the name of a drawing beside the report.
func chartFile(to, section string) string {
	base := filepath.Base(to)
	return strings.TrimSuffix(base, filepath.Ext(base)) + "-" + section + ".svg"
}

// putCharts writes the drawings beside a report whose form cannot hold them.
func (d *desk) putCharts(doc *document.Document, form documentForm) error {
	if form.ending != ".md" {
		return nil
	}
	for _, b := range doc.Blocks {
		if b.Kind != document.Chart {
			continue
		}
		file := filepath.Join(filepath.Dir(inDir(d.Dir, d.opts.text("to"))), b.File)
		if err := disk.WriteFile(file, figure.Alone(b.SVG)); err != nil {
			return stuck("write %s: %v", b.File, err)
		}
	}
	return nil
}
