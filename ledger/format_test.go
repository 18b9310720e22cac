package ledger_test

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger"
	"blotter/ledger/check"
	"blotter/ledger/history"
	"blotter/ledger/ledgertest"
	"blotter/ledger/reading"
	"blotter/ledger/work"
)

// standard are the thresholds of a museum that gives none.
var standard = check.Standard()

func formatPage(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile("FORMAT.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// TestFormatTables: the tables of FORMAT.md are the field table and the rules.
// UPDATE_GOLDEN=1 writes them anew.
func TestFormatTables(t *testing.T) {
	page := formatPage(t)
	want := page
	for _, k := range []ledger.FileKind{ledger.RecordKind, ledger.MuseumKind, ledger.PeopleKind, ledger.NamesKind, ledger.PlacesKind, ledger.PublicKind, ledger.WorkFileKind, ledger.MappingKind} {
		want = fill(t, want, "fields "+k.String(), fieldTable(k))
	}
	want = fill(t, want, "rules ledger", ruleTable())
	want = fill(t, want, "rules ledger/check", checkTable())
	want = fill(t, want, "table places", placeTable())
	want = fill(t, want, "table work", workTable())
	want = fill(t, want, "table kinds", kindTable())
	if os.Getenv("UPDATE_GOLDEN") != "" {
		if err := os.WriteFile("FORMAT.md", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := cmp.Diff(want, page); d != "" {
		t.Errorf("FORMAT.md is not what the tables say; UPDATE_GOLDEN=1 go test ./ledger -run FormatTables mends it\n%s", d)
	}
}

// fill puts a table between the marks of a section.
func fill(t *testing.T, page, mark, table string) string {
	t.Helper()
	head, rest, ok := strings.Cut(page, "<!-- "+mark+" -->\n")
	_, tail, ok2 := strings.Cut(rest, "<!-- end -->")
	if !ok || !ok2 {
		t.Fatalf("FORMAT.md has no section %q", mark)
	}
	return head + "<!-- " + mark + " -->\n" + table + "<!-- end -->" + tail
}

func cell(s string) string { return strings.ReplaceAll(s, "|", `\|`) }

func code(s string) string {
	if s == "" {
		return ""
	}
	return "`" + cell(s) + "`"
}

func fieldTable(k ledger.FileKind) string {
	var b strings.Builder
	b.WriteString("| field | takes | need | unit | Darwin Core | example | meaning |\n| --- | --- | --- | --- | --- | --- | --- |\n")
	for _, f := range ledger.FieldsOf(k) {
		meaning := f.Meaning
		switch {
		case f.Enum != nil && f.Open:
			meaning += " Usual: " + strings.Join(f.Enum, "; ") + "."
		case f.Enum != nil:
			meaning += " One of: " + strings.Join(f.Enum, "; ") + "."
		}
		if f.ShapeWords != "" {
			meaning += " Shape: " + f.ShapeWords + "."
		}
		if f.AppendOnly {
			meaning += " Append-only."
		}
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s | %s | %s |\n", code(f.Path), f.Kind, f.Need, f.Unit, f.DwC, code(f.Example), cell(meaning))
	}
	return b.String()
}

func need(s ledger.Severity) string {
	if s == ledger.Error {
		return "must"
	}
	return "should"
}

func ruleTable() string {
	var b strings.Builder
	b.WriteString("| code | | schema | |\n| --- | --- | --- | --- |\n")
	for _, r := range ledger.Rules() {
		schema := ""
		if r.Structural {
			schema = "yes"
		}
		fmt.Fprintf(&b, "| %s | %s | %s | %s |\n", r.Code, need(r.Severity), schema, cell(r.Meaning))
	}
	return b.String()
}

func checkTable() string {
	var b strings.Builder
	b.WriteString("| code | | |\n| --- | --- | --- |\n")
	for _, r := range check.Rules() {
		says := r.Says
		if r.NewOnly {
			says += " New material only."
		}
		fmt.Fprintf(&b, "| %s | %s | %s |\n", r.Code, need(r.Severity), cell(says))
	}
	return b.String()
}

// workTable is the table of states.
func workTable() string {
	var b strings.Builder
	b.WriteString("| event | in | usual from | then | done | after |\n| --- | --- | --- | --- | --- | --- |\n")
	for _, r := range work.Table() {
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s | %s |\n", r.Events, r.Kinds, r.Usual, r.Then, r.Done, r.Needs)
	}
	return b.String()
}

func placeTable() string {
	var b strings.Builder
	b.WriteString("| place | in words | |\n| --- | --- | --- |\n")
	for _, p := range work.PlaceTable() {
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", p[0], p[1], p[2])
	}
	return b.String()
}

func kindTable() string {
	var b strings.Builder
	b.WriteString("| kind | | heading | opens with | `close` writes | events |\n| --- | --- | --- | --- | --- | --- |\n")
	for _, k := range ledger.WorkKinds() {
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s | %s | %s |\n", k.Name, k.Meaning, strings.Join(k.Heading, ", "), k.Opens, k.Closes, strings.Join(k.Events, ", "))
	}
	return b.String()
}

var specimenLine = regexp.MustCompile(`(?m)^specimen: (\S.*?)(\s+#.*)?$`)

var workLine = regexp.MustCompile(`(?m)^work: (\S+)`)

// whole makes a record of a part, and gives the path that it must have.
func whole(body string) (path, src string) {
	if m := specimenLine.FindStringSubmatch(body); m != nil {
		return ledger.Number(m[1]).Path(), body
	}
	return ledger.Number("LK7-0000482").Path(), "specimen: LK7-0000482\nentry: draft\n" + body
}

// TestFormatBlocks runs every YAML block of FORMAT.md.
func TestFormatBlocks(t *testing.T) {
	kinds := map[string]string{"museum": ledger.MuseumFile, "people": ledger.PeopleFile, "places": ledger.PlacesFile, "public": ledger.PublicFile, "names": ledger.NamesDir + "/Ranunculaceae.yaml", "work": ledger.WorkNumber("freezer-2026-003").Path()}
	seen := map[string]int{}
	for _, b := range ledgertest.Blocks(formatPage(t)) {
		seen[b.Kind]++
		t.Run(fmt.Sprintf("line %d %s %s", b.Line, b.Kind, b.Arg), func(t *testing.T) {
			path, src := whole(b.Body)
			if p, ok := kinds[b.Kind]; ok {
				path, src = p, b.Body
			}
			if m := workLine.FindStringSubmatch(b.Body); b.Kind == "work" && m != nil {
				path = ledger.WorkNumber(m[1]).Path()
			}
			fs := ledger.CheckFile(path, []byte(src))
			if b.Kind == "mapping" {
				_, fs = ledger.DecodeMapping("map.yaml", []byte(b.Body))
				path = "map.yaml"
			}
			if kind, _ := ledger.KindOf(path); kind == ledger.RecordKind {
				r, _ := ledger.Decode(path, []byte(src))
				fs = append(fs, check.One(reading.Of(r, reading.Conventions{}), &standard)...)
				if b.Kind == "part" && !hasField(r, b.Arg) {
					t.Errorf("the part has no %s", b.Arg)
				}
			}
			var got []string
			for _, f := range fs {
				got = append(got, f.Code)
			}
			switch b.Kind {
			case "bad":
				for _, c := range got {
					if c != b.Arg {
						t.Errorf("findings %v", fs)
					}
				}
				if len(got) == 0 {
					t.Error("no finding")
				}
			case "record", "part", "museum", "people", "places", "public", "names", "work", "mapping":
				if len(got) > 0 {
					t.Errorf("findings %v", fs)
				}
			default:
				t.Errorf("blocks of the kind %q are not known", b.Kind)
			}
		})
	}
	for _, k := range []string{"record", "museum", "people", "names", "places", "public", "part", "bad", "mapping"} {
		if seen[k] == 0 {
			t.Errorf("FORMAT.md has no block yaml %s", k)
		}
	}
}

func hasField(r *ledger.Record, field string) bool {
	for _, kv := range ledger.Flatten(r) {
		if kv.Key == field || strings.HasPrefix(kv.Key, field+".") {
			return true
		}
	}
	return false
}

// TestFormatNamesEveryCode: each code of a rule stands in FORMAT.md.
func TestFormatNamesEveryCode(t *testing.T) {
	page := formatPage(t)
	codes := []string{history.CodeChanged, history.CodeRemoved, history.CodeUnmark, history.CodeUnread}
	for _, r := range ledger.Rules() {
		codes = append(codes, r.Code)
	}
	for _, r := range check.Rules() {
		codes = append(codes, r.Code)
	}
	for _, c := range codes {
		if n := strings.Count(page, "| "+c+" |"); n != 1 {
			t.Errorf("FORMAT.md names %s in %d rows", c, n)
		}
	}
}

// TestExamples: every example of the field table may stand where it is given.
func TestExamples(t *testing.T) {
	for _, f := range ledger.Fields() {
		switch {
		case f.Example == "" && (f.Kind == ledger.Text || f.Kind == ledger.Texts):
			t.Errorf("%s has no example", f.Path)
		case f.Meaning == "" || !strings.HasSuffix(f.Meaning, "."):
			t.Errorf("%s: meaning %q", f.Path, f.Meaning)
		case f.Kind != ledger.Text || f.Path == "specimen":
			continue
		}
		path := strings.Split(f.Path, ".")
		op := ledger.Set(f.Path, f.Example)
		if list, ok := ledger.FieldAt(ledger.RecordKind, path[0]); ok && list.Kind == ledger.Entries {
			op = ledger.Append(path[0], ledger.KV{Key: path[1], Value: f.Example})
		}
		out, err := ledger.Edit([]byte("specimen: LK7-0000482\nentry: draft\n"), op)
		if err != nil {
			t.Errorf("%s: %v", f.Path, err)
			continue
		}
		for _, x := range ledger.CheckFile(ledger.Number("LK7-0000482").Path(), out) {
			if x.Code != "field-missing" {
				t.Errorf("%s: %v", f.Path, x)
			}
		}
	}
}
