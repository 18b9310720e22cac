package names

import (
	"errors"
	"strings"
	"testing"
)

// The names are real; articles are of the Shenzhen Code (2018), Darwin Core
// means the notes of its terms (list of 2026-05-26). Rows without a source are
// common practice.
var readTests = []struct {
	why       string
	text      string
	canonical string
	authors   string
	rank      Rank
	qualified string // qualifiers as word>part, joined by ;
	slug      string
}{
	{"binomial", "Ranunculus acris L.", "Ranunculus acris", "L.", Species, "", "ranunculus-acris"},
	{"a missing author blocks nothing", "Ranunculus acris", "Ranunculus acris", "", Species, "", "ranunculus-acris"},
	{"interface.md 1.6", "Ranunculus acris cf. subsp. pumilus (Wahlenb.) Á.Löve & D.Löve", "Ranunculus acris subsp. pumilus", "(Wahlenb.) Á.Löve & D.Löve", Subspecies, "cf.>subsp. pumilus", "ranunculus-acris-subsp-pumilus"},
	{"Darwin Core identificationQualifier", "Quercus agrifolia cf. var. oxyadenia", "Quercus agrifolia var. oxyadenia", "", Variety, "cf.>var. oxyadenia", "quercus-agrifolia-var-oxyadenia"},
	{"Darwin Core identificationQualifier", "Quercus aff. agrifolia var. oxyadenia", "Quercus agrifolia var. oxyadenia", "", Variety, "aff.>agrifolia var. oxyadenia", "quercus-agrifolia-var-oxyadenia"},
	{"doubt of the whole name", "cf. Salix lapponum L.", "Salix lapponum", "L.", Species, "cf.>Salix lapponum", "salix-lapponum"},
	{"? stands after the part in doubt", "Ranunculus acris?", "Ranunculus acris", "", Species, "?>acris", "ranunculus-acris"},
	{"? after the authors doubts all", "Ranunculus acris L. ?", "Ranunculus acris", "L.", Species, "?>Ranunculus acris", "ranunculus-acris"},
	{"? after the authors doubts all", "Ranunculus acris L.?", "Ranunculus acris", "L.", Species, "?>Ranunculus acris", "ranunculus-acris"},
	{"a stop ends the words", "Ranunculus acris.", "Ranunculus acris", "", Species, "", "ranunculus-acris"},
	{"not named further", "Carex sp.?", "Carex", "", Genus, "sp.?>Carex", "carex"},
	{"not named further", "Ranunculaceae sp", "Ranunculaceae", "", Family, "sp>Ranunculaceae", "ranunculaceae"},
	{"not named further", "Taraxacum sp. 3", "Taraxacum", "", Genus, "sp. 3>Taraxacum", "taraxacum"},
	{"unpublished", "Taraxacum sp. nov. ined.", "Taraxacum", "", Genus, "sp. nov. ined.>Taraxacum", "taraxacum"},
	{"family", "Ranunculaceae indet.", "Ranunculaceae", "", Family, "indet.>Ranunculaceae", "ranunculaceae"},
	{"Art. 18.5", "Compositae Giseke", "Compositae", "Giseke", Family, "", "compositae"},
	{"Art. 17.1", "Fagales Engl.", "Fagales", "Engl.", Order, "", "fagales"},
	{"Art. 16.3", "Magnoliophyta", "Magnoliophyta", "", Division, "", "magnoliophyta"},
	{"Art. 19", "Poaceae subtrib. Scolochloinae Soreng", "Poaceae subtrib. Scolochloinae", "Soreng", Subtribe, "", "poaceae-subtrib-scolochloinae"},
	{"Art. 21", "Taraxacum sect. Ruderalia Kirschner, H.Øllg. & Štěpánek", "Taraxacum sect. Ruderalia", "Kirschner, H.Øllg. & Štěpánek", Section, "", "taraxacum-sect-ruderalia"},
	{"aggregate", "Ranunculus auricomus agg.", "Ranunculus auricomus", "", Aggregate, "agg.>Ranunculus auricomus", "ranunculus-auricomus"},
	{"Rec. 47A", "Alchemilla vulgaris L. s. lat.", "Alchemilla vulgaris", "L.", Species, "s.l.>Alchemilla vulgaris", "alchemilla-vulgaris"},
	{"Rec. 47A", "Arenaria serpyllifolia L. s.str.", "Arenaria serpyllifolia", "L.", Species, "s.str.>Arenaria serpyllifolia", "arenaria-serpyllifolia"},
	{"Art. 26.1: an autonym has no author", "Lobelia spicata Lam. var. spicata", "Lobelia spicata var. spicata", "", Variety, "", "lobelia-spicata-var-spicata"},
	{"Art. 24.1 Ex. 1", "Saxifraga aizoon var. aizoon subvar. brevifolia f. multicaulis subf. surculosa Engl. & Irmsch.", "Saxifraga aizoon var. aizoon subvar. brevifolia f. multicaulis subf. surculosa", "Engl. & Irmsch.", Subform, "", "saxifraga-aizoon-var-aizoon-subvar-brevifolia-f-multicaulis-subf-surculosa"},
	{"ssp. is subsp.", "Festuca rubra L. ssp. arenaria (Osbeck) F.Aresch.", "Festuca rubra subsp. arenaria", "(Osbeck) F.Aresch.", Subspecies, "", "festuca-rubra-subsp-arenaria"},
	{"f. before an epithet is forma", "Polypodium pectinatum L. f. typica Rosenst.", "Polypodium pectinatum f. typica", "Rosenst.", Form, "", "polypodium-pectinatum-f-typica"},
	{"f. after an author is filius", "Carex chordorrhiza Ehrh. ex L. f.", "Carex chordorrhiza", "Ehrh. ex L. f.", Species, "", "carex-chordorrhiza"},
	{"App. I H.3", "×Agropogon littoralis (Sm.) C. E. Hubb.", "× Agropogon littoralis", "(Sm.) C. E. Hubb.", Species, "", "agropogon-littoralis"},
	{"App. I H.3", "Mentha x smithiana R. A. Graham", "Mentha × smithiana", "R. A. Graham", Species, "", "mentha-smithiana"},
	{"App. I H.3", "Polypodium vulgare nothosubsp. mantoniae (Rothm.) Schidlay", "Polypodium vulgare nothosubsp. mantoniae", "(Rothm.) Schidlay", Subspecies, "", "polypodium-vulgare-nothosubsp-mantoniae"},
	{"App. I H.2", "Salix aurita L. × S. caprea L.", "Salix aurita × Salix caprea", "", Species, "", "salix-aurita-x-salix-caprea"},
	{"formula without the second genus", "Viola canina x riviniana", "Viola canina × Viola riviniana", "", Species, "", "viola-canina-x-viola-riviniana"},
	{"second parent not known", "Salix aurita × ?", "Salix aurita ×", "", Species, "", "salix-aurita-x"},
	{"taxonFormula A or B of Darwin Core", "Carex flava or C. lepidocarpa", "Carex flava or Carex lepidocarpa", "", Species, "", "carex-flava-or-carex-lepidocarpa"},
	{"ICNCP", "Sarracenia flava 'Maxima'", "Sarracenia flava ‘Maxima’", "", CultivarRank, "", "sarracenia-flava-maxima"},
	{"ICNCP", "Brassica oleracea Capitata Group", "Brassica oleracea Capitata Group", "", CultivarRank, "", "brassica-oleracea-capitata-group"},
	{"sanctioning author", "Lepiota procera (Scop. : Fr.) Gray", "Lepiota procera", "(Scop. : Fr.) Gray", Species, "", "lepiota-procera"},
	{"Art. 60.7: diaeresis goes", "Isoëtes echinospora Durieu", "Isoetes echinospora", "Durieu", Species, "", "isoetes-echinospora"},
	{"Art. 60.7: umlaut is transcribed", "Östrupia Heiden ex Hust.", "Oestrupia", "Heiden ex Hust.", Genus, "", "oestrupia"},
	{"Art. 60.13: full stop goes", "Macromitrium st.-johnii E.B.Bartram", "Macromitrium st-johnii", "E.B.Bartram", Species, "", "macromitrium-st-johnii"},
	{"typed without capital", "ranunculus acris", "Ranunculus acris", "", Species, "", "ranunculus-acris"},
	{"typed in capitals", "RANUNCULUS ACRIS L.", "Ranunculus acris", "L.", Species, "", "ranunculus-acris"},
	{"old label: capital of a person's name", "Carex Davalliana Sm.", "Carex davalliana", "Sm.", Species, "", "carex-davalliana"},
	{"old label: capital of a person's name", "Physaria didymocarpa var. Newberryi", "Physaria didymocarpa var. newberryi", "", Variety, "", "physaria-didymocarpa-var-newberryi"},
	{"seen", "Physaria didymocarpa (Hook.) A. Gray !", "Physaria didymocarpa", "(Hook.) A. Gray", Species, "", "physaria-didymocarpa"},
	{"old label", "Paris 4-folia L.", "Paris quadrifolia", "L.", Species, "", "paris-quadrifolia"},
	{"v. before an epithet is varietas", "Carex nigra (L.) Reichard v. juncea", "Carex nigra var. juncea", "", Variety, "", "carex-nigra-var-juncea"},
	{"v. in an author is von", "Scilla rupestris v.d. Merwe", "Scilla rupestris", "v.d. Merwe", Species, "", "scilla-rupestris"},
	{"shortened genus stands", "Q. robur L.", "Q. robur", "L.", Species, "", "q-robur"},
	{"a note is no part of the name", "Salix glauca L. (female)", "Salix glauca", "L.", Species, "", "salix-glauca"},
	{"a note is no part of the name", "Carex vaginata Tausch, not C. panicea", "Carex vaginata", "Tausch", Species, "", "carex-vaginata"},
	{"a note is no part of the name", "Taraxacum officinale auct. non Weber", "Taraxacum officinale", "", Species, "", "taraxacum-officinale"},
}

func TestRead(t *testing.T) {
	for _, c := range readTests {
		n, err := Read(c.text)
		if err != nil {
			t.Errorf("%s (%s): %v", c.text, c.why, err)
			continue
		}
		var q []string
		for _, x := range n.Qualifiers {
			q = append(q, x.Word+">"+x.Governs)
		}
		got := [...]string{n.Canonical(), n.Authors, n.Rank.String(), strings.Join(q, ";"), n.Slug()}
		want := [...]string{c.canonical, c.authors, c.rank.String(), c.qualified, c.slug}
		if got != want {
			t.Errorf("%s (%s):\n got %q\nwant %q", c.text, c.why, got, want)
		}
	}
}

// Names as labels write them, each with what it is read as and the codes of the
// warnings. Articles are of the Shenzhen Code (2018); the rest is common
// practice, no source.
func TestReadsLabels(t *testing.T) {
	for _, c := range []struct{ why, text, canonical, authors, codes string }{
		{"words at the end are set aside", "Ranunculus acris see note", "Ranunculus acris", "", "name-tail"},
		{"a figure is no epithet", "Taraxacum 3?", "Taraxacum", "", "name-tail"},
		{"the work is no author", "Carex nigra (L.) Reichard, Fl. Moeno-Francof. 2: 96 (1778)", "Carex nigra", "(L.) Reichard", "name-tail"},
		{"doubt in brackets", "Poa (cf. annua)", "Poa", "", ""},
		{"doubled doubt", "Poa annua??", "Poa annua", "", ""},
		{"the form that flowers white", "Campanula rotundifolia L. fl. albo", "Campanula rotundifolia", "L.", ""},
		{"family, not named further", "Indet. Poaceae", "Poaceae", "", ""},
		{"subgenus, not named further", "Cortinarius (Phlegmacium) sp. 1", "Cortinarius", "", "name-subgenus-brackets"},
		{"a page is no author", "Bryum argenteum Hedw., Sp. Musc. Frond.: 181 (1801)", "Bryum argenteum", "Hedw.", "name-tail"},
		{"markup", "<i>Poa annua</i> L.", "Poa annua", "L.", ""},
		{"character references", "Quadrella steyermarkii (Standl.) Iltis &amp; Cornejo", "Quadrella steyermarkii", "(Standl.) Iltis & Cornejo", ""},
		{"underscores", "Oxalis_barrelieri", "Oxalis barrelieri", "", ""},
		{"optical reading", "Carex acuta L . subsp . erecta ( Kük. ) Aschers .", "Carex acuta subsp. erecta", "(Kük.) Aschers.", ""},
		{"long s", "Salix fragilis domeſtica", "Salix fragilis domestica", "", "name-no-rank"},
		{"rank against the author", "Epilobium hirsutum L.var.villosum Hausskn.", "Epilobium hirsutum var. villosum", "Hausskn.", ""},
		{"Art. 4 Note 4", "Fusarium oxysporum f. sp. lycopersici (Sacc.) W.C. Snyder", "Fusarium oxysporum f.sp. lycopersici", "(Sacc.) W.C. Snyder", ""},
		{"a letter numbers the variety", "Viola tricolor β. arvensis", "Viola tricolor arvensis", "", "name-no-rank"},
		{"a star", "Viola tricolor *arvensis Murray", "Viola tricolor * arvensis", "Murray", ""},
		{"new when it was written", "Ranunculus acris L. var. nov. albus", "Ranunculus acris var. albus", "", ""},
		{"x against the epithet", "Mentha xpiperita", "Mentha × piperita", "", "name-letter-x"},
		{"rank first in a formula", "Poa annua subsp. exilis × subsp. annua", "Poa annua subsp. exilis × Poa annua subsp. annua", "", ""},
		{"parents in brackets", "Salix × multinervis Döll (aurita × cinerea)", "Salix × multinervis", "Döll", ""},
		{"alternatives", "Poa annua/pratensis", "Poa annua or Poa pratensis", "", ""},
		{"a grex", "Cymbidium Alexanderi gx", "Cymbidium Alexanderi grex", "", ""},
		{"family before", "Gramineae: Poa annua L.", "Poa annua", "L.", ""},
		{"family behind", "Poa annua L. (Poaceae)", "Poa annua", "L.", ""},
		{"rank before", "fam. Rosaceae", "Rosaceae", "", ""},
		{"section in brackets", "Carex (sect. Acutae) nigra", "Carex nigra", "", ""},
		{"short genus behind the doubt", "Poa cf. P. annua", "Poa annua", "", ""},
		{"where it was found", "Carex acuta Guss. in herb. Berol.", "Carex acuta", "Guss.", ""},
		{"sanctioned", "Amanita muscaria (L.:Fr.) Hook.", "Amanita muscaria", "(L.:Fr.) Hook.", ""},
		{"capital epithet", "Potamogeton Nodosus Poir.", "Potamogeton nodosus", "Poir.", "name-epithet-capital"},
		{"author or epithet", "Lilium Martagon L.", "Lilium", "Martagon L.", "name-author-epithet"},
		{"author of a genus", "Physaria Nutt. ex Torr. & A.Gray", "Physaria", "Nutt. ex Torr. & A.Gray", ""},
		{"two authors of a genus", "Rosa Miller & Smith", "Rosa", "Miller & Smith", ""},
		{"author and son", "Rosa Miller f.", "Rosa", "Miller f.", ""},
		{"author of a hybrid genus", "×Agropogon P. Fourn.", "× Agropogon", "P. Fourn.", ""},
		{"capitals", "CAREX ACUTA L.", "Carex acuta", "L.", "name-capitals"},
		{"Rec. 5A", "Festuca rubra ssp. arenaria", "Festuca rubra subsp. arenaria", "", "name-rank-term"},
		{"Art. 18.1", "Ranunculacae", "Ranunculacae", "", "name-family-ending"},
		{"a genus may end so", "Echinacea", "Echinacea", "", ""},
		{"Art. 19", "Poaceae trib. Poales", "Poaceae trib. Poales", "", "name-rank-ending"},
		{"Art. 23.1", "Capsella bursa pastoris", "Capsella bursa-pastoris", "", "name-epithet-words"},
		{"Art. 23.4", "Linaria linaria", "Linaria linaria", "", "name-tautonym"},
		{"Art. 23.4: not the same word", "Nasturtium nasturtium-aquaticum", "Nasturtium nasturtium-aquaticum", "", ""},
		{"Art. 24.1", "Rosa gallica officinalis", "Rosa gallica officinalis", "", "name-no-rank"},
		{"Art. 24.3", "Rosa gallica var. genuina", "Rosa gallica var. genuina", "", "name-typical"},
		{"Art. 26.1", "Rosa gallica L. var. gallica L.", "Rosa gallica var. gallica", "L.", "name-autonym-author"},
		{"Art. 26.1: the species has its author", "Rosa gallica L. var. gallica", "Rosa gallica var. gallica", "", ""},
		{"Art. 60.8", "Sempervivum hookerii", "Sempervivum hookerii", "", "name-genitive"},
		{"Art. 60.8", "Rubus smithi", "Rubus smithi", "", "name-genitive"},
		{"Art. 60.8", "Sempervivum hookeri", "Sempervivum hookeri", "", ""},
		{"Art. 60.7: the diaeresis may stand", "Isoëtes lacustris", "Isoetes lacustris", "", ""},
		{"Art. 60.7", "Campethera fülleborni", "Campethera fuelleborni", "", "name-letters name-genitive"},
		{"an author within", "Quercus L. robur", "Quercus robur", "", "name-genus-author"},
	} {
		n, err := Read(c.text)
		if err != nil {
			t.Errorf("%s (%s): %v", c.text, c.why, err)
			continue
		}
		var codes []string
		for _, w := range n.Warnings {
			codes = append(codes, w.Code)
		}
		if got := strings.Join(codes, " "); n.Canonical() != c.canonical || n.Authors != c.authors || got != c.codes {
			t.Errorf("%s (%s): %q, %q, warns %q; want %q, %q, %q", c.text, c.why, n.Canonical(), n.Authors, got, c.canonical, c.authors, c.codes)
		}
	}
}

// Nearest finds slips of one or two letters.
func TestNearest(t *testing.T) {
	list := []string{"Ranunculaceae", "Rosaceae", "Poaceae", "Rubiaceae"}
	for word, want := range map[string]string{"Ranunculacae": "Ranunculaceae", "Rosacea": "Rosaceae", "Rosaceae": "", "Poa": "", "Fabaceae": "", "Rubiaceea": "Rubiaceae"} {
		if got := Nearest(word, list, 2); got != want {
			t.Errorf("%s: %q, want %q", word, got, want)
		}
	}
}

// Each is written in normal spelling, and nothing else of it changes.
func TestString(t *testing.T) {
	for _, c := range []struct{ why, text, want string }{
		{"Rec. 5A", "Festuca rubra L. ssp. arenaria (Osbeck) F.Aresch.", "Festuca rubra L. subsp. arenaria (Osbeck) F.Aresch."},
		{"Rec. 5A", "Polypodium pectinatum (L.) forma typica Rosenst.", "Polypodium pectinatum (L.) f. typica Rosenst."},
		{"Art. H.3A", "Mentha x piperita L.", "Mentha ×piperita L."},
		{"Art. H.3A", "x Festulolium loliaceum (Huds.) P.Fourn.", "×Festulolium loliaceum (Huds.) P.Fourn."},
		{"Art. 60.7", "Campethera fülleborni", "Campethera fuelleborni"},
		{"Rec. 46C", "Stagonospora polyspora M.T. Lucas et Sousa da Câmara 1934", "Stagonospora polyspora M.T. Lucas & Sousa da Câmara"},
		{"one capital", "CAREX ACUTA VAR. ERECTA", "Carex acuta var. erecta"},
		{"short genus of a formula", "Salix aurita L. x S. caprea L.", "Salix aurita L. × Salix caprea L."},
		{"qualifiers", "Carex cf acuta L. sens. lat.", "Carex cf. acuta L. s.l."},
		{"a stroke", "Poa annua/pratensis", "Poa annua or pratensis"},
		{"Art. 23.1", "Capsella bursa pastoris (L.) Medik.", "Capsella bursa-pastoris (L.) Medik."},
		{"a remark stays behind its comma", "Galium tricorne Stokes, pro parte", "Galium tricorne Stokes, pro parte"},
	} {
		n, err := Read(c.text)
		if err != nil {
			t.Fatal(err)
		}
		if got := n.String(); got != c.want {
			t.Errorf("%s (%s): %q, want %q", c.text, c.why, got, c.want)
		}
	}
}

// The first three are the examples of Darwin Core, identificationQualifier.
func TestIdentificationQualifier(t *testing.T) {
	for text, want := range map[string]string{
		"Quercus aff. agrifolia var. oxyadenia": "aff. agrifolia var. oxyadenia",
		"Quercus agrifolia cf. var. oxyadenia":  "cf. var. oxyadenia",
		"Quercus agrifolia var. oxyadenia":      "",
		"cf. Salix lapponum L.":                 "cf. Salix lapponum",
		"Ranunculus acris?":                     "? acris",
		"Taraxacum sp. 3":                       "sp. 3",
		"Ranunculus auricomus agg.":             "agg.",
		"Carex vel aff. acuta":                  "vel aff. acuta",
		"Carex cf. acuta subsp. ? erecta":       "cf. acuta subsp. erecta | ? subsp. erecta",
		"Carex ex gr. acuta":                    "ex gr. acuta",
	} {
		n, err := Read(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := n.IdentificationQualifier(); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

func TestReadRefuses(t *testing.T) {
	for _, c := range []struct {
		why, text, reason string
		none              bool
	}{
		{"nothing", " ", "no name is given", true},
		{"words for none", "indet.", "the words name no plant", true},
		{"words for none", "not determined", "the words name no plant", true},
		{"a number", "1207", `cannot read "1207" as a genus or a name of higher rank`, false},
		{"a virus", "Tobacco mosaic virus", `not a botanical name: "virus"`, false},
		{"a virus by its ending", "Tokiviricetes", "a virus, not a botanical name", false},
		{"English words", "Small tree by the road", `cannot read "tree" as part of a name`, false},
		{"English words", "Common yellow flower", `cannot read "flower" as part of a name`, false},
		{"English words", "the common yellow one", `cannot read "the" as a genus or a name of higher rank`, false},
		{"English words", "common yellow one here", `cannot read "here" as part of a name`, false},
		{"a bacterium of no Code", "Candidatus Halobonum", "a provisional name of a bacterium, not a botanical name", false},
		{"two plants", "Poa annua with Poa pratensis", `two names; enter each by itself, or join them by "or"`, false},
		{"two plants, the second short", "Poa annua L. & P. pratensis L.", `two names; enter each by itself, or join them by "or"`, false},
		{"two plants", "Ranunculus acris and Ranunculus repens", `two names; enter each by itself, or join them by "or"`, false},
		{"two plants", "Ranunculus acris L. & Ranunculus repens L.", `two names; enter each by itself, or join them by "or"`, false},
		{"two plants", "Physaria didymocarpa (Hook.) A. Gray, Physaria australis", `two names; enter each by itself, or join them by "or"`, false},
		{"two plants", "Lesquerella alpina, Physaria saximontana", `two names; enter each by itself, or join them by "or"`, false},
		{"half a tag", "Poa <annua", `the character '<' cannot stand in a name`, false},
		{"right-to-left trick", "Poa \u202eannua", `the character '\u202e' cannot stand in a name`, false},
		{"vernacular name", "Abbott's moray eel", `cannot read "Abbott's" as a genus or a name of higher rank`, false},
	} {
		_, err := Read(c.text)
		var refused *NotAName
		if !errors.As(err, &refused) {
			t.Errorf("%q (%s): read, or error of another kind: %v", c.text, c.why, err)
			continue
		}
		if refused.Reason != c.reason || refused.None != c.none {
			t.Errorf("%q (%s): %q, none %v; want %q, none %v", c.text, c.why, refused.Reason, refused.None, c.reason, c.none)
		}
	}
}

func TestPieces(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve", "i:Ranunculus acris|s: |u:subsp.|s: |i:pumilus|s: |a:(Wahlenb.) Á.Löve"},
		{"Ranunculus  cf.  acris", "i:Ranunculus|s: |u:cf.|s: |i:acris"},
		{"Ranunculaceae Juss.", "u:Ranunculaceae|s: |a:Juss."},
		{"Mentha x piperita L.", "i:Mentha|s: |x:×|i:piperita|s: |a:L."},
		{"Mentha × piperita", "i:Mentha|s: |x:×|i:piperita"},
		{"Salix aurita × caprea", "i:Salix aurita|s: |x:×|s: |i:caprea"},
		{"Sarracenia flava 'Maxima'", "i:Sarracenia flava|s: |u:'Maxima'"},
		{"Ranunculus acris?", "i:Ranunculus acris|u:?"},
		{"Poa sp. 3", "i:Poa|s: |u:sp. 3"},
		{"Poa sect. Poa", "i:Poa|s: |u:sect.|s: |i:Poa"},
		{"see note", "u:see note"},
	} {
		var got []string
		for _, p := range Pieces(c.text) {
			got = append(got, string("iuaxs"[p.Kind])+":"+p.Text)
		}
		if s := strings.Join(got, "|"); s != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.text, s, c.want)
		}
	}
}

func TestSame(t *testing.T) {
	for _, c := range []struct {
		why, a, b string
		same      bool
	}{
		{"authors are left aside", "Ranunculus acris L.", "Ranunculus acris Linnaeus", true},
		{"doubt is left aside", "Ranunculus cf. acris", "Ranunculus acris", true},
		{"App. I H.3.3: × is left aside", "Mentha ×piperita L.", "Mentha piperita", true},
		{"notho- is left aside", "Polypodium vulgare nothosubsp. mantoniae", "Polypodium vulgare subsp. mantoniae", true},
		{"Art. 24.1: ranks between are no part of the name", "Senecio fuchsii subsp. fuchsii var. expansus", "Senecio fuchsii var. expansus", true},
		{"the rank counts", "Poa alpina var. vivipara", "Poa alpina f. vivipara", false},
		{"an autonym is not the species", "Ranunculus acris subsp. acris", "Ranunculus acris", false},
		{"spelling of accents", "Isoëtes lacustris", "Isoetes lacustris", true},
		{"short second genus", "Salix aurita × S. caprea", "Salix aurita L. × Salix caprea L.", true},
	} {
		a, err := Read(c.a)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Read(c.b)
		if err != nil {
			t.Fatal(err)
		}
		if Same(a, b) != c.same {
			t.Errorf("%s: %s, %s: same %v (%q, %q)", c.why, c.a, c.b, !c.same, a.Key(), b.Key())
		}
	}
}

func TestSortKey(t *testing.T) {
	in := []string{"Carex", "Carex sect. Acutae", "Carex acuta", "Carex acuta subsp. acuta", "Carex acuta var. prolixa", "Carex acutiformis",
		"Carex aquatilis", "×Carexa", "Cariceae"}
	for i := 1; i < len(in); i++ {
		a, err := Read(in[i-1])
		if err != nil {
			t.Fatal(err)
		}
		b, err := Read(in[i])
		if err != nil {
			t.Fatal(err)
		}
		if a.SortKey() >= b.SortKey() {
			t.Errorf("%s does not sort before %s", in[i-1], in[i])
		}
	}
}

func TestFirm(t *testing.T) {
	for text, want := range map[string]string{
		"Quercus cf. robur":                     "Quercus",
		"Quercus robur":                         "Quercus robur",
		"Ranunculus acris cf. subsp. pumilus":   "Ranunculus acris",
		"? Ranunculus acris":                    "",
		"Carex flava or lepidocarpa":            "Carex",
		"Salix aurita × caprea":                 "Salix",
		"Taraxacum sp. 3":                       "Taraxacum",
		"Poa alpina var. vivipara?":             "Poa alpina",
		"Fagus sylvatica or Carpinus betulus":   "",
		"Potentilla sp. cf. crantzii (Crantz)X": "Potentilla",
	} {
		n, err := Read(text)
		if err != nil {
			t.Errorf("%v", err)
		} else if n.Firm() != want {
			t.Errorf("%s: firm %q, want %q", text, n.Firm(), want)
		}
	}
}

func TestFamilyByType(t *testing.T) {
	// Art. 18.5 and 18.6, as listed in the Shenzhen Code.
	for old, want := range map[string]string{"Compositae": "Asteraceae", "Gramineae": "Poaceae", "Umbelliferae": "Apiaceae",
		"Labiatae": "Lamiaceae", "Cruciferae": "Brassicaceae", "Leguminosae": "Fabaceae", "Palmae": "Arecaceae", "Guttiferae": "Clusiaceae",
		"Rosaceae": "Rosaceae"} {
		if got := FamilyByType(old); got != want {
			t.Errorf("%s: %s, want %s", old, got, want)
		}
	}
}
