package ledger

import (
	"path"
	"reflect"
	"strings"
)

// EditorLine is the first line of a record or a work: it tells an editor where
// the schema lies, as a path relative to the file's own folder.
func EditorLine(at string) string {
	up := strings.Repeat("../", strings.Count(path.Clean(at), "/"))
	if kind, _ := KindOf(at); kind == WorkFileKind {
		return editorMark + up + WorkSchema
	}
	return editorMark + up + SchemaFile
}

const editorMark = "# yaml-language-server: $schema="

// Encode writes a record in the canonical form (FORMAT.md, "Canonical form"):
// the editor line, then every field that has words, in the order of the field
// table. It is for new records and tests; a record that is in the ledger is
// changed by Edit, which leaves its writer's form alone. Positions in r do not
// matter. Decode of the result gives the same words.
func Encode(r *Record) []byte {
	at := r.Path
	if at == "" {
		at = Number(r.Specimen.Text).Path()
	}
	b := append([]byte(EditorLine(at)), '\n')
	return appendGroup(b, plans()[RecordKind], reflect.ValueOf(r).Elem(), "")
}

// EncodeMuseum, like Encode, writes blotter.yaml.
func EncodeMuseum(m *Museum) []byte {
	return appendGroup(nil, plans()[MuseumKind], reflect.ValueOf(m).Elem(), "")
}

// EncodePeople, like Encode, writes people.yaml.
func EncodePeople(p *People) []byte {
	return appendGroup(nil, plans()[PeopleKind], reflect.ValueOf(p).Elem(), "")
}

// EncodeNames, like Encode, writes one file of names/.
func EncodeNames(n *FamilyNames) []byte {
	return appendGroup(nil, plans()[NamesKind], reflect.ValueOf(n).Elem(), "")
}

// EncodeMapping, like Encode, writes a mapping for import.
func EncodeMapping(m *Mapping) []byte {
	return appendGroup(nil, plans()[MappingKind], reflect.ValueOf(m).Elem(), "")
}

// EncodePublic, like Encode, writes public.yaml.
func EncodePublic(p *Public) []byte {
	return appendGroup(nil, plans()[PublicKind], reflect.ValueOf(p).Elem(), "")
}

// EncodePlaces, like Encode, writes places.yaml.
func EncodePlaces(p *Places) []byte {
	return appendGroup(nil, plans()[PlacesKind], reflect.ValueOf(p).Elem(), "")
}

// appendGroup writes the fields of one group at an indent.
func appendGroup(b []byte, p *plan, v reflect.Value, indent string) []byte {
	for i := range p.fields {
		f := &p.fields[i]
		fv := v.Field(f.index)
		if !hasWords(f, fv) {
			continue
		}
		b = append(b, indent...)
		b = append(b, f.key...)
		b = append(b, ':')
		switch f.Kind {
		case Text:
			b = appendText(b, fv.Addr().Interface().(*Leaf).Text, indent)
		case Group:
			b = append(b, '\n')
			b = appendGroup(b, f.sub, fv, indent+"  ")
		case Texts:
			b = append(b, '\n')
			for _, l := range *fv.Addr().Interface().(*[]Leaf) {
				b = append(append(b, indent...), "  -"...)
				b = appendText(b, l.Text, indent+"  ")
			}
		case Entries:
			b = append(b, '\n')
			for k := range fv.Len() {
				b = appendEntry(b, f.sub, fv.Index(k), indent+"  ")
			}
		case Pairs:
			b = append(b, '\n')
			for _, pair := range *fv.Addr().Interface().(*[]Pair) {
				b = append(append(b, indent...), "  "...)
				b = append(append(b, quote(pair.Key, flowPlace)...), ':')
				b = appendText(b, pair.Value.Text, indent+"  ")
			}
		}
	}
	return b
}

// appendEntry writes one entry of a list: its first field stands beside the hyphen.
func appendEntry(b []byte, p *plan, v reflect.Value, indent string) []byte {
	body := appendGroup(nil, p, v, indent+"  ")
	if len(body) == 0 {
		return append(append(b, indent...), "- {}\n"...)
	}
	b = append(append(b, indent...), "- "...)
	return append(b, body[len(indent)+2:]...)
}

// appendText writes a blank, the words and the line's end.
func appendText(b []byte, s, indent string) []byte {
	if s == "" {
		return append(b, " \"\"\n"...)
	}
	b = append(b, ' ')
	if block(s) {
		return appendBlock(b, s, indent+"  ", "\n")
	}
	return append(append(b, quote(s, blockPlace)...), '\n')
}

// block reports whether words of several lines may stand as a literal block.
func block(s string) bool {
	body := strings.TrimRight(s, "\n")
	if !strings.Contains(body, "\n") || len(s)-len(body) > 1 || body[0] == ' ' || body[0] == '\n' {
		return false
	}
	for line := range strings.SplitSeq(body, "\n") {
		if !escapeFree(line) || strings.TrimRight(line, " ") != line {
			return false
		}
	}
	return true
}

// appendBlock writes words as a literal block: its sign, then its lines.
func appendBlock(b []byte, s, indent, eol string) []byte {
	body, ended := strings.CutSuffix(s, "\n")
	b = append(b, '|')
	if !ended {
		b = append(b, '-')
	}
	b = append(b, eol...)
	for line := range strings.SplitSeq(body, "\n") {
		if line != "" {
			b = append(append(b, indent...), line...)
		}
		b = append(b, eol...)
	}
	return b
}
