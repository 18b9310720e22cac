package main

import (
	"context"
	"fmt"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/work/due"
)

func statusCommand() *command {
	return &command{
		Name: "status", Family: famAsk,
		Says: "Shows how the ledger stands, what waits to be entered, and what others have sent.",
		Examples: []example{
			{"blotter status", "sheets, the last entry, what is not yet entered"},
			{"blotter status --json", "the same for a program"},
			{"blotter status --ask", "asks a copy at another machine what others have sent; a folder or stick is looked at in any case"},
		},
		Flags: joinFlags(askFlags, []*flag{flagAsk, flagNoCache}),
		Kin:   []string{"check", "enter", "share", "doctor"},
		Run:   runStatus,
	}
}

// standOf is how the ledger stands.
type standOf struct {
	Museum    string       `json:"museum"`
	Code      string       `json:"code"`
	Sheets    int          `json:"sheets"`
	Full      int          `json:"full"`
	Drafts    int          `json:"drafts"`
	Stubs     int          `json:"stubs"`
	Withdrawn int          `json:"withdrawn"`
	You       string       `json:"you,omitempty"`
	Last      *lastEntry   `json:"last_entry,omitempty"`
	Waiting   []waiting    `json:"not_yet_entered"`
	OpenWorks int          `json:"open_works"`
	DueToday  int          `json:"due_today"` // late ones among them
	DueLate   int          `json:"due_late"`
	ToPrint   []string     `json:"to_print,omitempty"`
	InOrder   int          `json:"in_order"`
	Warned    int          `json:"with_warnings"`
	Faulty    int          `json:"with_errors"`
	Shared    *sharedStand `json:"shared,omitempty"`
	changes   []fileChange
}

type lastEntry struct {
	By       string `json:"by"`
	On       string `json:"on"`
	Revision string `json:"revision"`
	Subject  string `json:"subject"`
}

type waiting struct {
	Path  string `json:"path"`
	What  string `json:"what"`  // new, changed, removed
	State string `json:"state"` // in order, warning, error
}

func runStatus(ctx context.Context, c *call) error {
	if len(c.args) > 0 {
		return misuse("status takes nothing; %q is too much", c.args[0]).try("One sheet: blotter show SHEET")
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	d.once = &listedOnce{Source: d.source()}
	s, err := d.stand(ctx)
	if err != nil {
		return err
	}
	if c.asksJSON() {
		return c.printJSON(s)
	}
	d.showStand(s)
	return nil
}

// asksJSON reports whether the output is to be JSON.
func (c *call) asksJSON() bool { return c.opts.on("json") || c.opts.text("format") == "json" }

func (d *desk) stand(ctx context.Context) (*standOf, error) {
	s := &standOf{Museum: d.museum.Name.Text, Code: d.museum.Code.Text, Waiting: []waiting{}}
	b, err := d.standWorks(ctx, s)
	if err != nil {
		return nil, err
	}
	s.Sheets = b.Len()
	for e := range b.All() {
		switch {
		case e.Fate != "":
			s.Withdrawn++
		case e.Stage == ledger.Draft:
			s.Drafts++
		case e.Stage == ledger.Stub:
			s.Stubs++
		default:
			s.Full++
		}
	}
	if d.repo == nil {
		return s, nil
	}
	if author, _, err := d.author(); err == nil {
		s.You = author.Name
	}
	if id, err := d.head(ctx); err != nil {
		return nil, err
	} else if id != "" {
		last, err := d.repo.Revision(ctx, id)
		if err != nil {
			return nil, stuck("%v", err)
		}
		s.Last = &lastEntry{last.Author.Name, last.Author.When.In(d.zone).Format("2006-01-02"), id, last.Subject()}
	}
	if err := d.standShared(ctx, s); err != nil {
		return nil, err
	}
	return s, d.standWaiting(ctx, s)
}

// standWorks tells of the works that need a hand, and gives the book that they
// are joined to. In a ledger without works nothing but the book is read.
func (d *desk) standWorks(ctx context.Context, s *standOf) (*book.Book, error) {
	if len(d.workFiles()) == 0 {
		return book.Load(ctx, d.source(), d.loadOptions())
	}
	today := d.todayAsDay()
	things, w, err := d.due(ctx, today, 0)
	if err != nil {
		return nil, err
	}
	for _, f := range w.Files {
		if w.Open(f, today) {
			s.OpenWorks++
		}
	}
	for _, t := range things {
		switch {
		case t.Kind == due.Question || t.Later:
			continue
		case t.Kind == due.Print:
			s.ToPrint = append(s.ToPrint, t.What)
			continue
		}
		s.DueToday++
		if t.Late {
			s.DueLate++
		}
	}
	return w.Book(), nil
}

// worksLine is the line of status about works; "" when none needs a hand.
func (s *standOf) worksLine() string {
	if s.OpenWorks+s.DueToday == 0 {
		return ""
	}
	line := count(s.OpenWorks, "work") + " open"
	if s.OpenWorks > 0 {
		line += " (blotter show work)"
	}
	if s.DueToday == 0 {
		return line + "; nothing is due today."
	}
	line += "; " + count(s.DueToday, "thing") + " due today"
	if s.DueLate > 0 {
		line += ", " + thousands(s.DueLate) + " of them late"
	}
	return line + ": blotter due."
}

// standWaiting judges what is written and not yet entered.
func (d *desk) standWaiting(ctx context.Context, s *standOf) error {
	changes, odd, err := d.chosen(ctx, nil)
	if err != nil || len(changes)+len(odd) == 0 {
		return err
	}
	found, err := d.judged(ctx, changes, "")
	if err != nil {
		return err
	}
	for _, f := range odd {
		changes, found = append(changes, fileChange{path: f.Path, new: []byte{}}), append(found, f)
	}
	s.changes = changes
	state := map[string]string{}
	for _, f := range found {
		if f.Severity == ledger.Error || state[f.Path] == "" {
			state[f.Path] = f.Severity.String()
		}
	}
	for _, c := range s.changes {
		w := waiting{Path: c.path, What: "changed", State: state[c.path]}
		switch {
		case c.old == nil:
			w.What = "new"
		case c.new == nil:
			w.What = "removed"
		}
		switch w.State {
		case "":
			w.State = "in order"
			s.InOrder++
		case "error":
			s.Faulty++
		default:
			s.Warned++
		}
		s.Waiting = append(s.Waiting, w)
	}
	return nil
}

// manyWaiting is how many waiting files are listed one by one.
const manyWaiting = 12

func (d *desk) showStand(s *standOf) {
	d.say("%s", wrap(s.sheetsLine(), d.Width, ""))
	if d.repo == nil {
		d.say("No git repository: there is no history here, and nothing can be entered.")
		return
	}
	if s.Last != nil {
		d.say("%s", wrap(fmt.Sprintf("Last entry: %s, %s, revision %s: %s", s.Last.By, d.shownDate(s.Last.On), s.Last.Revision[:7], sentence(s.Last.Subject)), d.Width, ""))
	}
	if line := s.worksLine(); line != "" {
		d.say("%s", wrap(line, d.Width, ""))
	}
	if len(s.ToPrint) > 0 {
		d.say("%s", strings.Join(s.ToPrint, ", ")+": blotter due.")
	}
	if s.You == "" {
		d.say(`You: not known to git. Say who you are: git config --global user.name "Your Name"`)
	} else {
		d.say("You: %s.", s.You)
	}
	d.warnOfHooks()
	if d.repo.BrokenOff() {
		d.tell("A share was broken off here while files were put in their places: blotter share ends it.")
	}
	for _, line := range s.Shared.lines() {
		d.say("%s", wrap(line, d.Width, ""))
	}
	if len(s.Waiting) == 0 {
		d.say("Nothing is waiting to be entered.")
		return
	}
	d.say("%s written, not yet entered: %s.", fileCount(s.changes), s.waitingWords())
	var rows [][]string
	for _, w := range s.Waiting[:min(len(s.Waiting), manyWaiting)] {
		rows = append(rows, []string{sheetOrPath(w.Path), w.What, w.State})
	}
	d.table("  ", rows)
	if n := len(s.Waiting) - manyWaiting; n > 0 {
		d.say("  and %s more", thousands(n))
	}
	if s.InOrder+s.Warned > 0 {
		d.next("blotter enter")
	} else {
		d.next("blotter edit %s", d.briefPath(s.Waiting[0].Path))
	}
}

// sheetsLine is the museum and how many sheets it has, of which kinds.
func (s *standOf) sheetsLine() string {
	var parts []string
	for _, p := range []struct {
		n    int
		noun string
	}{{s.Drafts, "draft"}, {s.Stubs, "stub"}} {
		if p.n > 0 {
			parts = append(parts, count(p.n, p.noun))
		}
	}
	if s.Withdrawn > 0 {
		parts = append(parts, thousands(s.Withdrawn)+" withdrawn")
	}
	line := fmt.Sprintf("%s (%s): %s", s.Museum, s.Code, count(s.Sheets, "sheet"))
	if len(parts) > 0 {
		line += ", of these " + strings.Join(parts, ", ")
	}
	return line + "."
}

// waitingWords are how many of the waiting are in order and how many not.
func (s *standOf) waitingWords() string {
	var parts []string
	add := func(n int, one, many string) {
		switch {
		case n == 1:
			parts = append(parts, "1 "+one)
		case n > 1:
			parts = append(parts, thousands(n)+" "+many)
		}
	}
	add(s.InOrder, "in order", "in order")
	add(s.Warned, "with a warning", "with warnings")
	add(s.Faulty, "with an error", "with errors")
	return strings.Join(parts, ", ")
}
