package render

import (
	"context"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/render/markdown"
)

const renamedFamily = `family: Ericaceae
names:
  - name: Kalmia procumbens (L.) Gift, Kron & P.F.Stevens
  - name: Loiseleuria procumbens (L.) Desv.
    of: Kalmia procumbens (L.) Gift, Kron & P.F.Stevens
    source: regional list
    date: 2018-01-15
    by: Tiril Aune
  - name: Azalea procumbens L.
    of: Loiseleuria procumbens (L.) Desv.
    date: 1813
`

// renamedSite are the pages, by address, of one sheet with the determinations
// and a list that has Kalmia for Loiseleuria since 2018.
func renamedSite(t *testing.T, determinations, more string) map[string]string {
	t.Helper()
	files := map[string]string{
		"blotter.yaml":         "format: 1\nname: Lauvkroken Museum\ncode: LK7\nnumbering: {prefix: LK7-, digits: 7}\n",
		"names/Ericaceae.yaml": renamedFamily,
		ledger.Number("LK7-0000001").Path(): "specimen: LK7-0000001\nentry: full\ncollector: Signe Rask\ncoll_no: \"1\"\ndate: 26.vi.2016\n" +
			"place: {country: Norway, province: Vestland, district: Voss}\n" + more + "determinations:\n" + determinations,
	}
	s, pages := pagesOf(t, inputOf(t, files))
	out := map[string]string{}
	for _, p := range pages {
		if !p.Twinless {
			out[string(p.Address)] = string(markdown.Append(nil, s.site, p))
			checkTwin(t, s.site, p)
		}
	}
	files2, err := s.searchData(s.sheets)
	if err != nil {
		t.Fatal(err)
	}
	out["search data"] = string(files2)
	d, why, err := s.in.Reading(context.Background(), s.sheets[0])
	if err != nil {
		t.Fatal(err)
	}
	data, err := s.sheetOf(s.sheets[0], d, why, Story{}).json()
	if err != nil {
		t.Fatal(err)
	}
	out["json"] = string(data)
	return out
}

// TestRenamed holds the pages to interface.md 1.3 and record.md rule 4: a
// name that changed while nobody looked is one entry in names/, and each sheet
// shows NEW (det. as OLD).
func TestRenamed(t *testing.T) {
	const (
		sheet = "specimens/000/00/LK7-0000001"
		shown = "*Kalmia procumbens* (L.) Gift, Kron & P.F.Stevens (det. as *Loiseleuria procumbens* (L.) Desv.)"
		in16  = "  - {name: Loiseleuria procumbens (L.) Desv., by: Signe Rask, date: 2016-06-26, from: label}\n"
	)
	cases := []struct {
		name, reason   string
		determinations string
		more           string
		page           string
		want           []string // in this order
		not            string
	}{
		{"heading and rail", "the bar stands at the list's date, above the opinion", in16, "", sheet,
			[]string{"# LK7-0000001: " + shown, "Named *Loiseleuria procumbens* (L.) Desv. by", "renamed, the plant was not looked at.",
				"**15 January 2018, renamed, the plant was not looked at** (stands)", "*Kalmia procumbens* (L.) Gift, Kron & P.F.Stevens. Tiril Aune.", "After regional list.", "18 months before that",
				"**26 June 2016, on the label** (stands)", "To cite", shown}, ""},
		{"later agreement", "the bar stands between", in16 + "  - {kind: conf, name: Loiseleuria procumbens, by: Ove Bannister, date: 2020}\n", "", sheet,
			[]string{"some day in 2020, agrees**", "**15 January 2018, renamed", "**26 June 2016, on the label**"}, ""},
		{"named after", "the list was older than the opinion", in16 + "  - {name: Loiseleuria procumbens, by: Ove Bannister, date: 2021}\n", "", sheet,
			[]string{"**in our list since 15 January 2018, renamed", "some day in 2021, named", "**26 June 2016"}, ""},
		{"two steps", "each entry of the list is a bar of its own", "  - {name: Azalea procumbens L., by: Signe Rask, date: 2016-06-26}\n", "", sheet,
			[]string{"(det. as *Azalea procumbens* L.)", "**15 January 2018, renamed, the plant was not looked at** (stands)", "**in our list since some day in 1813, renamed, the plant was not looked at** (earlier)", "**26 June 2016, named**"}, ""},
		{"withheld", "the list's date must not bound that of the opinion", in16, "sensitive: {why: rare, category: 1}\n", sheet,
			[]string{"**15 January 2018, renamed"}, "before that"},
		{"withheld and named long after", "the day of that opinion is shown, so it bounds nothing", "  - {name: Loiseleuria procumbens, by: Signe Rask, date: 2021-06-26}\n", "sensitive: {why: rare, category: 1}\n", sheet,
			[]string{"**in our list since 15 January 2018, renamed", "**26 June 2021, named**"}, ""},
		{"one of two", "neither name is renamed alone", "  - {name: Loiseleuria procumbens or Phyllodoce caerulea, by: Signe Rask, date: 2016}\n", "", sheet,
			[]string{"# LK7-0000001: *Loiseleuria procumbens*"}, "det. as"},
		{"accepted name's page", "it lists the sheet", in16, "", "names/kalmia-procumbens", []string{"1 sheet bears this name now", shown}, ""},
		{"accepted genus", "it counts the sheet", in16, "", "names/kalmia", []string{"1 sheet bears this name now", "*Kalmia procumbens*"}, ""},
		{"synonym's page", "every name ever used keeps its page", in16, "", "names/loiseleuria-procumbens",
			[]string{"synonym of [*Kalmia procumbens*", "No sheet bears this name now; 1 sheet bore it once", shown, "renamed in our list, 15 January 2018"}, ""},
		{"search", "found by both", in16, "", "search data", []string{`\u0011Kalmia procumbens\u0012 (L.) Gift`, "det. as", "Loiseleuria"}, ""},
		{"data", "the words stay, the list's name is beside them", in16, "", "json", []string{`"name": "Loiseleuria procumbens (L.) Desv."`, `"accepted": "Kalmia procumbens`}, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			rest := strings.ReplaceAll(renamedSite(t, c.determinations, c.more)[c.page], `\u0026`, "&")
			if c.not != "" && strings.Contains(rest, c.not) {
				t.Errorf("%q stands there (%s):\n%s", c.not, c.reason, rest)
			}
			for _, w := range c.want {
				_, after, ok := strings.Cut(rest, w)
				if !ok {
					t.Fatalf("no %q (%s) in\n%s", w, c.reason, rest)
				}
				rest = after
			}
		})
	}
}
