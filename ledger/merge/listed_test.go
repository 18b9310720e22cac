package merge

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
	_ "blotter/ledger/ledgertest/seed"
)

func TestListed(t *testing.T) {
	const two = "# Who is who\npeople:\n  - name: Ove Bannister\n    email: ove@lauvkroken.example\n  - name: Signe Rask\n"
	cases := []struct{ name, base, ours, theirs, want, reason string }{
		{"first of an empty list", "people: []\n", "people:\n  - name: Ove\n", "people:\n  - name: Signe\n", "people:\n  - name: Ove\n  - name: Signe\n",
			"two volunteers each add themselves to an empty list"},
		{"at the end", two, two + "  - name: Zoe\n", two + "  - name: Asta\n    email: a@b\n", two + "  - name: Asta\n    email: a@b\n  - name: Zoe\n",
			"both add at the end: neighbouring lines are no clash"},
		{"one alters, one adds", two, strings.Replace(two, "ove@", "o@", 1), two + "  - name: Zoe\n", strings.Replace(two, "ove@", "o@", 1) + "  - name: Zoe\n", ""},
		{"one takes out", two, strings.Replace(two, "  - name: Signe Rask\n", "", 1), two + "  - name: Zoe\n",
			strings.Replace(two, "  - name: Signe Rask\n", "", 1) + "  - name: Zoe\n", "what one side took out stays out"},
		{"both alter one entry", two, strings.Replace(two, "ove@", "o@", 1), strings.Replace(two, "ove@", "bannister@", 1), "", "a person must decide"},
		{"altered and taken out", two, strings.Replace(two, "Rask\n", "Rask\n    email: s@r\n", 1), strings.Replace(two, "  - name: Signe Rask\n", "", 1), "", "a person must decide"},
		{"the same twice, once with more", "people: []\n", "people:\n  - name: Ove\n    orcid: x\n", "people:\n  - name: Ove\n", "people:\n  - name: Ove\n    orcid: x\n", "more words win"},
		{"headings", "name: A\ncode: B\nsite:\n  title: T\n", "name: C\ncode: B\nsite:\n  title: T\n", "name: A\ncode: D\nsite:\n  title: T\n", "name: C\ncode: D\nsite:\n  title: T\n",
			"neighbouring settings"},
		{"no newline at the end", "people:\n  - name: A", "people:\n  - name: A\n  - name: B", "people:\n  - name: A\n  - name: C", "people:\n  - name: A\n  - name: B\n  - name: C", ""},
		{"two of one first line", "people:\n  - name: A\n  - name: A\n", "people:\n  - name: A\n", "people:\n", "", "entries that cannot be told apart are left to people"},
	}
	for _, c := range cases {
		got, ok := Listed([]byte(c.base), []byte(c.ours), []byte(c.theirs))
		if ok != (c.want != "") || ok && string(got) != c.want {
			t.Errorf("%s (%s):\n%s%v\nwant\n%s", c.name, c.reason, got, ok, c.want)
		}
	}
}

// TestListedLosesNobody: whoever either side added is there, whoever one took
// out is not, and the result is the same from either side but for order.
func TestListedLosesNobody(t *testing.T) {
	names := []string{"Asta", "Ove", "Signe", "Tiril", "Zoe", "Kari", "M. Ostrander"}
	file := func(who []string) []byte {
		s := "# People\npeople:\n"
		for _, n := range who {
			s += "  - name: " + n + "\n    email: x@lauvkroken.example\n"
		}
		return []byte(s)
	}
	some := rapid.SliceOfNDistinct(rapid.SampledFrom(names), 0, len(names), rapid.ID[string])
	rapid.Check(t, func(t *rapid.T) {
		base, ours, theirs := some.Draw(t, "base"), some.Draw(t, "ours"), some.Draw(t, "theirs")
		got, ok := Listed(file(base), file(ours), file(theirs))
		back, ok2 := Listed(file(base), file(theirs), file(ours))
		if !ok || !ok2 {
			t.Fatal("a clash where no entry was altered")
		}
		set := func(src []byte) (out []string) {
			p, found := ledger.DecodePeople(ledger.PeopleFile, src)
			for _, f := range found {
				if f.Severity == ledger.Error {
					t.Fatalf("%s\n%v", src, f)
				}
			}
			for _, x := range p.People {
				out = append(out, x.Name.Text)
			}
			slices.Sort(out)
			return out
		}
		var want []string
		for _, n := range names {
			b, o, x := slices.Contains(base, n), slices.Contains(ours, n), slices.Contains(theirs, n)
			if o && x || o && !b || x && !b {
				want = append(want, n)
			}
		}
		slices.Sort(want)
		if !slices.Equal(set(got), want) || !slices.Equal(set(back), want) {
			t.Fatalf("got %v and %v, want %v", set(got), set(back), want)
		}
	})
}

func FuzzListed(f *testing.F) {
	f.Add("people: []\n", "people:\n- name: A\n", "people:\n  - name: B\n")
	f.Add("", "a: |\n  - x\n", "\xff- \r\n")
	f.Fuzz(func(t *testing.T, base, ours, theirs string) {
		if got, ok := Listed([]byte(base), []byte(ours), []byte(ours)); ok && string(got) != ours {
			t.Fatalf("two equal versions give %q of %q", got, ours)
		}
		Listed([]byte(base), []byte(ours), []byte(theirs))
	})
}
