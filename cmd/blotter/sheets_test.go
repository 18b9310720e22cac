package main

import (
	"fmt"
	"strings"
	"testing"

	"blotter/ledger"
)

// testShelf holds LK7-0000480 to LK7-0000489 without 485, and an old B-12.
type testShelf struct{}

func (testShelf) short(v uint64) ledger.Number { return ledger.Number(fmt.Sprintf("LK7-%07d", v)) }

func (s testShelf) find(n ledger.Number) (ledger.Number, bool) {
	for _, have := range s.numbers() {
		if have.Key() == n.Key() {
			return have, true
		}
	}
	return "", false
}

func (s testShelf) numbers() []ledger.Number {
	all := []ledger.Number{"B-12"}
	for v := uint64(480); v < 490; v++ {
		if v != 485 {
			all = append(all, s.short(v))
		}
	}
	return all
}

func TestSheets(t *testing.T) {
	cases := []struct{ name, typed, except, want, reason string }{
		{"short", "482", "", "LK7-0000482", "the museum's own series"},
		{"whole", "LK7-0000482", "", "LK7-0000482", "as on the sheet"},
		{"case", "lk7-0000482", "", "LK7-0000482", "numbers are unique ignoring case"},
		{"span", "480..482", "", "LK7-0000480 LK7-0000481 LK7-0000482", "both ends count"},
		{"whole span", "LK7-0000480..LK7-0000481", "", "LK7-0000480 LK7-0000481", "full numbers too"},
		{"list", "482,480", "", "LK7-0000482 LK7-0000480", "in the order typed"},
		{"twice", "482,481..482", "", "LK7-0000482 LK7-0000481", "each once"},
		{"other series", "b-12", "", "B-12", "an old number"},
		{"path", "specimens/000/04/LK7-0000482.yaml", "", "LK7-0000482", "a file's path names its sheet"},
		{"except", "480..482", "481", "LK7-0000480 LK7-0000482", "left out"},
		{"except absent", "484..486", "485", "LK7-0000484 LK7-0000486", "the hint of the message works"},
		{"hyphen", "480-489", "", "error: did you mean 480..489?", "a hyphen belongs to numbers"},
		{"absent", "484..486", "", "error: LK7-0000485 is not in this ledger", "one bad sheet stops all"},
		{"backwards", "489..480", "", "error: no span", "the lower comes first"},
		{"no number", "what?", "", "error: no number of a sheet", "neither number nor span"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := sheetsFor(c.typed, c.except)
			if err != nil {
				got = "error: " + err.Error()
			}
			ok := got == c.want
			if rest, isErr := strings.CutPrefix(c.want, "error: "); isErr {
				ok = strings.HasPrefix(got, "error: ") && strings.Contains(got, rest)
			}
			if !ok {
				t.Errorf("%s: got %q, want %q", c.reason, got, c.want)
			}
		})
	}
}

func sheetsFor(typed, except string) (string, error) {
	terms, err := readSheets(strings.Fields(typed), strings.NewReader(""))
	if err != nil {
		return "", err
	}
	leave, err := readSheets(strings.Fields(except), nil)
	if err != nil {
		return "", err
	}
	ns, err := resolveSheets(terms, testShelf{}, leave)
	var words []string
	for _, n := range ns {
		words = append(words, string(n))
	}
	return strings.Join(words, " "), err
}

func TestScannedSheets(t *testing.T) {
	terms, err := readSheets([]string{"-"}, strings.NewReader("482\r\n\nLK7-0000483\n"))
	if err != nil || len(terms) != 2 || terms[0].from != "482" || terms[1].from != "LK7-0000483" {
		t.Errorf("got %v, %v", terms, err)
	}
}

func TestAbsentSheetNamesTheExcept(t *testing.T) {
	_, err := sheetsFor("484..486", "")
	f, ok := err.(*fault)
	if !ok || len(f.hints) != 1 || !strings.HasSuffix(f.hints[0], "--except 485") || f.code != exitUsage {
		t.Errorf("got %#v", err)
	}
}
