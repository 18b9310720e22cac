package public_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"blotter/ledger/pictures"
	"blotter/ledger/public"
)

// painting is a picture with edges and noise.
func painting(w, h int) *image.NRGBA {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	r := rand.New(rand.NewPCG(1, 2))
	for y := range h {
		for x := range w {
			m.Set(x, y, color.NRGBA{uint8(x * 7), uint8(y * 5), uint8(r.IntN(256)), 255})
		}
	}
	return m
}

func jpegBytes(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func pngBytes(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func segment(marker byte, body string) string {
	return string(binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(len(body)+2))) + body
}

func chunk(kind, body string) string {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	b = append(append(b, kind...), body...)
	return string(binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:])))
}

// exifBlock is a block with an orientation and an artist.
func exifBlock(orientation byte) string {
	return "MM\x00*\x00\x00\x00\x08\x00\x02" +
		"\x01\x12\x00\x03\x00\x00\x00\x01\x00" + string([]byte{orientation}) + "\x00\x00" +
		"\x01\x3b\x00\x02\x00\x00\x00\x08\x00\x00\x00\x26" + "\x00\x00\x00\x00" + "SECRETS\x00"
}

// loaded puts everything into a JPEG that a picture may carry beside itself.
func loaded(b []byte) []byte {
	head := segment(0xe0, "JFIF\x00\x01\x02\x01\x00\x48\x00\x48\x01\x01SEC") + segment(0xe0, "JFXX\x00\x10SECRETS") +
		segment(0xe1, "Exif\x00\x00"+exifBlock(6)) + segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00SECRETS") +
		segment(0xe2, "ICC_PROFILE\x00\x01\x01SECRETS") + segment(0xe2, "MPF\x00SECRETS") + segment(0xed, "Photoshop 3.0\x00SECRETS") +
		segment(0xfe, "SECRETS") + "\xff\xff\xff" // fill bytes
	return slices.Concat(b[:2], []byte(head), b[2:], []byte("SECRETS"), b)
}

func loadedPNG(b []byte) []byte {
	head := chunk("gAMA", "\x00\x00\xb1\x8f") + chunk("iCCP", "SECRETS") + chunk("tEXt", "Comment\x00SECRETS") + chunk("eXIf", exifBlock(8)) +
		chunk("acTL", "\x00\x00\x00\x02\x00\x00\x00\x00") + chunk("tIME", "\x07\xea\x01\x01\x01\x01\x01")
	return slices.Concat(b[:33], []byte(head), b[33:len(b)-12], []byte(chunk("iTXt", "SECRETS")), b[len(b)-12:], []byte("SECRETS"))
}

func samePixels(t *testing.T, in, out []byte) {
	t.Helper()
	a, _, err := image.Decode(bytes.NewReader(in))
	if err != nil {
		t.Fatal(err)
	}
	b, _, err := image.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatalf("what is left does not decode: %v", err)
	}
	if a.Bounds() != b.Bounds() {
		t.Fatalf("%v is now %v", a.Bounds(), b.Bounds())
	}
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			if a.At(x, y) != b.At(x, y) {
				t.Fatalf("pixel %d,%d was %v, is %v", x, y, a.At(x, y), b.At(x, y))
			}
		}
	}
}

func TestStripPicture(t *testing.T) {
	m := painting(61, 37)
	gray := image.NewGray16(m.Bounds())
	pal := image.NewPaletted(m.Bounds(), color.Palette{color.NRGBA{1, 2, 3, 255}, color.NRGBA{200, 2, 3, 100}})
	for y := range 37 {
		for x := range 61 {
			gray.Set(x, y, m.At(x, y))
			pal.SetColorIndex(x, y, uint8(x+y)%2)
		}
	}
	for _, c := range []struct {
		name        string
		in          []byte
		orientation int
	}{
		{"a JPEG with nothing beside", jpegBytes(t, m), 0},
		{"a grey JPEG", jpegBytes(t, gray), 0},
		{"a JPEG with all there is", loaded(jpegBytes(t, m)), 6},
		{"a PNG with nothing beside", pngBytes(t, m), 0},
		{"a PNG of 16 bits", pngBytes(t, gray), 0},
		{"a PNG with a palette and glass", pngBytes(t, pal), 0},
		{"a PNG with all there is", loadedPNG(pngBytes(t, m)), 8},
	} {
		t.Run(c.name, func(t *testing.T) {
			before := bytes.Clone(c.in)
			out, ok := public.StripPicture(c.in)
			if !ok {
				t.Fatal("refused")
			}
			if !bytes.Equal(before, c.in) {
				t.Error("what came in was changed")
			}
			if bytes.Contains(out, []byte("SEC")) {
				t.Error("something beside the picture is left")
			}
			samePixels(t, c.in, out)
			meta, err := pictures.Read(bytes.NewReader(out), int64(len(out)))
			if err != nil || meta.Orientation != c.orientation || meta.Artist != "" {
				t.Errorf("it says %+v of itself, want the orientation %d alone (%v)", meta, c.orientation, err)
			}
			again, ok := public.StripPicture(out)
			if !ok || !bytes.Equal(again, out) {
				t.Error("stripped again it is another")
			}
		})
	}
}

// TestStripKeepsSegments lists what is left of a JPEG and of a PNG that had
// all there is.
func TestStripKeepsSegments(t *testing.T) {
	out, _ := public.StripPicture(loaded(jpegBytes(t, painting(20, 20))))
	var marks []byte
	for i := 2; out[i+1] != 0xda; i += 2 + int(binary.BigEndian.Uint16(out[i+2:])) {
		marks = append(marks, out[i+1])
	}
	if want := []byte{0xe0, 0xe1, 0xdb, 0xc0, 0xc4}; !bytes.Equal(slices.Compact(marks), want) {
		t.Errorf("segments % x, want % x", marks, want)
	}
	out, _ = public.StripPicture(loadedPNG(pngBytes(t, painting(20, 20))))
	var kinds []string
	for i := 8; i < len(out); i += 12 + int(binary.BigEndian.Uint32(out[i:])) {
		kinds = append(kinds, string(out[i+4:i+8]))
	}
	if got, want := strings.Join(kinds, " "), "IHDR gAMA eXIf IDAT IEND"; got != want {
		t.Errorf("chunks %s, want %s", got, want)
	}
}

// TestStripRefuses: what is not well formed is never passed through.
func TestStripRefuses(t *testing.T) {
	j, p := jpegBytes(t, painting(40, 30)), pngBytes(t, painting(40, 30))
	wrongSum := bytes.Clone(p)
	wrongSum[len(p)-1]++
	tail := slices.Concat(p[:33], []byte(chunk("IDAT", "")), p[33:len(p)-12], []byte(chunk("IDAT", "SECRETS")), p[len(p)-12:])
	taller := bytes.Clone(p)
	taller[23]++
	binary.BigEndian.PutUint32(taller[29:], crc32.ChecksumIEEE(taller[12:29]))
	for _, c := range []struct {
		name string
		in   []byte
	}{
		{"nothing", nil},
		{"a text", []byte("LK7-0000482")},
		{"a GIF", []byte("GIF89a\x01\x00\x01\x00")},
		{"a JPEG cut short", j[:len(j)-2]},
		{"a JPEG cut in its head", j[:100]},
		{"a JPEG without a picture", slices.Concat(j[:2], []byte("\xff\xd9"))},
		{"an arithmetic JPEG", bytes.Replace(j, []byte("\xff\xc0"), []byte("\xff\xc9"), 1)},
		{"a JPEG whose height comes later", bytes.Replace(j, []byte("\xff\xc0\x00\x11\x08\x00\x1e"), []byte("\xff\xc0\x00\x11\x08\x00\x00"), 1)},
		{"a JPEG whose table has a tail", bytes.Replace(j, []byte("\xff\xdb"), []byte(segment(0xdb, "\x07SECRETS")+"\xff\xdb"), 1)},
		{"two frames", slices.Concat(j[:len(j)-2], j[2:])},
		{"a PNG cut short", p[:len(p)-1]},
		{"a PNG without an end", p[:len(p)-12]},
		{"a PNG with a wrong sum", wrongSum},
		{"a PNG taller than its rows", taller},
		{"a PNG with an unknown part that must be known", slices.Concat(p[:33], []byte(chunk("ABCD", "x")), p[33:])},
		{"a PNG in two places", slices.Concat(p[:len(p)-12], []byte(chunk("tEXt", "a")), []byte(chunk("IDAT", "x")), p[len(p)-12:])},
	} {
		if out, ok := public.StripPicture(c.in); ok || out != nil {
			t.Errorf("%s passes", c.name)
		}
	}
	out, ok := public.StripPicture(tail)
	if !ok || bytes.Contains(out, []byte("SECRETS")) {
		t.Error("words after the packed rows are left")
	}
}

// FuzzStripPicture: whatever comes in, what goes out is a picture that is
// stripped already and that has no other way up than 1 to 8.
func FuzzStripPicture(f *testing.F) {
	j, p := jpegBytes(f, painting(9, 7)), pngBytes(f, painting(9, 7))
	for _, in := range [][]byte{j, p, movingGIF(f), []byte(riff("RIFF", "WEBP"+riff("VP8L", "pixels!"))), loaded(j), loadedPNG(p), []byte("\xff\xd8\xff"), []byte("\x89PNG\r\n\x1a\n")} {
		f.Add(in)
	}
	f.Fuzz(func(t *testing.T, in []byte) {
		out, ok := public.StripPicture(in)
		if !ok {
			return
		}
		if again, ok := public.StripPicture(out); !ok || !bytes.Equal(again, out) {
			t.Fatal("stripped again it is another")
		}
		if len(out) > len(in)+64 {
			t.Fatalf("%d bytes became %d", len(in), len(out))
		}
		m, err := pictures.Read(bytes.NewReader(out), int64(len(out)))
		if err != nil || m.Artist != "" || m.GPS.Known || m.Taken.Known() {
			t.Fatalf("it says %+v of itself (%v)", m, err)
		}
	})
}

func BenchmarkStripPicture(b *testing.B) {
	for _, c := range []struct {
		name string
		in   []byte
	}{{"jpeg", loaded(jpegBytes(b, painting(1500, 1000)))}, {"png", loadedPNG(pngBytes(b, painting(1500, 1000)))}} {
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(c.in)))
			for b.Loop() {
				if _, ok := public.StripPicture(c.in); !ok {
					b.Fatal("refused")
				}
			}
		})
	}
}
