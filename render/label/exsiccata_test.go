package label

import (
	"slices"
	"strings"
	"testing"
)

const issuedRecord = `exsiccata: {series: Plantae Vossenses exsiccatae, fascicle: II, number: "63"}
further_numbers: [OLD 7]
`

const issuedSettings = `habits:
  exsiccatae:
    - {series: Plantae Vossenses exsiccatae, editor: M. Ostrander, imprint: "Voss, Lauvkroken Museum, 2026"}
`

// TestExsiccata: the series at the head, its number apart from the
// collector's, nothing of one sheet alone.
func TestExsiccata(t *testing.T) {
	in := input(t, sketch+issuedRecord, issuedSettings)
	made, refused := Exsiccatae([]*Input{in}, in.Habits.Exsiccatae, Options{})
	if len(refused) > 0 {
		t.Fatalf("%+v", refused)
	}
	b := made[0].Blocks[0]
	sound(t, "exsiccata", b)
	got := linesOf(b)
	for _, want := range []string{"PLANTAE VOSSENSES EXSICCATAE   fascicle II", "Edited by M. Ostrander. Voss, Lauvkroken Museum, 2026", "63. Ranunculus acris subsp. pumilus", "(Wahlenb.) Á.Löve & D.Löve", "Signe Rask 1207   14.vii.2025", "with Ove Bannister"} {
		if !slices.Contains(got, want) {
			t.Errorf("no line %q in %q", want, got)
		}
	}
	all := strings.Join(got, " ")
	for _, not := range []string{"LK7", "OLD 7", "LAUVKROKEN"} {
		if strings.Contains(all, not) {
			t.Errorf("%s belongs to one sheet: %q", not, got)
		}
	}
}

func TestExsiccataRefused(t *testing.T) {
	none := input(t, sketch, "")
	held := input(t, sketch+issuedRecord, "")
	held.Withheld = true
	made, refused := Exsiccatae([]*Input{none, held}, nil, Options{})
	if len(made) != 0 || len(refused) != 2 || refused[0].Code != CodeNotIssued || refused[1].Code != CodeIssuedWithheld {
		t.Errorf("%d made, %+v", len(made), refused)
	}
}
