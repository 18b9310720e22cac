package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// serverExamples is where the page and the workflow for a server end lie.
var serverExamples = filepath.Join("..", "..", "examples", "server")

// exampleBench is a folder with a ledger, a home, and the program on the path.
type exampleBench struct {
	t    testing.TB
	dir  string
	vars []string
}

func newExampleBench(t *testing.T) *exampleBench {
	t.Helper()
	for _, program := range []string{"git", "sh"} {
		if _, err := exec.LookPath(program); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatalf("%s is missing and CI=true", program)
			}
			t.Skipf("%s is missing: the example is for it", program)
		}
	}
	b := &exampleBench{t: t, dir: t.TempDir()}
	b.vars = []string{"PATH=" + filepath.Dir(programForHooks(t)) + string(os.PathListSeparator) + os.Getenv("PATH"), "HOME=" + b.dir, "GIT_CONFIG_NOSYSTEM=1", "GIT_CONFIG_GLOBAL=" + os.DevNull,
		"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=tiril@lauvkroken.example", "GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=tiril@lauvkroken.example",
		"LC_ALL=C.UTF-8", "TZ=UTC", "BLOTTER_AS_PROGRAM=1", "BLOTTER_NOW=2026-11-03T09:40:00Z"}
	b.must(b.dir, nil, `blotter init herbarium --name "Lauvkroken Museum" --code LK7 --timezone Europe/Oslo
cd herbarium
blotter new collector="Signe Rask" coll_no=1207 date=14.vii.2025 country=Norway district=Voss locality="1.2 km NE of Raundal chapel" name="Ranunculus acris L."`)
	return b
}

// sh runs lines by sh -e.
func (b *exampleBench) sh(dir string, vars []string, lines string) (string, error) {
	c := exec.Command("sh", "-e", "-c", lines)
	c.Dir, c.Env = dir, append(append([]string{}, b.vars...), vars...)
	out, err := c.CombinedOutput()
	return string(out), err
}

func (b *exampleBench) must(dir string, vars []string, lines string) string {
	b.t.Helper()
	out, err := b.sh(dir, vars, lines)
	if err != nil {
		b.t.Fatalf("%s\n%v:\n%s", lines, err, out)
	}
	return out
}

// TestServerPage does what the page on the server end says, in its order.
func TestServerPage(t *testing.T) {
	t.Parallel()
	b := newExampleBench(t)
	text, err := os.ReadFile(filepath.Join(serverExamples, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	blocks := strings.Split(string(text), "```sh\n")[1:]
	if len(blocks) != 3 {
		t.Fatalf("the page has %d blocks of lines to type, want 3: make, send, prove", len(blocks))
	}
	server := filepath.Join(b.dir, "server's end.git")
	vars := []string{"LEDGER=" + server, "ADDRESS=" + server, "PEOPLE=" + strings.TrimSpace(b.must(b.dir, nil, "id -gn"))}
	for i, dir := range []string{b.dir, filepath.Join(b.dir, "herbarium"), b.dir} {
		lines, _, _ := strings.Cut(blocks[i], "```")
		out := b.must(dir, vars, "umask 022\n"+lines)
		if i == 2 && !strings.Contains(out, "Every promise holds.") {
			t.Errorf("at the end: %s", out)
		}
	}
	for _, f := range []string{"blotter", "blotter/cache.db"} {
		info, err := os.Stat(filepath.Join(server, f))
		if err != nil {
			t.Fatal(err)
		}
		if info.Mode()&0o060 != 0o060 {
			t.Errorf("%s is %v: the others of the group cannot write what the hook keeps", f, info.Mode())
		}
	}
	out, err := b.sh(filepath.Join(b.dir, "herbarium"), vars, "blotter hooks remove; sed -i 's/by: Signe Rask/by: S. Bannister/' specimens/000/00/LK7-0000001.yaml; git commit -q -a -m 'Another hand'; git push -q origin main")
	if err == nil || !strings.Contains(out, "opinion-changed") {
		t.Errorf("the hook let another hand in: %s", out)
	}
}

// workflow is the part of a workflow that a job runner acts on.
type workflow struct {
	On   any               `yaml:"on"`
	Env  map[string]string `yaml:"env"`
	Jobs map[string]struct {
		Steps []struct {
			Name string `yaml:"name"`
			If   string `yaml:"if"`
			Run  string `yaml:"run"`
		} `yaml:"steps"`
	} `yaml:"jobs"`
}

func readWorkflow(t *testing.T) workflow {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(serverExamples, "workflow.yml"))
	if err != nil {
		t.Fatal(err)
	}
	var w workflow
	d := yaml.NewDecoder(strings.NewReader(string(text)))
	if err := d.Decode(&w); err != nil {
		t.Fatalf("the workflow is no YAML: %v", err)
	}
	if w.On == nil || len(w.Jobs["ledger"].Steps) < 7 {
		t.Fatalf("the workflow lacks what starts it, or steps: %+v", w)
	}
	return w
}

// run acts as a host's job runner: the steps one after another, after a failure
// only those that always run. It returns the steps that failed and the comment.
func (b *exampleBench) run(w workflow, vars ...string) (failed []string, comment string) {
	b.t.Helper()
	dir := b.t.TempDir()
	vars = append(vars, "SITE="+w.Env["SITE"], "MAIN="+w.Env["MAIN"],
		`GET_BLOTTER=ln -s "$(command -v blotter)" bin/blotter`, "SEND_COMMENT=cat >"+filepath.Join(dir, "comment.md"))
	for _, s := range w.Jobs["ledger"].Steps {
		if len(failed) > 0 && s.If != "always()" {
			continue
		}
		if out, err := b.sh(dir, vars, s.Run); err != nil {
			failed = append(failed, s.Name)
			b.t.Logf("%s: %v\n%s", s.Name, err, out)
		}
	}
	text, _ := os.ReadFile(filepath.Join(dir, "comment.md"))
	return failed, string(text)
}

// TestWorkflow runs the workflow for a code host on a good push, on one that
// breaks the law, on one with an error, and on another branch.
func TestWorkflow(t *testing.T) {
	t.Parallel()
	w := readWorkflow(t)
	b := newExampleBench(t)
	ledger, host := filepath.Join(b.dir, "herbarium"), filepath.Join(b.dir, "host.git")
	b.must(b.dir, nil, "git init -q --bare -b main host.git; cd herbarium; blotter hooks remove >/dev/null; git remote add origin ../host.git")
	send := func(branch, lines string) []string {
		t.Helper()
		before := b.must(ledger, nil, "git ls-remote origin refs/heads/"+branch+" | cut -f1")
		if before == "" {
			before = strings.Repeat("0", 40)
		}
		after := b.must(ledger, nil, lines+"\ngit push -q origin HEAD:refs/heads/"+branch+"\ngit rev-parse HEAD | tail -1")
		return []string{"LEDGER=" + host, "BRANCH=" + branch, "BEFORE=" + strings.TrimSpace(before), "AFTER=" + strings.TrimSpace(after[strings.LastIndex(strings.TrimSpace(after), "\n")+1:])}
	}
	for _, step := range []struct{ branch, lines, failed, comment string }{
		{"main", ":", "", "Every promise holds."},
		{"main", "blotter note 1 'in flower' --by 'Tiril Aune' --date 2026-11-01 >/dev/null", "", "1 sheet checked: no errors"},
		{"trial", "git switch -q -c trial; blotter note 1 'in fruit' --by 'Tiril Aune' --date 2026-11-02 >/dev/null", "", "of trial:"},
		{"trial", "sed -i 's/by: Signe Rask/by: S. Bannister/' specimens/000/00/LK7-0000001.yaml; git commit -q -a -m 'Another hand'", "Check every entry", "opinion-changed"},
		{"wrong", "git switch -q -C wrong main; sed -i 's/^country:/contry:/; s/^  country:/  contry:/' specimens/000/00/LK7-0000001.yaml; git commit -q -a -m 'A slip'", "Check the files", "field-unknown"},
	} {
		failed, comment := b.run(w, send(step.branch, step.lines)...)
		if got := strings.Join(failed, ", "); got != step.failed || !strings.Contains(comment, step.comment) {
			t.Errorf("%s, %q: failed %q, want %q; the comment wants %q:\n%s", step.branch, step.lines, got, step.failed, step.comment, comment)
		}
	}
	if out := b.must(host, nil, "git ls-tree --name-only site; git rev-list --count site"); !strings.Contains(out, "index.html") || !strings.HasSuffix(out, "\n1\n") {
		t.Errorf("the site that was published: %s", out)
	}
}
