package label

import (
	"testing"

	"blotter/render/paper"
)

// TestNameLines: where the line of a name may end (interface.md 2.3).
func TestNameLines(t *testing.T) {
	for _, c := range []struct {
		words string
		width float64
		want  []string
		why   string
	}{
		{"Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve", 95, []string{"Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve"}, "one line"},
		{"Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve", 70, []string{"Ranunculus acris subsp. pumilus", "(Wahlenb.) Á.Löve & D.Löve"}, "before the authors, not in them"},
		{"Ranunculus acris cf. subsp. pumilus", 40, []string{"Ranunculus acris", "cf. subsp. pumilus"}, "a qualifier stays with what it doubts"},
		{"Salix aurita L. × Salix caprea L.", 40, []string{"Salix aurita L.", "× Salix caprea L."}, "before × of a formula"},
		{"Pectocarya recurvata (Hook. & Arn.) A. Gray ex Torr. & A. Gray", 40, []string{"Pectocarya recurvata", "(Hook. & Arn.) A. Gray", "ex Torr. & A. Gray"}, "authors wider than the line part between two of them"},
		{"Mentha x piperita L.", 95, []string{"Mentha ×piperita L."}, "x is set as the sign, against its epithet"},
		{"Betula sp.", 17, []string{"Betula sp."}, "sp. stays with the genus"},
	} {
		lines := paper.Set(NameWithin(c.words, 12.5, 10, c.width), c.width)
		var got []string
		for _, l := range lines {
			got = append(got, l.Text())
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: %q, want %q (%s)", c.words, got, c.want, c.why)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: %q, want %q (%s)", c.words, got, c.want, c.why)
			}
		}
	}
}

func TestNameFaces(t *testing.T) {
	for _, r := range Name("Ranunculus acris subsp. pumilus L.", 12.5, 10) {
		latin := r.Text == "Ranunculus acris" || r.Text == "pumilus"
		if (r.Face == paper.Italic) != latin {
			t.Errorf("%q italic: %v", r.Text, r.Face == paper.Italic)
		}
		if r.Text == "L." && r.Size != 10 {
			t.Errorf("authors of %g points", r.Size)
		}
	}
	if r := Name("Ranunculaceae", 12.5, 10); len(r) != 1 || r[0].Face != paper.Roman || r[0].Size != 12.5 {
		t.Errorf("a family: %+v", r)
	}
}
