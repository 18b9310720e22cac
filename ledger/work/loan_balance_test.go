package work

import (
	"fmt"
	"testing"
)

// TestBalances: sums by hand.
func TestBalances(t *testing.T) {
	w := worksOf(t, partnersOfTest, map[string]string{
		"loan-2025-001":      "partner: FJ3\nlines:\n  - {date: 2025-01-10, event: sent, sheets: [LK7-0000101..LK7-0000104]}\n  - {date: 2025-05-01, event: returned, sheets: [LK7-0000101]}\n",
		"loan-2026-001":      "partner: Fjellheim Museum\nlines:\n  - {date: 2026-01-10, event: sent, sheets: [LK7-0000105]}\n",
		"loan-2026-002":      "partner: FJ3\nlines:\n  - {date: 2026-01-10, event: sent, sheets: [LK7-0000106]}\n  - {date: 2026-02-10, event: returned}\n",
		"borrowing-2026-001": "partner: ST4\nlines:\n  - {date: 2026-01-10, event: received, others: [ST4 1, ST4 2]}\n  - {date: 2026-01-20, event: sent-back, others: [ST4 2]}\n",
		"exchange-2026-001":  "partner: ST4\nlines:\n  - {date: 2026-02-01, event: sent, gatherings: [Signe Rask 1..6]}\n  - {date: 2026-02-02, event: sent, gatherings: [Signe Rask 9], count: 2 folds}\n  - {date: 2026-03-01, event: received, count: 5 sheets}\n",
		"gift-2026-001":      "partner: ST4\nlines:\n  - {date: 2026-02-01, event: sent, count: 12 folds, what: Carex}\n",
	}, sheets(101, 6)...)
	got := fmt.Sprintf("%+v", w.Balances(day(t, "2026-06-01")))
	want := "[{Partner:FJ3 Fjellheim Museum LoansOut:2 Out:4 Late:3 LoansIn:0 In:0 Sent:0 Received:0 Given:0} " +
		"{Partner:ST4 Strandby Herbarium LoansOut:0 Out:0 Late:0 LoansIn:1 In:1 Sent:8 Received:5 Given:12}]"
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
