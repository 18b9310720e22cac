package public_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"blotter/ledger/book"
	"blotter/ledger/ledgertest"
	"blotter/ledger/public"
)

// ledgerOf is the view of a few records, each given by its number and the rest
// of its file.
func ledgerOf(t testing.TB, more map[string]string, records ...string) (*public.View, *book.Loader) {
	t.Helper()
	files := map[string]string{"blotter.yaml": "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\n"}
	for k, v := range more {
		files[k] = v
	}
	for i, r := range records {
		n := fmt.Sprintf("LK7-%07d", 701+i)
		files["specimens/000/07/"+n+".yaml"] = "specimen: " + n + "\nentry: full\n" + r
	}
	src := ledgertest.MapSource(files)
	b, err := book.Load(context.Background(), src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return public.Of(b), b.Loader(src, nil)
}

// gathering is the lines of a record about who, number, day, place.
func gathering(who, number, day, locality, position string) string {
	s := "collector: " + who + "\ncoll_no: \"" + number + "\"\ndate: " + day + "\nplace: {country: Norway, locality: \"" + locality + "\""
	if position != "" {
		s += ", position: \"" + position + "\", datum: WGS84, uncertainty: 30 m"
	}
	return s + "}\n"
}

func marked(category string) string {
	return "sensitive: {why: rare, category: \"" + category + "\", by: Tiril Aune, date: 2020-01-01}\n"
}

func TestNeighbours(t *testing.T) {
	here, near, far := "60.70341, 6.65123", "60.70441, 6.65223", "60.76341, 6.71123"
	with := func(s, links string) string { return s + links }
	for _, c := range []struct {
		name, hidden, other string
		tie                 string // "": it gives nothing away
		reason              string
	}{
		{"same day and words", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "") + marked("3"), gathering("Signe Rask", "40", "14.vii.2025", "Trollabotn", ""), "same collector and day", "class 3 shows the day"},
		{"same day, near", gathering("Signe Rask", "12", "14.vii.2025", "a", here) + marked("3"), gathering("Signe Rask", "40", "14.vii.2025", "b", near), "same collector and day", "124 m, within half the diagonal of 0.01 degree"},
		{"same day, elsewhere", gathering("Signe Rask", "12", "14.vii.2025", "a", here) + marked("3"), gathering("Signe Rask", "40", "14.vii.2025", "b", far), "", "7 km off: it misleads"},
		{"other collector", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "") + marked("3"), gathering("K. Moldstad", "13", "14.vii.2025", "Trollabotn", ""), "", "nothing shown ties them"},
		{"spelled otherwise", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "") + marked("4"), gathering("S. Rask", "40", "14.vii.2025", "Trollabotn", ""), "same collector and day", "the same person in another spelling"},
		{"next number", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "") + marked("3"), gathering("Signe Rask", "13", "s.d.", "Trollabotn", ""), "next number", "no day on it"},
		{"number far off", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "") + marked("3"), gathering("Signe Rask", "15", "15.vii.2025", "Trollabotn", ""), "", "neither day nor next number"},
		{"class 2, same day", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "") + marked("2"), gathering("Signe Rask", "13", "14.vii.2025", "Trollabotn", ""), "same collector and day", "a duplicate elsewhere may tell the day"},
		{"class 1, next number", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "") + marked("1"), gathering("Signe Rask", "13", "s.d.", "Trollabotn", ""), "next number", "a duplicate elsewhere may tell the number"},
		{"class 2, same day, near", gathering("Signe Rask", "12", "14.vii.2025", "a", here) + marked("2"), gathering("Signe Rask", "13", "14.vii.2025", "b", near), "", "124 m off by positions good to 30 m: another spot, and nothing shown ties them"},
		{"class 2, same spot", gathering("Signe Rask", "12", "14.vii.2025", "a", here) + marked("2"), gathering("Signe Rask", "40", "14.vii.2025", "b", "60.70371, 6.65143"), "same collector and day", "35 m off by positions good to 30 m"},
		{"class 2, same gathering", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "") + marked("2"), gathering("Signe Rask", "12", "14.vii.2025", "near the farm", ""), "same gathering", "a duplicate of the very plant"},
		{"class 1, linked", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "") + marked("1"), with(gathering("Signe Rask", "99", "15.vii.2025", "near the farm", ""), "same_gathering: [LK7-0000701]\n"), "same gathering", "it says so itself"},
		{"the other says so", with(gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", ""), "shares_sheet: [LK7-0000702]\n") + marked("1"), gathering("Ove Bannister", "99", "15.vii.2025", "Trollabotn", ""), "same gathering", "the withheld one links to it"},
		{"shares a board only", with(gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", ""), "shares_sheet: [LK7-0000702]\n") + marked("1"), gathering("Ove Bannister", "99", "15.vii.2025", "Raundal", ""), "", "mounted together, grown apart"},
		{"released", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "") + marked("3"), with(gathering("Signe Rask", "13", "14.vii.2025", "Trollabotn", ""), "sensitive: {released: {why: a common plant of the whole valley, by: Tiril Aune, date: 2026-01-01}}\n"), "", "somebody said why"},
		{"held as strictly", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", here) + marked("3"), gathering("Signe Rask", "13", "14.vii.2025", "Trollabotn", here) + marked("3"), "", "shown no finer"},
		{"held less strictly", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", here) + marked("3"), gathering("Signe Rask", "13", "14.vii.2025", "Trollabotn", here) + marked("4"), "same collector and day", "its square is finer"},
		{"no place", gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "") + marked("3"), "collector: Signe Rask\ncoll_no: \"13\"\ndate: 14.vii.2025\nplace: {country: Norway}\n", "", "it tells no place"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v, _ := ledgerOf(t, nil, c.hidden, c.other)
			got := v.Neighbours()
			switch {
			case c.tie == "" && len(got) > 0:
				t.Errorf("%+v, want none: %s", got, c.reason)
			case c.tie != "" && (len(got) != 1 || got[0].Number != "LK7-0000702" || got[0].Of != "LK7-0000701" || !strings.Contains(got[0].Tie.String(), c.tie)):
				t.Errorf("%+v, want %q: %s", got, c.tie, c.reason)
			}
		})
	}
}

// TestNeighboursBetween: a sheet whose day is not shown, between two of one
// collector, day and place.
func TestNeighboursBetween(t *testing.T) {
	near := "60.70441, 6.65223"
	a := gathering("Signe Rask", "11", "14.vii.2025", "by the farm", near)
	s := gathering("Signe Rask", "12", "14.vii.2025", "Trollabotn", "60.70341, 6.65123") + marked("2")
	b := gathering("Signe Rask", "13", "14.vii.2025", "by the river", "60.70241, 6.65223")
	other := gathering("Ove Bannister", "13", "14.vii.2025", "by the river", near)
	v, _ := ledgerOf(t, nil, a, s, b)
	if got := v.Neighbours(); len(got) != 2 || got[0].Tie != public.Between || got[1].Tie != public.Between {
		t.Errorf("between two: %+v", got)
	}
	for name, list := range map[string][]string{"the last one": {a, s}, "another collector behind": {a, s, other}, "one generalised": {a, s, b + marked("2")}} {
		if v, _ := ledgerOf(t, nil, list...); len(v.Neighbours()) > 0 {
			t.Errorf("%s: %+v", name, v.Neighbours())
		}
	}
}
