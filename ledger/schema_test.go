package ledger

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"
	"pgregory.net/rapid"
)

// goodRecords reads testdata/records/good: name to path and content.
func goodRecords(t testing.TB) map[string]badRecord {
	t.Helper()
	files, err := filepath.Glob(corpus + "/good/*.yaml")
	if err != nil || len(files) < 8 {
		t.Fatalf("good records: %d, %v", len(files), err)
	}
	out := map[string]badRecord{}
	for _, f := range files {
		src, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		m := headPath.FindSubmatch(bytes.ReplaceAll(src, []byte("\r"), nil))
		if m == nil {
			t.Fatalf("%s: no line # path:", f)
		}
		out[filepath.Base(f)] = badRecord{path: string(m[1]), src: src}
	}
	return out
}

func TestGoodRecords(t *testing.T) {
	for name, g := range goodRecords(t) {
		r, fs := Decode(g.path, g.src)
		for _, f := range fs {
			t.Errorf("%s: %v\n  %s", name, f, f.Hint)
		}
		out := Encode(r)
		again, fs := Decode(g.path, out)
		if len(fs) > 0 || !slices.Equal(Flatten(r), Flatten(again)) {
			t.Errorf("%s: encoded and decoded: %v\n%s", name, fs, out)
		}
		if twice := Encode(again); !bytes.Equal(out, twice) {
			t.Errorf("%s: Encode is no fixed point", name)
		}
	}
}

// textOf is a node as JSON sees it when each scalar is taken as text.
func textOf(n *yaml.Node) any {
	switch n.Kind {
	case yaml.SequenceNode:
		list := []any{}
		for _, c := range n.Content {
			list = append(list, textOf(c))
		}
		return list
	case yaml.MappingNode:
		m := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			m[n.Content[i].Value] = textOf(n.Content[i+1])
		}
		return m
	}
	if isNull(n) {
		return nil
	}
	return n.Value
}

func compileSchema(t testing.TB, kind FileKind) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(SchemaOf(kind)))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource("s.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("s.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// structural reports whether one of the findings is of a structural rule.
func structural(fs []Finding) bool {
	return slices.ContainsFunc(fs, func(f Finding) bool {
		return slices.ContainsFunc(Rules(), func(r Rule) bool { return r.Code == f.Code && r.Structural })
	})
}

// TestSchemaAgrees: a record of the corpus breaks the schema exactly when it
// has a structural finding.
func TestSchemaAgrees(t *testing.T) {
	schemas := map[FileKind]*jsonschema.Schema{}
	all := goodRecords(t)
	for _, b := range badRecords(t) {
		all[b.name] = b
	}
	for name, b := range all {
		kind, _ := KindOf(b.path)
		if schemas[kind] == nil {
			schemas[kind] = compileSchema(t, kind)
		}
		root, err := parse(b.src)
		if err != nil || root == nil || root.Kind == yaml.AliasNode || strings.HasPrefix(name, "yaml-") || strings.HasPrefix(name, "text-separator") {
			continue // not read by the decoder either
		}
		err = schemas[kind].Validate(textOf(root))
		if got := structural(CheckFile(b.path, b.src)); got != (err != nil) {
			t.Errorf("%s: structural finding %v, schema says %v", name, got, err)
		}
	}
}

// TestSchemaAgreesRandom does the same with records made of the field table
// and then hurt at random places.
func TestSchemaAgreesRandom(t *testing.T) {
	for _, kind := range []FileKind{RecordKind, MuseumKind, PeopleKind, NamesKind, PlacesKind, PublicKind} {
		schema := compileSchema(t, kind)
		path := map[FileKind]string{RecordKind: samplePath, MuseumKind: MuseumFile, PeopleKind: PeopleFile, PlacesKind: PlacesFile, PublicKind: PublicFile, NamesKind: "names/Ranunculaceae.yaml"}[kind]
		t.Run(kind.String(), rapid.MakeCheck(func(t *rapid.T) {
			root := randomGroup(t, plans()[kind], rapid.IntRange(0, 8).Draw(t, "hurt"))
			src, err := yaml.Marshal(root)
			if err != nil {
				t.Fatal(err)
			}
			back, err := parse(src)
			if err != nil || back == nil {
				return
			}
			fs := CheckFile(path, src)
			err = schema.Validate(textOf(back))
			if structural(fs) != (err != nil) {
				t.Fatalf("findings %v, schema says %v\n%s", fs, err, src)
			}
		}))
	}
}

// randomGroup draws a mapping; hurt is the chance, of a hundred, for each
// fault in it.
func randomGroup(t *rapid.T, p *plan, hurt int) *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode}
	chance := func(what string, of int) bool { return rapid.IntRange(0, 99).Draw(t, what) < of }
	for i := range p.fields {
		f := &p.fields[i]
		keep := 15
		if f.Need == Required || f.Need == WhenFull {
			keep = 100 - hurt
		}
		if !chance("keep", keep) {
			continue
		}
		key := f.key
		if chance("key", hurt/2) {
			key += "x"
		}
		n.Content = append(n.Content, scalar(key, 0), randomValue(t, f, hurt))
	}
	return n
}

func scalar(s string, style yaml.Style) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Value: s, Style: style, Tag: map[bool]string{true: "!!null", false: "!!str"}[s == "" && style == 0]}
}

func randomValue(t *rapid.T, f *planField, hurt int) *yaml.Node {
	kind := f.Kind
	switch k := rapid.IntRange(0, 99).Draw(t, "fault"); {
	case k < hurt:
		kind = Kind(rapid.IntRange(0, 3).Draw(t, "kind"))
	case k < 2*hurt:
		return scalar("", 0)
	}
	n := &yaml.Node{Kind: yaml.SequenceNode}
	count := rapid.IntRange(0, 2).Draw(t, "count")
	switch kind {
	case Text:
		return randomWords(t, f, hurt)
	case Texts:
		for range count {
			n.Content = append(n.Content, randomWords(t, f, hurt))
		}
	case Entries:
		for range count {
			if f.sub == nil {
				n.Content = append(n.Content, &yaml.Node{Kind: yaml.MappingNode})
				continue
			}
			n.Content = append(n.Content, randomGroup(t, f.sub, hurt))
		}
	case Pairs:
		return &yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{scalar("Col 1", 0), randomWords(t, f, hurt)}}
	case Group:
		if f.sub == nil {
			return &yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{scalar("a", 0), scalar("b", 0)}}
		}
		return randomGroup(t, f.sub, hurt)
	}
	return n
}

func randomWords(t *rapid.T, f *planField, hurt int) *yaml.Node {
	s := f.Example
	if len(f.Enum) > 0 {
		s = rapid.SampledFrom(f.Enum).Draw(t, "word")
	}
	if rapid.IntRange(0, 99).Draw(t, "words") < 2*hurt {
		s = rapid.SampledFrom([]string{"", "x", "a b", "-", "con", "CON.a", "a..b", "a.", "1", "Full"}).Draw(t, "odd")
	}
	return scalar(s, yaml.DoubleQuotedStyle)
}

// TestSchemaIsJSON: the schema is a JSON object with every field described.
func TestSchemaIsJSON(t *testing.T) {
	var s struct {
		Schema     string `json:"$schema"`
		Properties map[string]struct{ Description string }
	}
	if err := json.Unmarshal(Schema(), &s); err != nil {
		t.Fatal(err)
	}
	if s.Schema != "https://json-schema.org/draft/2020-12/schema" {
		t.Errorf("$schema is %s", s.Schema)
	}
	for _, f := range Fields() {
		if !strings.Contains(f.Path, ".") && s.Properties[f.Path].Description == "" {
			t.Errorf("%s is not described", f.Path)
		}
	}
	if fmt.Sprint(string(Schema())) != string(Schema()) || bytes.Contains(Schema(), []byte(`\u003c`)) {
		t.Error("the schema has escapes that people cannot read")
	}
}
