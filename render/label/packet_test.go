package label

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
	"blotter/render/paper"
)

// TestPacketLabel: what lies in the packet, of which sheet, and enough to find
// both together again.
func TestPacketLabel(t *testing.T) {
	in := input(t, sketch, "")
	b, no := PacketLabel(in, Packet{}, 34)
	if no != nil {
		t.Fatal(no)
	}
	want := `Fragments of LK7-0000482   Lauvkroken Museum
Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve
Norway: Vestland: Voss
Signe Rask 1207   14.vii.2025`
	if got := strings.Join(Lines(b), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	b, no = PacketLabel(in, Packet{What: "packet of fruits", Number: "LK7-F-0031"}, 34)
	if no != nil {
		t.Fatal(no)
	}
	if first := Lines(b)[0]; first != "packet of fruits (LK7-0000482)   LK7-F-0031" {
		t.Errorf("a part with words and a number of its own: %s", first)
	}
	if _, no := PacketLabel(in, Packet{}, 20); no == nil || no.Code != CodePacketTooLong || !strings.Contains(no.Why, "20 mm high") {
		t.Errorf("a label too low: %+v", no)
	}
	in.Record.Place.Country = ledger.Leaf{}
	in.Record.Determinations = nil
	in.Habits.Labels.Language.Text = "nb"
	if _, no = PacketLabel(input(t, strings.ReplaceAll(sketch, "country: Norway", "country: \u263fland"), ""), Packet{}, 34); no == nil || no.Code != CodePacketLetter {
		t.Errorf("a letter that the typeface lacks: %+v", no)
	}
}

// TestFolds: on random paper the panels lie on it below each other, front and
// back are of the size asked for, the pocket lower; what cannot be folded says
// what can, and that can.
func TestFolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(140, 430).Draw(t, "w"), rapid.Float64Range(200, 430).Draw(t, "h")
		width, height := rapid.Float64Range(60, 300).Draw(t, "width"), rapid.Float64Range(40, 200).Draw(t, "height")
		f, err := NewFold(w, h, width, height)
		if err != nil {
			words := err.Error()
			var mw, mh float64
			if !scan(words[strings.LastIndex(words, "is ")+3:], &mw, &mh) {
				t.Fatal(words)
			}
			if f, err = NewFold(w, h, min(width, mw), min(height, mh)); err != nil {
				t.Fatalf("%s, and yet: %v", words, err)
			}
			width, height = min(width, mw), min(height, mh)
		}
		if f.Front.W != width || f.Front.H != height || f.Back.W != width || f.Back.H != height {
			t.Fatalf("front %+v, back %+v, want %g x %g", f.Front, f.Back, width, height)
		}
		if f.Pocket.H > height-packetShort+0.001 || f.Pocket.H < packetPocket*height-0.001 {
			t.Fatalf("a pocket of %g behind a front of %g mm", f.Pocket.H, height)
		}
		if f.Pocket.Y < -0.001 || abs(f.Pocket.Bottom()-f.Back.Y) > 0.001 || abs(f.Back.Bottom()-f.Front.Y) > 0.001 || abs(f.Front.Bottom()-h) > 0.001 {
			t.Fatalf("the panels do not follow each other: %+v", f)
		}
		if f.Left < packetSide-0.001 || abs(f.Left-(w-f.Right)) > 0.001 || abs(f.Right-f.Left-width) > 0.001 {
			t.Fatalf("sides at %g and %g of %g", f.Left, f.Right, w)
		}
	})
}

// TestPacketSheet: the label stands in the middle of the front, its words
// nowhere near a fold.
func TestPacketSheet(t *testing.T) {
	f, err := NewFold(210, 287, 140, 90)
	if err != nil {
		t.Fatal(err)
	}
	label, no := PacketLabel(input(t, sketch, ""), Packet{}, 34)
	if no != nil {
		t.Fatal(no)
	}
	b, err := PacketSheet(f, label, []string{"Fold along 1, then 2, then 3."})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range b.Parts {
		if p.Name == "fold" || p.Name == "how" { // beside the folds, and on the pocket
			continue
		}
		if p.Box.X < f.Front.X+10 || p.Box.Right() > f.Front.Right()-10 || p.Box.Y < f.Front.Y+20 || p.Box.Bottom() > f.Front.Bottom()-20 {
			t.Errorf("%s at %+v of the front %+v", p.Name, p.Box, f.Front)
		}
	}
	folds := 0
	for _, it := range b.Items {
		if r, ok := it.(paper.Rule); ok && r.Dash > 0 {
			folds++
		}
	}
	if folds != 4 {
		t.Errorf("%d folds are drawn, want 4", folds)
	}
	label.H = 95
	if _, err := PacketSheet(f, label, nil); err == nil {
		t.Error("a label higher than the front")
	}
}
