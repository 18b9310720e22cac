package ledger

import (
	"bytes"
	"encoding/json"
	"strings"
)

// Schema is the JSON Schema (2020-12) of a record, made from the field table.
// It has the structure only: names, kinds, required fields, lists of words,
// shapes of one value. Decode has a finding of a structural rule exactly when
// the record, each scalar taken as text, breaks the schema.
func Schema() []byte { return SchemaOf(RecordKind) }

// SchemaOf is the schema of one kind of file.
func SchemaOf(kind FileKind) []byte {
	root := object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"title", "Blotter " + kind.String() + ", format " + FormatVersion},
	}
	root = append(root, groupSchema(plans()[kind])...)
	if kind == RecordKind {
		root = append(root, pair{"if", object{{"properties", object{{"entry", object{{"const", string(Full)}}}}}, {"required", []string{"entry"}}}})
		root = append(root, pair{"then", fullSchema(plans()[kind])})
	}
	b, err := json.Marshal(root)
	if err != nil {
		panic(err) // the table holds nothing but words
	}
	var out bytes.Buffer
	if err := json.Indent(&out, b, "", "  "); err != nil {
		panic(err)
	}
	out.WriteByte('\n')
	return out.Bytes()
}

// object is a JSON object whose keys keep their order.
type object []pair

type pair struct {
	key string
	val any
}

func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, p := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		for k, v := range []any{p.key, p.val} {
			if k > 0 {
				b.WriteByte(':')
			}
			e := json.NewEncoder(&b)
			e.SetEscapeHTML(false)
			if err := e.Encode(v); err != nil {
				return nil, err
			}
			b.Truncate(b.Len() - 1) // Encode ends with a newline
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

var (
	nothing   = object{{"type", []string{"string", "null"}}, {"maxLength", 0}}
	someWords = object{{"type", wordTypes}, {"minLength", 1}}
)

// wordTypes are what an editor takes words for: a whole number may stand
// without quotes. Our own tests feed every leaf as words.
var (
	wordTypes   = []string{"string", "integer"}
	wordOrEmpty = []string{"string", "integer", "null"}
)

// groupSchema is the schema of a group, without its own description.
func groupSchema(p *plan) object {
	var props object
	required := []string{}
	for i := range p.fields {
		f := &p.fields[i]
		props = append(props, pair{f.key, fieldSchema(f)})
		if f.Need == Required {
			required = append(required, f.key)
		}
	}
	return object{{"type", "object"}, {"properties", props}, {"required", required}, {"additionalProperties", false}}
}

func fieldSchema(f *planField) object {
	s := object{{"description", description(f.Field)}}
	if f.Example != "" && f.Kind == Text {
		s = append(s, pair{"examples", []string{f.Example}})
	}
	switch f.Kind {
	case Text:
		if f.Need == Required {
			return append(s, requiredWords(f)...)
		}
		return append(s, optionalWords(f)...)
	case Texts:
		items := object{{"type", wordTypes}}
		if f.Enum != nil {
			items = object{{"anyOf", []object{{{"enum", f.Enum}}, {{"type", wordTypes}}}}}
		}
		if f.Need == Required {
			return append(s, pair{"type", "array"}, pair{"minItems", 1}, pair{"items", items})
		}
		return append(s, pair{"type", []string{"array", "null"}}, pair{"items", items})
	case Entries:
		return append(s, pair{"type", []string{"array", "null"}}, pair{"items", groupSchema(f.sub)})
	case Pairs:
		return append(s, pair{"type", []string{"object", "null"}}, pair{"additionalProperties", object{{"type", wordOrEmpty}}})
	}
	group := groupSchema(f.sub)
	group[0].val = []string{"object", "null"}
	return append(s, group...)
}

// requiredWords is the schema of words that may not be left out.
func requiredWords(f *planField) object {
	switch {
	case f.Path == "specimen":
		return append(someWords[:2:2], pair{"allOf", []object{
			{{"pattern", f.Shape}},
			{{"not", object{{"pattern", `\.$|\.\.`}}}},
			{{"not", object{{"pattern", devicePattern}}}},
		}})
	case f.Path == "format":
		return object{{"const", FormatVersion}}
	case f.Enum != nil && !f.Open:
		return object{{"enum", f.Enum}}
	case f.Enum != nil:
		return object{{"anyOf", []object{{{"enum", f.Enum}}, someWords}}}
	case f.Shape != "":
		return append(someWords[:2:2], pair{"pattern", f.Shape})
	}
	return someWords
}

// devicePattern is deviceNames without the flag, which other readers of
// regular expressions do not have.
var devicePattern = func() string {
	var b strings.Builder
	for _, r := range `^(con|prn|aux|nul|com[1-9]|lpt[1-9])(\.|$)` {
		if r >= 'a' && r <= 'z' {
			b.WriteString("[" + strings.ToUpper(string(r)) + string(r) + "]")
			continue
		}
		b.WriteRune(r)
	}
	return b.String()
}()

// optionalWords is the schema of words that may be empty or missing.
func optionalWords(f *planField) object {
	switch {
	case f.Enum != nil && !f.Open:
		return object{{"anyOf", []object{{{"enum", f.Enum}}, nothing}}}
	case f.Enum != nil:
		return object{{"anyOf", []object{{{"enum", f.Enum}}, {{"type", wordOrEmpty}}}}}
	case f.Shape != "":
		return object{{"anyOf", []object{{{"type", wordTypes}, {"pattern", f.Shape}}, nothing}}}
	}
	return object{{"type", wordOrEmpty}}
}

// fullSchema is what a full record must have besides.
func fullSchema(p *plan) object {
	var props object
	var required []string
	for i := range p.fields {
		f := &p.fields[i]
		switch {
		case f.Need != WhenFull:
			continue
		case f.Kind == Group:
			var any []object
			for k := range f.sub.fields {
				key := f.sub.fields[k].key
				any = append(any, object{{"properties", object{{key, someWords}}}, {"required", []string{key}}})
			}
			props = append(props, pair{f.key, object{{"type", "object"}, {"anyOf", any}}})
		default:
			props = append(props, pair{f.key, someWords})
		}
		required = append(required, f.key)
	}
	return object{{"properties", props}, {"required", required}}
}

// description is what an editor shows beside a field.
func description(f *Field) string {
	s := f.Meaning
	if f.Unit != "" {
		s += " Unit: " + f.Unit + "."
	}
	if f.DwC != "" {
		s += " Darwin Core: " + f.DwC + "."
	}
	if f.Need != Optional {
		s += " (" + f.Need.String() + ")"
	}
	return s
}
