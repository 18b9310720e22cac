package waypoints

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

const walk = `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="device" xmlns="http://www.topografix.com/GPX/1/1">
  <metadata><name>a day</name><time>2025-06-02T00:00:00Z</time></metadata>
  <wpt lat="60.62841" lon="6.4188"><ele>47.2</ele><time>2025-06-02T09:12:00.5Z</time><name> OB
   88 </name><cmt>shore</cmt><desc>shore</desc><sym>Flag</sym><hdop>1.8</hdop>
    <extensions><x:name xmlns:x="y">not its name</x:name></extensions></wpt>
  <wpt lat="-33.5" lon="-70"><time>2025-06-02T11:30:00+02:00</time></wpt>
  <wpt lat="NaN" lon="6"/><wpt lat="91" lon="6"/><wpt lon="6"/>
  <rte><rtept lat="1" lon="1"><name>no waypoint</name></rtept></rte>
  <trk><trkseg><trkpt lat="1" lon="1"/></trkseg><trkseg><trkpt lat="1" lon="1"/></trkseg></trk>
</gpx>`

func TestRead(t *testing.T) {
	f, err := Read(strings.NewReader(walk))
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Points) != 2 || len(f.Faults) != 3 || f.Tracks != 1 || f.TrackPoints != 2 || f.Version != "1.1" || f.Creator != "device" {
		t.Fatalf("%+v", f)
	}
	p := f.Points[0]
	if p.Name != "OB 88" || p.Comment != "shore" || p.Lat != 60.62841 || p.Lon != 6.4188 || p.Decimals != 4 || p.Elevation != 47.2 || p.HDOP != 1.8 || p.Line != 4 ||
		!p.Time.Equal(time.Date(2025, 6, 2, 9, 12, 0, 5e8, time.UTC)) {
		t.Errorf("%+v", p)
	}
	if m, ok := p.Metres(); !ok || m != 9 {
		t.Errorf("%v m", m)
	}
	p = f.Points[1]
	if p.Name != "" || !math.IsNaN(p.Elevation) || p.Time.Hour() != 9 || p.Lat != -33.5 {
		t.Errorf("%+v", p)
	}
}

func TestReadRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, why string }{
		{"nothing", "", "no GPX"},
		{"a page", "<html/>", "no GPX"},
		{"another version", `<gpx version="2.0"/>`, "no GPX"},
		{"an entity of its own", `<!DOCTYPE gpx [<!ENTITY a "b">]><gpx version="1.1"/>`, "words of its own"},
		{"an entity nobody knows", `<gpx version="1.1"><wpt lat="1" lon="1"><name>&a;</name></wpt></gpx>`, "entity"},
		{"cut short", walk[:400], "EOF"},
		{"crossed", `<gpx version="1.1"><wpt lat="1" lon="1"></gpx></wpt>`, "other order"},
		{"too deep", `<gpx version="1.1">` + strings.Repeat("<a>", 100), "too deep"},
		{"an encoding nobody writes", `<?xml version="1.0" encoding="EBCDIC"?><gpx version="1.1"/>`, "EBCDIC"},
	} {
		if f, err := Read(strings.NewReader(c.text)); err == nil || !strings.Contains(err.Error(), c.why) || f != nil {
			t.Errorf("%s: %v, want %q", c.name, err, c.why)
		}
	}
	f, err := Read(strings.NewReader("<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><gpx version=\"1.0\"><wpt lat=\"1\" lon=\"1\"><name>M\xf8lster</name></wpt></gpx>"))
	if err != nil || f.Points[0].Name != "Mølster" {
		t.Errorf("Latin 1: %v", err)
	}
}

// TestWrittenAndRead: what is written out is read again the same.
func TestWrittenAndRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := math.Round(rapid.Float64Range(-90, 90).Draw(t, "lat")*1e5) / 1e5
		lon := math.Round(rapid.Float64Range(-180, 180).Draw(t, "lon")*1e5) / 1e5
		at := time.Unix(rapid.Int64Range(1e9, 2e9).Draw(t, "time"), 0).UTC()
		name := rapid.StringMatching(`[A-Z]{0,3} ?[0-9]{1,5}[a-z]?`).Draw(t, "name")
		text := fmt.Sprintf(`<gpx version="1.0"><wpt lat="%.5f" lon="%.5f"><time>%s</time><name>%s</name></wpt></gpx>`, lat, lon, at.Format(time.RFC3339), name)
		f, err := Read(strings.NewReader(text))
		if err != nil || len(f.Points) != 1 {
			t.Fatal(err)
		}
		if p := f.Points[0]; p.Lat != lat || p.Lon != lon || !p.Time.Equal(at) || p.Name != strings.TrimSpace(name) || p.Decimals != 5 {
			t.Fatalf("%+v of %s", p, text)
		}
	})
}

func FuzzRead(f *testing.F) {
	f.Add(walk)
	f.Add(`<gpx version="1.0"><wpt lat="1" lon="1"/></gpx>`)
	f.Fuzz(func(t *testing.T, text string) {
		x, err := Read(strings.NewReader(text))
		if (x == nil) == (err == nil) {
			t.Fatal("neither a file nor an error")
		}
		if err != nil {
			return
		}
		for _, p := range x.Points {
			if !(math.Abs(p.Lat) <= 90 && math.Abs(p.Lon) <= 180) {
				t.Fatalf("%+v", p)
			}
			LabelOf(p.Name)
		}
		Stops(x.Points, time.Hour, 100)
	})
}

func TestLabelOf(t *testing.T) {
	for _, c := range []struct {
		name, given, family string
		number              string // "" when it is none
		names               bool
	}{
		{"SR 1207", "Signe", "Rask", "1207", true},
		{"sr-1207a", "Signe", "Rask", "1207a", true},
		{"Rask 1207", "Signe", "Rask", "1207", true},
		{"S.R. no 1207", "Signe", "Rask", "1207", true},
		{"1207", "Signe", "Rask", "1207", true},
		{"034", "Signe", "Rask", "34", true},
		{"OB 1207", "Signe", "Rask", "1207", false},
		{"KM12", "Knut Olav", "Moldstad", "12", true},
		{"KOM12", "Knut Olav", "Moldstad", "12", true},
		{"ÅV 3", "Åse", "Vik", "3", true},
		{"boathouses", "", "", "", false},
		{"2025-06-02 09:12", "", "", "", false},
		{"", "", "", "", false},
	} {
		l, ok := LabelOf(c.name)
		if ok != (c.number != "") || l.Number != c.number {
			t.Errorf("%q: number %q, want %q", c.name, l.Number, c.number)
			continue
		}
		if ok && l.Names(c.given, c.family) != c.names {
			t.Errorf("%q is of %s %s: %v", c.name, c.given, c.family, !c.names)
		}
	}
}

func TestStops(t *testing.T) {
	at := func(minute int, lat float64) Point {
		return Point{Lat: lat, Lon: 6, Time: time.Date(2025, 6, 2, 9, minute, 0, 0, time.UTC)}
	}
	points := []Point{at(50, 60.1), at(0, 60), at(5, 60.0005), {Lat: 1}, at(8, 60.01)}
	got := Stops(points, 10*time.Minute, 100)
	if len(got) != 3 || len(got[0].Points) != 2 || got[0].Points[0] != 1 || math.Abs(got[0].Lat-60.00025) > 1e-9 || math.Round(got[0].Radius) != 28 {
		t.Errorf("%+v", got)
	}
	across := Stops([]Point{{Lat: 0, Lon: 179.9999, Time: points[0].Time}, {Lat: 0, Lon: -179.9999, Time: points[0].Time}}, time.Minute, 100)
	if len(across) != 1 || math.Abs(math.Abs(across[0].Lon)-180) > 1e-9 {
		t.Errorf("across the date line: %+v", across)
	}
}

func BenchmarkRead(b *testing.B) {
	var s strings.Builder
	s.WriteString(`<gpx version="1.1">`)
	const n = 10_000
	for i := range n {
		fmt.Fprintf(&s, `<wpt lat="60.%05d" lon="6.4188"><ele>47.2</ele><time>2025-06-02T09:12:00Z</time><name>SR %d</name></wpt>`, i, i)
	}
	s.WriteString("</gpx>")
	for b.Loop() {
		if _, err := Read(strings.NewReader(s.String())); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(n*b.N)/b.Elapsed().Seconds(), "waypoints/s")
}
