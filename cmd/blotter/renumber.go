package main

import (
	"context"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/clash"
	"blotter/ledger/history"
	"blotter/ledger/renumber"
	"blotter/ledger/work"
)

func renumberCommand() *command {
	return &command{
		Name: "renumber", Family: famEnter, Synopsis: "OLD [NEW]",
		Says: "Puts a wrongly stuck number right: the plant goes on under another, with its whole history.",
		Notes: []string{"OLD is never given again: its page, show and history say where the plant is now. What names it follows: other sheets, batches and loans " +
			"(by a line more), and `further_numbers` keeps OLD. Without NEW it is the next free number.",
			"Two labels that were stuck on each other's sheets: blotter swap."},
		Examples: []example{
			{`blotter renumber 482 1207 --why "the sheet bears 1207"`, "the label on the sheet says 1207"},
			{`blotter renumber 482 --why "482 is stuck on another sheet, too"`, "the next free number"},
			{`blotter renumber 482 1207 --why "the sheet bears 1207" --dry-run`, "only shows what would follow"},
		},
		Args:  []argument{{"OLD", "the number that its record has, 482 or whole"}, {"NEW", "the number that it is to have, never used before"}},
		Flags: joinFlags([]*flag{flagWhy, flagBy, flagDate, flagNoCache}, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"swap", "withdraw", "history"}, Complete: "sheets",
		Run: runRenumber,
	}
}

// renumbering is one run of renumber or swap.
type renumbering struct {
	desk  *desk
	moves []history.Move
	w     *work.Works

	by, date, why string
	changes       []fileChange
	trailers      []string
	told          []string // what follows
}

func (c *call) renumbering(ctx context.Context, how string) (*renumbering, error) {
	why := oneLine(c.opts.text("why"))
	if why == "" {
		return nil, misuse("what is wrong with the number? --why is needed; it is kept").try("blotter " + how + ` --why "the sheet bears the other number"`)
	}
	d, err := c.desk()
	if err != nil {
		return nil, err
	}
	r := &renumbering{desk: d, why: why}
	if r.by, r.date, err = d.signed("me"); err != nil {
		return nil, err
	}
	r.w, err = d.works(ctx)
	return r, err
}

func runRenumber(ctx context.Context, c *call) error {
	if len(c.args) == 0 || len(c.args) > 2 {
		return misuse("which number, and which is it to be?").try(`blotter renumber 482 1207 --why "the sheet bears 1207"`)
	}
	r, err := c.renumbering(ctx, "renumber "+strings.Join(c.args, " "))
	if err != nil {
		return err
	}
	old, err := r.desk.rowNumber(c.args[0])
	if err != nil {
		return err
	}
	now, err := r.newNumber(ctx)
	if err != nil {
		return err
	}
	path, src, record, err := r.desk.record(old)
	if err != nil {
		return err
	}
	if to, gone := history.Retired(record); gone {
		return misuse("%s has no plant any more: it goes on as %s", old, to)
	}
	r.moves = []history.Move{{From: old, To: now, Reason: r.why}}
	drafts, err := r.desk.neverEntered(ctx, []ledger.Number{old})
	if err != nil {
		return err
	}
	stays := len(drafts) == 0
	if stays {
		if stays, err = r.desk.known(ctx, old); err != nil {
			return err
		}
	}
	if err := r.file(path, src, record, stays); err != nil {
		return err
	}
	if err := r.follow(); err != nil {
		return err
	}
	c.say("%s", r.desk.titleOf(old))
	c.say("  goes on as %s: %s", now, r.why)
	r.sayFollows(stays, len(drafts) == 1)
	if len(drafts) == 1 {
		return r.hold(ctx)
	}
	e, err := r.desk.enter(ctx, entry{changes: r.changes, trailers: r.trailers, moves: r.moves, subject: string(old) + " is now " + string(now) + ": " + r.why})
	if err != nil {
		return err
	}
	r.desk.report(e, "")
	r.nextPapers([]ledger.Number{old}, []ledger.Number{now})
	return nil
}

// newNumber is the one that was typed, if it may be given, or the next free.
func (r *renumbering) newNumber(ctx context.Context) (ledger.Number, error) {
	if len(r.desk.args) < 2 {
		free, err := r.desk.freeNumbers(ctx)
		if err != nil {
			return "", err
		}
		return free()
	}
	n := fullNumber(r.desk.args[1], r.desk)
	if have, ok := r.desk.find(n); ok {
		_, _, record, err := r.desk.record(have)
		if err != nil {
			return "", err
		}
		if len(record.Fate) == 0 {
			return "", misuse("%s is another sheet's: %s", have, r.desk.standing(record).shown).
				try("If the two labels were stuck on each other's sheets: blotter swap " + r.desk.args[0] + " " + r.desk.args[1] + " --why TEXT")
		}
	}
	return n, r.desk.mayBeGiven(ctx, n)
}

// known reports whether anybody but this copy may know a number: then its file
// stays and says where the plant went.
func (d *desk) known(ctx context.Context, n ledger.Number) (bool, error) {
	refs, err := d.repo.Refs(ctx)
	if err != nil {
		return true, stuck("%v", err)
	}
	others := false
	for _, r := range refs {
		others = others || strings.HasPrefix(r.Name, "refs/remotes/")
	}
	head, err := d.head(ctx)
	if err != nil || !others {
		return true, err
	}
	view, err := d.repo.History(ctx, d.cache(), head)
	if err != nil {
		return true, stuck("%v", err)
	}
	of := view.Borne(n)
	if len(of) == 0 {
		return false, nil
	}
	first := view.Commit(of[0].Place).ID
	if shared, err := d.sharedWith(ctx, first); err != nil || shared != "" {
		return true, err
	}
	return d.wasPublished(ctx, first)
}

// wasPublished reports whether a catalogue or a public copy that was made here
// holds a revision: the address of its number is known then.
func (d *desk) wasPublished(ctx context.Context, id string) (bool, error) {
	last := []string{d.lastPublished()}
	for _, s := range d.mirrorStates() {
		last = append(last, s.Source)
	}
	for _, tip := range last {
		if tip == "" {
			continue
		}
		if has, err := d.repo.IsAncestor(ctx, id, tip); err == nil && has { // an error: that revision is here no more
			return true, nil
		}
	}
	return false, nil
}

// file gives the record its new number, and leaves at the old one what says
// so, or nothing.
func (r *renumbering) file(path string, src []byte, record *ledger.Record, stays bool) error {
	m := r.moves[0]
	now, err := renumber.Of(m).Record(src, m.To)
	if err == nil && stays {
		now, err = ledger.Edit(now, ledger.Append("further_numbers", ledger.KV{Value: string(m.From)}))
	}
	if err != nil {
		return refusedEdit(m.From, err)
	}
	if renumber.Of(m).AltersList(record) {
		r.corrects(m.To)
	}
	r.changes = append(r.changes, fileChange{path: m.To.Path(), new: now})
	left := fileChange{path: path, old: src}
	if stays {
		left.new = renumber.Stub(m.From, m.To, r.by, r.date, r.why)
	}
	r.changes = append(r.changes, left)
	return nil
}

func (r *renumbering) corrects(n ledger.Number) {
	r.trailers = append(r.trailers, history.CorrectsKey+": "+string(n)+" the other number is another now")
}

// follow changes what else names the numbers: records by their links, works by
// a line more.
func (r *renumbering) follow() error {
	moves := renumber.Of(r.moves...)
	for e := range r.w.Book().All() {
		if !namesAny(e, moves) {
			continue
		}
		if _, own := history.MovedTo(r.moves, e.Number); own {
			continue
		}
		c, err := r.desk.editSheet(e.Number, func(x *ledger.Record) ([]ledger.Op, error) {
			if moves.AltersList(x) {
				r.corrects(e.Number)
			}
			return moves.Mentions(x), nil
		})
		if err != nil {
			return err
		}
		if c.path != "" {
			r.changes, r.told = append(r.changes, c), append(r.told, string(e.Number))
		}
	}
	for _, f := range r.w.Files {
		lines := r.linesOf(f)
		if lines == nil {
			continue
		}
		c, err := r.desk.editWork(f.Number, func(*ledger.Work) ([]ledger.Op, error) { return lines, nil })
		if err != nil {
			return err
		}
		r.changes, r.told = append(r.changes, c), append(r.told, string(f.Number))
	}
	return nil
}

func namesAny(e *book.Entry, moves renumber.Moves) bool {
	for _, l := range e.Links {
		if _, ok := moves[strings.ToLower(l.To)]; ok && l.Kind != book.PartNumber && l.Kind != book.FurtherNumber {
			return true
		}
	}
	return false
}

// linesOf is the line by which a work that names the numbers tells that they
// moved; nil for one that does not.
func (r *renumbering) linesOf(f *work.File) []ledger.Op {
	m := r.moves[0]
	line := []ledger.KV{{Key: "date", Value: r.desk.today()}, {Key: "event", Value: ledger.EventRenumbered}}
	switch {
	case m.Swap && (f.Names(m.From) || f.Names(m.To)):
		line[1].Value = ledger.EventSwapped
		line = append(line, entryWords("sheets", string(m.From), string(m.To))...)
	case !m.Swap && f.Names(m.From):
		line = append(line, entryWords("sheets", string(m.From))...)
		line = append(line, ledger.KV{Key: "to", Value: string(m.To)})
	default:
		return nil
	}
	return []ledger.Op{ledger.Insert("lines", 0, append(line, ledger.KV{Key: "by", Value: r.by}, ledger.KV{Key: "why", Value: r.why})...)}
}

// sayFollows tells what becomes of the old number, and what names it.
func (r *renumbering) sayFollows(stays, draft bool) {
	old := r.moves[0].From
	switch {
	case draft:
		r.desk.say("  %s was never entered, so it is free again.", old)
	case stays:
		r.desk.say("  %s is never given again; its page says where the plant is.", old)
	default:
		r.desk.say("  No other copy has %s yet, so nothing is left there; this copy never gives it again.", old)
	}
	if len(r.told) > 0 {
		r.desk.say("%s", wrap("  It follows: "+strings.Join(cutList(r.told, 20), ", "), r.desk.Width, "    "))
	}
	r.sayPages()
}

// sayPages tells of prose that names a number: a person wrote it and changes
// it.
func (r *renumbering) sayPages() {
	for _, p := range r.pagesNaming() {
		r.desk.tell("%s names it, too; the address still leads there: look at the words.", p)
	}
}

// hold writes the files of what was never entered.
func (r *renumbering) hold(ctx context.Context) error {
	if r.desk.opts.on("dry-run") {
		r.desk.report(entered{dry: true}, "")
		return nil
	}
	unlock, err := r.desk.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	if err := r.desk.notOvertaken(r.changes); err != nil {
		return err
	}
	if err := r.desk.write(ctx, r.changes); err != nil {
		return err
	}
	r.desk.report(entered{held: true}, "")
	return nil
}

// nextPapers tells which papers with the old numbers are about.
func (r *renumbering) nextPapers(olds, news []ledger.Number) {
	for i, n := range olds {
		seen := map[string]bool{}
		for _, p := range clash.Papers(r.w, n) {
			if !seen[p.Paper] && p.Paper != "numbers" {
				seen[p.Paper] = true
				r.desk.tell("%s with %s were printed (%s); destroy them, and print anew what the plant needs.", strings.ToUpper(p.Paper[:1])+p.Paper[1:], n, p.Work)
				r.desk.next("blotter print %s %s --to %s.pdf", p.Paper, r.desk.briefOf(news[i]), p.Paper)
			}
		}
	}
}

// briefOf is a number that was just given as people type it.
func (d *desk) briefOf(n ledger.Number) string {
	if v, ok := n.Serial(); ok && d.short(v) == n {
		return history.Short(n)
	}
	return string(n)
}
