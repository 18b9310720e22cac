package treatment_test

import (
	"strings"
	"testing"
	"time"

	"blotter/ledger/treatment"
)

// Large files of nothing in particular are refused, or read, in time in step
// with their size: each is about a megabyte.
func TestHostileSizes(t *testing.T) {
	const size = 1 << 20
	fill := func(s string) string { return strings.Repeat(s, size/len(s)) }
	row := "2026-11-03 09:45;-20\n"
	for name, file := range map[string]string{
		"one line of separators": fill(";"), "lines of separators": fill(strings.Repeat(";", 2000) + "\n"), "one line of quotes": row + fill(`"`), "quotes and separators": row + fill(`"";`),
		"empty lines": fill("\n"), "CR and LF the wrong way": fill("\n\r"), "words": fill("lorem ipsum dolor sit amet\n"), "blanks": fill(" "), "zeros": fill("\x00"), "a row and figures": row + fill("9"),
		"dates alone": fill("2026-11-03;"), "times alone": fill("09:45;"), "wide rows": fill("2026-11-03 09:45" + strings.Repeat(";-20", 400) + "\n"), "wider rows": fill("2026-11-03 09:45" + strings.Repeat(";-20", 4000) + "\n"),
		"one moment": fill(row), "a row and lines of none": row + fill("-;-\n"), "newest first within the hour": fill("2026-11-03 09:45;-20\n2026-11-03 09:44;-20\n"), "not UTF-8": fill("\xff\xfd\xb0;"),
		"long lines": fill(strings.Repeat("x", 60000) + "\n"), "lines of dates": fill(strings.Repeat("2026-11-03 ", 5000) + "\n"),
	} {
		began := time.Now()
		log, err := treatment.Read([]byte(file), treatment.Options{})
		if took := time.Since(began); took > 5*time.Second {
			t.Errorf("%s: %v", name, took)
		} else {
			t.Logf("%s: %v, %d readings, %v", name, took.Round(time.Millisecond), len(log.Readings), err)
		}
	}
}
