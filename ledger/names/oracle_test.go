package names

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// oracle reads a table of ../shared/oracles beside the module, or skips.
func oracle(t *testing.T, path string) (column func(row []string, name string) string, rows [][]string) {
	t.Helper()
	dir := os.Getenv("BLOTTER_ORACLES")
	if dir == "" {
		dir = filepath.Join("..", "..", "..", "shared", "oracles")
	}
	f, err := os.Open(filepath.Join(dir, filepath.FromSlash(path)))
	if err != nil {
		t.Skip("no oracles here: ", err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma, r.LazyQuotes = '\t', true
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	head := map[string]int{}
	for i, h := range all[0] {
		head[h] = i
	}
	return func(row []string, name string) string { return row[head[name]] }, all[1:]
}

// theirs are the rows of names/botanical.tsv (test data of gnames/gnparser,
// commit 7083246, MIT) where we knowingly differ, with the reason.
var theirs = map[string]string{
	"Acidalia remutaria ab. n. undularia":                      "n. says that the form is new; it is no part of the name",
	"Crataegus curvisepala nvar. naviculiformis T. Petauer":    "the rank is normalised to nothovar.",
	"Aconitum tauricum nothossp. hayekianum (Gáyer) Grintescu": "the rank is normalised to nothosubsp.",
	"+ Crataegomespilus":                                       "graft chimaera, read by the ICNCP; the same words are expected to be read elsewhere in the table",
	"+Crataegomespilus":                                        "as before",
	"Cytisus purpureus + Laburnum anagyroides":                 "as before",
	"Crataegus + Mespilus":                                     "as before",
	"Ph-echinodermata":                                         "an animal's name that has the form of a genus",
	"Aristotelia fruticosa var. δmicrophylla Hook.f.":          "δ numbers the variety and is set aside; the epithet is not cut off with it",
	"Solygia ? distanti":                                       "Darwin Core keeps the doubted epithet in the name and lifts the sign out",
	"Acarinina aff. pentacamerata":                             "Darwin Core, identificationQualifier: the epithet stays in the name",
	"Acarinina aff pentacamerata":                              "as before",
	"Ammodramus caudacutus (s.s.) diversus":                    "s.s. is lifted out; the epithet after it stays",
	"Lampona spec Platnick, 2000":                              "spec is read as sp.",
	"Gobiosoma spec (Ginsburg, 1939)":                          "as before",
}

func TestCanonicalFormsOfOthers(t *testing.T) {
	column, rows := oracle(t, "names/botanical.tsv")
	agree := 0
	for _, row := range rows {
		text, want := column(row, "verbatim"), column(row, "canonical")
		n, err := Read(text)
		got := ""
		if err == nil {
			got = n.Canonical()
		}
		if got == want {
			agree++
		} else if theirs[text] == "" {
			t.Errorf("%s\n got %q %v\nwant %q", text, got, err, want)
		}
	}
	t.Logf("%d of %d canonical forms agree", agree, len(rows))
	if agree < 405 {
		t.Errorf("only %d of %d agree; 405 did", agree, len(rows))
	}
}

// What is no botanical name must be refused: viruses, things of the
// laboratory, vernacular names. The floor is what is refused now; names that
// have the form of a genus (Melanius:, Ph-echinodermata) cannot be told apart.
func TestRefusalsOfOthers(t *testing.T) {
	column, rows := oracle(t, "names/all.tsv")
	refused, all := 0, 0
	for _, row := range rows {
		if column(row, "parsed") == "True" && column(row, "virus") != "True" {
			continue
		}
		all++
		if _, err := Read(column(row, "verbatim")); err != nil {
			refused++
		}
	}
	t.Logf("%d of %d refused", refused, all)
	if refused < 97 {
		t.Errorf("only %d of %d refused; 97 were", refused, all)
	}
}

var loose = regexp.MustCompile(`[ ,.]*\([12][0-9]{3}[a-z?]*\)|\b[12][0-9]{2}[0-9?][a-z?]*|198\?|[ ,.:]`)

// Authorship is compared without spaces, commas, stops and years; the rows
// "ex" are used for splitting only, since theirs follow the zoological habit.
func TestAuthorsOfOthers(t *testing.T) {
	column, rows := oracle(t, "names/botanical.tsv")
	bare := func(s string) string {
		s = strings.NewReplacer("’", "'", "‘", "'", "´", "'", "`", "'", " fil.", " f.", "&", "").Replace(s)
		return strings.ToLower(loose.ReplaceAllString(s, ""))
	}
	agree, all := 0, 0
	for _, row := range rows {
		n, err := Read(column(row, "verbatim"))
		if err != nil || len(n.Parents) > 0 {
			continue
		}
		all++
		if bare(n.Authorship()) == bare(column(row, "authorship")) {
			agree++
		} else {
			if testing.Verbose() {
				t.Logf("%s: %q, theirs %q", n.Text, n.Authorship(), column(row, "authorship"))
			}
		}
	}
	t.Logf("%d of %d authorships agree", agree, all)
	if agree < 370 {
		t.Errorf("only %d of %d authorships agree; 370 did", agree, all)
	}
}

// The laws hold for every text of the tables, and for parts of them.
func TestLawsOnOthers(t *testing.T) {
	column, rows := oracle(t, "names/all.tsv")
	for _, row := range rows {
		text := column(row, "verbatim")
		lawful(t, text)
		words := strings.Fields(text)
		for i := range words {
			lawful(t, strings.Join(words[i:], " "))
			lawful(t, strings.Join(words[:i], " "))
		}
	}
}
