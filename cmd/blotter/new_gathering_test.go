package main

import (
	"math/rand/v2"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/render/field"
)

// formWords are words that YAML, a shell or a careless reader would bend.
var formWords = []string{"NO", "~", "0123", "12:30", "- a", "# b", "a #4", "'x'", `"y"`, "[illegible]", "{a: b}", "k: v", "null", "1.10",
	"60°42′N", "%", "@x", "`", "a: b: c", "× ♂", "-2", "? y", "! z", "& *", "|", ">", "2026-05-03", "yes", "<<: x", "a	b"}

// formLetters are what words made by chance are made of.
var formLetters = []rune(`ABCxyz0123456789"'#:.!?-[]{}&*|>%@~\/ øåæé°′`)

// formWord draws what a person writes into one place of the form.
func formWord(r *rand.Rand) string {
	if r.IntN(2) == 0 {
		return formWords[r.IntN(len(formWords))]
	}
	b := make([]rune, 1+r.IntN(30))
	for i := range b {
		b[i] = formLetters[r.IntN(len(formLetters))]
	}
	return string(b)
}

// TestFormToRecord: what is answered in the form as text stands in the record
// to the letter. It draws by itself: what the test binary holds is loaded by
// each of the thousands of programs that the scripts start, and rapid is slow to begin.
func TestFormToRecord(t *testing.T) {
	for seed := range uint64(100) {
		formToRecord(t, rand.New(rand.NewPCG(2026, seed)))
	}
}

func formToRecord(t *testing.T, r *rand.Rand) {
	answers := map[string]string{}
	text := "form: field\r\n"
	for _, q := range field.Questions() {
		v := strings.TrimSpace(formWord(r))
		if len(q.Ticks) > 0 || q.Path == field.NamePath || v == "" || v == "-" || r.IntN(2) == 0 {
			continue
		}
		if f, _ := ledger.FieldAt(ledger.RecordKind, q.Path); f.Kind == ledger.Texts {
			v = strings.ReplaceAll(v, ";", ",") + "; x" // a list of two
		}
		answers[q.Key] = v
		text += q.Key + ": " + v + "\r\n"
	}
	answers["habitat"] = "bog: #1"
	text += "---\nhabitat: bog: #1\n"
	d := &desk{call: &call{}, museum: &ledger.Museum{}}
	form, err := d.readGatherings("form.txt", []byte(text))
	if err != nil || len(form.Gatherings) != 1 {
		t.Fatalf("%v, %d gatherings of\n%s", err, len(form.Gatherings), text)
	}
	c, err := d.newRecord("LK7-0000001", form.Gatherings[0].Values, form.Field)
	if err != nil {
		t.Fatalf("%v of\n%s", err, text)
	}
	read, found := ledger.Decode(c.path, c.new)
	for _, f := range found {
		if f.Severity == ledger.Error {
			t.Fatalf("%+v in\n%s", f, c.new)
		}
	}
	have := map[string]string{}
	for _, kv := range ledger.Flatten(read) {
		have[kv.Key] = kv.Value
	}
	if have["entry"] != "draft" {
		t.Fatalf("entry is %q", have["entry"])
	}
	for _, q := range field.Questions() {
		path, want := q.Path, answers[q.Key]
		switch f, _ := ledger.FieldAt(ledger.RecordKind, q.Path); {
		case want == "":
			continue
		case path == field.MadePath:
			path = "duplicates.1.made"
		case f.Kind == ledger.Texts:
			path, want = path+".1", strings.TrimSpace(strings.TrimSuffix(want, "; x"))
		}
		if got := have[path]; got != want && !(q.Join && strings.Contains(got, want)) {
			t.Fatalf("%s: %q, want %q in\n%s", q.Key, got, want, c.new)
		}
	}
}
