package main

import (
	"context"
	"errors"
	"io"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/find"
	"blotter/ledger/gitrepo"
	"blotter/ledger/names"
	"blotter/ledger/opinion"
)

func findCommandVerb() *command {
	return &command{
		Name: "find", Family: famAsk, Synopsis: "QUERY",
		Says:  "Lists the sheets that match words and fields.",
		Notes: queryNotes(),
		Examples: []example{
			{"blotter find genus:Ranunculus place:Voss year:2020..2026", "all three must hold"},
			{`blotter find "hay meadow" not is:withdrawn`, "a phrase anywhere in the record"},
			{"blotter find is:loan --on 2025-12-31", "what was on loan at the end of that day"},
		},
		Args:  []argument{{"QUERY", `words, "a phrase", field:value, not field:value`}},
		Flags: joinFlags([]*flag{flagCount, flagAt, flagOn, flagNoCache}, askFlags),
		Kin:   []string{"show", "set", "determine", "check"},
		Run:   runFind,
	}
}

// queryNotes explains the query language in the help.
func queryNotes() []string {
	notes := []string{"Every part of a QUERY must hold. A word is found by its beginning, in any case, with or without marks (Love finds Löve)."}
	for _, f := range find.ShortFields() {
		notes = append(notes, "  "+pad(f[0]+":", 11)+f[1])
	}
	return append(notes, "  any field of FORMAT.md, by its path or its last part: habitat:moraine")
}

func runFind(ctx context.Context, c *call) error {
	text := queryText(c.args)
	if text == "" {
		return misuse("what is to be found?").try("blotter find genus:Ranunculus place:Voss")
	}
	if text == "-" {
		b, err := io.ReadAll(io.LimitReader(c.In, find.MaxQuery+1))
		if err != nil {
			return stuck("%v", err)
		}
		text = string(b)
	}
	q, err := readQuery(text)
	if err != nil {
		return err
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	src, err := d.sourceAt(ctx)
	if err != nil {
		return err
	}
	n := 0
	var rows [][]string
	err = d.match(ctx, src, q, func(e *book.Entry, renamed *book.Name) {
		n++
		switch {
		case c.opts.on("count"):
		case c.asksJSON():
			_ = c.printJSON(entryJSON(e, renamed))
		default:
			rows = append(rows, d.findRow(e, renamed))
		}
	})
	switch {
	case err != nil:
		return err
	case c.opts.on("count"):
		c.say("%d", n)
	case c.asksJSON():
	case n == 0:
		c.say("No sheet matches.")
	default:
		c.table("", rows)
		c.say("%s.", count(n, "sheet"))
	}
	return nil
}

// queryText joins the arguments to one query. An argument with blanks in it
// was quoted for the shell: its words belong together.
func queryText(args []string) string {
	if len(args) == 1 {
		return args[0]
	}
	parts := make([]string, len(args))
	for i, a := range args {
		if strings.ContainsAny(a, " \t") && !strings.Contains(a, `"`) {
			if field, value, ok := strings.Cut(a, ":"); ok && !strings.ContainsAny(field, " \t") {
				a = field + `:"` + value + `"`
			} else {
				a = `"` + a + `"`
			}
		}
		parts[i] = a
	}
	return strings.Join(parts, " ")
}

// sourceAt is the version of the ledger that --at names, or the work tree.
func (d *desk) sourceAt(ctx context.Context) (ledger.Source, error) {
	rev := d.opts.text("at")
	if rev == "" {
		return d.source(), nil
	}
	id, err := d.revision(ctx, rev)
	if err != nil {
		return nil, err
	}
	src, err := d.repo.At(ctx, id)
	if err != nil {
		return nil, stuck("%v", err)
	}
	return src, nil
}

// revision is the full id that a REV names: a revision, a tag, a day (its end
// in the museum's zone), today.
func (d *desk) revision(ctx context.Context, rev string) (string, error) {
	if d.repo == nil {
		return "", stuck("this folder has no git repository, so it has no history")
	}
	if rev == publishedRev {
		return d.publishedRevision(ctx)
	}
	if rev == "today" {
		rev = d.today()
	} else if r := dates.Read(rev, dates.OrderOf("day-month")); r.Single() && !hexWord(rev) {
		rev = r.First.String()
	}
	id, err := d.repo.ResolveDay(ctx, rev, d.zone)
	switch {
	case errors.Is(err, gitrepo.ErrNoRevision):
		return "", misuse("%q names no revision, tag or day of this ledger", rev)
	case errors.Is(err, gitrepo.ErrTooEarly):
		return "", misuse("on %s this ledger did not exist yet", d.shownDate(rev))
	case errors.Is(err, gitrepo.ErrNoCommits):
		return "", misuse("nothing has been entered yet")
	case err != nil:
		return "", stuck("%v", err)
	}
	return id, nil
}

// publishedRevision is the revision of the last publication from this copy.
func (d *desk) publishedRevision(ctx context.Context) (string, error) {
	last := d.lastPublished()
	if last == "" {
		return "", misuse("nothing has been published from this copy yet").try("blotter publish")
	}
	id, err := d.repo.Resolve(ctx, last)
	if errors.Is(err, gitrepo.ErrNoRevision) {
		return "", misuse("the revision that was published last, %.7s, is not in this ledger any more", last).try("blotter publish")
	}
	if err != nil {
		return "", stuck("%v", err)
	}
	return id, nil
}

// hexWord reports whether s can be the beginning of a revision's id.
func hexWord(s string) bool {
	return len(s) >= 4 && strings.Trim(s, "0123456789abcdef") == ""
}

// findRow is one sheet in a list: number, day, place, collector, name.
func (d *desk) findRow(e *book.Entry, renamed *book.Name) []string {
	var place []string
	for _, p := range []string{e.District, e.Province} {
		if p != "" {
			place = append(place, p)
		}
	}
	if len(place) == 0 && e.Country != "" {
		place = append(place, e.Country)
	}
	name := "not yet named"
	if e.Name != "" {
		name = withoutAuthors(e.Name)
	}
	if renamed != nil {
		name = detAs(withoutAuthors(renamed.Given.Name.Text), name)
	}
	if was := formerName(e); was != "" {
		name += "; was " + was
	}
	if e.Fate != "" {
		name += "; withdrawn: " + e.Fate
	}
	return []string{string(e.Number), shortDay(e), strings.Join(place, ", "), strings.TrimSpace(e.Collector + " " + e.CollNo), name}
}

// shortDay is a date of collecting for a list: 14 Jul 2025, Jul 2025, 2025,
// 1980 to 1989.
func shortDay(e *book.Entry) string {
	if !e.Dated {
		if e.Date == "" {
			return "not yet typed"
		}
		return e.Date
	}
	y, m, day := e.First.Date()
	y2, m2, day2 := e.Last.Date()
	_, month, _ := strings.Cut(dates.Short(e.First), " ")
	switch {
	case y == y2 && m == m2 && day == day2:
		return dates.Short(e.First)
	case y == y2 && m == m2:
		return month
	case y == y2:
		return itoa(y)
	}
	return itoa(y) + " to " + itoa(y2)
}

// formerName is the latest name that a sheet had and that is another plant's:
// neither above nor below the one that stands.
func formerName(e *book.Entry) string {
	for i := len(e.Once) - 1; i >= 0; i-- {
		if was := e.Once[i]; !opinion.Within(was, e.NameKey) && !opinion.Within(e.NameKey, was) {
			return was
		}
	}
	return ""
}

// withoutAuthors is a name as written without its authors.
func withoutAuthors(words string) string {
	n, err := names.Read(words)
	if err != nil {
		return words
	}
	var b strings.Builder
	for _, p := range n.Pieces() {
		if p.Kind != names.Author {
			b.WriteString(p.Text)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// entryJSON is a sheet in a list, for programs.
func entryJSON(e *book.Entry, renamed *book.Name) any {
	accepted := ""
	if renamed != nil {
		accepted = renamed.Given.Name.Text
	}
	first, last := "", ""
	if e.Dated {
		first, last = e.First.String(), e.Last.String()
	}
	return struct {
		Number    ledger.Number `json:"number"`
		Path      string        `json:"path"`
		Stage     ledger.Stage  `json:"entry"`
		Fate      string        `json:"fate,omitempty"`
		Name      string        `json:"name"`
		Canonical string        `json:"canonical_name"`
		Accepted  string        `json:"accepted_name,omitempty"`
		By        string        `json:"by"`
		Collector string        `json:"collector"`
		CollNo    string        `json:"coll_no"`
		Date      string        `json:"date"`
		From      string        `json:"from_day,omitempty"`
		Until     string        `json:"until_day,omitempty"`
		Country   string        `json:"country"`
		Province  string        `json:"province"`
		District  string        `json:"district"`
		Locality  string        `json:"locality"`
		Types     []string      `json:"types,omitempty"`
		Sensitive bool          `json:"sensitive,omitempty"`
	}{e.Number, e.Path, e.Stage, e.Fate, e.Name, e.NameKey, accepted, e.By, e.Collector, e.CollNo, e.Date, first, last,
		e.Country, e.Province, e.District, e.Locality, e.Types, e.Flags.Has(book.Sensitive)}
}
