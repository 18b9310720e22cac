package exchange

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
)

// seriesOf takes the running number out of a heading: Det. by 2 is the second
// of what Det. by stands for; 0 when there is none.
func seriesOf(head string) (meaning, int) {
	digits := func(r rune) bool { return r >= '0' && r <= '9' }
	from := strings.IndexFunc(head, digits)
	if from < 0 {
		return meaning{}, 0
	}
	to := from + len(head[from:]) - len(strings.TrimLeftFunc(head[from:], digits))
	n, err := strconv.Atoi(head[from:to])
	if err != nil || n == 0 || n > 20 || strings.ContainsFunc(head[to:], digits) {
		return meaning{}, 0
	}
	m, ok := meaningOf(head[:from] + " " + head[to:])
	if !ok || m.is != asName && m.is != asBy && m.is != asNamed && m.is != asWhy {
		return meaning{}, 0
	}
	return m, n
}

// inSeries keeps a column of a numbered opinion: its name, person, date or
// grounds. A heading that means the person is the name where plants stand.
func (g *guesser) inSeries(c *ColumnProfile) bool {
	m, n := seriesOf(c.Head)
	if n == 0 || c.Filled == 0 {
		return false
	}
	if m.is == asBy && c.plants*2 >= c.Filled {
		m.is = asName
	}
	if g.series == nil {
		g.series = map[int]map[string]guess{}
	}
	if g.series[n] == nil {
		g.series[n] = map[string]guess{}
	}
	if _, twice := g.series[n][m.is]; twice {
		return false
	}
	g.series[n][m.is] = guess{c, m}
	return true
}

// numbered maps the numbered opinions in their order; false when the table has
// none.
func (g *guesser) numbered() bool {
	some := false
	for _, n := range slices.Sorted(maps.Keys(g.series)) {
		of := g.series[n]
		name, ok := of[asName]
		if !ok {
			continue
		}
		o := ledger.OpinionMap{Names: leaf(name.Head), From: leaf("list")}
		if c, ok := of[asBy]; ok {
			o.ByCol = leaf(c.Head)
		}
		if c, ok := of[asNamed]; ok {
			o.Dated = leaf(c.Head)
			o.Order = leaf(c.order())
		}
		if c, ok := of[asWhy]; ok {
			o.WhyCol = leaf(c.Head)
		}
		if !some {
			g.note(name.Head, "opinions in the order of their numbers, the first the oldest")
		}
		g.Mapping.Opinions = append(g.Mapping.Opinions, o)
		some = true
	}
	return some
}

// angleParts are headings of a part of a coordinate, folded, without what says
// latitude or longitude.
var angleParts = map[string]int{
	"deg": 0, "degree": 0, "degrees": 0, "d": 0, "grad": 0, "grader": 0, "g": 0, "degres": 0, "grados": 0,
	"min": 1, "minute": 1, "minutes": 1, "minuten": 1, "minutter": 1, "minutos": 1, "m": 1,
	"sec": 2, "second": 2, "seconds": 2, "s": 2, "sek": 2, "sekunden": 2, "sekunder": 2, "secondes": 2, "segundos": 2,
	"ns": 3, "ew": 3, "eo": 3, "ow": 3, "nsd": 3, "dir": 3, "direction": 3, "hemisphere": 3, "letter": 3, "himmelsrichtung": 3,
}

// angle tells which part of which coordinate a heading names: Lat deg, Long
// min, N/S.
func angle(head string) (long bool, part int, ok bool) {
	h := fold(head)
	switch h {
	case "ns", "northsouth":
		return false, 3, true
	case "ew", "eastwest", "ow", "eo":
		return true, 3, true
	}
	for _, x := range []struct {
		begins string
		long   bool
	}{{"latitude", false}, {"latitud", false}, {"lat", false}, {"breite", false}, {"bredde", false}, {"longitude", true}, {"longitud", true}, {"long", true}, {"lon", true}, {"lange", true}, {"laenge", true}, {"lengde", true}} {
		if rest, is := strings.CutPrefix(h, x.begins); is {
			part, ok = angleParts[rest]
			return x.long, part, ok
		}
	}
	return false, 0, false
}

// angles maps a position whose degrees, minutes, seconds and letters stand in
// columns of their own.
func (g *guesser) angles() {
	var parts [2][4]string
	for i := range g.profile.Columns {
		c := &g.profile.Columns[i]
		if long, part, ok := angle(c.Head); ok && c.Filled > 0 {
			at := 0
			if long {
				at = 1
			}
			parts[at][part] = c.Head
		}
	}
	if len(g.by["place.position"])+len(g.by[asLatitude]) > 0 || parts[0][0] == "" || parts[1][0] == "" {
		return
	}
	x := ledger.Column{Column: leaf(parts[0][0]), Field: leaf("place.position"), Join: leaf("blank")}
	for i, head := range slices.Concat(parts[0][:], parts[1][:]) {
		if head != "" && i > 0 {
			x.And = append(x.And, leaf(head))
		}
	}
	if parts[0][3] == "" || parts[1][3] == "" {
		g.note(parts[0][0], "no column says north or south, east or west; if the figures have no sign, the check will ask")
	}
	g.Mapping.Columns = append(g.Mapping.Columns, x)
}

// plainNumber takes a column headed No. for the collector's number, where
// another column numbers the sheets and none the gatherings.
func (g *guesser) plainNumber() {
	if g.own || len(g.by["coll_no"]) > 0 || len(g.by["collector"]) == 0 {
		return
	}
	for _, c := range g.by[asKey] {
		switch fold(c.Head) {
		case "no", "nr", "number", "nummer", "numero", "num", "n":
		default:
			continue
		}
		keyed := slices.ContainsFunc(g.Mapping.Key, func(l ledger.Leaf) bool { return l.Text == c.Head })
		if keyed || !g.Mapping.Number.Set() && len(g.Mapping.Key) == 0 {
			continue
		}
		g.note(c.Head, "taken for the collector's number, since another column numbers the sheets")
		g.field(c, "coll_no", true)
		return
	}
}
