package main

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
	_ "blotter/ledger/ledgertest/seed"
	"blotter/render/field"
)

// formWords are words that YAML, a shell or a careless reader would bend.
var formWords = rapid.OneOf(rapid.SampledFrom([]string{"NO", "~", "0123", "12:30", "- a", "# b", "a #4", "'x'", `"y"`, "[illegible]", "{a: b}", "k: v", "null", "1.10",
	"60°42′N", "%", "@x", "`", "a: b: c", "× ♂", "-2", "? y", "! z", "& *", "|", ">", "2026-05-03", "yes", "<<: x", "a\tb"}),
	rapid.StringMatching(`[A-Za-z0-9"'#:.!?\-\[\]{}&*|>%@~\\/ øåæé°′]{1,30}`))

// TestFormToRecord: what is answered in the form as text stands in the record
// to the letter.
func TestFormToRecord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		answers := map[string]string{}
		text := "form: field\r\n"
		for _, q := range field.Questions() {
			v := strings.TrimSpace(formWords.Draw(t, q.Key))
			if len(q.Ticks) > 0 || q.Path == field.NamePath || v == "" || v == "-" || !rapid.Bool().Draw(t, "answered") {
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
		r, found := ledger.Decode(c.path, c.new)
		for _, f := range found {
			if f.Severity == ledger.Error {
				t.Fatalf("%+v in\n%s", f, c.new)
			}
		}
		have := map[string]string{}
		for _, kv := range ledger.Flatten(r) {
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
	})
}
