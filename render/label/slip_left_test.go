package label

import (
	"testing"

	"blotter/ledger"
)

// TestSlipsLeft: what is left when slips and a label were printed before.
func TestSlipsLeft(t *testing.T) {
	const (
		head   = "specimen: LK7-0000482\nentry: draft\ndate: 14.vii.2025\ndeterminations:\n"
		first  = "  - {name: Ranunculus acris L., by: Signe Rask, date: 2025-08-01}\n"
		second = "  - {name: Ranunculus repens L., by: M. Ostrander, date: 2026-11-02}\n"
		other  = "  - {name: Ranunculus repens L., by: M. Ostrander, date: 2026-11-03}\n"
	)
	record := func(entries string) *ledger.Record {
		if entries == "" {
			return nil
		}
		return input(t, head+entries, "").Record
	}
	for _, c := range []struct {
		name                   string
		now, printed, labelled string
		want                   int
	}{
		{"nothing was printed", first + second, "", "", 2},
		{"the label has the first", first + second, "", first, 1},
		{"the slips have it", first + second, first, "", 1},
		{"both", first + second, first + second, first, 0},
		{"a date was corrected since the slip", first + other, first + second, first, 1},
		{"the label had another name then", first + second, "", other, 2},
	} {
		in := input(t, head+c.now, "")
		o := SlipOptions{Printed: record(c.printed), Labelled: record(c.labelled)}
		blocks, refused := Slips(in, o)
		if n := CountSlips(in, o); n != c.want || len(blocks) != c.want || len(refused) > 0 {
			t.Errorf("%s: counted %d, made %d, refused %v; want %d", c.name, n, len(blocks), refused, c.want)
		}
	}
}
