package main

import (
	"context"
	"errors"
	"slices"

	"blotter/ledger"
	"blotter/ledger/work/printed"
)

// keptRevision is the length to which a printing writes the revision it was made from:
// enough that no second one of a large ledger begins so.
const keptRevision = 12

// keep enters that the papers were printed, as a work of its own. When that
// cannot be done the file stands, and it is said what to type.
// again is whether the file was there already: then it may be kept, too.
func (p *printing) keep(ctx context.Context, made *smallPapers, s printState, again bool) error {
	of := made.of()
	switch {
	case made.Paper == "" || len(of) == 0:
		return nil
	case p.opts.on("draft"), p.opts.on("trial"):
		p.tell("Not kept as a printing: --%s.", map[bool]string{true: "draft", false: "trial"}[p.opts.on("draft")])
		return nil
	case p.repo == nil:
		p.tell("%s", wrap("This ledger has no git, so nobody can tell later from which state this was printed; it is not kept.", p.Width, ""))
		return nil
	}
	slices.Sort(of)
	if again {
		if kept, err := p.isKept(ctx, made.Paper, s, of); err != nil || kept {
			return err
		}
	}
	p.turnBack() // whatever state was printed, it is entered today
	number, r, err := p.enterPrinting(ctx, made, s, of)
	if errors.Is(err, errInterrupted) {
		return err
	}
	if err != nil {
		f := stuck("%s stands, but that it was printed is not entered: %w", p.opts.text("to"), err)
		var cause *fault
		if errors.As(err, &cause) {
			f.try(cause.hints...)
		}
		return f.try("When that is mended, the same command with --at " + s.short() + " enters it and leaves the file as it is.")
	}
	p.say("Kept as %s, revision %s: %s.", number, r.short(), count(len(of), made.keptNoun()))
	p.warnOfHooks()
	return nil
}

// keptNoun is of what papers a printing keeps.
func (s *smallPapers) keptNoun() string {
	if s.Paper == "numbers" {
		return "number"
	}
	return "sheet"
}

func (s *smallPapers) keptWords(n int) string {
	if s.Paper == "numbers" {
		return count(n, "number") + " ahead"
	}
	return count(n, "sheet") + ", " + s.Paper
}

// isKept reports whether these papers of all these sheets are kept as printed
// from this revision already.
func (p *printing) isKept(ctx context.Context, paper string, s printState, of []ledger.Number) (bool, error) {
	now := *p.desk // the printings of today, whatever state is printed
	now.turnBack()
	w, err := now.works(ctx)
	if err != nil {
		return false, err
	}
	for _, n := range of {
		if !slices.ContainsFunc(printed.Of(w, n, paper), func(x printed.Printing) bool { return x.Revision == s.id[:keptRevision] }) {
			return false, nil
		}
	}
	return true, nil
}

// enterPrinting enters a new work of the kind printing with its one line.
func (p *printing) enterPrinting(ctx context.Context, made *smallPapers, s printState, of []ledger.Number) (ledger.WorkNumber, entered, error) {
	if err := p.recover(ctx); err != nil {
		return "", entered{}, err
	}
	author, _, err := p.recorder(ctx)
	if err != nil {
		return "", entered{}, err
	}
	kind, _ := ledger.WorkKindOf("printing")
	o := &opening{desk: p.desk, kind: kind, line: slices.Concat(
		[]ledger.KV{{Key: "date", Value: p.today()}, {Key: "event", Value: kind.Opens}},
		entryWords("sheets", spansOf(of)...),
		[]ledger.KV{{Key: "by", Value: author.Name}, {Key: "paper", Value: made.Paper}, {Key: "revision", Value: s.id[:keptRevision]}})}
	if material := p.museum.Habits.Printing.Material.Text; material != "" {
		o.head = append(o.head, ledger.Set("material", material))
	}
	free, err := p.freeWorks(ctx, kind.Name, p.todayAsDay().Year())
	if err != nil {
		return "", entered{}, err
	}
	for {
		n := free()
		c, err := o.asFile(n)
		if err != nil {
			return n, entered{}, err
		}
		r, err := p.enter(ctx, entry{changes: []fileChange{c}, subject: string(n) + ": " + made.keptWords(len(of))})
		if !errors.Is(err, errOvertaken) {
			return n, r, err
		}
	}
}
