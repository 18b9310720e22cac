package public

import (
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

// runFields are the fields whose words are looked for in runs of four; true
// for those that name the place and nothing else.
var runFields = map[string]bool{
	"place.locality": true, "garden": true, "source_place": true,
	"writings.text": false, "remarks": false, "annotations.what": false, "import": false,
}

// wholeFields are those whose words are looked for line by line, each whole.
var wholeFields = map[string]bool{"place.district": true, "habitat": false}

const (
	minWhole = 8 // letters of the least text that is looked for whole
	// minHabitat is the least number of words by which a habitat tells one
	// place from another: "hay meadow" may stand in any text.
	minHabitat = 4
)

// gatherer collects the values of withheld records.
type gatherer struct {
	view   *View
	out    *Secrets
	seen   map[uint64]bool
	reader *reading.Reader
}

// present is what a withheld record has and shows today. What everybody may
// read in it today is no secret of its former versions, though its category
// was stricter then.
type present struct{ full, open map[string]string }

func (v *View) present(r *ledger.Record) present {
	shown, _ := v.Record(r)
	p := present{full: map[string]string{}, open: map[string]string{}}
	for _, kv := range ledger.Flatten(r) {
		p.full[kv.Key] = kv.Value
	}
	for _, kv := range ledger.Flatten(shown) {
		p.open[kv.Key] = kv.Value
	}
	return p
}

// shows reports whether everybody reads these words in this field today.
func (p present) shows(kv ledger.KV) bool {
	words, ok := p.open[kv.Key]
	return ok && words == kv.Value
}

// samePlace reports whether a version has the positions of today, which are
// looked for in all forms finer than today's square.
func (p present) samePlace(r *ledger.Record) bool {
	return p.full != nil && p.full["place.position"] == r.Place.Position.Text && p.full["read.position.is"] == r.Read.Position.Is.Text
}

// add keeps a value that is not kept yet and returns whether it did.
func (g *gatherer) add(v value) bool {
	if v.hash == 0 {
		v.hash = mix(runOf(v.words) ^ uint64(v.kind)<<56 ^ uint64(len(v.words)))
		if v.near != nil {
			v.hash = mix(v.hash ^ v.near.family)
		}
		if len(v.words) > runLength {
			for _, w := range v.words {
				v.hash = v.hash*runFactor + w
			}
		}
	}
	if g.seen[v.hash] {
		return false
	}
	g.seen[v.hash] = true
	g.out.values = append(g.out.values, v)
	return true
}

// record collects what one version of a record has and does not show; of a
// former version only what now does not show either.
func (g *gatherer) record(r *ledger.Record, n ledger.Number, now present) {
	shown, w := g.view.Record(r)
	if w == nil {
		return
	}
	if g.reader == nil {
		g.reader = reading.NewReader(g.view.full.Museum.Conventions)
	}
	d := g.reader.Of(r)
	if l := len(g.out.numbers); l == 0 || g.out.numbers[l-1] != n {
		g.out.numbers = append(g.out.numbers, n)
	}
	at := int32(len(g.out.numbers) - 1)
	open, told := map[string]string{}, map[uint64]bool{}
	for _, kv := range ledger.Flatten(shown) {
		open[kv.Key] = kv.Value
		for _, h := range hashesOf(kv.Value) {
			told[h] = true
		}
	}
	full := ledger.Flatten(r)
	days := map[string]bool{}
	for _, kv := range full {
		if kv.Key == "date" || strings.HasSuffix(kv.Key, ".date") && !strings.HasPrefix(kv.Key, "import.") {
			days[kv.Value] = true
		}
	}
	for _, kv := range full {
		if open[kv.Key] == kv.Value || now.shows(kv) {
			continue
		}
		key := withoutNumbers(kv.Key)
		if strings.HasPrefix(key, "import.") {
			if days[kv.Value] && strings.ContainsAny(kv.Value, "0123456789") && len(hashesOf(kv.Value)) <= 5 {
				continue // the imported words of a day of its own: a day alone tells no place
			}
			key = "import"
		}
		g.words(key, kv.Value, at, told)
		if key == "coll_no" {
			g.gatheringOf(r, d, at)
		}
		if (key == "place.position" || key == "read.position.is") && !now.samePlace(r) {
			g.unread(key, kv.Value, at, w.Class)
		}
	}
	if now.samePlace(r) {
		return
	}
	if open["place.position"] != r.Place.Position.Text || open["read.position.is"] != r.Read.Position.Is.Text {
		g.positions(r, d, at, w.Class)
	}
}

// words are the values of one field's words.
func (g *gatherer) words(field, text string, record int32, told map[uint64]bool) {
	place, runs := runFields[field]
	kind := otherWords
	if place || wholeFields[field] {
		kind = placeWords
	}
	if runs {
		ws := wordList(text)
		if len(ws) < runLength {
			g.whole(ws, text, kind, field, record, told)
			return
		}
		for i := 0; i+runLength <= len(ws); i++ {
			if telling(ws[i:i+runLength], told) {
				g.add(value{kind: kind, record: record, field: field, words: hashList(ws[i : i+runLength])})
			}
		}
		return
	}
	if _, ok := wholeFields[field]; !ok {
		return
	}
	for line := range strings.Lines(text) {
		ws := wordList(line)
		if field == "habitat" && len(ws) < minHabitat {
			continue
		}
		g.whole(ws, line, kind, field, record, told)
	}
}

// whole is a text that is looked for as it stands.
func (g *gatherer) whole(ws []aWord, text string, kind valueKind, field string, record int32, told map[uint64]bool) {
	if len(ws) == 0 || len(ws) > maxPhrase || len(strings.TrimSpace(text)) < minWhole && (len(ws) < 2 || kind == otherWords) || !telling(ws, told) {
		return
	}
	g.add(value{kind: kind, record: record, field: field, words: hashList(ws)})
}

// aWord is one word of a text.
type aWord struct {
	hash   uint64
	figure bool // has no letter
}

func wordList(text string) []aWord {
	var out []aWord
	b := []byte(text)
	wordsOf(b, func(h uint64, start, end int) {
		if h != 0 {
			out = append(out, aWord{h, strings.Trim(text[start:end], "0123456789") == ""})
		}
	})
	return out
}

func hashList(ws []aWord) []uint64 {
	out := make([]uint64, len(ws))
	for i := range ws {
		out[i] = ws[i].hash
	}
	return out
}

// telling reports whether words hold one by which they tell something: no
// figure, none that stands in any text about places, none that is shown with
// the record anyway.
func telling(ws []aWord, told map[uint64]bool) bool {
	common := commonWords()
	for _, w := range ws {
		if !w.figure && !common[w.hash] && !told[w.hash] {
			return true
		}
	}
	return false
}

// positions are the values of a record's positions.
func (g *gatherer) positions(r *ledger.Record, d *reading.Reading, record int32, c Class) {
	for _, p := range positionsOf(r, d) {
		x := pointOf(p.Lat, p.Lon, CellOf(p.Lat, p.Lon, 0, c))
		x.value = int32(len(g.out.values))
		if g.add(value{kind: position, record: record, field: "place.position", hash: hashPoint(x)}) {
			g.out.points = append(g.out.points, x)
		}
	}
}

// unread is a position whose figures are those of a grid of its own, or could
// not be read: its words are looked for whole.
func (g *gatherer) unread(field, text string, record int32, c Class) {
	p := places.ReadPosition(text)
	if p.Known() && p.Form != places.NationalGrid && p.Form != places.QuarterDegree || p.None != 0 {
		return
	}
	side := c.Degrees()
	if side == 0 {
		side = coarsest
	}
	if ws := wordList(text); len(ws) >= 2 && len(ws) <= maxPhrase && !(p.Known() && p.Step >= side) {
		g.add(value{kind: position, record: record, field: field, words: hashList(ws)})
	}
}

// people are the names of those who asked for initials, and addresses of mail.
func (g *gatherer) people(mails []string) {
	for _, p := range g.view.initials.spoken {
		if h := hashesOf(p.words); len(p.words) >= minWhole && len(h) <= maxPhrase {
			g.add(value{kind: person, record: -1, field: "people", words: h})
		}
	}
	all := g.view.full.Museum.People.All
	contact := strings.TrimSpace(g.view.full.Museum.Site.Contact.Text)
	for i := range all {
		mails = append(mails, all[i].Email.Text)
	}
	for _, m := range mails {
		if h := hashesOf(m); len(h) > 1 && len(h) <= maxPhrase && !strings.EqualFold(strings.TrimSpace(m), contact) {
			g.add(value{kind: mail, record: -1, field: "people.email", words: h})
		}
	}
}

// commonWords are words that stand in any text about places and plants and so
// tell none: small words, sides of the world, units, kinds of land, in the
// languages of most labels. From memory.
var commonWords = sync.OnceValue(func() map[uint64]bool {
	out := map[uint64]bool{}
	for _, h := range hashesOf(commonList) {
		out[h] = true
	}
	return out
})

const commonList = `
section a an and are as at be been between but by for from had has have he her his if in into is it its near no not of off on or over own
she so some than that the their them then there these they this to under until up upon very was we were where which while who with within without
about above across after along alongside among around before behind below beneath beside beyond close down inside opposite outside past through toward towards via
og i på ved av av til fra med for ikke som er var den det de en et ei om over under mellom nær langs bak foran ovenfor nedenfor ved siden
och i på vid av till från med för inte som är var den det en ett om över under mellan nära
ved af til fra mellem nær langs
und der die das dem den des ein eine einer eines im in am an auf bei bis von vom zu zum zur mit ohne über unter zwischen neben nahe
le la les un une des du de d l au aux et en dans sur sous entre près par pour avec sans vers
el la los las un una de del y en al por para con sin sobre bajo entre cerca
da do das dos e em no na nos nas com sem sobre sob entre perto
il lo gli di da del della dei delle e in al alla con su tra fra presso
ad ante apud circa cum ex et in inter prope pr sub supra versus
n s e w ne nw se sw nne ene ese sse ssw wsw wnw nnw north south east west northeast northwest southeast southwest northern southern eastern western
nord sør øst vest nordøst nordvest sørøst sørvest norr söder öster väster syd ost sud ouest est norte sur este oeste oriente
m km ft feet foot mi mile miles meter meters metre metres kilometer kilometers kilometre kilometres alt elev elevation altitude ca circa approx approximately about deg min sec lat long latitude longitude masl moh
bank banks beach bog bottom bridge coast edge farm field fields foot forest grass grassland gravel ground habitat heath hill hills hillside lake land loc locality margin
meadow meadows mountain mountains open pasture path place places plain plains pond ridge river riverbank road roadside rock rocks rocky sand sandy scrub sea shore side slope slopes soil
spring stream summit swamp top track trail valley water wet wood woodland woods dry moist damp high low upper lower old new small large great little
bakke bekk elv eng fjell gard gård jord kant li myr mark sjø skog skråning sti strand sand stein tjern topp vann vatn vei veg åker
common frequent rare scattered occasional abundant plant plants flower flowers growing collected coll leg det no nr number date herbarium specimen sheet label
known unknown recorded stated given noted none nothing
county district municipality parish province region state country town city village area
january february march april may june july august september october november december
`
