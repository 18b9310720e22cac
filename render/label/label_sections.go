package label

import (
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

func itoa(n int) string { return strconv.Itoa(n) }

func (w *writer) nameLine() {
	w.put(content{part: "name", size: nameSize, row: nameRow, open: true, tight: true}, sentence{field: "determinations.name", runs: append(w.issuedNumber(), Name(w.shownName(), nameSize, nameUpright)...)})
}

// determination is who gave the name, when, and where they work.
func (w *writer) determination() {
	g := w.name.given
	if g == nil || !present(g.By) && !present(g.Date) {
		return
	}
	size := min(detSize, w.size)
	st := paper.Style{Size: size}
	word := w.lang.Det
	if g.Kind.Text == "conf" {
		word = w.lang.Conf
	}
	runs := []paper.Run{{Style: st, Text: word + " "}}
	for _, l := range []ledger.Leaf{g.By, g.At, g.Date} {
		if !l.Set() {
			continue
		}
		if len(runs) > 1 {
			runs = append(runs, paper.Run{Style: st, Text: ", "})
		}
		runs = append(runs, whole(l.Text, st, Measure-detIn)...)
	}
	ss := []sentence{{field: "determinations.by", runs: runs}}
	if w.name.as != "" && w.name.as != w.name.words {
		as := append([]paper.Run{{Style: st, Text: w.lang.As + " "}}, plant(w.name.as, st, Measure-detIn)...)
		ss = append(ss, sentence{field: "determinations.name", runs: as, sep: ", "})
	}
	w.put(content{part: "det", in: detIn, size: size, row: rowOf(size), open: true, tight: true}, ss...)
}

func (w *writer) place() {
	p := w.in.Record.Place
	var ss []sentence
	for _, l := range []struct {
		field string
		leaf  ledger.Leaf
	}{{"place.country", p.Country}, {"place.province", p.Province}, {"place.district", p.District}} {
		s := w.words(l.field, l.leaf)
		if len(s.runs) > 0 {
			if len(ss) > 0 {
				s.sep = w.lang.Colon() + " "
			}
			ss = append(ss, s)
		}
	}
	gap := 0.0
	if len(w.out) > 0 {
		gap = nameGap
	}
	locality := w.words("place.locality", p.Locality)
	if len(ss) > 0 {
		locality.sep = ". "
	}
	w.put(content{part: "place", gap: gap}, append(ss, locality)...)
}

// position is the position as written, its datum, how exact it is and how it
// was found; the elevation and how that was. What a person found later on a
// map is never printed as the collector's.
func (w *writer) position() {
	p := w.in.Record.Place
	var ss []sentence
	if present(p.Position) {
		ss = append(ss, sentence{field: "place.position", runs: whole(p.Position.Text, w.style, Measure)})
		comma := func(field, before string, l ledger.Leaf) {
			if present(l) {
				ss = append(ss, sentence{field: field, runs: whole(plusMinus(before, l.Text), w.style, Measure), sep: ", "})
			}
		}
		comma("place.datum", "", p.Datum)
		comma("place.uncertainty", "± ", p.Uncertainty)
		gps := "± "
		if present(p.Uncertainty) {
			gps = "GPS ± "
		}
		comma("place.gps_accuracy", gps, p.GPSAccuracy)
		w.foundBy(&ss, "place.position_by", p.PositionBy)
	}
	if present(p.Elevation) {
		ss = append(ss, sentence{field: "place.elevation", runs: whole(p.Elevation.Text, w.style, Measure)})
		w.foundBy(&ss, "place.elevation_by", p.ElevationBy)
	}
	w.put(content{part: "position"}, ss...)
}

// foundBy puts how a value was found into brackets behind it.
func (w *writer) foundBy(ss *[]sentence, field string, l ledger.Leaf) {
	if !present(l) {
		return
	}
	words := l.Text
	if t, ok := w.lang.ElevationBy[strings.ToLower(words)]; ok {
		words = t
	}
	*ss = append(*ss, sentence{field: field, runs: prose("("+words+")", w.style, Measure), sep: " "})
}

// plusMinus puts the sign before a bare measure; words that bring their own
// are left as they are.
func plusMinus(sign, text string) string {
	if sign == "" || !startsFigure(text) || strings.HasPrefix(text, "±") || strings.HasPrefix(text, "+") {
		return text
	}
	return sign + text
}

// origin tells of a plant that did not come there by itself.
func (w *writer) origin() {
	r := w.in.Record
	var ss []sentence
	word := map[string]string{"cultivated": w.lang.Cultivated, "escaped": w.lang.Escaped, "planted": w.lang.Planted}[r.Origin.Text]
	if word != "" {
		ss = append(ss, w.phrase("origin", word, ""))
	}
	garden := w.words("garden", r.Garden)
	if word != "" {
		garden.sep = ", "
		if endsWith(word, ".") {
			garden.sep = " "
		}
	}
	ss = append(ss, garden, w.after(w.lang.OriginFrom, "", w.words("source_place", r.SourcePlace)))
	w.put(content{part: "origin", gap: sectionGap}, ss...)
}

func (w *writer) habitat() {
	r := w.in.Record
	ss := []sentence{w.words("habitat", r.Habitat)}
	on := func(s sentence, text string) sentence {
		if low := strings.ToLower(text); strings.HasPrefix(low, strings.ToLower(w.lang.On)+" ") || strings.HasPrefix(low, "on ") {
			s.sep = ", "
			return s
		}
		return w.after(w.lang.On, ", ", s)
	}
	ss = append(ss, on(w.words("substrate", r.Substrate), r.Substrate.Text))
	if present(r.Host) {
		ss = append(ss, on(sentence{field: "host", runs: plant(r.Host.Text, w.style, Measure)}, r.Host.Text))
	}
	ss = append(ss, w.after(w.lang.Depth, ", ", w.words("depth", r.Depth)))
	var with []paper.Run
	for _, l := range r.Associates {
		if !present(l) {
			continue
		}
		if len(with) > 0 {
			with = append(with, paper.Run{Style: w.style, Text: ", "})
		}
		with = append(with, plant(l.Text, w.style, Measure)...)
	}
	ss = append(ss, w.after(w.lang.Associates, ", ", sentence{field: "associates", runs: with}))
	w.put(content{part: "habitat", gap: sectionGap}, ss...)
}

// plantSelf is what the dried plant no longer shows, and what it bears.
func (w *writer) plantSelf() {
	r := w.in.Record
	ss := []sentence{w.words("description", r.Description)}
	for i, l := range r.Phenology {
		s := w.fixed("phenology", l, w.lang.Phenology)
		if i > 0 {
			s.sep = ", "
		}
		ss = append(ss, s)
	}
	w.put(content{part: "plant", alone: "description", gap: w.subjectGap()}, ss...)
}

// subjectGap is the room above the plant: none below the habitat.
func (w *writer) subjectGap() float64 {
	if k := len(w.out) - 1; k >= 0 && w.out[k].part == "habitat" {
		return 0
	}
	return sectionGap
}

// fixed is a value in the language's words, or as written.
func (w *writer) fixed(field string, l ledger.Leaf, words map[string]string) sentence {
	if !present(l) {
		return sentence{}
	}
	if t, ok := words[strings.ToLower(l.Text)]; ok {
		return w.phrase(field, t, "")
	}
	return w.words(field, l)
}

func (w *writer) abundance() {
	r := w.in.Record
	seen := w.words("population", r.Population)
	if present(r.Population) && bareNumber(r.Population.Text) {
		seen.runs = whole(Fill(w.lang.PlantsSeen, r.Population.Text), w.style, Measure)
	}
	w.put(content{part: "plant", alone: "abundance", gap: w.subjectGap()}, w.fixed("abundance", r.Abundance, w.lang.Abundance), seen)
}

func (w *writer) remarks() {
	w.put(content{part: "plant", alone: "remarks", gap: w.subjectGap()}, w.words("remarks", w.in.Record.Remarks))
}

func (w *writer) formerHerbarium() {
	w.put(content{part: "provenance", alone: "former_herbarium", gap: sectionGap}, w.words("former_herbarium", w.in.Record.FormerHerb))
}

func (w *writer) exsiccata() {
	x := w.in.Record.Exsiccata
	number := w.after(w.lang.NumberWord, ", ", w.words("exsiccata.number", x.Number))
	number.fixed = false
	fascicle := w.words("exsiccata.fascicle", x.Fascicle)
	fascicle.sep = ", "
	w.put(content{part: "provenance", alone: "exsiccata", gap: sectionGap}, w.words("exsiccata.series", x.Series), fascicle, number)
}

func (w *writer) furtherNumbers() {
	var ss []sentence
	for i, l := range w.in.Record.FurtherNumbers {
		s := w.words("further_numbers", l)
		if i > 0 {
			s.sep = ", "
		}
		ss = append(ss, s)
	}
	w.put(content{part: "provenance", alone: "further_numbers", gap: sectionGap}, ss...)
}

func (w *writer) fieldbook() {
	b := w.in.Record.Fieldbook
	text := ""
	switch vol, page := present(b.Volume), present(b.Page); {
	case vol && page:
		text = Fill(w.lang.Fieldbook, b.Volume.Text, b.Page.Text)
	case vol:
		text = Fill(w.lang.FieldbookVol, b.Volume.Text)
	case page:
		text = Fill(w.lang.FieldbookPag, b.Page.Text)
	default:
		return
	}
	w.put(content{part: "provenance", alone: "fieldbook", gap: sectionGap}, w.phrase("fieldbook", text, ""))
}

// caution stands in a frame in the flow and is never left out, whatever the
// sections are. It says what the record says: what is only assumed from the
// age of a sheet is no fact to be glued on it.
func (w *writer) caution() {
	size := min(cautionSize, w.size)
	st := paper.Style{Size: size}
	var ss []sentence
	for _, c := range w.in.Reading.Cautions {
		if c.Assumed {
			continue
		}
		runs := prose(w.cautionWords(c), st, Measure-4*framePad)
		s := sentence{field: "cautions", runs: runs}
		if len(ss) == 0 {
			s.runs = append([]paper.Run{{Style: st, Text: w.lang.Caution + " "}}, runs...)
		} else {
			s.sep = w.lang.Semicolon() + " "
		}
		ss = append(ss, s)
	}
	w.put(content{part: "caution", gap: sectionGap, size: size, row: rowOf(size), framed: true, tight: true}, ss...)
}

func (w *writer) cautionWords(c reading.Caution) string {
	if t, ok := w.lang.Cautions[strings.ToLower(c.Words)]; ok {
		return t
	}
	return c.Words
}

func (w *writer) withheld() {
	st := paper.Style{Size: min(detSize, w.size)}
	w.put(content{part: "withheld", size: st.Size, row: rowOf(st.Size), open: true, tight: true}, sentence{field: "sensitive", runs: prose(w.lang.NotToBePublished, st, Measure)})
}
