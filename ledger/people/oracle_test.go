package people

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// table reads a table of ../shared/oracles beside the module, or skips.
func table(t *testing.T, path string) (column func(row []string, name string) string, rows [][]string) {
	t.Helper()
	dir := os.Getenv("BLOTTER_ORACLES")
	if dir == "" {
		dir = filepath.Join("..", "..", "..", "shared", "oracles")
	}
	f, err := os.Open(filepath.Join(dir, filepath.FromSlash(path)))
	if err != nil {
		t.Skip("no oracles here: ", err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma = '\t'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	head := map[string]int{}
	for i, h := range all[0] {
		head[h] = i
	}
	return func(row []string, name string) string { return row[head[name]] }, all[1:]
}

var assertion = regexp.MustCompile(`^eq\(\[(.*)\]\)`)

type expected struct {
	at            int
	given, family string
	known         bool
}

// expectations are the persons that a row of strings.tsv expects.
func expectations(cleaned, asserts string) []expected {
	var out []expected
	var list []map[string]string
	if json.Unmarshal([]byte(cleaned), &list) == nil {
		for i, p := range list {
			if p["family"] != "" {
				out = append(out, expected{i, p["given"], p["family"], true})
			}
		}
		return out
	}
	var rows [][]any
	if json.Unmarshal([]byte(asserts), &rows) != nil {
		return nil
	}
	for _, r := range rows {
		fields := strings.Split(r[1].(string), ",")
		m := assertion.FindStringSubmatch(r[2].(string))
		if m == nil {
			continue
		}
		e := expected{at: int(r[0].(float64)), known: true}
		for i, v := range strings.Split(m[1], ", ") {
			v = strings.Trim(strings.ReplaceAll(v, `\"`, `"`), `"'`)
			if v == "nil" || i >= len(fields) {
				v = ""
			}
			switch fields[min(i, len(fields)-1)] {
			case "given":
				e.given = v
			case "family":
				e.family = v
			}
		}
		if e.family == "" { // one name alone
			e.given, e.family = "", e.given
		}
		out = append(out, e)
	}
	return out
}

// theirs are the rows of people/strings.tsv (test data of the dwc_agent
// library, db20306, MIT) where we differ knowingly.
var theirs = map[string]string{
	"EB":              "somebody signed so: initials are a person",
	"MRI PAS":         "as before",
	"ACAD acc# 96317": "nothing but the list of a museum's own words tells an acronym from a name",
}

// Names are compared without dots, spaces and accents; count and each person
// that a row expects must agree.
func TestPeopleOfOthers(t *testing.T) {
	column, rows := table(t, "people/strings.tsv")
	bare := func(s string) string { return strings.NewReplacer(".", "", " ", "", "'", "").Replace(fold(s)) }
	agree := 0
	for _, row := range rows {
		text := column(row, "input")
		got := Read(text)
		good := true
		if n := column(row, "parsed_count"); n != "" && n != string(rune('0'+len(got))) {
			good = false
		}
		for _, e := range expectations(column(row, "cleaned_people_json"), column(row, "parsed_asserts")) {
			if e.at >= len(got) || bare(got[e.at].Family) != bare(e.family) || bare(got[e.at].Given) != bare(e.given) {
				good = false
			}
		}
		if good {
			agree++
		} else if theirs[text] == "" {
			t.Errorf("%q: %q, theirs %s%s", text, got, column(row, "cleaned_people_json"), column(row, "parsed_asserts"))
		}
	}
	t.Logf("%d of %d agree", agree, len(rows))
	if agree < 152 {
		t.Errorf("only %d of %d agree; 152 did", agree, len(rows))
	}
}
