package opinion

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

// g reads one line "KIND NAME[/NAME] BY YEAR[-YEAR] [mistake] [label] [part=P]";
// "-" is nothing. A year reads as days 1000*year to 1000*year+999: only the
// order matters here.
func g(line string) Given {
	f := strings.Fields(line)
	out := Given{Kind: KindOf(f[0]), By: f[2]}
	if f[1] != "-" {
		for _, n := range strings.Split(f[1], "/") {
			out.Names = append(out.Names, strings.ReplaceAll(n, "_", " "))
		}
	}
	if f[3] != "-" {
		from, to, span := strings.Cut(f[3], "-")
		if !span {
			to = from
		}
		out.Dated, out.First, out.Last = true, int32(num(from))*1000, int32(num(to))*1000+999
	}
	for _, w := range f[4:] {
		switch {
		case w == "mistake":
			out.Mistake = true
		case w == "aside":
			out.Aside = true
		case w == "label":
			out.Label = true
		default:
			out.Part = strings.TrimPrefix(w, "part=")
		}
	}
	return out
}

func num(s string) (n int) {
	for _, r := range s {
		n = n*10 + int(r-'0')
	}
	return n
}

// Source of the cases: record.md rule 4 and interface.md 2.4, this project's
// own rules; there is no published test of them.
func TestJudge(t *testing.T) {
	cases := []struct {
		name, reason string
		given        []string
		filed        string
		order        []int
		states       string // e earlier, s stands, m mistake, n ended
		current      int
		disputed     bool
	}{
		{"none", "nobody has named it", nil, "", nil, "", -1, false},
		{"latest", "the later det is current", []string{"det A x 1950", "det B y 1970"}, "", []int{0, 1}, "es", 1, false},
		{"older slip appended", "dates decide", []string{"det B y 1970", "det A x 1950"}, "", []int{1, 0}, "se", 0, false},
		{"undated keeps order", "the writer put it last", []string{"det A x 1950", "det B y -"}, "", []int{0, 1}, "es", 1, false},
		{"undated first", "the writer put it first", []string{"det A x -", "det B y 1970", "det C z 1960"}, "", []int{0, 2, 1}, "ese", 1, false},
		{"overlap keeps order", "1960-1980 may be after 1970", []string{"det A x 1970", "det B y 1960-1980"}, "", []int{0, 1}, "es", 1, false},
		{"mistake", "never current", []string{"det A x 1950", "det B y 1970 mistake"}, "", []int{0, 1}, "sm", 0, false},
		{"conf renews", "A was agreed with after B", []string{"det A x 1950", "det B y 1970", "conf A z 1980"}, "", []int{0, 1, 2}, "ses", 0, false},
		{"conf without name", "agrees with what stood", []string{"det A x 1950", "det B y 1970", "conf - z 1980"}, "", []int{0, 1, 2}, "ess", 1, false},
		{"conf of nothing", "a name of its own", []string{"det A x 1950", "conf B z 1980"}, "", []int{0, 1}, "es", 1, false},
		{"conf by mistake", "renews nothing", []string{"det A x 1950", "det B y 1970", "conf A z 1980 mistake"}, "", []int{0, 1, 2}, "esm", 1, false},
		{"not", "ends A; the earlier B is left", []string{"det B x 1950", "det A y 1970", "not A z 1980"}, "", []int{0, 1, 2}, "sns", 0, false},
		{"not everything", "no name is left", []string{"det A y 1970", "not A z 1980"}, "", []int{0, 1}, "ns", -1, false},
		{"not the species", "what is below it ends too", []string{"det A_b_subsp._c y 1970", "not A_b z 1980"}, "", []int{0, 1}, "ns", -1, false},
		{"not the subspecies", "the species is left", []string{"det A_b y 1970", "not A_b_subsp._c z 1980"}, "", []int{0, 1}, "ss", 0, false},
		{"not a parent", "a formula is not its parent", []string{"det A_b_×_A_c y 1970", "not A_b z 1980"}, "", []int{0, 1}, "ss", 0, false},
		{"named again after not", "a later det of A stands", []string{"det A y 1970", "not A z 1980", "det A x 1990"}, "", []int{0, 1, 2}, "nes", 2, false},
		{"conf after not", "agreeing takes the not back", []string{"det A y 1970", "not A z 1980", "conf A x 1990"}, "", []int{0, 1, 2}, "ses", 0, false},
		{"not one of two", "A or B: B is left", []string{"det A/B y 1970", "not A z 1980"}, "", []int{0, 1}, "ss", 0, false},
		{"not both of two", "nothing is left", []string{"det A/B y 1970", "not A z 1980", "not B z 1981"}, "", []int{0, 1, 2}, "nss", -1, false},
		{"name-change", "the new name is current, the opinion is the old", []string{"det A x 1950", "name-change B y 1990"}, "", []int{0, 1}, "ss", 1, false},
		{"name-change ended by old name", "same plant", []string{"det A x 1950", "name-change B y 1990", "not A z 1995"}, "", []int{0, 1, 2}, "nns", -1, false},
		{"conf of the new name", "agrees with the opinion behind it", []string{"det A x 1950", "name-change B y 1990", "conf B z 1995"}, "", []int{0, 1, 2}, "sss", 1, false},
		{"of a duplicate", "nobody looked at this one", []string{"det A x 1950", "det B y 1970 aside"}, "", []int{0, 1}, "sa", 0, false},
		{"of a duplicate alone", "it is never current by itself", []string{"det B y 1970 aside"}, "", []int{0}, "a", -1, false},
		{"of a duplicate, agreed", "somebody looked and agrees", []string{"det A x 1950", "det B y 1970 aside", "conf B z 1980"}, "", []int{0, 1, 2}, "ess", 1, false},
		{"agrees from a duplicate", "it renews nothing", []string{"det A x 1950", "det B y 1970", "conf A z 1980 aside"}, "", []int{0, 1, 2}, "ese", 1, false},
		{"not from a duplicate", "it ends nothing", []string{"det A x 1950", "not A z 1980 aside"}, "", []int{0, 1}, "se", 0, false},
		{"same year, two people", "both stand until filed", []string{"det A x 1987", "det B y 1987"}, "", []int{0, 1}, "ss", 1, true},
		{"same year, one person", "changed her mind", []string{"det A x 1987", "det B x 1987"}, "", []int{0, 1}, "es", 1, false},
		{"same year as the label", "a slip comes after the label", []string{"det A x 1987 label", "det B y 1987"}, "", []int{0, 1}, "es", 1, false},
		{"same year, agreed", "no dispute of one name", []string{"det A x 1987", "det A y 1987"}, "", []int{0, 1}, "es", 1, false},
		{"dispute overtaken", "a later det settles it", []string{"det A x 1987", "det B y 1987", "det C z 1990"}, "", []int{0, 1, 2}, "ees", 2, false},
		{"filed", "the curator decides, both stand", []string{"det A x 1987", "det B y 1990"}, "A", []int{0, 1}, "ss", 0, true},
		{"filed as current", "nothing disputed", []string{"det A x 1987", "det B y 1990"}, "B", []int{0, 1}, "es", 1, false},
		{"filed under the species", "no dispute, no opinion of that name", []string{"det A_b_subsp._c x 1987"}, "A_b", []int{0}, "s", -1, false},
		{"admixture", "never the specimen's name", []string{"det A x 1950", "det M y 1990 part=admixture"}, "", []int{0, 1}, "ss", 0, false},
		{"two parts", "each has its own name", []string{"det A x 1950 part=left", "det B y 1990 part=right"}, "", []int{0, 1}, "ss", 1, false},
		{"part renamed", "a new name is no new opinion", []string{"det A x 1950 part=left", "det B y 1990 part=right", "name-change C z 1995 part=left"}, "", []int{0, 1, 2}, "sss", 1, false},
		{"part then whole", "the whole covers its parts", []string{"det A x 1950 part=left", "det B y 1990"}, "", []int{0, 1}, "es", 1, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var given []Given
			for _, l := range c.given {
				given = append(given, g(l))
			}
			var filed []string
			if c.filed != "" {
				filed = []string{strings.ReplaceAll(c.filed, "_", " ")}
			}
			got := Judge(given, filed)
			states := ""
			for _, s := range got.States {
				states += string("esmna"[s])
			}
			if !slices.Equal(got.Order, c.order) || states != c.states || got.Current != c.current || got.Disputed != c.disputed {
				t.Errorf("order %v states %q current %d disputed %v, want %v %q %d %v (%s)",
					got.Order, states, got.Current, got.Disputed, c.order, c.states, c.current, c.disputed, c.reason)
			}
		})
	}
}

func TestLinks(t *testing.T) {
	got := Judge([]Given{g("det A x 1950"), g("name-change B y 1960"), g("conf B z 1970"), g("not A z 1980")}, nil)
	if !slices.Equal(got.Links, []int{-1, 0, 0, -1}) || !slices.Equal(got.EndedBy, []int{3, 3, 3, -1}) || got.Opinion != -1 {
		t.Errorf("links %v ended by %v opinion %d", got.Links, got.EndedBy, got.Opinion)
	}
}

func anyGiven(t *rapid.T) Given {
	names := []string{"A", "A b", "A b subsp. c", "B", "C d"}
	out := Given{
		Kind: Kind(rapid.IntRange(0, 3).Draw(t, "kind")), By: rapid.SampledFrom([]string{"x", "y"}).Draw(t, "by"),
		Mistake: rapid.IntRange(0, 5).Draw(t, "mistake") == 0, Dated: rapid.Bool().Draw(t, "dated"),
		Part:  rapid.SampledFrom([]string{"", "", "", "left", "admixture"}).Draw(t, "part"),
		Names: rapid.SliceOfN(rapid.SampledFrom(names), 0, 2).Draw(t, "names"),
	}
	if out.Kind != Conf && len(out.Names) == 0 {
		out.Names = []string{"A"}
	}
	out.First = rapid.Int32Range(0, 20).Draw(t, "first")
	out.Last = out.First + rapid.Int32Range(0, 5).Draw(t, "long")
	return out
}

func TestJudgeLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := rapid.SliceOfN(rapid.Custom(anyGiven), 0, 9).Draw(t, "given")
		c := Judge(given, nil)
		seen := slices.Sorted(slices.Values(c.Order))
		for i, e := range seen {
			if i != e {
				t.Fatalf("order %v is no permutation", c.Order)
			}
		}
		for i, a := range c.Order {
			for _, b := range c.Order[i+1:] {
				if given[a].Dated && given[b].Dated && given[a].First > given[b].Last {
					t.Fatalf("%d is certainly later than %d but stands before it", a, b)
				}
			}
		}
		if c.Current >= 0 {
			g := given[c.Current]
			if c.States[c.Current] != Stands || g.Kind == Not || IsAdmixture(g.Part) && g.Kind != NameChange || g.Mistake {
				t.Fatalf("current %d is %v %v", c.Current, c.States[c.Current], g)
			}
		}
	})
}
