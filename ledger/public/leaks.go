package public

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"iter"
	"slices"
	"sort"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

// Secrets is the withheld words of a ledger made ready to be looked for in
// whatever is about to become public. It may be asked by several goroutines.
//
// Words shorter than secretFloor, once folded, are not looked for, and neither
// are words that stand in the public part of the ledger as well: they tell
// nothing. So it is a net under the rules of this package, not the rules.
type Secrets struct {
	list    []secret
	byStart map[uint64][]int // places in list by the first eight bytes
}

type secret struct {
	folded string
	number ledger.Number // "" for a person's name
	field  string
}

// secretFloor is the least length in bytes, folded, of words looked for.
const secretFloor = 8

// Leak is one withheld text found in an output.
type Leak struct {
	File   string        // of the output; a member of an archive stands behind "!"
	Number ledger.Number // the record it is withheld for; "" for a person shown by initials
	Field  string
	Line   int // of the output, from 1
}

// secretFields are the fields whose words lead to the place or the gathering.
var secretFields = map[string]bool{
	"place.locality": true, "place.district": true, "place.position": true, "garden": true, "source_place": true,
	"writings.text": true, "read.position.is": true, "date": true, "remarks": true, "habitat": true,
}

// Secrets gathers what is withheld. load brings the full records; earlier, for
// whatever shows the history, brings former versions of withheld ones.
func (v *View) Secrets(ctx context.Context, load *book.Loader, earlier ...iter.Seq2[*ledger.Record, error]) (*Secrets, error) {
	var list []secret
	for _, versions := range earlier {
		for r, err := range versions {
			if err != nil {
				return nil, err
			}
			list = append(list, v.secretsOf(r, ledger.Number(r.Specimen.Text))...)
		}
	}
	for e := range v.full.All() {
		if !v.Hidden(e.Number) {
			continue
		}
		r, err := load.Record(ctx, e)
		if err != nil {
			return nil, err
		}
		list = append(list, v.secretsOf(r, e.Number)...)
	}
	for _, p := range v.initials.spoken {
		list = append(list, secret{fold(p.words, false), "", "people"})
	}
	for i := range v.full.Museum.People.All {
		if m := v.full.Museum.People.All[i].Email.Text; m != "" {
			list = append(list, secret{fold(m, false), "", "people.email"})
		}
	}
	return v.known(makeSecrets(list)), nil
}

// minHabitat is the least number of words by which a habitat tells one place
// from another: "hay meadow" may stand in any text.
const minHabitat = 4

// secretsOf is the withheld words of one version of a record.
func (v *View) secretsOf(r *ledger.Record, n ledger.Number) []secret {
	var list []secret
	for _, kv := range ledger.Flatten(r) {
		key := withoutNumbers(kv.Key)
		if !secretFields[key] {
			continue
		}
		for line := range strings.Lines(kv.Value) {
			if key == "habitat" && len(strings.Fields(line)) < minHabitat {
				continue
			}
			list = append(list, secret{fold(line, false), n, key})
		}
		if key == "place.position" || key == "read.position.is" {
			for _, s := range figures(places.ReadPosition(kv.Value)) {
				list = append(list, secret{fold(s, false), n, key})
			}
		}
	}
	if p := reading.Of(r, v.full.Museum.Conventions).Position; p.Shifted() {
		for _, s := range figures(places.Position{Lat: p.Lat, Lon: p.Lon, Form: places.Decimal, Step: p.Read.Step}) {
			list = append(list, secret{fold(s, false), n, "place.position"})
		}
	}
	if r.Collector.Set() && r.CollNo.Set() {
		list = append(list, secret{fold(r.Collector.Text+" "+r.CollNo.Text, false), n, "coll_no"})
	}
	return list
}

// figures are the ways in which a position may be written out as decimals.
func figures(p places.Position) []string {
	if !p.Known() {
		return nil
	}
	out := []string{p.String()}
	for decimals := 3; decimals <= 6; decimals++ {
		lat := strconv.FormatFloat(p.Lat, 'f', decimals, 64)
		lon := strconv.FormatFloat(p.Lon, 'f', decimals, 64)
		out = append(out, lat+" "+lon, lon+" "+lat)
		if decimals >= 5 {
			out = append(out, lat, lon)
		}
	}
	return out
}

// makeSecrets leaves out what is too short.
func makeSecrets(list []secret) *Secrets {
	slices.SortFunc(list, func(a, b secret) int {
		return cmp.Or(cmp.Compare(a.folded, b.folded), cmp.Compare(a.number, b.number), cmp.Compare(a.field, b.field))
	})
	s := &Secrets{byStart: map[uint64][]int{}}
	for i, x := range list {
		if len(x.folded) < secretFloor || i > 0 && list[i-1].folded == x.folded {
			continue
		}
		start := firstEight(x.folded)
		s.byStart[start] = append(s.byStart[start], len(s.list))
		s.list = append(s.list, x)
	}
	return s
}

// known leaves out of s what stands in the public entries.
func (v *View) known(s *Secrets) *Secrets {
	if len(s.list) == 0 {
		return s
	}
	public := map[int]bool{}
	for e := range v.Book.All() {
		for _, text := range []string{e.Country, e.Province, e.District, e.Locality, e.Date, e.Name, e.Collector} {
			s.scan(fold(text, false), func(i, _ int) bool { public[i] = true; return true })
		}
	}
	var left []secret
	for i, x := range s.list {
		if !public[i] || x.number == "" {
			left = append(left, x)
		}
	}
	return makeSecrets(left)
}

// Empty reports whether there is nothing to look for.
func (s *Secrets) Empty() bool { return len(s.list) == 0 }

// Key is a text that changes whenever the words looked for do.
func (s *Secrets) Key() string {
	h := sha256.New()
	for _, x := range s.list {
		h.Write([]byte(x.folded + "\n"))
	}
	return hex.EncodeToString(h.Sum(nil)[:12])
}

// Find looks for every secret in a text that is about to become public (a
// page in any form, a file of data); nil when there is none.
func (s *Secrets) Find(text []byte) []Leak {
	if len(s.list) == 0 {
		return nil
	}
	raw := string(text)
	folded := fold(raw, true)
	var out []Leak
	s.scan(folded, func(i, _ int) bool {
		out = append(out, Leak{Number: s.list[i].number, Field: s.list[i].field, Line: s.lineOf(raw, i)})
		return true
	})
	return out
}

// lineOf is the line of text at which secret i is complete.
func (s *Secrets) lineOf(text string, i int) int {
	ends := []int{}
	for line := range strings.Lines(text) {
		ends = append(ends, len(line))
		if n := len(ends); n > 1 {
			ends[n-1] += ends[n-2]
		}
	}
	want := " " + s.list[i].folded + " "
	n := sort.Search(len(ends), func(n int) bool { return strings.Contains(" "+fold(text[:ends[n]], true)+" ", want) })
	return min(n, max(len(ends)-1, 0)) + 1
}

// firstEight packs the first eight bytes of s, which has them.
func firstEight(s string) (v uint64) {
	for i := range secretFloor {
		v = v<<8 | uint64(s[i])
	}
	return v
}

// scan calls found for every secret that stands in folded as whole words.
func (s *Secrets) scan(folded string, found func(i, at int) bool) {
	for at := 0; at+secretFloor <= len(folded); {
		for _, i := range s.byStart[firstEight(folded[at:])] {
			w := s.list[i].folded
			if strings.HasPrefix(folded[at:], w) && (at+len(w) == len(folded) || folded[at+len(w)] == ' ') && !found(i, at) {
				return
			}
		}
		next := strings.IndexByte(folded[at:], ' ')
		if next < 0 {
			return
		}
		at += next + 1
	}
}
