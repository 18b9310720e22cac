package quality

import (
	"cmp"
	"slices"
)

// Tally counts responses test by test and keeps the rows that fare worst. Its
// size does not grow with the number of rows.
type Tally struct {
	Rows  int
	Tests []TestTally // as the suite has them
	Worst []WorstRow  // most validations not complied with first
}

// TestTally is what the rows gave for one test.
type TestTally struct {
	Test                     *Test
	Passed, Failed           int // COMPLIANT, NOT_COMPLIANT; NOT_ISSUE, POTENTIAL_ISSUE
	Proposed                 int // AMENDED or FILLED_IN
	Kept                     int // NOT_AMENDED
	NothingToTest, NoService int // prerequisites not met, internal and external
	First                    int // the first row that failed or is to be amended; 0 for none
	Why                      string
	values                   map[string]int // of the first term acted upon, in the rows that failed
	proposals                map[string]string
	otherValues              int
}

// WorstRow is a row with the validations that it does not comply with.
type WorstRow struct {
	Row, Line int
	Failed    []*Test
}

// ValueCount is a value and the number of rows that have it.
type ValueCount struct {
	Value    string
	Rows     int
	Proposal string // what the amendment proposes for it; empty when it proposes another term
}

// keptValues is how many different values of a test are counted; further ones
// are only counted together. keptRows is how many worst rows are kept.
const (
	keptValues = 500
	keptRows   = 5
)

// NewTally prepares a tally of the suite's responses.
func NewTally(s *Suite) *Tally {
	t := &Tally{Tests: make([]TestTally, len(s.tests))}
	for i, test := range s.tests {
		t.Tests[i] = TestTally{Test: test, values: map[string]int{}, proposals: map[string]string{}}
	}
	return t
}

// Add counts the responses of one row, which stands on a line of its file.
func (t *Tally) Add(row *Row, line int, responses []Response) {
	t.Rows++
	failed := 0
	for i, r := range responses {
		c := &t.Tests[i]
		switch {
		case r.Status == Internal:
			c.NothingToTest++
		case r.Status == External:
			c.NoService++
		case r.Status == NotAmended:
			c.Kept++
		case r.Proposes():
			c.Proposed++
			c.note(t.Rows, row, r)
		case r.Result == NotCompliant || r.Result == PotentialIssue:
			c.Failed++
			c.note(t.Rows, row, r)
			if r.Result == NotCompliant {
				failed++
			}
		case r.Result == Compliant || r.Result == NotIssue:
			c.Passed++
		}
	}
	t.rank(line, failed, responses)
}

// note keeps what the row had.
func (c *TestTally) note(row int, values *Row, r Response) {
	if c.First == 0 {
		c.First, c.Why = row, r.Comment
	}
	if len(c.Test.ActedUpon) == 0 {
		return
	}
	v := values.values[c.Test.ActedUpon[0]]
	if _, known := c.values[v]; !known && len(c.values) >= keptValues {
		c.otherValues++
		return
	}
	c.values[v]++
	if len(r.Changes) == 1 && r.Changes[0].Term == c.Test.ActedUpon[0] {
		c.proposals[v] = r.Changes[0].Value
	}
}

// rank keeps the row when it is among the worst.
func (t *Tally) rank(line, failed int, responses []Response) {
	if failed == 0 || len(t.Worst) == keptRows && failed <= len(t.Worst[keptRows-1].Failed) {
		return
	}
	w := WorstRow{Row: t.Rows, Line: line}
	for i, r := range responses {
		if r.Result == NotCompliant {
			w.Failed = append(w.Failed, t.Tests[i].Test)
		}
	}
	t.Worst = append(t.Worst, w)
	slices.SortStableFunc(t.Worst, func(a, b WorstRow) int { return cmp.Compare(len(b.Failed), len(a.Failed)) })
	t.Worst = t.Worst[:min(len(t.Worst), keptRows)]
}

// Ran reports whether the test had anything to say of any row.
func (c *TestTally) Ran() bool { return c.Passed+c.Failed+c.Proposed+c.Kept > 0 }

// Values are the most frequent values of the first term acted upon among the
// rows noted, at most n.
func (c *TestTally) Values(n int) []ValueCount {
	list := make([]ValueCount, 0, len(c.values))
	for v, rows := range c.values {
		list = append(list, ValueCount{v, rows, c.proposals[v]})
	}
	slices.SortFunc(list, func(a, b ValueCount) int {
		return cmp.Or(cmp.Compare(b.Rows, a.Rows), cmp.Compare(a.Value, b.Value))
	})
	return list[:min(n, len(list))]
}
