package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"blotter/examples"
	"blotter/hooks"
	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// A practice museum is a ledger of its own with ten drawn labels to type. Its
// code says what it is, wherever a copy of it goes: it is never joined or
// shared, and no real ledger may have that code.
const (
	practiceFolder    = "blotter-practice"
	practiceCode      = "PRACTICE"
	practicePrefix    = practiceCode + "-"
	practiceLabelsDir = "labels"
)

var flagPractice = &flag{Name: "practice", Help: "the practice museum: ten drawn labels to type, each compared with a model record"}

func (d *desk) isPractice() bool { return isPracticeCode(d.museum.Code.Text) }

func isPracticeCode(code string) bool { return strings.EqualFold(code, practiceCode) }

// notPractice refuses to bring a practice museum together with others.
func (d *desk) notPractice(verb string) error {
	if !d.isPractice() {
		return nil
	}
	return misuse("this is the practice museum; what is typed here is an exercise and cannot be %s", verb).try("In your museum's own folder: blotter status")
}

// runPractice makes the practice museum, or says how far one has come.
func (c *call) runPractice(ctx context.Context, dir string) error {
	labels, err := practiceLabels(examples.Practice())
	if err != nil {
		return stuck("%v", err)
	}
	if root, ok := ledgerAbove(filepath.Dir(dir)); ok {
		return misuse("%s lies in a ledger, and practice is never mixed with one", dir).try("A folder elsewhere: blotter demo --practice " + shellWord(filepath.Join(filepath.Dir(root), practiceFolder)))
	}
	stands, err := practiceStands(dir)
	if err != nil {
		return err
	}
	if !stands {
		if err := c.makePractice(ctx, dir, labels); err != nil {
			return err
		}
	}
	here := c.in(dir)
	defer here.close()
	d, err := here.desk()
	if err != nil {
		return err
	}
	if err := hooks.Setup(ctx, d.repo, d.Program); err != nil {
		return stuck("%v", err)
	}
	d.practiceHints(labels)
	return nil
}

// practiceStands reports whether dir is a practice museum; what else stands
// there is an error.
func practiceStands(dir string) (bool, error) {
	src, err := os.ReadFile(filepath.Join(dir, ledger.MuseumFile))
	if err == nil {
		if m, _ := ledger.DecodeMuseum(ledger.MuseumFile, src); isPracticeCode(m.Code.Text) {
			return true, nil
		}
		return false, misuse("%s is a real ledger, and practice is never mixed with one", dir).try("Another folder: blotter demo --practice DIR")
	}
	if entries, err := os.ReadDir(dir); err == nil && len(entries) > 0 {
		return false, misuse("%s holds something that demo did not make", dir).try("Another folder: blotter demo --practice DIR")
	}
	return false, nil
}

// makePractice makes the museum beside dir and gives it its name when it is
// whole.
func (c *call) makePractice(ctx context.Context, dir string, labels []practiceLabel) error {
	if err := os.MkdirAll(filepath.Dir(dir), 0o777); err != nil {
		return stuck("%v", err)
	}
	m, err := c.makeBeside(ctx, dir)
	if err != nil {
		return err
	}
	defer m.end()
	making := m.temp
	repo, err := gitrepo.Init(ctx, making, c.Environ)
	if err != nil {
		return stuck("%v", err)
	}
	defer repo.Close()
	who := history.Person{Name: "Practising Volunteer", Email: "practice@lauvkroken.example", When: c.Now()}
	for _, kv := range [][2]string{{"user.name", who.Name}, {"user.email", who.Email}} {
		if err := repo.SetSetting(ctx, kv[0], kv[1]); err != nil {
			return stuck("%v", err)
		}
	}
	files := foundingFiles(founding{name: "Practice museum", code: practiceCode, prefix: practicePrefix, digits: "2", zone: time.UTC.String()})
	written := paths(files)
	for _, f := range files {
		if f.path == ".gitignore" {
			f.new = append(f.new, "/"+practiceLabelsDir+"/\n"...)
		}
		if err := writeBelow(making, f.path, f.new); err != nil {
			return err
		}
	}
	for _, l := range labels {
		name := practiceLabelsDir + "/" + string(l.number)
		if err := writeBelow(making, name+".svg", l.picture()); err != nil {
			return err
		}
		if err := writeBelow(making, name+".txt", []byte(l.text(""))); err != nil {
			return err
		}
	}
	if err := writeBelow(making, practiceLabelsDir+"/index.html", practicePage(labels)); err != nil {
		return err
	}
	if _, err := repo.Commit(ctx, gitrepo.CommitRequest{Paths: written, Message: "A practice museum\n", Author: who, Committer: who}); err != nil {
		return stuck("%v", err)
	}
	if err := m.moveTo(dir); err != nil {
		return stuck("%v", err)
	}
	return nil
}

func writeBelow(dir, rel string, text []byte) error {
	file := filepath.Join(dir, filepath.FromSlash(rel))
	if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
		return stuck("%v", err)
	}
	if err := disk.WriteFile(file, text); err != nil {
		return stuck("%v", err)
	}
	return nil
}

// practiceHints says how far the practice has come and what to type next.
func (d *desk) practiceHints(labels []practiceLabel) {
	typed := 0
	for _, l := range labels {
		if d.has(l.number.Path()) {
			typed++
		}
	}
	d.say("A practice museum in %s; %s of %s typed.", d.root, thousands(typed), count(len(labels), "label"))
	d.say("%s", wrap("The labels as pictures: "+filepath.Join(d.root, practiceLabelsDir, "index.html"), d.Width, ""))
	d.say("")
	hint := func(line, does string) { d.say("%s", hang("  "+pad(line, 29)+"  ", does, d.Width)) }
	d.say("  cd %s", shellWord(d.root))
	hint("blotter new", "shows the next label and asks for what it has, then compares")
	hint("blotter edit 3", "mends what you typed of label 3")
	hint("blotter review --practice 3", "compares it once more; without a number all")
	d.say("")
	d.say("%s", wrap("Type what stands there, not what it means. Nothing is at stake: the folder may be thrown away, and it can neither be shared nor become part of a real ledger.", d.Width, ""))
}

// showPractice shows the label of a number before it is typed.
func (d *desk) showPractice(n ledger.Number) {
	if !d.isPractice() {
		return
	}
	labels, err := practiceLabels(examples.Practice())
	if err != nil {
		return
	}
	for _, l := range labels {
		if l.number == n {
			d.tell("")
			fmt.Fprint(d.Err, l.text("    "))
			d.tell("")
		}
	}
}
