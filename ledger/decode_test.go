package ledger

import (
	"strings"
	"testing"
)

const sample = `# yaml-language-server: $schema=../../../record.schema.json
specimen: LK7-0000482            # its permanent number
entry: full
kept_as: sheet
parts:
  - {part: sheet 1 of 2}
  - {part: fruit box, number: LK7-F-0031}
collector: Signe Rask
with: [Ove Bannister]
coll_no: "1207"
date: 14.vii.2025
place:
  country: Norway
  province: Vestland
  district: Voss
  locality: 1.2 km NE of Raundal chapel, above the track
  position: 60°42'12"N 6°39'05"E
  datum: WGS84
  gps_accuracy: 8 m
  elevation: 348 m
  elevation_by: map
habitat: Unfertilised hay meadow on moraine
substrate:
phenology: [flower]
cautions: []
determinations:
  - name: Ranunculus acris L.
    kind: det
    by: Signe Rask
    date: 2025-07-14
    from: label
  - name: Ranunculus acris subsp. pumilus
    by: M. Ostrander
    date: 2026-11-02
writings:
  - on_sheet: label
    text: |-
      Ranunculus acris
      Raundal  14/7
read:
  position: {is: "60.7034, 6.6512", uncertainty: 40 m, by: Tiril Aune, date: 2026-01-09, from: map 1:50 000}
`

const samplePath = "specimens/000/04/LK7-0000482.yaml"

func TestDecodeSample(t *testing.T) {
	r, fs := Decode(samplePath, []byte(sample))
	for _, f := range fs {
		t.Errorf("%v\n  hint: %s", f, f.Hint)
	}
	out := Encode(r)
	r2, fs := Decode(samplePath, out)
	if len(fs) > 0 {
		t.Errorf("encoded: %v\n%s", fs, out)
	}
	if again := Encode(r2); string(again) != string(out) {
		t.Errorf("encode is no fixed point:\n%s", again)
	}
	if a, b := Flatten(r), Flatten(r2); len(a) != len(b) || len(a) != 36 {
		t.Errorf("flatten: %d and %d fields\n%v", len(a), len(b), a)
	}
	t.Log("\n" + string(out))
	if n := len(Lists(r)[0].Entries); n != 2 {
		t.Errorf("%d determinations", n)
	}
}

func TestDecodeFindings(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"boolean", "country: NO", "value-unquoted"},
	} {
		src := strings.Replace(sample, "country: Norway", c.text, 1)
		_, fs := Decode(samplePath, []byte(src))
		for _, f := range fs {
			t.Logf("%v\n  hint: %s", f, f.Hint)
		}
		if len(fs) != 1 || fs[0].Code != c.want {
			t.Errorf("%s: %v", c.name, fs)
		}
	}
}

// TestFieldTable holds structs and table together: newPlan panics when the
// table lacks a field; here the table has none too many, in the same order.
func TestFieldTable(t *testing.T) {
	for k, p := range plans() {
		var paths []string
		var walk func(p *plan)
		walk = func(p *plan) {
			for _, f := range p.fields {
				paths = append(paths, f.Path)
				if f.sub != nil {
					walk(f.sub)
				}
			}
		}
		walk(p)
		rows := FieldsOf(FileKind(k))
		for i := range max(len(paths), len(rows)) {
			if i >= len(paths) || i >= len(rows) || paths[i] != rows[i].Path {
				t.Fatalf("%v: struct and table part at row %d: %v / %v", FileKind(k), i, paths[min(i, len(paths)-1)], rows[min(i, len(rows)-1)].Path)
			}
		}
	}
}

// TestUnflattenIsTheReverseOfFlatten on every good record.
func TestUnflattenIsTheReverseOfFlatten(t *testing.T) {
	r, fs := Decode("", []byte("specimen: LK7-0000001\nentry: draft\nwith: [Ove Bannister, Tiril Aune]\nplace:\n  country: Norway\n  position: 60.7, 6.65\ndeterminations:\n  - name: Ranunculus acris L.\n    by: Signe Rask\n    date: s.d.\n  - name: Ranunculus repens L.\n    by: unsigned\n    date: s.d.\nimport:\n  \"App.A\": x\n"))
	if len(fs) > 0 {
		t.Fatal(fs)
	}
	back, err := Unflatten(Flatten(r))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := string(Encode(back)), string(Encode(r)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	for _, path := range []string{"nonsense", "determinations.3.name", "determinations.x.name"} {
		if _, err := Unflatten([]KV{{path, "words"}}); err == nil {
			t.Errorf("%s: no error", path)
		}
	}
}

// TestWithheldWordsStay: when a file says that a place is withheld, no
// message or hint repeats the words of a field that could give it away.
func TestWithheldWordsStay(t *testing.T) {
	const secret = "Raundalssletta"
	for _, c := range []struct{ name, line string }{
		{"cut", "  locality: " + secret + " #4\n"},
		{"unquoted sign", "  locality: *" + secret + "\n"},
		{"colon", "  locality: " + secret + ": above\n"},
		{"brackets", "  locality: [" + secret + "]\n"},
		{"words behind brackets", "  locality: [x] " + secret + "\n"},
		{"quote", "  locality: '" + secret + "\n"},
		{"tag", "  position: !" + secret + "\n"},
		{"no colon", "  locality " + secret + "\n"},
		{"no blank", "  locality:" + secret + "\n"},
		{"wrong field", "  localty: [" + secret + "\n"},
		{"list", "  locality:\n    - " + secret + "\n"},
	} {
		src := "specimen: LK7-0000482\nentry: draft\nplace:\n" + c.line + "sensitive: {why: at risk}\n"
		_, fs := Decode(samplePath, []byte(src))
		if len(fs) == 0 {
			t.Errorf("%s: no finding", c.name)
		}
		for _, f := range fs {
			if strings.Contains(f.Message+f.Hint, secret) {
				t.Errorf("%s: %v\n  %s", c.name, f, f.Hint)
			}
		}
	}
}
