package check

import (
	"slices"

	"blotter/ledger"
	"blotter/ledger/book"
)

// Settled is a warning that a sic entry lets stand.
type Settled struct {
	ledger.Finding
	Sic book.Sic      // who let it stand, when and why
	In  ledger.Number // of the record that the entry stands in: of a warning between records it may be another
}

// judging is one judging of a ledger or of changes: what was found, and which
// sic entries settled something.
type judging struct {
	around  *Around
	open    []ledger.Finding
	settled []Settled
	used    map[sicAt]bool
	changed map[*book.Entry]bool // of changes: what is between others is none of theirs; nil: all records are judged
	sums    map[string]judges    // of changes: those made already, by the key of a Tally
}

// sicAt is a sic entry.
type sicAt struct {
	e *book.Entry
	i int // place in e.Sic
}

func newJudging(a *Around) *judging {
	return &judging{around: a, used: map[sicAt]bool{}, sums: map[string]judges{}}
}

// tell takes a finding. A warning is settled by a sic entry of any of the
// records that it is about.
func (j *judging) tell(f ledger.Finding, about ...*book.Entry) {
	var by *sicAt
	if f.Severity == ledger.Warning {
		for _, e := range about {
			for i := range e.Sic {
				if e.Sic[i].Code == f.Code {
					at := sicAt{e, i}
					j.used[at] = true
					if by == nil {
						by = &at
					}
				}
			}
		}
	}
	if by == nil {
		j.open = append(j.open, f)
		return
	}
	j.settled = append(j.settled, Settled{f, by.e.Sic[by.i], by.e.Number})
}

// record judges one record by the rules that need no other.
func (j *judging) record(e *book.Entry) {
	for _, f := range e.Findings {
		j.tell(f, e)
	}
	for _, r := range sorted().join {
		if !j.asks(r) || r.NewOnly && !j.around.isNew(e) {
			continue
		}
		r.Join(e, j.around, func(p place, w words) { j.tell(r.finding(e.Path, p, w), e) })
	}
}

// asks reports whether what a rule needs is there.
func (j *judging) asks(r *Rule) bool { return r.Asked == nil || r.Asked(j.around) }

// group judges records that share a key.
func (j *judging) group(g *grouped, of *group) {
	if len(of.same) < 2 && !g.alone(of.same[0]) {
		return
	}
	for _, r := range g.rules {
		if !j.asks(r) {
			continue
		}
		r.Group(of, func(e *book.Entry, p place, w words, others ...*book.Entry) {
			if r.NewOnly && !j.around.isNew(e) {
				return
			}
			about := append([]*book.Entry{e}, others...)
			if j.changed == nil || slices.ContainsFunc(about, func(e *book.Entry) bool { return j.changed[e] }) {
				j.tell(r.finding(e.Path, p, w), about...)
			}
		})
	}
}

// idle tells of the sic entries of a record that settled nothing. Records and
// groups are judged before it.
func (j *judging) idle(e *book.Entry) {
	for i, s := range e.Sic {
		severity, known := severityOf(s.Code)
		if r := rule(s.Code); !known || severity == ledger.Error || r != nil && !j.asks(r) || j.used[sicAt{e, i}] {
			continue
		}
		p := place{line: int(s.Line), col: int(s.Col), field: nth("sic", i, "code")}
		j.open = append(j.open, rule(codeIdle).finding(e.Path, p, words{idleMessage, "Take this entry of sic away: blotter edit " + short(e.Number)}))
	}
}

// report is what was found, sorted, severities raised as the museum has it.
func (j *judging) report(m *book.Museum) *Report {
	raised := map[string]bool{}
	for _, o := range m.Severity {
		if o.Is.Text == ledger.Error.String() {
			raised[o.Code.Text] = true
		}
	}
	if len(raised) > 0 {
		for i := range j.open {
			if raised[j.open[i].Code] {
				j.open[i].Severity = ledger.Error
			}
		}
	}
	ledger.SortFindings(j.open)
	slices.SortFunc(j.settled, func(a, b Settled) int { return ledger.CompareFindings(a.Finding, b.Finding) })
	return &Report{Findings: slices.Compact(j.open), Settled: slices.Compact(j.settled), Museum: m}
}
