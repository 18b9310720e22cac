package places

import (
	"strings"

	"blotter/ledger/geodesy"
)

// OnWGS84 brings the position to WGS84. The datum is the one in the words of
// the position, else the one that datumWords name (the words of the record's
// datum); a national grid has its own. metres is the error that this brings in:
// the accuracy of the published shift; when no datum is stated, or none that
// is known (name is then ""), the greatest shift of the datums that are used
// at the place, or geodesy.UnknownDatum (see geodesy.UnknownDatumAt), and the
// point is left where the words have it.
func (p Position) OnWGS84(datumWords string) (lat, lon, metres float64, name string) {
	if !p.Known() {
		return 0, 0, 0, ""
	}
	words := p.Datum
	if words == "" {
		words = datumWords
	}
	lat, lon = p.Lat, p.Lon
	d, ok := geodesy.DatumOf(words)
	if !ok {
		metres, _ = geodesy.UnknownDatumAt(lat, lon)
		return lat, lon, metres, ""
	}
	if p.grid != nil {
		lat, lon = p.grid.on(d.Ellipsoid)
	}
	lat, lon, metres = d.ToWGS84(lat, lon)
	return lat, lon, metres, d.Name
}

// grid is where a point stands in a grid whose degrees depend on the ellipsoid
// of the datum.
type grid struct {
	utm  geodesy.UTM  // when Zone is not 0
	mgrs geodesy.MGRS // else
}

func (g *grid) on(e geodesy.Ellipsoid) (lat, lon float64) {
	if g.utm.Zone != 0 {
		return g.utm.On(e)
	}
	lat, lon, _ = g.mgrs.CentreOn(e)
	return lat, lon
}

// cutDatum takes the name of a datum from the end of a position, where it
// stands after a blank, a comma or a bracket and has a letter in it: the
// longest tail of at most five words that names one. A word such as "datum:"
// before it goes with it.
func cutDatum(text string) (rest, datum string) {
	if i := indexFold(text, "datum"); i > 0 {
		if _, none := noneOf(strings.Trim(text[i+len("datum"):], " :=.)]")); none {
			return strings.TrimRight(text[:i], " ,;:([\t"), ""
		}
	}
	trimmed := strings.TrimRight(text, " .)]")
	cut, name := -1, ""
	seen := 0
	for i := len(trimmed) - 1; i > 0 && seen < 6; i-- {
		c := trimmed[i]
		if c == '\'' || c == '"' || c == 0xB0 {
			break // a coordinate
		}
		if c != ' ' && c != ',' && c != ';' && c != '(' && c != '[' && c != ':' && c != '=' && c != '\t' {
			continue
		}
		seen++
		tail := strings.Trim(trimmed[i+1:], " ")
		if !hasLetter(tail) || strings.ContainsRune(tail, '/') {
			continue
		}
		if d, ok := geodesy.DatumOf(tail); ok && (len(tail) > 3 || d.WGS84()) {
			cut, name = i, d.Name
		}
	}
	if cut < 0 {
		return text, ""
	}
	rest = strings.TrimRight(trimmed[:cut], " ,;:=([\t")
	if i := strings.LastIndexAny(rest, " ,;(["); i >= 0 && datumLabels[strings.ToLower(strings.Trim(rest[i+1:], " :."))] {
		rest = strings.TrimRight(rest[:i], " ,;:([")
	}
	return rest, name
}

// cutDatumBefore takes the name of a datum from the start of a position: WGS84
// UTM 32V 372000 6732000.
func cutDatumBefore(text string) (rest, datum string) {
	if text == "" || text[0]|0x20 < 'a' || text[0]|0x20 > 'z' {
		return text, ""
	}
	for i, seen := 1, 0; i < len(text) && seen < 5; i++ {
		c := text[i]
		if c == '\'' || c == '"' || c == 0xB0 {
			break
		}
		if c == ' ' || c == ',' || c == ':' || c == ';' || c == '/' {
			seen++
			if name := text[:i]; len(name) > 3 {
				if d, ok := geodesy.DatumOf(name); ok && (isDigit(name[i-1]) || len(name) > 12) {
					rest, datum = strings.TrimLeft(text[i:], " ,:;/"), d.Name
				}
			}
		}
	}
	if datum == "" {
		return text, ""
	}
	return rest, datum
}

// cutDatumInside takes the name of a datum, of one to three words with a figure
// in them, from the middle of a grid reference: UTM Z11 NAD 27 478920E 4036120N.
func cutDatumInside(text string) (rest, datum string) {
	words := strings.Fields(text)
	for i := 1; i < len(words)-1; i++ {
		if !hasLetter(words[i]) {
			continue
		}
		for n := min(3, len(words)-1-i); n > 0; n-- {
			name := strings.Trim(strings.Join(words[i:i+n], " "), " ,;:()")
			if name == "" || !isDigit(name[len(name)-1]) {
				continue
			}
			if d, ok := geodesy.DatumOf(name); ok {
				return strings.Join(words[:i], " ") + " " + strings.Join(words[i+n:], " "), d.Name
			}
		}
	}
	return text, ""
}

// datumLabels are words that announce a datum.
var datumLabels = map[string]bool{"datum": true, "crs": true, "srs": true, "geodetic": true, "map": true, "datum:": true, "kartdatum": true, "datum=": true}

func hasLetter(s string) bool {
	for _, r := range s {
		if r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
			return true
		}
	}
	return false
}
