package places

import (
	"math"
	"strconv"
	"strings"
)

// ReadPosition reads a point as labels write it: latitude and longitude in
// any habit of marks, letters and words, ISO 6709, a geo: address, UTM, MGRS,
// the quarter-degree, British and Irish grids. It never returns an error: what
// cannot be read has Form Unread and a warning, or None set when the words say
// that there is none.
func ReadPosition(text string) Position {
	text = strings.TrimSpace(text)
	if n, ok := noneOf(text); ok {
		return Position{None: n}
	}
	if len(text) > maxText {
		return noPosition("position-unread", "too long for a position")
	}
	if sentinel(text) {
		return notKnown
	}
	text = plain(text)
	if p, ok := readCompact(text); ok {
		return p
	}
	whole := text
	text, uncertainty := cutUncertainty(text)
	text, datum := cutProjected(text)
	if datum == "" {
		text, datum = cutDatum(text)
	}
	if datum == "" {
		text, datum = cutDatumBefore(text)
	}
	p, ok := readGrid(text, datum, whole)
	if !ok {
		p = readDegrees(text)
	}
	if p.Datum == "" {
		p.Datum = datum
	}
	p.Uncertainty = uncertainty
	return p
}

// ReadPair reads latitude and longitude written apart. The place says which
// is which, unless letters do.
func ReadPair(lat, lon string) Position {
	lat, lon = strings.TrimSpace(lat), strings.TrimSpace(lon)
	for _, s := range [2]string{lat, lon} {
		if n, ok := noneOf(s); ok {
			return Position{None: n}
		}
		if sentinel(s) {
			return notKnown
		}
	}
	if len(lat)+len(lon) > maxText {
		return noPosition("position-unread", "too long for a position")
	}
	ta, bada := lex(plain(lat), true)
	tb, badb := lex(plain(lon), true)
	if bad := bada + badb; bad != "" {
		return notOurs(bad)
	}
	a, f := angleOf(trimDivide(ta))
	b := angle{}
	if f.why == "" {
		b, f = angleOf(trimDivide(tb))
	}
	if f.why != "" {
		return f.position()
	}
	return pair(a, b)
}

var notKnown = noPosition("position-unknown", "nothing but nines: what forms and machines write for a coordinate that is not known")

func (f fault) position() Position { return noPosition("position-unread", f.why) }

// notOurs says that a word is no part of a position.
func notOurs(bad string) Position {
	if meridians[strings.ToLower(bad)] {
		return noPosition("position-unread", "the longitude is counted from "+bad+", not from Greenwich: kept as written; a reading in degrees from Greenwich may stand beside it")
	}
	return noPosition("position-unread", "cannot read "+strconv.Quote(bad)+" as part of a position")
}

// readDegrees reads latitude and longitude.
func readDegrees(text string) Position {
	lonFirst := false
	if rest, ok := cutFold(text, "point"); ok && strings.HasPrefix(strings.TrimSpace(rest), "(") { // WKT: x y
		text, lonFirst = rest, true
	}
	rest, height, high := cutHeight(text)
	rest = commasAlone(rest)
	toks, bad := lex(rest, decimalCommas(rest))
	if bad != "" {
		return notOurs(bad)
	}
	if q, ok := readRunTogether(toks); ok {
		toks = q
	}
	a, b, f := halves(toks)
	if f.why != "" {
		return f.position()
	}
	if perhapsTownship(toks, a, b) {
		return noPosition("position-township", "may be a township and range of the United States' land survey, or whole degrees: write T10N R8W, or 10°N 8°W")
	}
	if lonFirst && a.side == unsaid && b.side == unsaid {
		a, b = b, a
	}
	p := pair(a, b)
	if high && p.Known() {
		p.Height, p.HasHeight = height, true
	}
	return p
}

// pair puts two angles together.
func pair(a, b angle) Position {
	if a.side == east && b.side != east || b.side == north && a.side != north {
		a, b = b, a
	}
	if a.side == east || b.side == north {
		return noPosition("position-unread", "both values are of the same axis")
	}
	p := Position{Lat: a.value, Lon: b.value, Step: max(a.step, b.step), Form: max(a.form, b.form)}
	if math.Abs(p.Lat) > 90 || math.Abs(p.Lon) > 180 {
		w := "latitude goes to 90° and longitude to 180°"
		if math.Abs(p.Lat) <= 180 && math.Abs(p.Lon) <= 90 {
			w += "; are the two swapped?"
		}
		return noPosition("position-range", w)
	}
	if p.Form > Decimal && !a.sided && !b.sided {
		return noPosition("position-no-side", "no N, S, E or W says on which side of the world; write them, or a reading beside the words")
	}
	p.warnOf(a, b)
	return p
}

// warnOf says what is doubtful in a position of two angles.
func (p *Position) warnOf(a, b angle) {
	switch {
	case a.sided && b.sided:
	case p.Form > Decimal || a.lettered != b.lettered:
		p.warn("position-no-side", "one value has no N, S, E or W: read as north or east")
	case a.marked && b.marked && !a.sided && !b.sided:
		p.warn("position-no-side", "no letter or sign says on which side of the world: read as north and east")
	}
	if a.letterO || b.letterO {
		p.warn("position-letter-o", "O is read as east (German, Scandinavian); in French, Spanish and Portuguese it is west: write E or W")
	}
	if a.twoSigns || b.twoSigns {
		p.warn("position-doubtful", "a minus sign and a letter both: read as saying the same, so that -33° S is 33° S; write one of them")
	}
	if a.unknown || b.unknown {
		p.warn("position-doubtful", "99 is no count of minutes or seconds: read as not known, in the middle of what it could be")
	}
	if p.Form == Decimal && !a.marked && !b.marked && a.decimals == 2 && b.decimals == 2 && a.lettered && b.lettered && minutesLike(a.value) && minutesLike(b.value) {
		p.warn("position-doubtful", "could be degrees and minutes typed with a point: read as decimal degrees")
	}
	if p.Lat == 0 && p.Lon == 0 {
		p.warn("position-zero", "0, 0 lies in the Gulf of Guinea and is what machines write when they know nothing")
	}
}

// minutesLike reports whether the decimals of v could be a count of minutes.
func minutesLike(v float64) bool {
	_, frac := math.Modf(math.Abs(v))
	return math.Round(frac*100) < 60
}

// indexFold is where a word in small letters stands in a text, in either case;
// -1: nowhere.
func indexFold(text, word string) int {
	for i := 0; i+len(word) <= len(text); i++ {
		if text[i]|0x20 == word[0] && strings.EqualFold(text[i:i+len(word)], word) {
			return i
		}
	}
	return -1
}

// cutFold takes a word from the start of a text, in either case.
func cutFold(text, word string) (rest string, ok bool) {
	if len(text) >= len(word) && strings.EqualFold(text[:len(word)], word) {
		return text[len(word):], true
	}
	return text, false
}

var (
	entities = strings.NewReplacer("&deg;", "°", "&#176;", "°", "&#xb0;", "°", "&prime;", "′", "&Prime;", "″", "&quot;", "\"", "&#39;", "'", "&apos;", "'", "&nbsp;", " ", "&#8242;", "′", "&#8243;", "″")
	mangled  = strings.NewReplacer("Â°", "°", "Âº", "º", "Â´", "´", "Â ", " ", "â€²", "′", "â€³", "″", "â€™", "’", "â€˜", "‘", "â€œ", "“", "â€\u009d", "”", "â€“", "–", "âˆ’", "−")
)

// plain undoes what machines do to marks: entities of HTML, UTF-8 taken for
// Latin-1, full-width letters and figures.
func plain(text string) string {
	if strings.Contains(text, "&") {
		text = entities.Replace(text)
	}
	if strings.Contains(text, "Â") || strings.Contains(text, "â") {
		text = mangled.Replace(text)
	}
	if strings.Contains(text, "\xef\xbc") || strings.Contains(text, "\xef\xbd") {
		text = strings.Map(func(r rune) rune {
			if r >= '！' && r <= '～' && r != '＇' && r != '＂' {
				return r - '！' + '!'
			}
			return r
		}, text)
	}
	return text
}
