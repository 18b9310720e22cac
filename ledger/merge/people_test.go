package merge

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
)

// people are three versions of people.yaml: each side adds, fills in and
// takes out entries and spellings.
func people(t *rapid.T, src []byte) []byte {
	p, _ := ledger.DecodePeople(ledger.PeopleFile, src)
	n := len(p.People)
	who := word(t, []string{"Aud Voll", "Tiril Aune", "M. Ostrander", "Ola Nes"})
	var op ledger.Op
	switch rapid.IntRange(0, 3).Draw(t, "what") {
	case 0:
		for _, x := range p.People {
			if x.Name.Text == who {
				return src // one person, one entry
			}
		}
		op = ledger.Append("people", ledger.KV{Key: "name", Value: who}, ledger.KV{Key: "born", Value: "1961"})
	case 1:
		op = ledger.Append(fmt.Sprintf("people.%d.spellings", rapid.IntRange(1, n).Draw(t, "at")), ledger.KV{Value: word(t, spellings)})
	case 2:
		op = ledger.Set(fmt.Sprintf("people.%d.%s", rapid.IntRange(1, n).Draw(t, "at"), word(t, []string{"about", "born", "email"})), word(t, []string{"1961", "two", "three"}))
	case 3:
		op = ledger.Insert("people", 1, ledger.KV{Key: "name", Value: fmt.Sprintf("Person %d", rapid.IntRange(0, 3).Draw(t, "n"))})
		for _, x := range p.People {
			if strings.HasPrefix(x.Name.Text, "Person") {
				return src
			}
		}
	}
	out, err := ledger.EditFile(ledger.PeopleKind, src, op)
	if err != nil {
		return src
	}
	return out
}

var spellings = []string{"A. One", "B. Two", "C. Three", "D. #4", "E # five", "F: six", "- G", "[H. Eight]", "\"I\"", "J.  Ten", "J. Ten", "# K", "{L}", "yes", "M:"}

// Whatever both sides wrote into people.yaml: every person and spelling of
// either is there, no name twice, and the other side comes to the same people.
func TestPeopleOfBothSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base := []byte("people:\n  - name: Signe Rask\n    spellings: [S. Rask]\n  - name: Tiril Nes\n    spellings:\n      - T. Nes  # as on labels\n      - \"T # N\"\n  - name: Ove Bannister\n    email: ove@lauvkroken.example\n")
		ours, theirs := base, base
		for range rapid.IntRange(0, 4).Draw(t, "steps") {
			ours = people(t, ours)
			theirs = people(t, theirs)
		}
		a, openA, err := Record(ledger.PeopleFile, base, ours, theirs)
		if err != nil {
			t.Fatal(err)
		}
		sameFromThere(t, ledger.PeopleFile, base, ours, theirs)
		if len(openA) > 0 {
			return
		}
		p, _ := ledger.DecodePeople(ledger.PeopleFile, a)
		met := map[string]string{}
		for _, x := range p.People {
			if _, twice := met[x.Name.Text]; twice {
				t.Fatalf("%s stands twice\nours\n%s\ntheirs\n%s\nmerged\n%s", x.Name, ours, theirs, a)
			}
			met[x.Name.Text] = "\n"
			for _, s := range x.Spellings {
				met[x.Name.Text] += fold1(s.Text) + "\n"
			}
		}
		for _, side := range [][]byte{ours, theirs} {
			q, _ := ledger.DecodePeople(ledger.PeopleFile, side)
			for _, x := range q.People {
				got, ok := met[x.Name.Text]
				for _, s := range x.Spellings {
					ok = ok && strings.Contains(got, "\n"+fold1(s.Text)+"\n")
				}
				if !ok {
					t.Fatalf("%s or a spelling is lost\nours\n%s\ntheirs\n%s\nmerged\n%s", x.Name, ours, theirs, a)
				}
			}
		}
	})
}
