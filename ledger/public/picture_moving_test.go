package public_test

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color/palette"
	"image/gif"
	"testing"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger/public"
)

// movingGIF is two pictures, shown for ever, with a comment, a text of XMP and
// words behind the end.
func movingGIF(t testing.TB) []byte {
	t.Helper()
	g := &gif.GIF{Delay: []int{7, 9}}
	for i := range 2 {
		m := image.NewPaletted(image.Rect(0, 0, 5, 4), palette.Plan9)
		m.Pix[i] = 9
		g.Image = append(g.Image, m)
	}
	var b bytes.Buffer
	if err := gif.EncodeAll(&b, g); err != nil {
		t.Fatal(err)
	}
	in := bytes.TrimSuffix(b.Bytes(), []byte{0x3b})
	return append(bytes.Clone(in), "\x21\xfe\x07SECRETS\x00\x21\xff\x0bXMP DataXMP\x07SECRETS\x00;SECRETS"...)
}

// TestStripGIF: what is shown, for how long and how often stays.
func TestStripGIF(t *testing.T) {
	in := movingGIF(t)
	out, ok := public.StripPicture(in)
	if !ok || bytes.Contains(out, []byte("SECRETS")) || bytes.Contains(out, []byte("XMP")) {
		t.Fatalf("%t: %q", ok, out)
	}
	a, err := gif.DecodeAll(bytes.NewReader(in))
	if err != nil {
		t.Fatal(err)
	}
	b, err := gif.DecodeAll(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(a, b); d != "" {
		t.Error(d)
	}
	for i := range out[:len(out)-1] {
		if _, ok := public.StripPicture(out[:i]); ok {
			t.Errorf("the first %d bytes of %d are taken for a picture", i, len(out))
		}
	}
}

func riff(kind, body string) string {
	b := binary.LittleEndian.AppendUint32([]byte(kind), uint32(len(body)))
	b = append(b, body...)
	if len(body)&1 == 1 {
		b = append(b, 0)
	}
	return string(b)
}

// TestStripWebP: chunks and flags as RFC 9649, 2.7 has them; the picture data
// itself is passed on as it is.
func TestStripWebP(t *testing.T) {
	frame := "0123456789abcdef"
	size := "\x04\x00\x00\x03\x00\x00"
	for _, c := range []struct{ name, in, want, reason string }{
		{"simple", riff("VP8L", "pixels!") + riff("EXIF", "SECRETS"), riff("VP8L", "pixels!"), "metadata behind"},
		{"extended", riff("VP8X", "\x3c\x00\x00\x00"+size) + riff("ICCP", "SECRETS") + riff("ALPH", "a") + riff("VP8 ", "pixels") + riff("EXIF", "SECRETS") + riff("XMP ", "SECRETS") + riff("note", "SECRETS"),
			riff("VP8X", "\x10\x00\x00\x00"+size) + riff("ALPH", "a") + riff("VP8 ", "pixels"), "flags of what is gone are off, that of alpha stays"},
		{"moving", riff("VP8X", "\x0a\x00\x00\x00"+size) + riff("ANIM", "colour") + riff("ANMF", frame+riff("VP8L", "pixels")+riff("note", "SECRETS")) + riff("EXIF", "SECRETS"),
			riff("VP8X", "\x02\x00\x00\x00"+size) + riff("ANIM", "colour") + riff("ANMF", frame+riff("VP8L", "pixels")), "a chunk in a frame"},
		{"no picture", riff("EXIF", "SECRETS"), "", "nothing to show"},
		{"cut", riff("VP8L", "pixels")[:11], "", "it ends too early"},
		{"frame in frame", riff("ANMF", frame+riff("ANMF", frame+riff("VP8L", "SECRETS"))), "", "no picture in the frame"},
	} {
		out, ok := public.StripPicture([]byte(riff("RIFF", "WEBP"+c.in) + "SECRETS"))
		if want := c.want; ok != (want != "") || ok && string(out) != riff("RIFF", "WEBP"+want) {
			t.Errorf("%s: %t %q: %s", c.name, ok, out, c.reason)
		}
	}
	for _, other := range []string{"\x00\x00\x00\x1cftypavif", "\x00\x00\x00\x18ftypheic", "II*\x00\x08\x00\x00\x00", "GIF89a"} {
		if _, ok := public.StripPicture([]byte(other)); ok {
			t.Errorf("%q is shown", other)
		}
	}
}
