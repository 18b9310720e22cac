package merge

import (
	"testing"

	"blotter/ledger"
)

// FuzzRecord: three texts of any kind give a text that can be read, or one
// that is refused, and never a panic; settling the marks takes them out.
func FuzzRecord(f *testing.F) {
	f.Add(sheet, sheet+"habitat: x\n", sheet)
	f.Add("", "specimen: LK7-0000482\nentry: draft\n", "specimen: LK7-0000482\nentry: stub\n")
	f.Add(sheet, "<<<<<<< this copy\na: 1\n=======\nb: 2\n>>>>>>> the other copy\n", sheet)
	f.Fuzz(func(t *testing.T, base, ours, theirs string) {
		for _, p := range []string{path, ledger.PeopleFile, "work/loan/loan-2026-001.yaml"} {
			got, open, err := Record(p, []byte(base), []byte(ours), []byte(theirs))
			if err != nil {
				continue
			}
			if len(open) > 0 && base != ours && base != theirs {
				if _, marked := ledger.ReadMarks(got); !marked {
					t.Fatalf("conflicts without marks:\n%s", got)
				}
				Settle(p, got, func(Conflict) Answer { return Answer{Is: Theirs} })
			}
		}
	})
}

func BenchmarkRecord(b *testing.B) {
	ours := []byte(sheet + "remarks: one\n")
	theirs := []byte(sheet + "description: two\n")
	for b.Loop() {
		if _, _, err := Record(path, []byte(sheet), ours, theirs); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "merges/s")
}
