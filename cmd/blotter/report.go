package main

import (
	"cmp"
	"context"
	"slices"

	"blotter/ledger/book"
	"blotter/ledger/mids"
)

func reportCommand() *command {
	return &command{
		Name: "report", Family: famAsk,
		Says: "Tells how complete the ledger is: how much of each sheet is digital, and what lacks most.",
		Notes: []string{"Levels are those of MIDS (Minimum Information about a Digital Specimen, TDWG, a draft): 0 a number and a museum, 1 a name and what kind of thing it is, 2 place, date, collector and picture, 3 identifiers. " +
			"A level holds when all lower ones do. Everything in the ledger counts here, what is withheld from the public too."},
		Examples: []example{
			{"blotter report", "how complete it is, as last entered"},
			{"blotter report --at 2025-12-31", "as it stood then"},
			{"blotter report --json", "the same for a program"},
		},
		Flags: joinFlags([]*flag{flagAt, flagNoCache}, askFlags),
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
	if len(c.args) > 0 {
		return misuse("report tells how complete the whole ledger is; %q is too much", c.args[0]).try("One sheet: blotter show SHEET")
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
	src, out := d.source(), &reportOut{}
	if d.repo != nil {
		tip, err := d.head(ctx)
		if rev := d.opts.text("at"); rev != "" {
			tip, err = d.revision(ctx, rev)
		}
		if err != nil {
			return nil, err
		}
		if tip == "" {
			return nil, stuck("nothing has been entered yet").try("blotter enter")
		}
		commit, err := d.repo.Revision(ctx, tip)
		if err == nil {
			out.Revision, out.On = tip, commit.Committer.When.In(d.zone).Format("2006-01-02")
			src, err = d.repo.At(ctx, tip)
		}
		if err != nil {
			return nil, stuck("%v", err)
		}
	} else if d.opts.given("at") {
		return nil, stuck("this folder has no git repository, so it has no history")
	}
	b, err := book.Load(ctx, src, d.loadOptions())
	if err != nil {
		return nil, err
	}
	out.count(b, d.repo != nil)
	return out, nil
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
