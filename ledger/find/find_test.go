package find

import (
	"errors"
	"strings"
	"testing"

	"blotter/ledger/dates"
)

// known stands for the field table.
func known(name string) (string, bool) {
	for _, p := range []string{"habitat", "place.locality", "determinations.why", "determinations", "read.date.is", "permit"} {
		if p == name || strings.HasSuffix(p, "."+name) {
			return p, true
		}
	}
	return "", false
}

func buttercup() *Sheet {
	return &Sheet{
		Number: "LK7-0000482", Stage: "full", Name: "Ranunculus acris cf. subsp. pumilus (Wahlenb.) Á.Löve & D.Löve",
		Family: "Ranunculaceae", Former: []string{"Ranunculus acris L."}, By: []string{"Signe Rask", "M. Ostrander"},
		People: []string{"Signe Rask", "Ove Bannister"}, Place: []string{"Norway", "Vestland", "Voss", "Raundalen, north of the chapel"},
		First: dates.DayOf(2025, 7, 14), Last: dates.DayOf(2025, 7, 14), Dated: true,
		Heights: func() (float64, float64, bool, error) { return 348, 348, true, nil },
		Fields: func() ([]Value, error) {
			return []Value{
				{"specimen", "LK7-0000482"}, {"habitat", "Unfertilised hay meadow on moraine"},
				{"place.locality", "Raundalen, north of the chapel"},
				{"determinations.1.name", "Ranunculus acris L."}, {"determinations.2.why", "Beak and receptacle hairs"},
			}, nil
		},
	}
}

func TestMatch(t *testing.T) {
	cases := []struct {
		name, query string
		want        bool
		reason      string
	}{
		{"nothing", "", true, "no condition"},
		{"word", "ranunculus", true, "case counts for nothing"},
		{"two words", "meadow acris", true, "in different fields"},
		{"beginning", "ranunc", true, "the beginning of a word is enough"},
		{"middle", "nunculus", false, "the middle of a word is not"},
		{"phrase", `"hay meadow"`, true, "next to each other"},
		{"phrase apart", `"hay moraine"`, false, "not next to each other"},
		{"marks", "determinations:acris love", false, "Löve is in the name that stands, not in the record of this test"},
		{"folded", "name:love", true, "Love finds Löve"},
		{"genus", "genus:Ranunculus place:Voss year:2020..2026", true, "as in interface.md 1.6"},
		{"genus only", "genus:acris", false, "acris is no genus here"},
		{"was", "was:acris", true, "a former name"},
		{"was not", "was:repens", false, "never so named"},
		{"by", "by:Ostrander", true, "the second determiner"},
		{"collector", `collector:"Ove Bannister"`, true, "companions count"},
		{"year", "year:2025", true, ""},
		{"years before", "year:..2024", false, ""},
		{"years from", "year:2025..", true, ""},
		{"month", "date:2025-07", true, ""},
		{"days", "date:2025-06-01..2025-07-13", false, "ends the day before"},
		{"height", "elevation:..300", false, ""},
		{"height span", "elevation:300..400", true, ""},
		{"not", "not place:Bergen", true, ""},
		{"not field", "not genus:Ranunculus", false, ""},
		{"state", "is:full not is:withdrawn", true, ""},
		{"has", "has:habitat", true, ""},
		{"has part", "has:why", true, "the last part of a path names the field"},
		{"lacks", "lacks:permit", true, ""},
		{"lacks not", "lacks:habitat", false, ""},
		{"other field", "habitat:moraine", true, "any field of the record"},
		{"other field no", "habitat:chapel", false, "the word stands in another field"},
		{"short number", "number:482", true, "the series is the museum's"},
		{"whole number", "LK7-0000482", true, "found as words"},
	}
	for _, c := range cases {
		q, err := Parse(c.query, known)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		got, err := q.Match(buttercup())
		if err != nil || got != c.want {
			t.Errorf("%s: %q gives %v, %v, want %v: %s", c.name, c.query, got, err, c.want, c.reason)
		}
	}
}

func TestUnread(t *testing.T) {
	cases := []struct{ name, query, want string }{
		{"field", "plaec:Voss", `no field is called "plaec"`},
		{"no value", "place:", "place: needs a value"},
		{"open quote", `"hay meadow`, "not closed"},
		{"year", "year:old", "is no year"},
		{"backwards", "year:1989..1980", "is no year"},
		{"height", "elevation:high", "no height"},
		{"state", "is:lost", "it takes type"},
		{"not alone", "meadow not", `"not" stands before`},
		{"has", "has:habitt", `no field is called "habitt"`},
		{"bytes", "name:\xdd", "not UTF-8"},
		{"long", strings.Repeat("a", MaxQuery+1), "longer than"},
	}
	for _, c := range cases {
		_, err := Parse(c.query, known)
		var u *Unread
		if !errors.As(err, &u) || !strings.Contains(u.Message, c.want) {
			t.Errorf("%s: got %v, want %q", c.name, err, c.want)
		}
	}
}

// FuzzQuery: no query brings the reader down, and a query written out again
// reads to the same query.
func FuzzQuery(f *testing.F) {
	for _, s := range []string{`a "b c" not d:e`, `year:1980..1989`, `place:"x`, `was: name:`, `not not`, `elevation:NaN..1`, `date:3/4/34..`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		any := func(name string) (string, bool) { return name, !strings.ContainsAny(name, "\" \t\r\n") }
		q, err := Parse(text, any)
		if err != nil || len(q.String()) > MaxQuery { // what is written out has quotes that the text may lack
			return
		}
		again, err := Parse(q.String(), any)
		if err != nil || again.String() != q.String() {
			t.Fatalf("%q: written out as %q, then %q, %v", text, q.String(), again.String(), err)
		}
		if _, err := q.Match(buttercup()); err != nil {
			t.Fatal(err)
		}
	})
}
