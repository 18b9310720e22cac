package mids_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/darwincore"
	"blotter/ledger/ledgertest"
	"blotter/ledger/mids"
	"blotter/ledger/reading"
)

// rowsOf are the values of a term in the rows that a sheet becomes in an
// archive.
func rowsOf(s *darwincore.Sheet) func(term string) []string {
	return func(term string) []string {
		kind := &darwincore.Occurrence
		if class, local, ok := strings.Cut(term, ":"); ok {
			term = local
			for _, k := range darwincore.Kinds() {
				if k.Name == class {
					kind = k
				}
			}
		}
		var out []string
		for i := range kind.Terms {
			if kind.Terms[i].Name == term {
				for at := range kind.Rows(s) {
					out = append(out, kind.Terms[i].Value(darwincore.Row{Sheet: s, At: at}))
				}
			}
		}
		return out
	}
}

// What is asked of a record is what is asked of the rows that it is exported
// as, for every record of the tests that has a number. Where they differ:
// words for none (unknown, illegible) are words to the rows; read.person, by
// which a collector has an identifier, is not in the digest.
func TestRecordsAndTheirRowsAgree(t *testing.T) {
	people := book.NewPeople(&ledger.People{People: []ledger.Person{{Name: ledger.Leaf{Text: "Signe Rask"}, ORCID: ledger.Leaf{Text: "0000-0002-1825-0097"}}}})
	museum := &book.Museum{People: people, Museum: ledger.Museum{Name: ledger.Leaf{Text: "Lauvkroken Museum"}, Code: ledger.Leaf{Text: "LK7"},
		Site: ledger.Site{Address: ledger.Leaf{Text: "https://herbarium.lauvkroken.example"}, Licence: ledger.Leaf{Text: "CC BY 4.0"}}}}
	data := darwincore.NewDataset(museum, "", time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), nil, "")
	all, agree := 0, 0
	differ := map[string]int{}
	for _, r := range ledgertest.Corpus(t, "../..") {
		d := reading.Of(r, reading.Conventions{})
		e := book.EntryOf(d, nil)
		s := &darwincore.Sheet{Dataset: data, Number: e.Number, Record: r, Reading: d, Modified: data.Date}
		ours, rows := mids.OfEntry(&e, museum, true), mids.OfRow(rowsOf(s))
		if e.Number == "" {
			continue
		}
		all++
		if ours == rows {
			agree++
			continue
		}
		for _, x := range (ours ^ rows).Elements() {
			differ[x.Name]++
			if !slices.Contains([]string{"Name", "CollectingAgent", "CollectingAgentID"}, x.Name) {
				t.Errorf("%s: %s: record %v, rows %v", e.Number, x.Name, ours, rows)
			}
		}
	}
	t.Logf("%d of %d agree; %v", agree, all, differ)
	if all-agree > 2 {
		t.Errorf("%d of %d records differ from their rows: %v", all-agree, all, differ)
	}
}
