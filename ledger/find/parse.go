package find

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"blotter/ledger/dates"
	"blotter/ledger/mids"
)

// Unread says why a query could not be read.
type Unread struct {
	Message string
	Field   string // the field name that is not known, "" when something else is wrong
}

func (u *Unread) Error() string { return u.Message }

func unread(format string, args ...any) error {
	return &Unread{Message: fmt.Sprintf(format, args...)}
}

// MaxQuery is the longest query that is read, in bytes.
const MaxQuery = 10_000

// Parse reads a query. known gives the full path of a field named in it, by
// its path or its last part; false for a name that is no field. The error is
// an *Unread.
func Parse(text string, known func(name string) (path string, ok bool)) (Query, error) {
	if len(text) > MaxQuery {
		return Query{}, unread("the query is longer than %d characters", MaxQuery)
	}
	if !utf8.ValidString(text) {
		return Query{}, unread("the query is not UTF-8 text")
	}
	tokens, err := split(text)
	if err != nil {
		return Query{}, err
	}
	var q Query
	not := false
	for i, tok := range tokens {
		if tok.bare() && tok.value == "not" {
			if not || i == len(tokens)-1 {
				return Query{}, unread(`"not" stands before what is not wanted: not place:Voss`)
			}
			not = true
			continue
		}
		t, err := tok.term(known)
		if err != nil {
			return Query{}, err
		}
		t.not = not
		not = false
		q.terms = append(q.terms, t)
	}
	return q, nil
}

// token is one piece of a query between blanks.
type token struct {
	field  string
	colon  bool // a field name stands before the value
	value  string
	quoted bool
}

func (t token) bare() bool { return !t.colon && !t.quoted }

// split cuts a query at blanks outside of quotes. Typographic quotes count as
// plain ones.
func split(text string) ([]token, error) {
	text = strings.NewReplacer("“", `"`, "”", `"`, "„", `"`).Replace(text)
	var tokens []token
	for {
		text = strings.TrimLeft(text, " \t\r\n")
		if text == "" {
			return tokens, nil
		}
		var t token
		end := strings.IndexAny(text, " \t\r\n\"")
		head := text
		if end >= 0 {
			head = text[:end]
		}
		if name, rest, ok := strings.Cut(head, ":"); ok && name != "" {
			t.field, t.colon = name, true
			t.value = rest
			text = text[len(name)+1:]
			end = strings.IndexAny(text, " \t\r\n\"")
		}
		switch {
		case end == 0 && text[0] == '"' || strings.HasPrefix(text, `"`):
			value, rest, closed := strings.Cut(text[1:], `"`)
			if !closed {
				return nil, unread("a quotation mark is not closed: %s", text)
			}
			t.value, t.quoted, text = value, true, rest
		case end < 0:
			t.value, text = text, ""
		default:
			t.value, text = text[:end], text[end:]
		}
		if t.value == "" && t.colon && !t.quoted {
			return nil, unread("%s: needs a value, for example %s:%s", t.field, t.field, exampleOf(t.field))
		}
		if t.value != "" || t.quoted && t.colon {
			tokens = append(tokens, t)
		}
	}
}

func exampleOf(field string) string {
	switch field {
	case "year":
		return "1980..1989"
	case "elevation":
		return "..300"
	case "mids":
		return "0..1"
	case "is":
		return "type"
	case "has", "lacks":
		return "habitat"
	}
	return "Voss"
}

// term reads one token.
func (t token) term(known func(string) (string, bool)) (term, error) {
	out := term{text: t.value}
	if !t.colon {
		out.words = foldWords(t.value)
		return out, nil
	}
	name := strings.ToLower(t.field)
	if isShort(name) {
		out.field = name
	} else if path, ok := known(name); ok {
		out.field = path
	} else {
		return out, &Unread{Message: fmt.Sprintf("no field is called %q", t.field), Field: name}
	}
	switch out.field {
	case "year":
		return out, out.readYears()
	case "date":
		return out, out.readDays()
	case "elevation":
		return out, out.readHeights()
	case "mids":
		return out, out.readLevels()
	case "is":
		return out, out.readState()
	case "has", "lacks":
		return out, out.readHas(known)
	}
	out.words = foldWords(t.value)
	return out, nil
}

// ends cuts a span at its dots; a single value is both ends.
func ends(text string) (from, to string) {
	from, to, ok := strings.Cut(text, "..")
	if !ok {
		return text, text
	}
	return strings.TrimSpace(from), strings.TrimSpace(to)
}

func (t *term) readYears() error {
	from, to := ends(t.text)
	t.onlyA, t.onlyB = from == "", to == ""
	a, errA := year(from, 0)
	b, errB := year(to, 9999)
	if errA != nil || errB != nil || a > b || t.onlyA && t.onlyB {
		return unread("year:%s is no year; write year:1987, year:1980..1989 or year:..1950", t.text)
	}
	t.first, t.last = dates.DayOf(a, 1, 1), dates.DayOf(b, 12, 31)
	return nil
}

func year(s string, open int) (int, error) {
	if s == "" {
		return open, nil
	}
	y, err := strconv.Atoi(s)
	if err == nil && (y < 0 || y > 9999) {
		err = strconv.ErrRange
	}
	return y, err
}

func (t *term) readDays() error {
	from, to := ends(t.text)
	t.onlyA, t.onlyB = from == "", to == ""
	t.first, t.last = math.MinInt32, math.MaxInt32
	for i, end := range []string{from, to} {
		if end == "" {
			continue
		}
		r := dates.Read(end, dates.OrderOf(""))
		if !r.Known() {
			return unread("date:%s is no date; write date:1987-07-14, date:1987-07 or date:1987-06..1987-08", t.text)
		}
		if i == 0 {
			t.first = r.First
		}
		if i == 1 {
			t.last = r.Last
		}
	}
	if t.onlyA && t.onlyB || t.first > t.last {
		return unread("date:%s is no span; the earlier day comes first", t.text)
	}
	return nil
}

func (t *term) readHeights() error {
	from, to := ends(t.text)
	t.lo, t.hi = math.Inf(-1), math.Inf(1)
	var err error
	if from != "" {
		t.lo, err = strconv.ParseFloat(strings.TrimSuffix(from, "m"), 64)
	}
	if to != "" && err == nil {
		t.hi, err = strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(to, "m")), 64)
	}
	if err != nil || from == "" && to == "" || !(t.lo <= t.hi) {
		return unread("elevation:%s is no height in metres; write elevation:300, elevation:200..400 or elevation:..300", t.text)
	}
	return nil
}

func (t *term) readLevels() error {
	from, to := ends(t.text)
	t.lo, t.hi = -1, 3
	for i, end := range []string{from, to} {
		if end == "" {
			continue
		}
		n, err := strconv.Atoi(end)
		if err != nil || n < -1 || n > 3 {
			return unread("mids:%s is no level of MIDS; write mids:1 or mids:0..1 (-1 is a sheet without even the lowest)", t.text)
		}
		if i == 0 {
			t.lo = float64(n)
		}
		if i == 1 {
			t.hi = float64(n)
		}
	}
	if from == "" && to == "" || t.lo > t.hi {
		return unread("mids:%s is no span; the lower level comes first", t.text)
	}
	return nil
}

func (t *term) readState() error {
	t.text = strings.ToLower(t.text)
	if slices.Contains(states, t.text) || isPlace(t.text) {
		return nil
	}
	return unread("is:%s is not known; it takes %s, or where the sheet is: %s", t.text, strings.Join(states, ", "), placeWords(", "))
}

func (t *term) readHas(known func(string) (string, bool)) error {
	name := strings.ToLower(t.text)
	if element, ok := strings.CutPrefix(name, "mids."); ok {
		for i := range mids.Elements {
			if strings.EqualFold(mids.Elements[i].Name, element) {
				t.text, t.element = "mids."+mids.Elements[i].Name, i+1
				return nil
			}
		}
		return unread("%s:%s: MIDS asks for no %q of plants; blotter report lists what it asks for", t.field, t.text, t.text[len("mids."):])
	}
	path, ok := known(name)
	if !ok {
		return &Unread{Message: fmt.Sprintf("%s:%s: no field is called %q", t.field, t.text, t.text), Field: name}
	}
	t.text = path
	return nil
}
