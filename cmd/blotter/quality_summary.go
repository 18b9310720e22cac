package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"blotter/ledger/quality"
)

// qualitySummary says in words what the tests found and what to do about it.
func (c *call) qualitySummary(t *quality.Tally, looked int) {
	c.say("%s with %s that tests look at; %s.", count(t.Rows, "row"), count(looked, "column"), count(len(t.Tests), "test"))
	if t.Rows == 0 {
		return
	}
	absent := c.summaryAbsent(t)
	c.summaryBlock(t, "To put right: validations that rows do not comply with", func(q *quality.TestTally) int {
		if q.Test.Type != quality.Validation || absent[q] {
			return 0
		}
		return q.Failed
	})
	c.summaryBlock(t, "Could be filled in or written as the standard has it (proposed; nothing is changed)", func(q *quality.TestTally) int { return q.Proposed })
	c.summaryBlock(t, "Worth a look before the data are used", func(q *quality.TestTally) int {
		if q.Test.Type != quality.Issue {
			return 0
		}
		return q.Failed
	})
	c.summaryWorst(t)
	c.summaryRest(t)
}

// summaryAbsent names the terms that no row says anything under, in one line
// instead of a test each, and gives the tests that this settles.
func (c *call) summaryAbsent(t *quality.Tally) map[*quality.TestTally]bool {
	absent := map[*quality.TestTally]bool{}
	var terms []string
	for i := range t.Tests {
		q := &t.Tests[i]
		if strings.HasSuffix(q.Test.Label, "_NOTEMPTY") && q.Test.Type == quality.Validation && q.Failed == t.Rows && len(q.Test.ActedUpon) == 1 {
			absent[q] = true
			terms = append(terms, q.Test.ActedUpon[0].String())
		}
	}
	if len(terms) > 0 {
		c.say("\n%s", hang("Missing or empty in every row: ", strings.Join(terms, ", "), c.Width))
	}
	return absent
}

// summaryBlock lists tests by the number of rows, most first, each with the
// most frequent values and what is proposed for them.
func (c *call) summaryBlock(t *quality.Tally, title string, rows func(*quality.TestTally) int) {
	var list []*quality.TestTally
	for i := range t.Tests {
		if q := &t.Tests[i]; rows(q) > 0 {
			list = append(list, q)
		}
	}
	if len(list) == 0 {
		return
	}
	slices.SortStableFunc(list, func(a, b *quality.TestTally) int { return cmp.Compare(rows(b), rows(a)) })
	c.say("\n%s", title)
	for _, q := range list {
		c.say("%s", hang(fmt.Sprintf("%9s  ", thousands(rows(q))), q.Test.Label+": "+q.Test.Says, c.Width))
		if examples := summaryValues(q); examples != "" {
			c.say("%s", hang(strings.Repeat(" ", 13), examples, c.Width))
		} else {
			c.say("%s", hang(strings.Repeat(" ", 13), fmt.Sprintf("first in row %d: %s", q.First, q.Why), c.Width))
		}
	}
}

// summaryValues are the most frequent values with the number of their rows.
func summaryValues(q *quality.TestTally) string {
	var parts []string
	for _, v := range q.Values(3) {
		if strings.TrimSpace(v.Value) == "" || v.Proposal == "" && q.Test.Type == quality.Amendment {
			continue
		}
		s := shortened(v.Value)
		if v.Proposal != "" {
			s += " -> " + shortened(v.Proposal)
		}
		parts = append(parts, fmt.Sprintf("%s (%s)", s, thousands(v.Rows)))
	}
	return strings.Join(parts, "; ")
}

// shortened is a value in at most 40 characters.
func shortened(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:37]) + "..."
	}
	return s
}

// summaryWorst names the rows that comply with least, leaving out what no row
// complies with.
func (c *call) summaryWorst(t *quality.Tally) {
	everywhere, common := map[*quality.Test]bool{}, 0
	for i := range t.Tests {
		if q := &t.Tests[i]; q.Failed == t.Rows && q.Test.Type == quality.Validation {
			everywhere[q.Test] = true
			common++
		}
	}
	if len(t.Worst) == 0 || len(t.Worst[0].Failed) == common || t.Rows == 1 {
		return
	}
	c.say("\nRows that comply with least, beside what no row complies with")
	for _, w := range t.Worst {
		var labels []string
		for _, test := range w.Failed {
			if !everywhere[test] {
				labels = append(labels, strings.TrimPrefix(test.Label, "VALIDATION_"))
			}
		}
		c.say("%s", hang(fmt.Sprintf("  row %d (line %d): ", w.Row, w.Line), strings.Join(labels, ", "), c.Width))
	}
}

// summaryRest says what was not tested, and where the single answers are.
func (c *call) summaryRest(t *quality.Tally) {
	var idle, service int
	for i := range t.Tests {
		switch q := &t.Tests[i]; {
		case q.NoService > 0 && !q.Ran():
			service++
		case !q.Ran() && q.NothingToTest == t.Rows:
			idle++
		}
	}
	var rest []string
	if idle > 0 {
		rest = append(rest, fmt.Sprintf("%s found nothing to test in any row", count(idle, "test")))
	}
	if service > 0 {
		rest = append(rest, fmt.Sprintf("%s would ask what is not to be had here, such as a taxonomic service", count(service, "test")))
	}
	if len(rest) > 0 {
		c.say("\n%s", wrap(strings.Join(rest, "; ")+".", c.Width, ""))
	}
	c.next("blotter quality FILE --format csv shows every answer")
}
