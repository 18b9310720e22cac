package main

import (
	"cmp"
	"context"
	"slices"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/mids"
)

func reportCommand() *command {
	return &command{
		Name: "report", Family: famAsk, Synopsis: "[YEAR]",
		Says: "Gives the figures of a year, or tells how complete the ledger is and what lacks most.",
		Notes: []string{"Levels are those of MIDS (Minimum Information about a Digital Specimen, TDWG, a draft): 0 a number and a museum, 1 a name and what kind of thing it is, 2 place, date, collector and picture, 3 identifiers. " +
			"A level holds when all lower ones do. Everything in the ledger counts here, what is withheld from the public too.",
			"The year's figures are computed from the ledger alone: the same revision and day give the same figures. The ending of --to chooses the form: .pdf, .html, .txt, .md or .csv; charts stand in the page, or as .svg files beside the .md."},
		Examples: []example{
			{"blotter report", "how complete it is, as last entered"},
			{"blotter report 2026 --compare 2025 --to report-2026.html", "the year's figures beside the last year's, with charts"},
			{"blotter report 2026 --at 2027-01-15", "the year 2026 as the ledger knew it by then"},
		},
		Args:  []argument{{"YEAR", "2026; the figures run to its last day, or to --on or today while it lasts"}},
		Flags: joinFlags([]*flag{flagAt, flagOn, flagCompare, flagTo, flagPaper, flagYes, flagNoCache}, askFlags),
		Kin:   []string{"status", "find", "quality"},
		Run:   runReport,
	}
}

// reportOut is the report for programs.
type reportOut struct {
	Museum   string       `json:"museum"`
	Code     string       `json:"code"`
	Revision string       `json:"revision,omitempty"`
	On       string       `json:"on,omitempty"`
	Sheets   int          `json:"sheets"`
	Levels   []levelCount `json:"mids"`
	Lacks    []lackCount  `json:"lacks"`
}

type levelCount struct {
	Level  int    `json:"level"` // -1: not even the lowest
	Sheets int    `json:"sheets"`
	Find   string `json:"find"`
}

type lackCount struct {
	Element string `json:"element"`
	Level   int    `json:"level"`
	Says    string `json:"says"`
	Where   string `json:"where"`
	Sheets  int    `json:"sheets"`
	Find    string `json:"find"`
}

func runReport(ctx context.Context, c *call) error {
	if len(c.args) > 1 {
		return misuse("report takes one year; %q is too much", c.args[1]).try("blotter report 2026 --compare 2025")
	}
	if len(c.args) == 1 {
		return runYear(ctx, c)
	}
	for _, f := range []*flag{flagCompare, flagOn, flagTo} {
		if c.opts.given(f.Name) {
			return misuse("--%s wants a year", f.Name).try("blotter report 2026 --compare 2025")
		}
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	out, err := d.completeness(ctx)
	if err != nil {
		return err
	}
	if c.asksJSON() {
		return c.printJSON(out)
	}
	d.showReport(ctx, out)
	return nil
}

// completeness counts levels and what is lacking in what was last entered or
// --at names; a folder without git has only its files.
func (d *desk) completeness(ctx context.Context) (*reportOut, error) {
	src, revision, err := d.entered(ctx)
	if err != nil {
		return nil, err
	}
	out := &reportOut{Revision: revision}
	if revision != "" {
		commit, err := d.repo.Revision(ctx, revision)
		if err != nil {
			return nil, stuck("%v", err)
		}
		out.On = commit.Committer.When.In(d.zone).Format("2006-01-02")
	}
	b, err := book.Load(ctx, src, d.loadOptions())
	if err != nil {
		return nil, err
	}
	out.count(b, d.repo != nil)
	return out, nil
}

// entered is what was last entered or what --at names, with its revision; a folder without git
// has only its files.
func (d *desk) entered(ctx context.Context) (ledger.Source, string, error) {
	if d.repo == nil {
		if d.opts.given("at") {
			return nil, "", stuck("this folder has no git repository, so it has no history")
		}
		return d.source(), "", nil
	}
	tip, err := d.head(ctx)
	if rev := d.opts.text("at"); rev != "" {
		tip, err = d.revision(ctx, rev)
	}
	if err != nil {
		return nil, "", err
	}
	if tip == "" {
		return nil, "", stuck("nothing has been entered yet").try("blotter enter")
	}
	src, err := d.repo.At(ctx, tip)
	if err != nil {
		return nil, "", stuck("%v", err)
	}
	return src, tip, nil
}

// count fills in the figures of a Book.
func (r *reportOut) count(b *book.Book, entered bool) {
	r.Museum, r.Code, r.Sheets = b.Museum.Museum.Name.Text, b.Museum.Code.Text, b.Len()
	var levels [mids.MaxLevel + 2]int // from level -1
	lacks := make([]int, len(mids.Elements))
	for e := range b.All() {
		set := mids.OfEntry(e, b.Museum, entered)
		levels[set.Level()+1]++
		for i := range lacks {
			if !set.Has(i) {
				lacks[i]++
			}
		}
	}
	r.Levels, r.Lacks = []levelCount{}, []lackCount{}
	for level := mids.MaxLevel; level >= -1; level-- {
		r.Levels = append(r.Levels, levelCount{level, levels[level+1], "mids:" + itoa(level)})
	}
	for i, n := range lacks {
		if e := &mids.Elements[i]; n > 0 {
			r.Lacks = append(r.Lacks, lackCount{e.Name, e.Level, e.Says, e.Where, n, "lacks:mids." + e.Name})
		}
	}
	slices.SortStableFunc(r.Lacks, func(a, b lackCount) int { return cmp.Or(a.Level-b.Level, b.Sheets-a.Sheets) })
}

func (d *desk) showReport(ctx context.Context, r *reportOut) {
	head := r.Museum + " (" + r.Code + "): " + count(r.Sheets, "sheet")
	if r.Revision != "" {
		head += ", revision " + r.Revision[:7] + " of " + d.shownDate(r.On)
	}
	d.say("%s.", head)
	if r.Sheets == 0 {
		return
	}
	d.say("How much of each sheet is digital, by MIDS (draft); blotter find QUERY lists them")
	var rows [][]string
	for _, l := range r.Levels {
		if l.Sheets == 0 {
			continue
		}
		name := "level " + itoa(l.Level)
		if l.Level < 0 {
			name = "below 0"
		}
		rows = append(rows, []string{name, thousands(l.Sheets), share(l.Sheets, r.Sheets), l.Find})
	}
	d.table("  ", rows)
	d.showLacks(r)
	if d.repo != nil && !d.opts.given("at") {
		if staged, err := d.repo.Unentered(ctx); err == nil && staged {
			d.say("Edits that are not entered yet are not counted: blotter status")
		}
	}
}

// showLacks prints what lacks, level by level, the most first.
func (d *desk) showLacks(r *reportOut) {
	var none []string
	for lacks := r.Lacks; len(lacks) > 0; {
		level := lacks[0].Level
		d.say("Level %d lacks", level)
		var rows [][]string
		for ; len(lacks) > 0 && lacks[0].Level == level; lacks = lacks[1:] {
			l := lacks[0]
			rows = append(rows, []string{thousands(l.Sheets), l.Says, l.Find})
			if l.Sheets == r.Sheets {
				none = append(none, l.Says+" ("+l.Where+")")
			}
		}
		d.table("  ", rows)
	}
	if len(none) > 0 {
		d.say("%s", wrap("No sheet has "+joinNonEmpty("; ", none...)+".", d.Width, ""))
	}
}

// share is a part in hundredths; one that is neither nothing nor all is shown
// as neither.
func share(n, all int) string {
	p := (n*100 + all/2) / all
	switch {
	case n > 0 && p == 0:
		return "under 1 %"
	case n < all && p == 100:
		return "over 99 %"
	}
	return itoa(p) + " %"
}
