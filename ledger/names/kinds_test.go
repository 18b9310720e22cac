package names

import "testing"

// Ways of writing that lists, labels and printed books have for one and the
// same name. The names are common ones or made up after them; the forms
// expected follow the Code where an article is given, and are common practice,
// no source, where none is.
func TestKindsOfWriting(t *testing.T) {
	for _, c := range []struct{ why, text, canonical, authors string }{
		{"a numbered list", "1. Phytolacca americana L.", "Phytolacca americana", "L."},
		{"a lettered list", "a) Phytolacca americana L.", "Phytolacca americana", "L."},
		{"a name supplied, in brackets", "[Phytolacca americana L.]", "Phytolacca americana", "L."},
		{"a name in brackets", "(Phytolacca americana)", "Phytolacca americana", ""},
		{"the asterisk of a list before", "*Phytolacca americana L.", "Phytolacca americana", "L."},
		{"the asterisk of a list behind", "Phytolacca americana*", "Phytolacca americana", ""},
		{"no space behind a comma", "Phytolacca americana,L.", "Phytolacca americana", "L."},
		{"a hybrid not named further", "Phytolacca hybrid", "Phytolacca", ""},
		{"a hybrid not named further", "Phytolacca americana L. hybr.", "Phytolacca americana", "L."},
		{"rank term of cultivated plants", "Beta vulgaris L. provar. altissima", "Beta vulgaris provar. altissima", ""},
		{"the usual short form of forma", "Phytolacca americana fa. alba", "Phytolacca americana f. alba", ""},
		{"a bullet", "• Phytolacca americana L.", "Phytolacca americana", "L."},
		{"a dash before", "- Phytolacca americana L.", "Phytolacca americana", "L."},
		{"a dagger before", "†Phytolacca americana", "Phytolacca americana", ""},
		{"a colon behind", "Phytolacca americana:", "Phytolacca americana", ""},
		{"a dash for a hyphen", "Capsella bursa–pastoris (L.) Medik.", "Capsella bursa-pastoris", "(L.) Medik."},
		{"a dash between words is none", "Capsella bursa – pastoris", "Capsella bursa", ""},
		{"markup by number", "Salix&#160;repens L. &amp; Sm.;", "Salix repens", "L. & Sm."},
		{"figures", "Lathyrus 15-florus", "Lathyrus quindecimflorus", ""},
		{"figures beyond twenty", "Sedum 24-angulare", "Sedum vigintiquatuorangulare", ""},
		{"no such figure", "Sedum 777-angulare", "Sedum", ""},
		{"formula in brackets, H.2", "(Salix aurita × S. cinerea) × S. repens", "Salix aurita × Salix cinerea × Salix repens", ""},
		{"formula in brackets behind", "Salix repens L. × (S. aurita L. × S. cinerea L.)", "Salix repens × Salix aurita × Salix cinerea", ""},
		{"formula in brackets behind its genus", "Epilobium (montanum × roseum)", "Epilobium montanum × Epilobium roseum", ""},
		{"the whole formula in brackets", "(Salix aurita × S. cinerea)", "Salix aurita × Salix cinerea", ""},
		{"formula without spaces", "Salix aurita×cinerea", "Salix aurita × Salix cinerea", ""},
		{"formula without spaces", "Salix aurita×S. cinerea", "Salix aurita × Salix cinerea", ""},
		{"quotes made of two", "Salix repens ''Nana''", "Salix repens ‘Nana’", ""},
		{"second parent not named", "Salix repens x sp.", "Salix repens × Salix", ""},
		{"X set against the epithet", "Rumex Xpratensis", "Rumex × pratensis", ""},
		{"rank term with a capital, Rec. 5A", "Salix repens L. Var. argentea Sm.", "Salix repens var. argentea", "Sm."},
		{"rank term in capitals", "Salix repens SSP. argentea", "Salix repens subsp. argentea", ""},
		{"rank term and bracket set against the epithet", "Salix repens subsp.argentea(Sm.)Wimm.", "Salix repens subsp. argentea", "(Sm.)Wimm."},
		{"unusual spellings of subsp.", "Salix repens sspec. argentea", "Salix repens subsp. argentea", ""},
		{"unusual spellings of subsp.", "Salix repens sub-sp. argentea", "Salix repens subsp. argentea", ""},
		{"forma specialis in full, Art. 4", "Puccinia graminis forma specialis tritici", "Puccinia graminis f.sp. tritici", ""},
		{"no rank, in brackets", "Hieracium [unranked] Vulgata Griseb.", "Hieracium unr. Vulgata", "Griseb."},
		{"a form with no species", "Salix forma alba", "Salix f. alba", ""},
		{"a section is no part of a species' name, Art. 23.1", "Salix sect. Nanae repens L.", "Salix repens", "L."},
		{"an aggregate in brackets", "Rubus (fruticosus) plicatus Weihe & Nees", "Rubus plicatus", "Weihe & Nees"},
		{"a remark in brackets is none", "Rubus (sterile)", "Rubus", ""},
		{"non", "Salix non repens", "Salix", ""},
		{"not an epithet", "Salix repens auctorum", "Salix repens", ""},
		{"not an epithet", "Salix repens L. pers. comm.", "Salix repens", "L."},
		{"mutatis characteribus, Rec. 47A", "Salix repens L. mut. char. Sm.", "Salix repens", "L."},
		{"a morphospecies", "Salix morphosp. 3", "Salix", ""},
		{"the elder", "Salix repens Sm. pater", "Salix repens", "Sm. pater"},
		{"a year in quotes", `Salix repens L., "1753" [1754]`, "Salix repens", `L., "1753" [1754]`},
		{"a cultivar called by a year", "Salix repens '2000'", "Salix repens ‘2000’", ""},
	} {
		n, err := Read(c.text)
		if err != nil {
			t.Errorf("%s (%s): %v", c.text, c.why, err)
			continue
		}
		if n.Canonical() != c.canonical || n.Authors != c.authors {
			t.Errorf("%s (%s): %q by %q, want %q by %q", c.text, c.why, n.Canonical(), n.Authors, c.canonical, c.authors)
		}
		lawful(t, c.text)
	}
}
