package places

import (
	"math"
	"regexp"
	"strings"
	"sync"

	"blotter/ledger/geodesy"
)

// readGrid reads a reference in a grid; false when text is none. datum is the
// one in the same words, "" for none; whole has it still.
func readGrid(text, datum, whole string) (Position, bool) {
	if p, ok := readSquareOrCell(text, datum); ok {
		return p, true
	}
	if !gridWords(whole) && !longFigure(whole) {
		return Position{}, false
	}
	if t, ok := readTownship(text); ok {
		p := noPosition("position-township", "township and range ("+t.String()+"): kept as written, not solved into degrees")
		p.Township = &t
		return p, true
	}
	p, ok := readUTM(text, datum)
	if !ok && datum == "" {
		if rest, inside := cutDatumInside(text); inside != "" {
			p, ok = readUTM(rest, inside)
			p.Datum = inside
		}
	}
	if rest, height, high := cutHeight(text); !ok && high {
		p, ok = readUTM(rest, datum)
		p.Height, p.HasHeight = height, true
	}
	if ok {
		return p, true
	}
	if name := otherGrid(whole); name != "" {
		return noPosition("position-grid", name+": kept as written, not read into degrees"), true
	}
	if indexFold(text, "utm") >= 0 {
		return notUTM, true
	}
	return Position{}, false
}

var notUTM = noPosition("position-grid", "UTM: cannot be read; for example 32V 372000 6732000")

// gridWords reports whether a word of text could belong to a grid: UTM, zone,
// T12N, RT90.
func gridWords(text string) bool { return strings.ContainsAny(text, "TtZzKkFfHhGgQq") }

// longFigure reports whether six figures or more stand together, with or
// without marks of thousands, not after a decimal sign.
func longFigure(text string) bool {
	run, decimal := 0, false
	for i := range len(text) {
		switch c := text[i]; {
		case isDigit(c):
			if run++; run >= 6 && !decimal {
				return true
			}
		case (c == ',' || c == ' ') && run > 0 && run <= 3 && !decimal && thousandsAt(text, i+1):
		default:
			decimal = run > 0 && (c == '.' || c == ',')
			run = 0
		}
	}
	return false
}

// thousandsAt reports whether exactly three figures stand at i and no degree
// mark or letter beyond E, N, m after them.
func thousandsAt(text string, i int) bool {
	if !groupAt(text, i) {
		return false
	}
	rest := text[i+3:]
	return rest == "" || strings.IndexByte(" ,EeNnMm;", rest[0]) >= 0
}

// namedGrid is a grid that is recognised and not read.
type namedGrid struct {
	hints string // one of these words, in small letters, stands in every such text
	form  *regexp.Regexp
	name  string
}

// otherGrids are made on first use; all but the last two need a figure of
// metres.
var otherGrids = sync.OnceValue(func() []namedGrid {
	return []namedGrid{
		{"rt rikets", regexp.MustCompile(`(?i)\bRT ?90\b|\bRT ?38\b|\bRikets (nät|net)`), "a reference of the Swedish grid (RT 90)"},
		{"ch lv cn koord", regexp.MustCompile(`(?i)\bCH ?1903|\bLV ?(03|95)\b|\bCN \d{3}|Koord(\.|inaten)? ?\d{3}[ .']?\d{3} ?/ ?\d{3}`), "a reference of the Swiss grid"},
		{"gau h", regexp.MustCompile(`(?i)\bG(auss|auß)[- ]?Kr|\bR(echts(wert)?)? ?[:=]? ?\d{7}\b.*\bH(och(wert)?)? ?[:=]? ?\d{7}\b`), "a reference in Gauss-Krüger stripes"},
		{"lambert lb", regexp.MustCompile(`(?i)\bLambert\b|\bLB ?72\b`), "a reference in a Lambert projection"},
		{"nz", regexp.MustCompile(`(?i)\bNZ(MG|TM)\b`), "a reference of the New Zealand grid"},
		{"mtb tk mess", regexp.MustCompile(`(?i)\bMTB\b|\bTK ?25\b|\bMesstischblatt\b`), "a sheet of the German 1:25 000 map"},
		{"ups", regexp.MustCompile(`(?i)\bUPS\b`), "a reference of the polar grid (UPS)"},
	}
})

func otherGrid(text string) string {
	metres, all := longFigure(text), otherGrids()
	for i, g := range all {
		if (metres || i >= len(all)-2) && g.hinted(text) && g.form.MatchString(text) {
			return g.name
		}
	}
	return ""
}

func (g namedGrid) hinted(text string) bool {
	for h := range strings.FieldsSeq(g.hints) {
		if indexFold(text, h) >= 0 {
			return true
		}
	}
	return false
}

// readSquareOrCell reads a short reference of letters and figures: MGRS,
// the British and Irish grids, the quarter-degree grid.
func readSquareOrCell(text, datum string) (Position, bool) {
	if len(text) > 40 || !squareLike(text) {
		return Position{}, false
	}
	s := gridName.Replace(text)
	s = blanks.Replace(s)
	if c, ok := geodesy.ReadCell(s); ok && c.Letters != "" { // without letters: E 32°, S 18°
		return cellPosition(c), true
	}
	if q, ok := geodesy.ReadSquare(s); ok {
		p := Position{Lat: q.Latitude, Lon: q.Longitude, Form: NationalGrid, Datum: q.Datum, Cell: q.Side * math.Sqrt2 / 2, Step: q.Side / metresPerDegree}
		p.warn("position-doubtful", "read as a square of the "+q.Name+"; if the letters belong to a military grid whose zone is left out, write the zone")
		return p, true
	}
	switch kindOfSquare(s) {
	case fullMGRS, polarMGRS:
		return mgrsPosition(s, datum), true
	case zonelessMGRS:
		return noPosition("position-grid", "the letters and figures of a military grid (MGRS) without zone and band, for example 32V before them: not read"), true
	}
	return Position{}, false
}

var blanks = strings.NewReplacer(",", " ", ";", " ", "-", " ", "/", " ")

var gridName = strings.NewReplacer("MGRS", "", "mgrs", "", "UTM", "", "utm", "", "QDGC", "", "QDS", "", "qdgc", "", "qds", "", ":", " ", ".", " ", "(", " ", ")", " ")

// squareLike reports whether s is letters, figures and blanks only, at least
// two letters together or an old quarter-degree cell.
func squareLike(s string) bool {
	letters, together := 0, false
	for i := range len(s) {
		c := s[i] | 0x20
		switch {
		case c >= 'a' && c <= 'z':
			if letters++; letters > 10 {
				return false
			}
			together = together || i > 0 && s[i-1]|0x20 >= 'a' && s[i-1]|0x20 <= 'z'
		case isDigit(s[i]), strings.IndexByte(" ,;-/:.()", s[i]) >= 0:
		default:
			return false
		}
	}
	return letters > 0 && (together || letters <= 3)
}

type squareKind int

const (
	noSquare squareKind = iota
	fullMGRS
	zonelessMGRS
	polarMGRS
)

// kindOfSquare says what kind of military reference the shape of s is: zone,
// three letters and figures; two letters and four to ten figures; a polar one.
func kindOfSquare(s string) squareKind {
	c := strings.ToUpper(strings.Join(strings.Fields(s), ""))
	i := 0
	for i < len(c) && isDigit(c[i]) {
		i++
	}
	j := i
	for j < len(c) && c[j] >= 'A' && c[j] <= 'Z' {
		j++
	}
	figures := len(c) - j
	for k := j; k < len(c); k++ {
		if !isDigit(c[k]) {
			return noSquare
		}
	}
	switch letters := j - i; {
	case (i == 1 || i == 2) && letters == 3:
		return fullMGRS
	case i == 0 && letters == 2 && figures >= 4 && figures%2 == 0 && figures <= 10:
		return zonelessMGRS
	case i == 0 && letters == 3 && strings.IndexByte("ABYZ", c[0]) >= 0 && figures >= 2:
		return polarMGRS
	}
	return noSquare
}

func mgrsPosition(s, datum string) Position {
	m, err := geodesy.ReadMGRS(s)
	if err != nil {
		_, why, _ := strings.Cut(err.Error(), "\": ")
		return noPosition("position-grid", "MGRS: "+why)
	}
	g := &grid{mgrs: m}
	p := Position{Form: MGRS, Cell: m.HalfDiagonal(), Step: m.Side() / metresPerDegree, grid: g}
	p.Lat, p.Lon = g.on(ellipsoidOf(datum))
	return p
}

// ellipsoidOf is the ellipsoid of a datum by its name, that of WGS84 when
// there is none.
func ellipsoidOf(datum string) geodesy.Ellipsoid {
	if d, ok := geodesy.DatumOf(datum); ok {
		return d.Ellipsoid
	}
	return geodesy.WGS84Ellipsoid
}

func cellPosition(c geodesy.Cell) Position {
	p := Position{Form: QuarterDegree, Step: c.Size}
	p.Lat, p.Lon, p.Cell = c.Centre()
	if c.Old {
		p.warn("position-doubtful", "read as "+c.String()+": south latitude first, then east longitude, as in southern Africa")
	}
	return p
}
