package pictures_test

import (
	"bytes"
	"encoding/binary"
	"image"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/bep/imagemeta"
	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/ledger/pictures"
	"blotter/ledger/pictures/picturestest"
)

// whole says everything of itself.
var whole = picturestest.Said{Orientation: 6, Artist: "Åse Vik", Copyright: "CC BY 4.0", Taken: "2026:03:02 14:05:06", Offset: "+01:00", Placed: true,
	Lat: 60.703415, Lon: 6.651372, Altitude: 384.5, DOP: 1.8, Error: 4, Datum: "WGS-84", Day: "2026:03:02", Clock: [3]uint32{13, 5, 6}}

func jpegOf(t testing.TB, s picturestest.Said) []byte {
	t.Helper()
	b, err := picturestest.JPEG(image.NewGray(image.Rect(0, 0, 8, 8)), s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func read(t testing.TB, b []byte) pictures.Meta {
	t.Helper()
	m, err := pictures.Read(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func close5(a, b float64) bool { return math.Abs(a-b) < 1e-5 }

func TestRead(t *testing.T) {
	for _, order := range []picturestest.Order{binary.BigEndian, binary.LittleEndian} {
		s := whole
		s.Order = order
		block := picturestest.Exif(s)
		png := "\x89PNG\r\n\x1a\n" + "\x00\x00\x00\x00tEXt\x00\x00\x00\x00" + string(binary.BigEndian.AppendUint32(nil, uint32(len(block)))) + "eXIf" + string(block) + "\x00\x00\x00\x00"
		for name, b := range map[string][]byte{"JPEG": jpegOf(t, s), "PNG": []byte(png), "TIFF": block} {
			m := read(t, b)
			g := m.GPS
			if m.Orientation != 6 || m.Artist != "Åse Vik" || m.Copyright != "CC BY 4.0" || m.Taken.Clock != time.Date(2026, 3, 2, 14, 5, 6, 0, time.UTC) ||
				!m.Taken.In(time.UTC).Equal(time.Date(2026, 3, 2, 13, 5, 6, 0, time.UTC)) {
				t.Errorf("%s, %v: %+v", name, order, m)
			}
			if !g.Known || !close5(g.Lat, whole.Lat) || !close5(g.Lon, whole.Lon) || g.Altitude != 384.5 || g.DOP != 1.8 || g.Error != 4 || g.Datum != "WGS-84" ||
				!g.At.Equal(time.Date(2026, 3, 2, 13, 5, 6, 0, time.UTC)) || g.Step > 1e-7 {
				t.Errorf("%s, %v: %+v", name, order, g)
			}
		}
	}
}

// TestReadLeavesOut: what makes no sense is left out, and nothing else with it.
func TestReadLeavesOut(t *testing.T) {
	m := read(t, jpegOf(t, picturestest.Said{Artist: "  ", Taken: "0000:00:00 00:00:00", Orientation: 9, Placed: true}))
	if m.Orientation != 0 || m.Artist != "" || m.Taken.Known() || m.GPS.Known {
		t.Errorf("%+v", m)
	}
	m = read(t, jpegOf(t, picturestest.Said{Artist: "M\xf8l\x01ster", Taken: "2026:03:02 14:05:06", Offset: "?", Placed: true, Lat: -33.5, Lon: -70}))
	if m.Artist != "Møl ster" || m.Taken.Zone != nil || !close5(m.GPS.Lat, -33.5) || !close5(m.GPS.Lon, -70) || !math.IsNaN(m.GPS.DOP) {
		t.Errorf("%+v", m)
	}
	oslo := time.FixedZone("", 3600)
	if got := m.Taken.In(oslo).UTC().Hour(); got != 13 {
		t.Errorf("a clock of unknown offset shows the museum's time: %d", got)
	}
	for _, b := range []string{"", "\xff\xd8\xff", "GIF89a", "\xff\xd8\xff\xe1\xff\xff", "II*\x00\xff\xff\xff\xff", "\x89PNG\r\n\x1a\n\xff\xff\xff\xffeXIf"} {
		if m := read(t, []byte(b)); m != (pictures.Meta{GPS: m.GPS}) || m.GPS.Known {
			t.Errorf("%q says %+v", b, m)
		}
	}
}

// TestOtherReaderSaysTheSame holds random blocks against another reader.
func TestOtherReaderSaysTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := picturestest.Said{Order: binary.BigEndian, Orientation: rapid.Uint16Range(1, 8).Draw(t, "orientation"),
			Artist: rapid.StringMatching(`[A-Z][a-z]{5,12} [A-Z][a-z]{3,9}`).Draw(t, "artist"),
			Taken:  rapid.Custom(func(t *rapid.T) time.Time { return time.Unix(rapid.Int64Range(0, 2e9).Draw(t, "s"), 0).UTC() }).Draw(t, "taken").Format("2006:01:02 15:04:05"),
			Placed: true, Lat: rapid.Float64Range(-89, 89).Draw(t, "lat"), Lon: rapid.Float64Range(-179, 179).Draw(t, "lon")}
		if rapid.Bool().Draw(t, "little") {
			s.Order = binary.LittleEndian
		}
		b, err := picturestest.JPEG(image.NewGray(image.Rect(0, 0, 8, 8)), s)
		if err != nil {
			t.Fatal(err)
		}
		var tags imagemeta.Tags
		if _, err := imagemeta.Decode(imagemeta.Options{R: bytes.NewReader(b), ImageFormat: imagemeta.JPEG, Sources: imagemeta.EXIF,
			HandleTag: func(i imagemeta.TagInfo) error { tags.Add(i); return nil }}); err != nil {
			t.Fatal(err)
		}
		lat, lon, err := tags.GetLatLong()
		if err != nil {
			t.Fatal(err)
		}
		m, _ := pictures.Read(bytes.NewReader(b), int64(len(b)))
		if !close5(m.GPS.Lat, lat) || !close5(m.GPS.Lon, lon) {
			t.Fatalf("we read %v %v, the other %v %v", m.GPS.Lat, m.GPS.Lon, lat, lon)
		}
		exif := tags.EXIF()
		if got := exif["Artist"].Value; got != m.Artist {
			t.Fatalf("we read %q, the other %q", m.Artist, got)
		}
		if got := exif["DateTimeOriginal"].Value; got != m.Taken.Clock.Format("2006:01:02 15:04:05") {
			t.Fatalf("we read %v, the other %v", m.Taken.Clock, got)
		}
		if got := exif["Orientation"].Value; got != uint16(m.Orientation) {
			t.Fatalf("we read %v, the other %v", m.Orientation, got)
		}
	})
}

// FuzzRead: hostile blocks neither stop the program nor give positions off the
// earth.
func FuzzRead(f *testing.F) {
	f.Add(jpegOf(f, whole))
	f.Add(picturestest.Exif(whole))
	s := whole
	s.Order = binary.LittleEndian
	f.Add(picturestest.Exif(s))
	f.Fuzz(func(t *testing.T, b []byte) {
		m, err := pictures.Read(bytes.NewReader(b), int64(len(b)))
		if err != nil {
			t.Fatal(err)
		}
		if m.Orientation < 0 || m.Orientation > 8 || m.GPS.Known && !(math.Abs(m.GPS.Lat) <= 90 && math.Abs(m.GPS.Lon) <= 180) || strings.ContainsAny(m.Artist, "\n\x00") {
			t.Fatalf("%+v", m)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	data := jpegOf(b, whole)
	for b.Loop() {
		read(b, data)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "blocks/s")
}
