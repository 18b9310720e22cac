package ledger

import (
	"encoding/json"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// pyReader prints every leaf of the files named, as PyYAML (YAML 1.1) takes
// it by default: words only if they are a str to it, or a date (a full ISO
// day, which the format allows).
const pyReader = `
import sys, json, yaml, datetime
def walk(v, path, out):
    if isinstance(v, dict):
        for k, c in v.items(): walk(c, path + [k if isinstance(k, str) else repr(k)], out)
    elif isinstance(v, list):
        for i, c in enumerate(v): walk(c, path + [str(i + 1)], out)
    elif v is None: pass
    elif type(v) is datetime.date: out.append({"Key": ".".join(path), "Value": v.isoformat()})
    elif isinstance(v, str): out.append({"Key": ".".join(path), "Value": v})
    else: out.append({"Key": ".".join(path), "Value": "not words: " + repr(v)})
files = {}
for f in sys.argv[1:]:
    out = []
    with open(f, encoding="utf-8", newline="") as s: walk(yaml.safe_load(s.read()), [], out)
    files[f] = out
json.dump(files, sys.stdout)
`

// jsReader does the same with the npm package yaml (YAML 1.2 core schema).
const jsReader = `
const fs = require('fs'), yaml = require('yaml')
function walk(v, path, out) {
  if (Array.isArray(v)) v.forEach((c, i) => walk(c, path.concat(String(i + 1)), out))
  else if (v === null || v === undefined) return
  else if (typeof v === 'object') for (const k of Object.keys(v)) walk(v[k], path.concat(k), out)
  else out.push({Key: path.join('.'), Value: typeof v === 'string' ? v : 'not words: ' + v})
}
const files = {}
for (const f of process.argv.slice(1)) { files[f] = []; walk(yaml.parse(fs.readFileSync(f, 'utf8')), [], files[f]) }
console.log(JSON.stringify(files))
`

// TestOutsideReaders: every good record, and every one as Encode writes it,
// means the same words to readers of YAML that are not ours.
func TestOutsideReaders(t *testing.T) {
	dir := t.TempDir()
	var files []string
	for name, g := range goodRecords(t) {
		r, _ := Decode(g.path, g.src)
		for kind, src := range map[string][]byte{"as-written-": g.src, "encoded-": Encode(r)} {
			f := filepath.Join(dir, kind+name)
			if err := os.WriteFile(f, src, 0o644); err != nil {
				t.Fatal(err)
			}
			files = append(files, f)
		}
	}
	files = append(files, nastyWords(t, dir))
	slices.Sort(files)
	for _, o := range []struct {
		name, program, probe, flag, script string
		must                               bool // there under CI
	}{
		{"PyYAML", "python3", "import yaml", "-c", pyReader, true},
		{"npm yaml", "node", "require('yaml')", "-e", jsReader, false},
	} {
		t.Run(o.name, func(t *testing.T) {
			if err := exec.Command(o.program, o.flag, o.probe).Run(); err != nil {
				if o.must && os.Getenv("CI") == "true" {
					t.Fatalf("%s is not there: %v", o.name, err)
				}
				t.Skipf("%s is not there", o.name)
			}
			out, err := exec.Command(o.program, append([]string{o.flag, o.script}, files...)...).Output()
			if err != nil {
				t.Fatal(err)
			}
			var got map[string][]KV
			if err := json.Unmarshal(out, &got); err != nil {
				t.Fatal(err)
			}
			for _, f := range files {
				src, err := os.ReadFile(f)
				if err != nil {
					t.Fatal(err)
				}
				want := leaves(t, string(src))
				for _, list := range [][]KV{want, got[f]} {
					slices.SortFunc(list, func(a, b KV) int { return strings.Compare(a.Key, b.Key) })
				}
				if d := cmp.Diff(want, got[f]); d != "" {
					t.Errorf("%s: %s", filepath.Base(f), d)
				}
			}
		})
	}
}

// nastyWords writes a file of words that YAML bends or could bend, each as the
// program writes it, in lines and in brackets.
func nastyWords(t *testing.T, dir string) string {
	t.Helper()
	words := []string{"yes", "No", "ON", "y", "N", "~", "null", "NULL", "0", "-0", "+12", "0o7", "0b1", "0x_F", "1_0", "08", "1e3", "1.e+3", ".5", "5.", "-.inf", ".NaN", "1:30", "1:30.5", "190:20:30",
		"2001-1-1", "2001-12-14t21:59:43.10-05:00", "2001-12-14 21:59:43", "<<", "=", "- a", "-a", "--- a", "...", "? a", "?a", ": a", ":a", "a:", "a: b", "a:b", "a #b", "a#b", "#a", "[a", "a]", "{a", "a}", "a, b", ",a",
		"&a", "*a", "!a", "|", ">", "'a", "\"a", "a'b", "a\"b", "\\", "a\\nb", "%a", "@a", "`a", " a", "a ", "a\nb", "a\n\nb\n", "\na", "a\n b", "  a\nb", "a\tb", "\ta", "\u00a0a", "é", "e\u0301", "😀", "\u2028", "\u0085", "\ufeff", "\u200b", "\u202e", "60°42'12\"N", "Salix lapponum?", "100 %", "\x07", "\x7f", "\u009f", "\r", "a\r\nb"}
	r := rand.New(rand.NewSource(1))
	const signs = "aZ0179.-+_:#,[]{}&*!|>'\"%@`?~= \n\\éx"
	letters := []rune(signs)
	for range 1500 {
		var b strings.Builder
		for range 1 + r.Intn(7) {
			b.WriteRune(letters[r.Intn(len(letters))])
		}
		words = append(words, b.String())
	}
	tr, inFlow := &tree{kind: Texts}, &tree{kind: Texts}
	for _, w := range words {
		tr.items = append(tr.items, &tree{kind: Text, text: w})
		inFlow.items = append(inFlow.items, &tree{kind: Group, keys: []string{"k"}, items: []*tree{{kind: Text, text: w}}})
	}
	out := (&tree{kind: Group, keys: []string{"lines"}, items: []*tree{tr}}).appendBlock(nil, "", "\n")
	out = append(out, "brackets: "+inFlow.flow()+"\n"...)
	for i, kv := range leaves(t, string(out)) {
		if want := words[i%len(words)]; kv.Value != want {
			t.Errorf("%s: %q was written as %q", kv.Key, want, kv.Value)
		}
	}
	f := filepath.Join(dir, "nasty.yaml")
	if err := os.WriteFile(f, out, 0o644); err != nil {
		t.Fatal(err)
	}
	return f
}
