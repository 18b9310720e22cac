package render

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/history"
	"blotter/ledger/ledgertest"
)

// TestChronicle tells a record of three entries: new, corrected, named anew.
func TestChronicle(t *testing.T) {
	const path = "specimens/000/00/LK7-0000001.yaml"
	first := "specimen: LK7-0000001\nentry: full\ncollector: Signe Rask\ncoll_no: \"1\"\ndate: 2024-06-01\nplace:\n  country: Norway\n  locality: Evanger\n  elevation: 384 m\ndeterminations:\n  - name: Ranunculus acris L.\n    by: Signe Rask\n    date: 2024-06-01\n    from: label\n"
	second := strings.Replace(first, "384 m", "348 m", 1)
	third := second + "  - name: Ranunculus repens L.\n    by: M. Ostrander\n    date: 2025-02-01\n    why: runners\n"
	versions := []string{first, second, third}
	messages := []string{"New", "Correct the elevation\n\nCorrects: LK7-0000001 label says 348\n", "Determine"}
	var x history.Index
	blobs := map[ledger.BlobID]string{}
	parent := ""
	for i, v := range versions {
		c := history.Commit{ID: fmt.Sprintf("%040x", i+1), Message: messages[i]}
		c.Author = history.Person{Name: []string{"Signe Rask", "Ove Bannister", "Tiril Aune"}[i], When: time.Date(2025, time.Month(i+1), 3, 12, 0, 0, 0, time.UTC)}
		c.Committer = c.Author
		touch := history.Touch{Path: path, Blob: ledger.BlobOf([]byte(v))}
		if parent != "" {
			c.Parents = []string{parent}
			touch.Olds = []ledger.BlobID{ledger.BlobOf([]byte(versions[i-1]))}
		}
		c.Touches = []history.Touch{touch}
		parent, blobs[touch.Blob] = c.ID, v
		if err := x.Add(c); err != nil {
			t.Fatal(err)
		}
	}
	view, err := x.At(parent)
	if err != nil {
		t.Fatal(err)
	}
	ctx := context.Background()
	src := ledgertest.MapSource(map[string]string{path: third, "blotter.yaml": "format: \"1\"\nname: M\ncode: LK7\n"})
	b, err := book.Load(ctx, src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	in, err := Assemble(ctx, Sources{Book: b, Loader: b.Loader(src, nil), History: view, Read: func(_ context.Context, n ledger.Number, id ledger.BlobID) (history.Version, error) {
		r, fs := ledger.Decode(path, []byte(blobs[id]))
		return history.Version{Record: r, Unread: history.Unreadable(fs)}, nil
	}})
	if err != nil {
		t.Fatal(err)
	}
	checkMonths(t, in.Changes)
	e := b.Find("LK7-0000001")
	d, _, err := in.Reading(ctx, e)
	if err != nil {
		t.Fatal(err)
	}
	st, err := in.Story(ctx, e, d.Record)
	if err != nil {
		t.Fatal(err)
	}
	if st.Last.By != "Tiril Aune" || len(st.Opinions) != 2 || st.Opinions[0].By != "Signe Rask" || st.Opinions[1].By != "Tiril Aune" {
		t.Errorf("story: last by %s, opinions %v", st.Last.By, st.Opinions)
	}
	if len(st.Corrections) != 1 {
		t.Fatalf("%d corrections", len(st.Corrections))
	}
	if c := st.Corrections[0]; c.Field != "place.elevation" || c.Before != "384 m" || c.After != "348 m" || c.By != "Ove Bannister" || c.Reason != "label says 348" {
		t.Errorf("correction: %+v", c)
	}
}

func checkMonths(t *testing.T, months []Month) {
	t.Helper()
	var got []string
	for _, m := range months {
		for _, d := range m.Days {
			for _, e := range d.Events {
				got = append(got, fmt.Sprintf("%d-%02d kind %d by %s now %s", m.Year, m.Month, e.Kind, e.Revision.By, e.Now))
			}
		}
	}
	want := []string{
		"2025-03 kind 0 by Tiril Aune now Ranunculus repens L.",
		"2025-02 kind 3 by Ove Bannister now Ranunculus acris L.",
		"2025-01 kind 2 by Signe Rask now Ranunculus acris L.",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("changes:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}
