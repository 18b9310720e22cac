package label

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"blotter/ledger"
)

const barcoded = "specimen: LK7-0000482\nentry: full\ncollector: Signe Rask\ncoll_no: \"1204\"\ndate: 12.vii.2025\nwith: [Tiril Aune]\nplace: {country: Norway, locality: Raundalen}\nhabitat: Hay meadow\n"

// TestLabelBarcode: where the symbol stands, what it holds, how much of the
// words' room it takes. The quiet zones are those of the standards, from memory
// (render/paper).
func TestLabelBarcode(t *testing.T) {
	for _, c := range []struct {
		kind   string
		quiet  float64 // at the sides, in modules
		module float64
		foot   float64 // height of the foot, in mm
	}{
		{"datamatrix", 1, 5 * 25.4 / 300, 9.4},                 // lower than two lines of words
		{"qr", 4, 5 * 25.4 / 300, (21 + 2*4) * 5 * 25.4 / 300}, // makes the foot higher
		{"code128", 10, 3 * 25.4 / 300, 9.4},
	} {
		in := input(t, barcoded, "")
		in.Habits.Labels.Barcode = ledger.Leaf{Text: c.kind}
		made, refused := Labels([]*Input{in}, Options{})
		if len(refused) > 0 {
			t.Fatalf("%s: %v", c.kind, refused)
		}
		b := made[0].Blocks[0]
		sound(t, c.kind, b)
		zone, number := partNamed(b, "barcode"), partNamed(b, "number")
		if zone.Text != "LK7-0000482" || number.Text != "LK7-0000482" {
			t.Errorf("%s holds %q beside %q", c.kind, zone.Text, number.Text)
		}
		if ink := zone.Box.Right() - c.quiet*c.module; math.Abs(ink-(Width-sideIn)) > 0.01 {
			t.Errorf("%s: its ink ends at %.2f, the text at %g", c.kind, ink, Width-sideIn)
		}
		if gap := zone.Box.X - number.Box.Right(); math.Abs(gap-symbolGap) > 0.05 {
			t.Errorf("%s: %.2f mm between number and quiet zone", c.kind, gap)
		}
		s := newSetting(in)
		s.symbol, _ = s.barcode()
		if got := heightOf(s.layout(0, 1).foot); math.Abs(got-c.foot) > 0.01 {
			t.Errorf("%s: the foot is %.2f mm high, want %.2f", c.kind, got, c.foot)
		}
	}
}

// TestLabelBarcodeWhere: which labels bear one.
func TestLabelBarcodeWhere(t *testing.T) {
	for _, c := range []struct {
		reason, kind, duplicates string
		copy, want               bool
	}{
		{"no museum that did not ask for it", "", "marked", false, false},
		{"asked for", "datamatrix", "marked", false, true},
		{"a duplicate does not bear the number", "datamatrix", "marked", true, false},
		{"copies that are all the same", "datamatrix", "same", true, true},
	} {
		in := input(t, barcoded, "")
		if in.Copy = c.copy; c.kind != "" {
			in.Habits.Labels.Barcode.Text = c.kind
		}
		in.Habits.Labels.Duplicates.Text = c.duplicates
		made, refused := Labels([]*Input{in}, Options{})
		if len(refused) > 0 {
			t.Fatalf("%s: %v", c.reason, refused)
		}
		if got := partNamed(made[0].Blocks[0], "barcode").Text != ""; got != c.want {
			t.Errorf("%s: %v", c.reason, got)
		}
	}
}

// TestLabelBarcodeRefused: a number that would leave no room for words beside
// its symbol is refused with what to do, and so are words that want the room
// that the symbol takes.
func TestLabelBarcodeRefused(t *testing.T) {
	long := strings.Replace(barcoded, "LK7-0000482", "LK7-HERBARIUM-0000482", 1)
	for _, c := range []struct{ kind, why string }{{"code128", "they need 45 mm"}, {"datamatrix", ""}} {
		in := input(t, long, "")
		in.Habits.Labels.Barcode.Text = c.kind
		_, refused := Labels([]*Input{in}, Options{})
		switch {
		case c.why == "" && len(refused) == 0:
		case c.why == "" || len(refused) != 1 || refused[0].Code != CodeBarcode || !strings.Contains(refused[0].Why, c.why) || !strings.Contains(refused[0].Try, "habits.labels.barcode"):
			t.Errorf("%s: %+v", c.kind, refused)
		}
	}
	for kind, want := range map[string]string{"none": "", "datamatrix": "", "qr": CodeTooLong} {
		in := input(t, barcoded, "")
		in.Habits.Labels.Barcode.Text = kind
		least := newSetting(input(t, barcoded, "")).layout(0, 1).needs() // a label as high as its words, without a barcode
		in.Habits.Labels.Sizes, in.Habits.Labels.Heights = in.Habits.Labels.Sizes[:1], []ledger.Leaf{{Text: fmt.Sprint(least)}}
		_, refused := Labels([]*Input{in}, Options{})
		if got := append(refused, Refusal{})[0].Code; got != want {
			t.Errorf("%s: refused %v, want %q", kind, refused, want)
		}
	}
}
