package main

import (
	"context"

	"blotter/ledger"
	"blotter/ledger/history"
)

// publishedRev is the REV of the last publication.
const publishedRev = "published"

// sayNet tells what changed since the last publication: sheet by sheet what
// differs for everybody, not entry by entry.
func (d *desk) sayNet(ctx context.Context, wanted map[string]bool) error {
	from, err := d.revision(ctx, publishedRev)
	if err != nil {
		return err
	}
	to, err := d.head(ctx)
	if until := d.opts.text("until"); until != "" && err == nil {
		to, err = d.revision(ctx, until)
	}
	if err != nil {
		return err
	}
	diff, err := d.difference(ctx, from, to, nil)
	if err != nil {
		return err
	}
	if wanted != nil {
		kept := diff.Sheets[:0]
		for _, s := range diff.Sheets {
			if wanted[s.Number.Key()] {
				kept = append(kept, s)
			}
		}
		diff.Sheets, diff.Lists = kept, nil
	}
	if d.asksJSON() {
		return d.printNet(diff)
	}
	return d.showNet(ctx, diff, from)
}

// netOut is one sheet for programs.
type netOut struct {
	Number   ledger.Number `json:"number"`
	What     []string      `json:"what"`
	Before   string        `json:"before"`
	After    string        `json:"after"`
	Was      string        `json:"accepted_before,omitempty"`
	Now      string        `json:"accepted_after,omitempty"`
	Fields   []fieldOut    `json:"fields,omitempty"`
	Withheld bool          `json:"withheld,omitempty"`
}

func (d *desk) printNet(diff *difference) error {
	for i := range diff.Sheets {
		s := &diff.Sheets[i]
		out := netOut{Number: s.Number, What: s.words(), Before: s.Before, After: s.After, Was: s.Was, Now: s.Now, Withheld: s.Withheld}
		if !s.Kinds.Has(history.New) {
			for _, f := range s.Fields {
				out.Fields = append(out.Fields, fieldOut{f.Path, f.Before, f.After})
			}
		}
		if err := d.printJSON(out); err != nil {
			return err
		}
	}
	for _, l := range diff.Lists {
		if err := d.printJSON(l); err != nil {
			return err
		}
	}
	return nil
}

func (d *desk) showNet(ctx context.Context, diff *difference, from string) error {
	last, err := d.repo.Revision(ctx, from)
	if err != nil {
		return stuck("%v", err)
	}
	since := "since the last publication (revision " + from[:7] + ", " + d.shownDate(last.Committer.When.In(d.zone).Format("2006-01-02")) + ")"
	if len(diff.Sheets)+len(diff.Lists) == 0 {
		d.say("Nothing that everybody sees has changed %s.", since)
		return nil
	}
	var rows [][]string
	for i := range diff.Sheets {
		s := &diff.Sheets[i]
		words := changeWords(s.Change)
		switch {
		case s.Withheld:
			words = "what is withheld was changed"
		case s.Gone:
			words = s.Before
		}
		if s.Now != s.Was {
			words = joinNonEmpty("; ", words, s.Now+", was "+s.Was+" (the plant was not looked at)")
		}
		rows = append(rows, []string{string(s.Number), joinNonEmpty(", ", s.words()...), words})
	}
	d.table("", rows)
	for _, l := range diff.Lists {
		d.say("%s: %s", l.Path, joinNonEmpty(", ", countAny(l.Added, "added"), countAny(l.Altered, "altered"), countAny(l.Removed, "taken out")))
	}
	if words := diff.counted(); words != "" {
		d.say("%s", wrap("In all "+since+": "+words+".", d.Width, ""))
	}
	if d.opts.text("until") == "" {
		d.next("blotter publish")
	}
	return nil
}

// countAny is "3 names added"; "" for none.
func countAny(n int, done string) string {
	if n == 0 {
		return ""
	}
	return count(n, "name") + " " + done
}
