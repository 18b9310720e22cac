package exchange

import (
	"slices"
	"strings"
	"unicode"

	"blotter/ledger"
)

// heading is what a column of that name usually holds. Darwin Core terms and
// everyday headings stand side by side; the first column that feeds a field
// keeps it.
type heading struct {
	field  string
	unit   string
	absent string
}

// headings by their letters and figures in lower case. Darwin Core terms as in
// the list of terms of 2026-05-26; the others are common practice, no source.
var headings = map[string]heading{
	"recordedby":                    {"collector", "", "unknown"},
	"collector":                     {"collector", "", "unknown"},
	"collectors":                    {"collector", "", "unknown"},
	"recordnumber":                  {"coll_no", "", "s.n."},
	"collectionnumber":              {"coll_no", "", "s.n."},
	"collectornumber":               {"coll_no", "", "s.n."},
	"collno":                        {"coll_no", "", "s.n."},
	"verbatimeventdate":             {"date", "", "s.d."},
	"eventdate":                     {"date", "", "s.d."},
	"date":                          {"date", "", "s.d."},
	"datecollected":                 {"date", "", "s.d."},
	"collectiondate":                {"date", "", "s.d."},
	"country":                       {"place.country", "", ""},
	"countrycode":                   {"place.country", "", ""},
	"stateprovince":                 {"place.province", "", ""},
	"state":                         {"place.province", "", ""},
	"province":                      {"place.province", "", ""},
	"county":                        {"place.district", "", ""},
	"district":                      {"place.district", "", ""},
	"municipality":                  {"place.district", "", ""},
	"verbatimlocality":              {"place.locality", "", "unknown"},
	"locality":                      {"place.locality", "", "unknown"},
	"location":                      {"place.locality", "", "unknown"},
	"verbatimcoordinates":           {"place.position", "", ""},
	"coordinates":                   {"place.position", "", ""},
	"position":                      {"place.position", "", ""},
	"geodeticdatum":                 {"place.datum", "", ""},
	"datum":                         {"place.datum", "", ""},
	"coordinateuncertaintyinmeters": {"place.uncertainty", "m", ""},
	"verbatimelevation":             {"place.elevation", "", ""},
	"minimumelevationinmeters":      {"place.elevation", "m", ""},
	"elevation":                     {"place.elevation", "m", ""},
	"elevm":                         {"place.elevation", "m", ""},
	"elevationm":                    {"place.elevation", "m", ""},
	"elevft":                        {"place.elevation", "ft", ""},
	"elevationft":                   {"place.elevation", "ft", ""},
	"habitat":                       {"habitat", "", ""},
	"substrate":                     {"substrate", "", ""},
	"associatedtaxa":                {"associates", "", ""},
	"associates":                    {"associates", "", ""},
	"association":                   {"associates", "", ""},
	"description":                   {"description", "", ""},
	"organismremarks":               {"description", "", ""},
	"catalognumber":                 {"further_numbers", "", ""},
	"othercatalognumbers":           {"further_numbers", "", ""},
	"family":                        {"family", "", ""},
	"occurrenceremarks":             {"remarks", "", ""},
	"remarks":                       {"remarks", "", ""},
	"notes":                         {"remarks", "", ""},
}

// latitudes pairs the heading of a latitude with that of its longitude.
var latitudes = map[string]string{"decimallatitude": "decimallongitude", "latitude": "longitude", "lat": "lon"}

// nameHeadings feed determinations, the words of the slip before others.
var nameHeadings = []string{"verbatimidentification", "verbatimscientificname", "scientificname", "names", "earliernames", "determinations", "determination", "identification", "taxon", "name", "species"}

// nothings are cells that say that nothing was recorded.
var nothings = []string{"NA", "N/A", "NULL", "MISSING", "-", "?", "[data not captured]", "NO DISPONIBLE"}

// Propose writes a first mapping from the headings and the cells of a table.
// It promises no more than a start: the rehearsal shows what it does.
func Propose(t *Table, f Format) *ledger.Mapping {
	m := &ledger.Mapping{}
	if f.Comma == '\t' {
		m.Format = leaf("tsv")
	}
	if !f.Quoted {
		m.Quotes = leaf("no")
	}
	for _, n := range nothings {
		if t.holds(n) {
			m.Nothing = append(m.Nothing, leaf(n))
		}
	}
	fed := map[string]bool{}
	byFold := map[string]string{}
	for _, h := range t.Heads {
		byFold[fold(h)] = h
	}
	for _, h := range t.Heads {
		proposeColumn(m, t, h, byFold, fed)
	}
	proposeOpinions(m, t, byFold)
	return m
}

// proposeColumn maps one heading to its usual field.
func proposeColumn(m *ledger.Mapping, t *Table, head string, byFold map[string]string, fed map[string]bool) {
	known := headings[fold(head)]
	c := ledger.Column{Column: leaf(head), Field: leaf(known.field), Unit: leaf(known.unit), Absent: leaf(known.absent)}
	if east, ok := byFold[latitudes[fold(head)]]; ok {
		c.Field, c.And = leaf("place.position"), leaf(east)
	}
	if !c.Field.Set() || fed[c.Field.Text] && c.Field.Text != "further_numbers" {
		return
	}
	fed[c.Field.Text] = true
	switch c.Field.Text {
	case "associates":
		c.Split = leaf(separator(t, head))
	case "date":
		c.Order = leaf(dateOrder(t, head))
	}
	m.Columns = append(m.Columns, c)
}

// proposeOpinions maps the column of names with its person and date.
func proposeOpinions(m *ledger.Mapping, t *Table, byFold map[string]string) {
	for _, h := range nameHeadings {
		head, ok := byFold[h]
		if !ok {
			continue
		}
		o := ledger.OpinionMap{Names: leaf(head), From: leaf("list"), ByCol: leaf(byFold["identifiedby"]), Dated: leaf(byFold["dateidentified"])}
		if strings.HasSuffix(h, "s") && h != "species" { // several in one cell
			o.Split = leaf(separator(t, head))
		}
		m.Opinions = append(m.Opinions, o)
		return
	}
}

// ProposeNumber takes the column whose cells mostly begin with the museum's own
// prefix for the number on the sheet, so that sheets which bear one are not
// given another.
func ProposeNumber(m *ledger.Mapping, t *Table, prefix string) {
	if prefix == "" {
		return
	}
	for i, head := range t.Heads {
		bearing := 0
		for _, r := range t.Rows {
			if n := ledger.Number(r.Cells[i]); n.Valid() && strings.HasPrefix(n.Key(), strings.ToLower(prefix)) {
				bearing++
			}
		}
		if 2*bearing > len(t.Rows) {
			m.Number = leaf(head)
			m.Columns = slices.DeleteFunc(m.Columns, func(c ledger.Column) bool { return c.Column.Text == head })
			return
		}
	}
}

// fold keeps the letters and figures of a heading, in lower case.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

// holds reports whether any cell is exactly the words.
func (t *Table) holds(words string) bool {
	return slices.ContainsFunc(t.Rows, func(r Row) bool { return slices.Contains(r.Cells, words) })
}

// separator is what parts the entries of a list column: the sign found in
// most cells.
func separator(t *Table, head string) string {
	at, best, most := t.Column(head), "", 0
	for _, sep := range []string{"|", ";", ","} {
		n := 0
		for _, r := range t.Rows {
			if strings.Contains(r.Cells[at], sep) {
				n++
			}
		}
		if n > most {
			best, most = sep, n
		}
	}
	return best
}

// dateOrder is the order of a column of dates in figures when its cells
// settle it: some cannot be read one way, none cannot be read the other.
func dateOrder(t *Table, head string) string {
	at := t.Column(head)
	dayFirst, monthFirst := 0, 0
	for _, r := range t.Rows {
		first, rest, ok := strings.Cut(r.Cells[at], "/")
		second, _, more := strings.Cut(rest, "/")
		if !ok || !more || len(first) > 2 || len(second) > 2 {
			continue
		}
		if second > "12" && len(second) == 2 {
			monthFirst++
		}
		if first > "12" && len(first) == 2 {
			dayFirst++
		}
	}
	switch {
	case monthFirst > 0 && dayFirst == 0:
		return "month-day"
	case dayFirst > 0 && monthFirst == 0:
		return "day-month"
	}
	return ""
}
