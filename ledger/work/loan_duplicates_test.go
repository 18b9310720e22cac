package work

import (
	"context"
	"fmt"
	"testing"
)

// TestDuplicates counts what is made, sent and left; figures by hand.
func TestDuplicates(t *testing.T) {
	work := func(lines string) map[string]string {
		return map[string]string{"exchange-2026-001": "partner: FJ3\nlines:\n" + lines}
	}
	cases := []struct {
		duplicates string
		works      map[string]string
		onHand     string
		holders    string
		reason     string
	}{
		{"  - {made: 3}\n  - {sent: Fjellheim Museum, date: 2026-02-01, number: FM 20113}\n", nil, "2", "[{FJ3 Fjellheim Museum FM 20113 1}]", "the record alone"},
		{"  - {made: 3}\n  - {sent: Fjellheim Museum, date: 2026-02-01}\n", work("  - {date: 2026-02-01, event: sent, gatherings: [Signe Rask 1207]}\n"), "2", "[{FJ3 Fjellheim Museum  1}]", "both tell of one sending"},
		{"  - {made: 3}\n  - {sent: FJ3}\n", work("  - {date: 2026-02-01, event: sent, gatherings: [S. Rask 1207], count: 2 folds}\n"), "1", "[{FJ3 Fjellheim Museum  2}]", "the work counts two, by initials"},
		{"  - {made: 4}\n", work("  - {date: 2026-02-01, event: sent, gatherings: [Signe Rask 1206..1208]}\n  - {date: 2026-03-01, event: sent, gatherings: [Signe Rask 1207], count: 2 folds}\n"), "1", "[{FJ3 Fjellheim Museum  3}]", "twice, once in a span"},
		{"  - {on_hand: 2}\n", work("  - {date: 2026-02-01, event: sent, gatherings: [Signe Rask 1207]}\n"), "1", "[{FJ3 Fjellheim Museum  1}]", "what was left, less one"},
		{"  - {made: 1}\n  - {sent: 2 to ST4}\n", nil, "-1", "[{ST4 Strandby Herbarium  2}]", "more sent than made"},
		{"  - {sent: Elsewhere}\n", nil, "unknown", "[{Elsewhere  1}]", "nobody says how many"},
		{"", work("  - {date: 2026-02-01, event: selected, gatherings: [Signe Rask 1207]}\n  - {date: 2026-02-03, event: sent}\n"), "unknown", "[{FJ3 Fjellheim Museum  1}]", "what was selected is sent"},
		{"", work("  - {date: 2026-02-01, event: selected, gatherings: [Signe Rask 1207]}\n"), "unknown", "[]", "selected is not sent"},
		{"", work("  - {date: 2026-02-01, event: sent, gatherings: [Signe Rask 12070]}\n"), "unknown", "[]", "another number"},
	}
	for _, c := range cases {
		words := "collector: Signe Rask\ncoll_no: \"1207\"\ndate: 2025-07-14\n"
		if c.duplicates != "" {
			words += "duplicates:\n" + c.duplicates
		}
		w, src := worksAnd(t, partnersOfTest, c.works, record{"LK7-0000482", words})
		e := w.book.Find("LK7-0000482")
		r, err := w.book.Loader(src, nil).Record(context.Background(), e)
		if err != nil {
			t.Fatal(err)
		}
		got := "unknown"
		if n, ok := w.DuplicatesOf(e, r).OnHand(); ok {
			got = fmt.Sprint(n)
		}
		if h := fmt.Sprint(w.Holders(e, r)); got != c.onHand || h != c.holders {
			t.Errorf("%s: %s on hand, %s; want %s, %s", c.reason, got, h, c.onHand, c.holders)
		}
	}
}
