package darwincore

import (
	"bytes"
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
)

// Homes are the fields that have a term or a row of their own, from which
// their words can be had again, and where. A field below one of them has its
// home there too. What else a record holds stands in dynamicProperties under
// its path, but for the fields of NotCarried.
var Homes = map[string]string{
	"specimen": "catalogNumber", "kept_as": "preparations", "parts": "ResourceRelationship",
	"collector": "recordedBy", "with": "recordedBy", "coll_no": "recordNumber", "date": "verbatimEventDate",
	"place.country": "country", "place.province": "stateProvince", "place.district": "county", "place.locality": "verbatimLocality",
	"place.position": "verbatimCoordinates", "place.datum": "verbatimSRS", "place.gps_accuracy": "MeasurementOrFact",
	"place.position_by": "georeferenceSources", "place.elevation": "verbatimElevation",
	"habitat": "habitat", "substrate": "MeasurementOrFact", "host": "associatedTaxa", "associates": "associatedTaxa", "depth": "verbatimDepth",
	"description": "organismRemarks", "phenology": "reproductiveCondition", "abundance": "organismQuantity", "population": "MeasurementOrFact", "taken": "MeasurementOrFact",
	"project": "projectTitle", "further_numbers": "otherCatalogNumbers", "determinations": "Identification",
	"duplicates": "ResourceRelationship", "same_gathering": "ResourceRelationship", "shares_sheet": "ResourceRelationship",
	"images": "Multimedia", "writings.text": "verbatimLabel", "remarks": "occurrenceRemarks",
}

// NotCarried are the fields that no archive carries, and why.
var NotCarried = []struct{ Path, Why string }{
	{"sic", "the ledger's own bookkeeping: which findings somebody let stand"},
	{"checked", "the ledger's own bookkeeping: who compared the record with the label"},
	{"images.checksum", "it is that of the museum's own file, which may hold more than the one that is published"},
	{"images.public", "the picture goes out under this name when it has one"},
	{"images.safe", "it says what may be published, and is settled when the archive is made"},
}

// homeOf is where a field has its home, by its path without numbers.
func homeOf(path string) (string, bool) {
	for p := path; ; {
		if h, ok := Homes[p]; ok {
			return h, true
		}
		i := strings.LastIndexByte(p, '.')
		if i < 0 {
			return "", false
		}
		p = p[:i]
	}
}

// Carried reports whether an archive carries a field, by its path as Flatten
// writes it.
func Carried(path string) bool { return !notCarried(withoutNumbers(path)) }

// notCarried reports whether a field, by its path without numbers, goes into
// no archive.
func notCarried(path string) bool {
	for _, n := range NotCarried {
		if path == n.Path || strings.HasPrefix(path, n.Path) && path[len(n.Path)] == '.' {
			return true
		}
	}
	return false
}

// dynamic are the fields without a home as one JSON object, in the order of
// the field table; "" when there are none.
func dynamic(s *Sheet) string {
	var b []byte
	for _, kv := range ledger.Flatten(s.Record) {
		if !s.isLeft(kv.Key) {
			continue
		}
		if b == nil {
			b = append(b, '{')
		} else {
			b = append(b, ',')
		}
		b = appendJSON(b, kv.Key)
		b = append(b, ':')
		b = appendJSON(b, kv.Value)
	}
	if b == nil {
		return ""
	}
	return string(append(b, '}'))
}

// isLeft reports whether a field of the record, by its path, has no home in
// this sheet's rows.
func (s *Sheet) isLeft(path string) bool {
	if strings.HasPrefix(path, "import.") {
		return true
	}
	plain := withoutNumbers(path)
	switch plain {
	case "entry":
		return s.Record.Entry.Text != string(ledger.Full)
	case "place.country":
		return s.Record.Read.Country.Is.Set() || isCountryCode(s.Record.Place.Country.Text)
	case "place.position_by":
		return s.Record.Read.Position.Is.Set()
	case "collector", "with":
		return len(s.Record.With) > 0 && !s.Record.Collector.Set() || ambiguous(append([]ledger.Leaf{s.Record.Collector}, s.Record.With...))
	case "phenology":
		return ambiguous(s.Record.Phenology)
	case "further_numbers":
		return ambiguous(s.Record.FurtherNumbers)
	case "images.licence":
		return s.partOfList(path, func(i int) bool { l := s.Record.Images[i].Licence.Text; return LicenceWords(LicenceAddress(l)) != l })
	case "writings.text":
		return ambiguousLabels(s.Record)
	}
	if notCarried(plain) {
		return false
	}
	switch list, key, _ := strings.Cut(plain, "."); list {
	case "determinations":
		if key == "why" || slices.Contains(OpinionKeys, key) {
			return s.partOfList(path, func(i int) bool { return ambiguousPack("why", opinionFields(&s.Record.Determinations[i]), OpinionKeys) })
		}
	case "parts":
		return s.partOfList(path, func(i int) bool {
			return ambiguousPack(relationRemarks, partFields(&s.Record.Parts[i]), RelationKeys)
		})
	case "duplicates":
		return key != "date" && s.partOfList(path, func(i int) bool {
			return ambiguousPack(relationRemarks, duplicateFields(&s.Record.Duplicates[i]), RelationKeys)
		})
	case "same_gathering":
		return ambiguousNumbers(s.Record.SameGathering)
	case "shares_sheet":
		return ambiguousNumbers(s.Record.SharesSheet)
	}
	_, home := homeOf(plain)
	return !home
}

// partOfList asks about the entry of a list that a path names.
func (s *Sheet) partOfList(path string, ask func(i int) bool) bool {
	parts := strings.Split(path, ".")
	n, err := strconv.Atoi(parts[1])
	return err == nil && n >= 1 && ask(n-1)
}

// fragile reports whether words may come out of a list otherwise than they
// went in.
func fragile(words string) bool {
	return strings.IndexByte(words, '|') >= 0 || strings.TrimSpace(words) != words
}

// ambiguous reports whether a list that Join makes one cell of cannot be taken
// apart again.
func ambiguous(list []ledger.Leaf) bool {
	for _, l := range list {
		if fragile(l.Text) {
			values := texts(list)
			return !slices.Equal(Split(Join(values)), values)
		}
	}
	return false
}

// ambiguousPack reports the same of fields that Pack makes one cell of.
func ambiguousPack(main string, fields []ledger.KV, keys []string) bool {
	for _, kv := range fields {
		if !fragile(kv.Value) {
			continue
		}
		back := map[string]string{}
		for _, x := range Unpack(main, Pack(main, fields), keys) {
			back[x.Key] = x.Value
		}
		said := 0
		for _, kv := range fields {
			if back[kv.Key] != kv.Value {
				return true
			}
			if kv.Value != "" {
				said++
			}
		}
		return len(back) != said
	}
	return false
}

func ambiguousNumbers(list []ledger.Leaf) bool {
	return slices.ContainsFunc(list, func(l ledger.Leaf) bool {
		return ambiguousPack(relationRemarks, []ledger.KV{{Key: relationRemarks, Value: l.Text}}, RelationKeys)
	})
}

// ambiguousLabels reports whether verbatimLabel cannot be taken apart again.
func ambiguousLabels(r *ledger.Record) bool {
	for i := range r.Writings {
		t := r.Writings[i].Text.Text
		if t == "" || strings.Contains(t, labelGap) || strings.HasPrefix(t, "\n") || strings.HasSuffix(t, "\n") {
			return true
		}
	}
	return false
}

// withoutNumbers is a path without the places in lists.
func withoutNumbers(path string) string {
	for i := 0; i+1 < len(path); i++ {
		if path[i] == '.' && path[i+1] >= '0' && path[i+1] <= '9' {
			parts := strings.Split(path, ".")
			out := parts[:0]
			for _, p := range parts {
				if strings.Trim(p, "0123456789") != "" {
					out = append(out, p)
				}
			}
			return strings.Join(out, ".")
		}
	}
	return path
}

// appendJSON appends a text as JSON has it.
func appendJSON(b []byte, s string) []byte {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c == '"' || c == '\\' || c >= 0x7f {
			return appendQuoted(b, s)
		}
	}
	return append(append(append(b, '"'), s...), '"')
}

func appendQuoted(b []byte, s string) []byte {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	if e.Encode(s) != nil { // no text makes an error
		return append(b, `""`...)
	}
	return append(b, bytes.TrimSuffix(out.Bytes(), []byte("\n"))...)
}
