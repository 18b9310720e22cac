package label

import (
	"slices"
	"testing"

	"blotter/render/paper"
)

const typeRecord = "specimen: LK7-0000051\nentry: draft\ntypes:\n"

// TestTypeWords: the status first, in capitals; how it is known, in words.
func TestTypeWords(t *testing.T) {
	for _, c := range []struct {
		name, reason, entries string
		want                  []string
	}{
		{"verified", "who and when", "  - {status: isotype, of: Hieracium vossense Moldstad, published: \"Flora Vossensis: 31 (1907)\", basis: verified, by: M. Ostrander, date: 2018-06-01}\n",
			[]string{"ISOTYPE of Hieracium vossense Moldstad", "Flora Vossensis: 31 (1907).", "verified by M. Ostrander, 1.vi.2018   LK7-0000051, Lauvkroken Museum"}},
		{"label", "said, not verified", "  - {status: holotype, of: Hieracium vossense Moldstad, basis: label, by: A, date: 2018}\n",
			[]string{"HOLOTYPE of Hieracium vossense Moldstad", "Said to be so on the label; not verified.", "A, 2018   LK7-0000051, Lauvkroken Museum"}},
		{"picture", "only a picture", "  - {status: lectotype, of: Poa alpina L., basis: picture, part: left-hand plant, by: A, date: 2018}\n",
			[]string{"LECTOTYPE of Poa alpina L.", "left-hand plant. Seen in a picture only; not verified.", "A, 2018   LK7-0000051, Lauvkroken Museum"}},
		{"suspected", "possible", "  - {status: isotype, of: Poa annua L., basis: suspected, by: A, date: 2018}\n",
			[]string{"POSSIBLE ISOTYPE of Poa annua L.", "Suspected; not verified.", "A, 2018   LK7-0000051, Lauvkroken Museum"}},
		{"without a basis", "nobody says", "  - {status: syntype, of: Poa annua L., by: unsigned, date: s.d.}\n",
			[]string{"SYNTYPE of Poa annua L.", "Not verified.", "unsigned, s.d.   LK7-0000051, Lauvkroken Museum"}},
		{"mistake", "never printed", "  - {status: isotype, of: Poa annua L., by: A, date: 2018, mistake: other sheet}\n", nil},
		{"taken back", "only what holds now", "  - {status: isotype, of: Poa annua L., by: A, date: 2018, basis: label}\n  - {status: not a type, of: Poa annua L., by: B, date: 2020, basis: verified}\n",
			[]string{"NOT A TYPE of Poa annua L.", "verified by B, 2020   LK7-0000051, Lauvkroken Museum"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			blocks, refused := Types(input(t, typeRecord+c.entries, ""), SlipOptions{})
			if len(refused) > 0 {
				t.Fatalf("%+v", refused)
			}
			var got []string
			for _, b := range blocks {
				slipSound(t, b)
				got = append(got, linesOf(b)...)
				if b.W != 105 || b.H != 27 {
					t.Errorf("%g x %g mm", b.W, b.H)
				}
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("%s: %q", c.reason, got)
			}
		})
	}
}

// TestTypeRules: a rule of 1 mm above and below (interface.md 3).
func TestTypeRules(t *testing.T) {
	blocks, _ := Types(input(t, typeRecord+"  - {status: isotype, of: Poa annua L., by: A, date: 2018}\n", ""), SlipOptions{})
	var rules []paper.Box
	for _, it := range blocks[0].Items {
		if a, ok := it.(paper.Area); ok {
			rules = append(rules, a.Boxes...)
		}
	}
	if len(rules) != 2 || rules[0].H != 1 || rules[1].H != 1 || rules[0].W != 95 || rules[0].Y > 3 || rules[1].Bottom() < 24 {
		t.Errorf("%v", rules)
	}
	for _, p := range blocks[0].Parts {
		if p.Box.Y < rules[0].Bottom() || p.Box.Bottom() > rules[1].Y {
			t.Errorf("%s %v meets a rule", p.Name, p.Box)
		}
	}
}
