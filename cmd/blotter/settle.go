package main

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/clash"
	"blotter/ledger/history"
	"blotter/ledger/renumber"
	"blotter/ledger/work/printed"
)

// settleNumbers is called before another copy's entries are joined with those
// of this one: base is the revision that both had, theirs the other's last.
// Numbers that both gave meanwhile to different plants or works are told, and
// after a question this copy's get the next free ones, by an entry of its own;
// it is then the last revision, and the two can be joined. A number of which
// something was printed here stops it: people must decide. false: somebody
// said no, or it was a rehearsal, and nothing may be joined.
func (d *desk) settleNumbers(ctx context.Context, base, theirs string) (bool, error) {
	s := &settling{desk: d, moves: renumber.Moves{}, reason: "given twice meanwhile", because: "numbers given twice meanwhile"}
	if err := s.findClashes(ctx, base, theirs); err != nil {
		return false, err
	}
	if len(s.clashes) == 0 {
		return true, nil
	}
	if err := s.mayMove(ctx); err != nil {
		return false, err
	}
	if err := s.number(ctx); err != nil {
		return false, err
	}
	s.show()
	if ok, err := d.consent(ctx, s.question()); !ok {
		return false, err
	}
	if err := s.follow(ctx); err != nil {
		return false, err
	}
	r, err := d.enter(ctx, entry{changes: s.changes, subject: s.subject(), trailers: s.trailers, moves: s.gone})
	if err != nil {
		return false, err
	}
	d.all, d.worked = nil, nil
	d.report(r, "")
	return r.id != "", nil
}

// question asks whether the numbers that were shown may be given.
func (s *settling) question() string {
	if len(s.clashes) > 1 {
		return "Give them these numbers?"
	}
	return "Give it " + string(cmp.Or(s.moves[s.clashes[0].Number.Key()], "this number")) + "?"
}

// settling is one run of settleNumbers.
type settling struct {
	desk     *desk
	base     ledger.Source
	baseID   string
	mine     clash.Side
	theirs   clash.Side
	theirID  string
	clashes  []clash.Clash
	moves    renumber.Moves
	gone     []history.Move
	changes  []fileChange
	trailers []string
	reason   string // of the moves
	because  string // of what else follows
}

func (s *settling) findClashes(ctx context.Context, base, theirs string) error {
	head, err := s.desk.head(ctx)
	if err != nil {
		return err
	}
	s.baseID, s.theirID = base, theirs
	side := func(id string) (x clash.Side, err error) {
		changed, err := s.desk.repo.Changed(ctx, base, id)
		if err != nil {
			return x, stuck("%v", err)
		}
		for _, c := range changed {
			x.Changes = append(x.Changes, ledger.Change{Path: c.Path, Old: c.Old, New: c.New, Link: c.Link})
		}
		if x.Source, err = s.desk.repo.At(ctx, id); err != nil {
			return x, stuck("%v", err)
		}
		return x, nil
	}
	if s.mine, err = side(head); err != nil {
		return err
	}
	if s.theirs, err = side(theirs); err != nil {
		return err
	}
	if s.base, err = s.desk.repo.At(ctx, base); err != nil {
		return stuck("%v", err)
	}
	s.clashes, err = clash.Find(ctx, s.mine, s.theirs)
	if err != nil {
		return stuck("%v", err)
	}
	return nil
}

// mayMove refuses when something with a number that this copy gave was
// printed.
func (s *settling) mayMove(ctx context.Context) error {
	w, err := s.desk.works(ctx)
	if err != nil {
		return err
	}
	for _, c := range s.clashes {
		if c.Number == "" {
			continue
		}
		papers := clash.Papers(w, c.Number)
		if len(papers) == 0 {
			continue
		}
		return s.mustDecide(ctx, c, papers)
	}
	return nil
}

// mustDecide says who must decide which of two sheets keeps a number, and how
// each decision is typed.
func (s *settling) mustDecide(ctx context.Context, c clash.Clash, papers []printed.Printing) error {
	free, err := s.desk.freeNumbers(ctx)
	if err != nil {
		return err
	}
	next, err := s.freeBeside(free)
	if err != nil {
		return err
	}
	n, to := s.desk.brief(c.Number), s.briefFree(next)
	who := papers[0].By
	if who == "" {
		who = "whoever printed it"
	}
	f := stuck("%s was given twice, and %s with it were printed here (%s, %s); nothing was changed and nothing sent", c.Number, papers[0].Paper, papers[0].Work, papers[0].Day.String())
	f.try("here              "+s.plantOf(c.Path, c.Mine), "in the other copy "+s.plantOf(c.Path, c.Theirs),
		who+" and "+s.enteredBy(ctx, c)+" must look at the two sheets and decide which one keeps the number.",
		"The one here gets another: blotter renumber "+n+" "+to+` --why "given twice", print its papers anew, then share again`,
		"The one here keeps it: the same, and after sharing: blotter swap "+n+" "+to+` --why "given twice"`)
	return f
}

// enteredBy is who entered the other copy's file of a number.
func (s *settling) enteredBy(ctx context.Context, c clash.Clash) string {
	who := "whoever entered the other one"
	versions, err := s.desk.repo.FileVersions(ctx, s.theirID, nil, s.desk.repo.Prefix()+c.Path, manyVersions)
	if err != nil {
		return who
	}
	for _, v := range versions {
		if v.Blob == "" { // before that the number was another's, who got the next
			break
		}
		who = v.Author.Name
	}
	return who
}

// plantOf is a plant, or a work, as a line tells of it.
func (s *settling) plantOf(path string, src []byte) string {
	if _, ok := ledger.WorkNumberOfPath(path); ok {
		w := decodedWork(path, src)
		words := joinNonEmpty(", ", w.Title.Text, w.Partner.Text, w.Person.Text)
		if len(w.Lines) > 0 {
			words = joinNonEmpty(", ", words, w.Lines[0].Event.Text+" "+w.Lines[0].Date.Text, w.Lines[0].By.Text)
		}
		return words
	}
	r := decoded(path, src)
	return joinNonEmpty(", ", strings.TrimSpace(r.Collector.Text+" "+r.CollNo.Text), r.Date.Text, s.desk.standing(r).shown)
}

// freeBeside is the next free number that the other copy has not given either.
func (s *settling) freeBeside(free func() (ledger.Number, error)) (ledger.Number, error) {
	for {
		n, err := free()
		if err != nil {
			return "", err
		}
		if !slices.ContainsFunc(s.theirs.Changes, func(c ledger.Change) bool {
			have, ok := ledger.NumberOfPath(c.Path)
			return ok && have.Key() == n.Key()
		}) {
			return n, nil
		}
	}
}

// briefFree is a number as people type it that no sheet has yet.
func (s *settling) briefFree(n ledger.Number) string {
	if v, ok := n.Serial(); ok && s.desk.short(v) == n {
		return history.Short(n)
	}
	return string(n)
}

// number chooses the new numbers.
func (s *settling) number(ctx context.Context) error {
	free, err := s.desk.freeNumbers(ctx)
	if err != nil {
		return err
	}
	freeWork := map[string]func() ledger.WorkNumber{}
	for _, c := range s.clashes {
		if c.Number != "" {
			if s.moves[c.Number.Key()], err = s.freeBeside(free); err != nil {
				return err
			}
			continue
		}
		part := strings.Split(string(c.Work), "-")
		series := part[0] + "-" + part[1]
		if freeWork[series] == nil {
			if freeWork[series], err = s.desk.freeWorks(ctx, part[0], atoi(part[1])); err != nil {
				return err
			}
		}
		for {
			n := freeWork[series]()
			if !slices.ContainsFunc(s.theirs.Changes, func(c ledger.Change) bool { return c.Path == n.Path() }) {
				s.moves[string(c.Work)] = ledger.Number(n)
				break
			}
		}
	}
	return nil
}

func (s *settling) show() {
	for _, c := range s.clashes {
		s.desk.say("%s was given twice meanwhile; the two differ in %s.", c.Name(), c.Field)
		s.desk.say("  in the other copy  %s", s.plantOf(c.Path, c.Theirs))
		s.desk.say("  here               %s", s.plantOf(c.Path, c.Mine))
		if c.Work != "" {
			s.desk.say("  The one here becomes %s.", s.to(c))
		} else {
			s.desk.say("  Nothing was printed of the one here: it becomes %s.", s.to(c))
		}
	}
}

func (s *settling) to(c clash.Clash) ledger.Number { return s.moves[strings.ToLower(c.Name())] }

func (s *settling) subject() string {
	if len(s.clashes) == 1 {
		return s.clashes[0].Name() + " is now " + string(s.to(s.clashes[0])) + ": given twice"
	}
	return count(len(s.clashes), "number") + " given twice: this copy's are others now"
}

// follow makes the changes: the files under their new numbers, and all that
// this copy wrote since that names them.
func (s *settling) follow(ctx context.Context) error {
	moved := map[string]clash.Clash{}
	for _, c := range s.clashes {
		moved[c.Path] = c
		s.gone = append(s.gone, history.Move{From: ledger.Number(c.Name()), To: s.to(c), Reason: s.reason})
	}
	for _, c := range s.mine.Changes {
		_, isWork := ledger.WorkNumberOfPath(c.Path)
		_, isRecord := ledger.NumberOfPath(c.Path)
		if c.New == "" || c.Link || !isWork && !isRecord {
			continue
		}
		src, err := s.desk.read(c.Path)
		if err != nil || src == nil {
			return err
		}
		now, path := src, c.Path
		if isWork {
			now, err = s.workNamed(ctx, c, src)
		} else {
			now, err = s.recordNamed(c.Path, src)
		}
		if x, moves := moved[c.Path]; err == nil && moves {
			path = s.to(x).Path()
			if x.Work != "" {
				path = ledger.WorkNumber(s.to(x)).Path()
				now, err = s.moves.Work(now, ledger.WorkNumber(s.to(x)))
			} else {
				now, err = ledger.Edit(now, ledger.Set("specimen", string(s.to(x))))
			}
			s.changes = append(s.changes, fileChange{path: c.Path, old: src})
			src = nil
		}
		if err != nil {
			return refusedEdit(ledger.Number(sheetOrPath(c.Path)), err)
		}
		if string(now) != string(src) || src == nil {
			s.changes = append(s.changes, fileChange{path: path, old: src, new: now})
		}
	}
	return nil
}

// recordNamed is a record that names the moved ones by their new numbers.
func (s *settling) recordNamed(path string, src []byte) ([]byte, error) {
	r := decoded(path, src)
	ops := s.moves.Mentions(r)
	if len(ops) == 0 {
		return src, nil
	}
	if s.moves.AltersList(r) {
		s.trailers = append(s.trailers, history.CorrectsKey+": "+r.Specimen.Text+" "+s.because)
	}
	return ledger.Edit(src, ops...)
}

// workNamed is a work whose lines of this copy name them so; what both copies had
// before was about others.
func (s *settling) workNamed(ctx context.Context, c ledger.Change, src []byte) ([]byte, error) {
	var before []ledger.Entry
	if c.Old != "" {
		b, err := s.base.Read(ctx, ledger.File{Path: c.Path, Blob: c.Old, Size: -1})
		if err != nil {
			return nil, stuck("%v", err)
		}
		before = ledger.Lists(decodedWork(c.Path, b))[0].Entries
	}
	w := decodedWork(c.Path, src)
	lines := ledger.Lists(w)[0].Entries
	ops := append(s.moves.Permits(w), s.moves.Lines(w, func(i int) bool {
		return i >= len(lines) || !slices.ContainsFunc(before, lines[i].Equal)
	})...)
	if len(ops) == 0 {
		return src, nil
	}
	n, _ := ledger.WorkNumberOfPath(c.Path)
	if to, ok := s.moves[string(n)]; ok {
		n = ledger.WorkNumber(to)
	}
	s.trailers = append(s.trailers, history.CorrectsKey+": "+string(n)+" "+s.because)
	return ledger.EditFile(ledger.WorkFileKind, src, ops...)
}
