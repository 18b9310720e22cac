package public_test

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger/geodesy"
	"blotter/ledger/public"
)

// one is a withheld record of a class with every kind of value, beside an open
// one 20 km away.
func one(t testing.TB, category string) *public.Secrets {
	t.Helper()
	v, load := ledgerOf(t, nil,
		gathering("Signe Rask", "1207", "14.vii.2025", "1.2 km NE of Trollabotn farm, above the track to Gråsteinen", `60°42'12\"N 6°39'05\"E`)+
			"writings:\n  - {text: \"PLANTS OF VOSS. Orchis at Trollabotn by Gråsteinen, leg. S. Rask 14/7\"}\n"+
			"remarks: Seen again by the neighbour's boathouse\n"+
			"source_place: not known\nimport:\n  Day: 14.vii.2025\n  TRS2: B. M.\n  TRS3: No section!\n"+marked(category),
		gathering("Signe Rask", "1300", "2.viii.2025", "Raundal, by the chapel", "60.8123, 6.8321")+
			"writings:\n  - {text: PLANTS OF VOSS. Raundal, by the chapel}\n")
	s, err := v.Secrets(context.Background(), load)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// scanned is what a new Scanner finds in one file.
func scanned(t testing.TB, s *public.Secrets, name string, data []byte) []public.Leak {
	t.Helper()
	x := s.Scanner()
	x.ScanBytes(name, data)
	leaks, err := x.Finish(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return leaks
}

// TestLeakForms plants a withheld value in a page in each usual form. The
// figures are those of 60°42'12"N 6°39'05"E on WGS84, computed with
// ledger/geodesy, whose own tests have published values: UTM 32V 371683
// 6732151, MGRS 32VLN7168332151.
func TestLeakForms(t *testing.T) {
	u, err := geodesy.ToUTM(60+42.0/60+12.0/3600, 6+39.0/60+5.0/3600)
	if err != nil {
		t.Fatal(err)
	}
	m, err := u.MGRS(5)
	if err != nil {
		t.Fatal(err)
	}
	east, north := int(u.Easting), int(u.Northing)
	square := string(m.Column) + string(m.Row)
	for _, c := range []struct{ name, text, reason string }{
		{"three decimals, cut", "60.703 6.651", "the least that is finer than 0.1 degree by far"},
		{"two decimals", "60.70, 6.65 is the place", "finer than 0.1 degree"},
		{"four decimals, rounded", "60.7033, 6.6514", "rounded"},
		{"four decimals, cut", "60.7033, 6.6513", "cut"},
		{"many decimals", "lat 60.703333333 lon 6.651388889", "full precision of a program"},
		{"with sides", "60.7033° N, 6.6514° E", "as pages write it"},
		{"sides before", "N60.7033 E6.6514", "as devices write it"},
		{"swapped", "6.6514, 60.7033", "longitude first, as GeoJSON has it"},
		{"an array", "[6.65139,60.70333]", "GeoJSON"},
		{"decimal commas", "60,7033 N; 6,6514 E", "as Norwegians write it"},
		{"commas everywhere", "60,7033,6,6514", "decimal commas and a comma between"},
		{"keys between", `{"decimalLatitude": 60.7033, "decimalLongitude": 6.6514}`, "JSON"},
		{"CSV", "LK7,12,60.7033,6.6514,x\n", "a figure before it"},
		{"attributes", `<wpt lat="60.7033" lon="6.6514"></wpt>`, "inside a tag"},
		{"cells", "<td>60.7033</td><td>6.6514</td>", "a table"},
		{"DMS", `60°42'12"N 6°39'05"E`, "as written"},
		{"DMS with primes", "60°42′12″N, 6°39′05″E", "other marks"},
		{"DMS apart", "60° 42' 12\" N   6° 39' 5\" E", "blanks, no zero"},
		{"DMS in words", "60 deg 42 min 12 sec N 6 deg 39 min 5 sec E", "words for marks"},
		{"DMS with blanks", "60 42 12 6 39 05", "no marks"},
		{"DMS with colons", "60:42:12 6:39:05", "colons"},
		{"DMS with hyphens", "60-42-12N 6-39-05E", "hyphens"},
		{"DMS with entities", "60&deg;42&#39;12&quot;N 6&#176;39&#x27;05&quot;E", "HTML"},
		{"DMS with escapes", `60\u00b042'12\"N 6\u00b039'05\"E`, "JSON"},
		{"DM", "60°42.2'N 6°39.08'E", "minutes with decimals"},
		{"DM rounded", "60°42.20' 6°39.1'", "other lengths"},
		{"whole minutes", "60°42'N 6°39'E", "1/60 of a degree is finer than 0.1"},
		{"ISO 6709", "+604212+0063905/", "figures without anything between"},
		{"latitude alone", "60.70333", "five decimals"},
		{"longitude alone", "x=6.65139", "five decimals"},
		{"latitude in seconds alone", `60°42'12"N`, "seconds with marks"},
		{"UTM", fmt.Sprintf("32V %d %d", east, north), "to the metre"},
		{"UTM, letters", fmt.Sprintf("UTM 32 V E %d N %d", east, north), "with letters"},
		{"UTM swapped", fmt.Sprintf("N %d, E %d", north, east), "northing first"},
		{"UTM rounded", fmt.Sprintf("32V %d %d", (east+50)/100*100, (north+50)/100*100), "to 100 m"},
		{"northing alone", fmt.Sprintf("%d mN", north), "seven figures"},
		{"MGRS", "32V" + square + fmt.Sprintf("%05d%05d", m.East, m.North), "to the metre"},
		{"MGRS apart", "32V " + square + fmt.Sprintf(" %05d %05d", m.East, m.North), "with blanks"},
		{"MGRS short", "32V" + square + fmt.Sprintf("%03d%03d", m.East/100, m.North/100), "to 100 m"},
		{"MGRS in small letters", "32v " + strings.ToLower(square) + fmt.Sprintf(" %04d %04d", m.East/10, m.North/10), "to 10 m"},
		{"four words", "We came to Trollabotn farm, above the track.", "a run of four"},
		{"words in bold", "km NE of <b>Trollabotn</b> farm", "tags between"},
		{"words in lines", "above the track\nto\nGråsteinen", "over the end of lines"},
		{"without marks", "the track to Grasteinen", "letters without their marks"},
		{"apart from marks", "the track to Gra\u030asteinen", "marks as characters of their own"},
		{"an address", "places/the-track-to-grasteinen.html", "a page address made of the words"},
		{"percent", "?q=the%20track%20to%20Gr%C3%A5steinen", "a web address"},
		{"soft hyphens", "the track to Grå\u00adsteinen", "a hyphen that is not seen"},
		{"escaped twice", "the track to Gr&amp;aring;steinen", "entities of entities"},
		{"a label", "Orchis at Trollabotn by", "words of the old label"},
		{"remarks", "by the neighbour's boathouse", "words of a remark"},
		{"collector and number", "Signe Rask 1207", "beside each other"},
		{"number of the collector", "Rask, no. 1207", "a word between"},
		{"keys and number", `"collector":"Signe Rask","coll_no":"1207"`, "JSON"},
		{"number and day", "1207, 14 July 2025", "near each other"},
		{"day and number", "2025-07-14 (1207)", "ISO"},
		{"number and day as written", "14.vii.2025 no. 1207", "the label's words"},
		{"number in an address", "signe-rask-1207.html", "hyphens of a page address"},
		{"initials and number", "Signe Rask, SR-1207", "a number with the collector's letters"},
		{"day and number in a name", "2025-07-14-1207.txt", "hyphens join day and number"},
		{"year and number", "Signe Rask 2025-1207", "the year of the gathering before its number"},
		{"range of numbers", "Signe Rask 1205-1207", "the last of a range"},
		{"word before the number", "Signe Rask: 3-no-1207", "a word for the number before it"},
		{"first of a range", "Signe Rask 1207-1209", "the first of a range"},
		{"a duplicate", "Signe Rask 1207-2", "a part of the gathering"},
	} {
		for _, category := range []string{"1", "2"} {
			s := one(t, category)
			if got := scanned(t, s, "page.html", []byte("<p>Here: "+c.text+".</p>\n")); len(got) == 0 || got[0].Number != "LK7-0000701" {
				t.Errorf("category %s, %s: %q is not found: %s", category, c.name, c.text, c.reason)
			}
		}
	}
}

// TestNoLeak plants what tells nothing of the withheld place.
func TestNoLeak(t *testing.T) {
	for _, c := range []struct{ category, name, text, reason string }{
		{"2", "the square's centre", "60.75, 6.65", "what is published instead"},
		{"2", "the centre, padded", "60.75000° N, 6.65000° E", "the same"},
		{"2", "the square's edges", "60.7 to 60.8, 6.6 to 6.7", "the grid's lines"},
		{"2", "edges, padded", "60.700, 6.600", "the grid's lines"},
		{"2", "no finer", "60.7° N, 6.7° E", "one decimal is the square's own"},
		{"3", "two decimals", "60.70, 6.65", "0.01 degree is published"},
		{"3", "minutes", "60°42'N 6°39'E", "coarser than 0.01 degree"},
		{"4", "three decimals", "60.703, 6.651", "0.001 degree is published"},
		{"1", "whole degrees", "60° N, 6° E", "no more than the country"},
		{"3", "number and name", "Signe Rask 1207; 14 July 2025", "category 3 shows them"},
		{"2", "another place", "60.7123, 6.6714", "not it"},
		{"2", "another, in seconds", `60°42'13"N 6°39'06"E`, "not it"},
		{"2", "the public record's", "60.8123, 6.8321; Raundal, by the chapel", "not withheld"},
		{"2", "its label", "PLANTS OF VOSS", "another label has it"},
		{"2", "a day", "14 July 2025", "a day alone"},
		{"2", "a day as imported", "Dactylorhiza det. 14.vii.2025", "the import's copy of a day is a day alone"},
		{"2", "a number", "1207", "a number alone"},
		{"2", "number of another", "Signe Rask 1300", "not it"},
		{"2", "a sum", "Rask gave the museum, in the course of her long life, 1207 sheets", "not near"},
		{"2", "three words", "the track above", "too few, and common"},
		{"2", "common words", "1.2 km NE of, above the track to the river", "they stand anywhere"},
		{"2", "that nothing is known", "its origin is not known", "words for none tell no place"},
		{"2", "dates and times", "2025-07-14T06:39:05+02:00 60 42", "no position"},
		{"2", "versions", "v60.42.12 6.39.5", "no position"},
		{"2", "a price", "60,70 kroner and 6 months", "no pair"},
		{"2", "a drawing", `<path d="M60.7 6.6L12.1 33.9Z"/>`, "one decimal without marks"},
		{"2", "a year", "Rask 1987", "no number of hers"},
		{"2", "an accession", "Signe Rask, 1898-1207", "the last part of another number"},
		{"2", "an accession with letters", "acc. A12-3-1207, Signe Rask", "the last part of another number"},
		{"2", "two short words of an import", "herb. B. M., London", "a few letters stand anywhere"},
		{"2", "two common words of an import", "there is no section", "they stand anywhere"},
		{"2", "a number of a sheet", "LK7-0001207, Signe Rask", "another word"},
	} {
		if got := scanned(t, one(t, c.category), "page.html", []byte("<p>"+c.text+"</p>")); len(got) > 0 {
			t.Errorf("category %s, %s: %q is found as %s: %s", c.category, c.name, c.text, got[0].Field, c.reason)
		}
	}
}

// TestNoLeakInUUID: these were found for the point when their figures were read.
func TestNoLeakInUUID(t *testing.T) {
	v, load := ledgerOf(t, nil, gathering("Signe Rask", "1207", "14.vii.2025", "a", "41.45, -106.8083")+marked("1"))
	s, err := v.Secrets(context.Background(), load)
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range []string{"b5de1093-296d-5b91-aebb-355df4acf49a", "c71dcf49-6513-5870-ab79-23226ac4975d", "D1ECF59B-BE5C-5B27-A1D5-23AE819B4DFE"} {
		if got := scanned(t, s, "sheets.csv", []byte("urn:uuid:"+u+",x")); len(got) > 0 {
			t.Errorf("%s is found as %s", u, got[0].Field)
		}
	}
	if got := scanned(t, s, "sheets.csv", []byte("b5de1093-296d-5b91-aebb-355df4acf49a 41.45 -106.8083")); len(got) == 0 {
		t.Error("the position behind a UUID is not found")
	}
}

// TestLeakInContainers looks into archives, pictures and file names.
func TestLeakInContainers(t *testing.T) {
	secret := "the track to Gråsteinen"
	packed := func(name, text string) []byte {
		var b bytes.Buffer
		z := zip.NewWriter(&b)
		w, _ := z.Create(name)
		w.Write([]byte(text))
		z.Close()
		return b.Bytes()
	}
	utf16 := []byte{0xff, 0xfe}
	for _, r := range secret {
		utf16 = append(utf16, byte(r), byte(r>>8))
	}
	segment := func(kind byte, body string) []byte {
		return append([]byte{0xff, kind, byte((len(body) + 2) >> 8), byte(len(body) + 2)}, body...)
	}
	jpeg := append(append([]byte{0xff, 0xd8}, segment(0xfe, secret)...), 0xff, 0xda, 0, 2, 0xff, 0xd9)
	exif := append(append([]byte{0xff, 0xd8}, segment(0xe1, "Exif\x00\x00"+string(gpsTIFF(60, 42, 12, 6, 39, 5)))...), 0xff, 0xda, 0, 2, 0xff, 0xd9)
	chunk := func(kind, body string) []byte {
		b := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
		b = append(append(b, kind...), body...)
		return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE([]byte(kind+body)))
	}
	png := append([]byte("\x89PNG\r\n\x1a\n"), chunk("tEXt", "Comment\x00"+secret)...)
	long := []byte(strings.Repeat("nothing to see here at all\n", 90_000) + secret + "\n" + strings.Repeat("more of that\n", 90_000))
	for _, c := range []struct {
		name string
		data []byte
		file string
		line int
	}{
		{"a.zip", packed("data/sheets.csv", "a,b\n1,"+secret+"\n"), "a.zip!data/sheets.csv", 2},
		{"book.xlsx", packed("xl/sharedStrings.xml", "<t>"+secret+"</t>"), "book.xlsx!xl/sharedStrings.xml", 1},
		{"a.zip", packed("in.zip", string(packed("x.txt", secret))), "a.zip!in.zip!x.txt", 1},
		{"a.zip", packed("the-track-to-grasteinen.txt", ""), "a.zip", 1},
		{"a.jpg", jpeg, "a.jpg", 1},
		{"a.jpg", exif, "a.jpg", 1},
		{"a.png", png, "a.png", 1},
		{"b.txt", utf16, "b.txt", 1},
		{"long.csv", long, "long.csv", 90_001},
		{"places/the-track-to-grasteinen.html", nil, "places/the-track-to-grasteinen.html", 0},
	} {
		s := one(t, "2")
		got := scanned(t, s, c.name, c.data)
		if len(got) != 1 || got[0].File != c.file || got[0].Line != c.line {
			t.Errorf("%s: %+v, want %s line %d", c.name, got, c.file, c.line)
		}
		x := s.Scanner()
		if err := x.Scan(context.Background(), c.name, bytes.NewReader(c.data), int64(len(c.data))); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		if streamed, _ := x.Finish(context.Background()); len(streamed) != 1 || streamed[0] != got[0] {
			t.Errorf("%s: from memory %+v, streamed %+v", c.name, got, streamed)
		}
	}
	x := one(t, "2").Scanner()
	x.ScanBytes("broken.zip", packed("a", "b")[:30])
	if _, err := x.Finish(context.Background()); err == nil {
		t.Error("an archive that cannot be looked into is let through")
	}
}

// gpsTIFF is the least EXIF with a position.
func gpsTIFF(v ...uint32) []byte {
	b := []byte("MM\x00\x2a\x00\x00\x00\x08\x00\x01\x88\x25\x00\x04\x00\x00\x00\x01\x00\x00\x00\x1a\x00\x00\x00\x00")
	b = append(b, "\x00\x02\x00\x02\x00\x05\x00\x00\x00\x03\x00\x00\x00\x38\x00\x04\x00\x05\x00\x00\x00\x03\x00\x00\x00\x50\x00\x00\x00\x00"...)
	for _, x := range v {
		b = binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(b, x), 1)
	}
	return b
}

// TestLeakProperty: any position, withheld at 0.01 degree, is found in every
// form that is finer, and not found in the centre of its square.
func TestLeakProperty(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		lat := rapid.Float64Range(-79, 83).Draw(r, "lat")
		lon := rapid.Float64Range(-179, 179).Draw(r, "lon")
		lat, lon = math.Round(lat*1e6)/1e6, math.Round(lon*1e6)/1e6
		v, load := ledgerOf(t, nil, gathering("Signe Rask", "1", "1.i.2020", "x", fmt.Sprintf("%.6f, %.6f", lat, lon))+marked("3"))
		s, err := v.Secrets(context.Background(), load)
		if err != nil {
			r.Fatal(err)
		}
		cell := public.CellOf(lat, lon, 0, public.Medium)
		if got := s.Find([]byte(cell.Point())); len(got) > 0 {
			r.Errorf("the centre %s of %g, %g is found", cell.Point(), lat, lon)
		}
		if math.Abs(lat-cell.Lat) < 1e-3 || math.Abs(lon-cell.Lon) < 1e-3 || math.Abs(math.Abs(lat-cell.Lat)-0.005) < 1e-3 {
			return // a form may be the centre itself, or a line of the grid
		}
		d := rapid.IntRange(3, 7).Draw(r, "decimals")
		for _, text := range []string{
			fmt.Sprintf("%.*f, %.*f", d, lat, d, lon), fmt.Sprintf("[%.*f,%.*f]", d, lon, d, lat), cutAt(lat, d) + " " + cutAt(lon, d),
			dms(lat) + " " + dms(lon),
		} {
			if len(s.Find([]byte("at "+text+" by the way"))) == 0 {
				r.Errorf("%q is not found for %g, %g", text, lat, lon)
			}
		}
	})
}

func cutAt(v float64, decimals int) string {
	s := fmt.Sprintf("%.9f", v)
	return s[:len(s)-9+decimals]
}

func dms(v float64) string {
	sec := math.Round(math.Abs(v) * 3600)
	return fmt.Sprintf("%d°%02d'%02d\"", int(sec/3600), int(sec/60)%60, int(sec)%60)
}

// FuzzScan: no text makes the Scanner panic, hang or find what is not there
// when it holds no letter and no figure.
func FuzzScan(f *testing.F) {
	for _, s := range []string{"60°42'12\"N", "<a href=\"x\">&amp;deg;</a>", `\u00b`, "32V LN 71683 32151", "PK\x03\x04", "\xff\xd8\xff\xe1", "\x89PNG\r\n\x1a\n", "+604212+0063905", "60,70,6,65,", "%C3%", "60 42 12 "} {
		f.Add([]byte(s))
	}
	s := one(f, "1")
	f.Fuzz(func(t *testing.T, data []byte) {
		x := s.Scanner()
		x.ScanBytes("page.html", data)
		leaks, _ := x.Finish(context.Background())
		if len(leaks) > 0 && !bytes.ContainsAny(data, "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ") && !bytes.HasPrefix(data, []byte("\xff")) && !bytes.HasPrefix(data, []byte("\xfe")) {
			t.Errorf("%q: %+v", data, leaks)
		}
		if strings.Contains(string(data), "60.70333, 6.65139") && len(s.Find(data)) == 0 && !bytes.ContainsAny(data, "<&%\\") && bytes.Count(data, []byte("60.70333, 6.65139")) == bytes.Count(data, []byte(" 60.70333, 6.65139 ")) {
			t.Errorf("%q: a plain position is missed", data)
		}
	})
}
