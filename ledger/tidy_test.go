package ledger

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestTidy(t *testing.T) {
	const head = "# yaml-language-server: $schema=../../../record.schema.json\n"
	const path = "specimens/000/00/A1.yaml"
	for _, c := range []struct {
		name, src, want string
		codes           []string
	}{
		{"tidy already", head + "specimen: A1\nentry: stub\n", head + "specimen: A1\nentry: stub\n", nil},
		{"line ends, mark, no newline", "\uFEFFspecimen: A1\r\nentry: stub\rhost:", head + "specimen: A1\nentry: stub\nhost:\n", nil},
		{"quotes", "specimen: A1\nentry: stub\ncoll_no: 12\nwith: [NO, 1:30]\nimport: {y: 1.10}\nremarks: 2001-01-01 12:00:00\n", head + "specimen: A1\nentry: stub\ncoll_no: 12\nwith: [\"NO\", \"1:30\"]\nimport: {\"y\": \"1.10\"}\nremarks: \"2001-01-01 12:00:00\"\n", nil},
		{"tab", "specimen: A1\nentry: stub\nplace:\n\tcountry: Norway\n", head + "specimen: A1\nentry: stub\nplace:\n  country: Norway\n", nil},
		{"tab in words", "specimen: A1\nentry: stub\nremarks: |\n  a\n  \tb\n", head + "specimen: A1\nentry: stub\nremarks: |\n  a\n  \tb\n", nil},
		{"other head", "# mine\n# yaml-language-server: $schema=x.json\nspecimen: A1\nentry: stub\n", "# mine\n" + head + "specimen: A1\nentry: stub\n", nil},
		{"not to be mended", "specimen: A1\nentry: stub\ncountry: a: b\n", head + "specimen: A1\nentry: stub\ncountry: a: b\n", []string{"yaml-colon"}},
	} {
		got, fs := Tidy(path, []byte(c.src))
		if d := cmp.Diff(c.want, string(got)); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
		if d := cmp.Diff(c.codes, codesOf(fs)); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
		if again, _ := Tidy(path, got); string(again) != string(got) {
			t.Errorf("%s: tidied twice: %q", c.name, again)
		}
	}
}

func codesOf(fs []Finding) []string {
	var out []string
	for _, f := range fs {
		out = append(out, f.Code)
	}
	return out
}
