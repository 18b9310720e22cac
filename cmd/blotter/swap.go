package main

import (
	"context"
	"io/fs"
	"os"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
	"blotter/ledger/renumber"
)

func swapCommand() *command {
	return &command{
		Name: "swap", Family: famEnter, Synopsis: "A B",
		Says: "Two labels were stuck on each other's sheets: the two plants exchange their numbers, with their histories.",
		Notes: []string{"Afterwards A is the plant that was B, and its history tells so. What names either follows: other sheets, batches and loans (by a line more). " +
			"Pictures go with the plant's record; those that were tied by the number on the sheet are listed, to be looked at."},
		Examples: []example{
			{`blotter swap 482 517 --why "labels stuck on each other's sheets"`, "482 is now the plant that was 517"},
			{`blotter swap 482 517 --why "seen when mounted" --by "Ove Bannister"`, "somebody else saw it"},
			{`blotter swap 482 517 --why "seen when mounted" --dry-run`, "only shows what would follow"},
		},
		Args:  []argument{{"A B", "the two numbers, 482 or whole"}},
		Flags: joinFlags([]*flag{flagWhy, flagBy, flagDate, flagNoCache}, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"renumber", "history", "undo"}, Complete: "sheets",
		Run: runSwap,
	}
}

func runSwap(ctx context.Context, c *call) error {
	if len(c.args) != 2 {
		return misuse("which two numbers?").try(`blotter swap 482 517 --why "labels stuck on each other's sheets"`)
	}
	r, err := c.renumbering(ctx, "swap "+strings.Join(c.args, " "))
	if err != nil {
		return err
	}
	var ns [2]ledger.Number
	for i, typed := range c.args {
		if ns[i], err = r.desk.rowNumber(typed); err != nil {
			return err
		}
	}
	if ns[0] == ns[1] {
		return misuse("%s twice; two sheets exchange their numbers", ns[0])
	}
	drafts, err := r.desk.neverEntered(ctx, ns[:])
	if err != nil {
		return err
	}
	if len(drafts) == 1 {
		return misuse("%s was never entered and the other was; enter it first", drafts[0]).try("blotter enter " + r.desk.brief(drafts[0]))
	}
	r.moves = []history.Move{{From: ns[0], To: ns[1], Reason: r.why, Swap: true}, {From: ns[1], To: ns[0], Reason: r.why, Swap: true}}
	pictures, err := r.exchange(ns)
	if err != nil {
		return err
	}
	if err := r.follow(); err != nil {
		return err
	}
	r.sayExchange(ns, pictures)
	if len(drafts) == 2 {
		return r.hold(ctx)
	}
	e, err := r.desk.enter(ctx, entry{changes: r.changes, trailers: r.trailers, moves: r.moves, subject: string(ns[0]) + " and " + string(ns[1]) + " exchanged: " + r.why})
	if err != nil {
		return err
	}
	r.desk.report(e, "")
	r.nextPapers(ns[:], []ledger.Number{ns[1], ns[0]})
	return nil
}

// exchange puts each record under the other number. The pictures are those
// whose files bear one of the numbers.
func (r *renumbering) exchange(ns [2]ledger.Number) (pictures []string, err error) {
	moves := renumber.Of(r.moves...)
	var path [2]string
	var src [2][]byte
	for i, n := range ns {
		var record *ledger.Record
		if path[i], src[i], record, err = r.desk.record(n); err != nil {
			return nil, err
		}
		if to, gone := history.Retired(record); gone {
			return nil, misuse("%s has no plant any more: it goes on as %s", n, to)
		}
		if moves.AltersList(record) {
			r.corrects(ns[1-i])
		}
		_, files := moves.Pictures(record, n, ns[1-i])
		for _, f := range files {
			pictures = append(pictures, f[0])
		}
	}
	for i, n := range ns {
		now, err := moves.Record(src[1-i], n)
		if err != nil {
			return nil, refusedEdit(n, err)
		}
		r.changes = append(r.changes, fileChange{path: path[i], old: src[i], new: now})
	}
	return pictures, nil
}

func (r *renumbering) sayExchange(ns [2]ledger.Number, pictures []string) {
	for i, n := range ns {
		_, _, record, _ := r.desk.record(ns[1-i])
		was := strings.TrimSpace(record.Collector.Text + " " + record.CollNo.Text)
		r.desk.say("%s  is now  %s   (was %s)", n, joinNonEmpty(", ", r.desk.standing(record).shown, was), ns[1-i])
	}
	r.desk.say("  %s", r.why)
	if len(r.told) > 0 {
		r.desk.say("%s", wrap("  It follows: "+strings.Join(cutList(r.told, 20), ", "), r.desk.Width, "    "))
	}
	for _, p := range pictures {
		r.desk.tell("%s goes with the plant's record; if the picture shows the other sheet, change it there: blotter edit.", p)
	}
	r.sayPages()
}

// pagesNaming are the pages of prose that name a number that moves.
func (r *renumbering) pagesNaming() []string {
	var out []string
	files, _ := fs.Glob(os.DirFS(r.desk.root), ledger.PagesDir+"/*.md")
	for _, p := range files {
		src, err := r.desk.read(p)
		if err != nil {
			continue
		}
		for _, m := range r.moves {
			if strings.Contains(string(src), string(m.From)) {
				out = append(out, p)
				break
			}
		}
	}
	return out
}
