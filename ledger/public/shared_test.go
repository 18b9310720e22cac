package public_test

import (
	"context"
	"fmt"
	"testing"

	"blotter/ledger/book"
	"blotter/ledger/ledgertest"
	"blotter/ledger/public"
)

// TestFullStays: making a public view, or the staff's, alters nothing of the
// full Book, though the entries of both share what is public.
func TestFullStays(t *testing.T) {
	_, b, _ := view(t)
	shown := func() (out []string) {
		for e := range b.All() {
			s, j := *e.Shown, *e.Judged
			s.Seldom, j.SeldomJudged = nil, nil
			out = append(out, fmt.Sprintf("%+v %+v %+v %+v", s, *e.Seldom, j, *e.SeldomJudged))
		}
		return out
	}
	before := shown()
	public.Of(b)
	public.ForStaff(b)
	for i, s := range shown() {
		if s != before[i] {
			t.Errorf("before: %s\nafter:  %s", before[i], s)
		}
	}
}

// TestShares: a record of which everything may be seen takes no memory twice;
// one that is withheld, or names somebody who is shown by initials, has
// another Shown. The checks' part is in neither.
func TestShares(t *testing.T) {
	const head = "entry: full\ndate: s.d.\nplace: {country: Norway}\n"
	b, err := book.Load(context.Background(), ledgertest.MapSource(map[string]string{
		"blotter.yaml":                      "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\n",
		"people.yaml":                       "people:\n  - name: Ove Bannister\n    initials: \"yes\"\n",
		"specimens/000/07/LK7-0000701.yaml": "specimen: LK7-0000701\ncollector: Rask\n" + head,
		"specimens/000/07/LK7-0000702.yaml": "specimen: LK7-0000702\ncollector: Ove Bannister\n" + head,
		"specimens/000/07/LK7-0000703.yaml": "specimen: LK7-0000703\ncollector: Rask\nwith: [Ove Bannister]\n" + head,
		"specimens/000/07/LK7-0000704.yaml": "specimen: LK7-0000704\ncollector: Rask\nsensitive: {why: nest of an eagle, category: \"1\"}\n" + head,
	}), book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	v := public.Of(b)
	for e := range v.Book.All() {
		full := b.Find(e.Number)
		if same := e.Shown == full.Shown; same != (e.Number == "LK7-0000701") {
			t.Errorf("%s: shared is %v", e.Number, same)
		}
		if e.Judged == full.Judged || e.Findings != nil || e.Who != "" || e.Lines != (book.Lines{}) || e.Mark != (book.Mark{}) {
			t.Errorf("%s: the public Book has what the checks look at", e.Number)
		}
	}
	for e := range public.ForStaff(b).Book.All() {
		if full := b.Find(e.Number); (e.Shown == full.Shown) == full.Flags.Has(book.Sensitive) {
			t.Errorf("%s: the staff's Book has a copy of its own, or shows as withheld what is not", e.Number)
		}
	}
}
