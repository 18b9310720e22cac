package harm

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

// writer is one who works at the ledger while others do: a command, or a
// person who saves a file.
type writer struct {
	word string // what he writes, and nobody else
	args []string
	file string // of the person who saves it
	wait time.Duration
	git  bool
	result
}

// refusals are the words by which a command says that others were quicker.
var refusals = []string{"somebody else wrote it meanwhile", "edits not yet entered; enter them first", "is being written to by"}

// Writers lets several people write to one ledger at once, round after round:
// two determine the same sheet or two, one makes a sheet, one publishes, one
// saves a file by hand. What was said to be entered must be there, and what
// was refused nowhere; what was typed into a file stays.
func (c *Campaign) Writers(rounds int) Tally {
	var t Tally
	if rounds == 0 || !c.wanted("writers/several") {
		return t
	}
	base, err := c.base()
	if err == nil {
		err = c.renew(base)
	}
	if err != nil {
		t.lost("writers: %v", err)
		return t
	}
	w := &writers{Campaign: c, t: &t, ledger: filepath.Join(c.place(), "ledger"), rnd: rand.New(rand.NewPCG(c.Seed, 7))}
	w.stands, _ = c.git(w.ledger, "status", "--porcelain", "--untracked-files=all")
	begun := time.Now()
	for i := range rounds {
		w.round(i)
	}
	w.end()
	c.sayf("writers/several            %4d rounds %2d lost  %5.1f s: %d entered, %d refused, %d saved by hand", t.Rounds, len(t.Lost), time.Since(begun).Seconds(), w.entered, w.refused, w.saved)
	c.sayLost(t.Lost)
	return t
}

type writers struct {
	*Campaign
	t      *Tally
	ledger string
	rnd    *rand.Rand
	stands string   // what is not entered, before and after each round
	words  []string // all that must be in the history

	entered, refused, saved int
}

// round lets all begin at some moment of the same half second.
func (w *writers) round(i int) {
	sheet := func(n int) string { return fmt.Sprintf("specimens/000/00/LK7-%07d.yaml", n) }
	word := func(who string) string { return fmt.Sprintf("round%dx%s", i, who) }
	one, two := 1, 1+i%2
	names := []string{"Ranunculus repens", "Trollius europaeus"}
	day := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, i%300).Format(time.DateOnly) // the same opinion twice would be one
	all := []*writer{
		{word: word("ann"), args: []string{"determine", fmt.Sprint(one), names[i%2], "--by", "Signe Rask", "--date", day, "--why", word("ann")}},
		{word: word("bo"), args: []string{"determine", fmt.Sprint(two), names[(i+1)%2], "--by", "Tiril Aune", "--date", day, "--why", word("bo")}},
		{word: word("cai"), file: sheet(1 + i%3)},
	}
	if i%2 == 0 {
		all = append(all, &writer{word: word("dag"), args: []string{"new", "collector=Signe Rask", "date=8.vii.2025", "country=Norway", "name=Ranunculus repens", "remarks=" + word("dag")}})
	}
	if i%4 == 0 {
		all = append(all, &writer{args: []string{"publish"}})
	}
	var group sync.WaitGroup
	for _, x := range all {
		x.wait, x.git = time.Duration(w.rnd.Int64N(int64(500*time.Millisecond))), w.rnd.IntN(4) > 0
		group.Go(func() {
			time.Sleep(x.wait)
			if x.file != "" {
				w.save(x)
				return
			}
			x.result = w.run(w.ledger, w.environ(x.git), x.args)
		})
	}
	group.Wait()
	w.t.Rounds++
	for _, x := range all {
		w.judge(i, x)
	}
	w.tidyUp(i, all)
}

// save is a person with an editor: he reads, writes a line more, and saves, in
// place or by a new file, as editors do.
func (w *writers) save(x *writer) {
	file := filepath.Join(w.ledger, filepath.FromSlash(x.file))
	src, err := os.ReadFile(file)
	if err == nil && len(src) > 0 {
		src = append(src, "# "+x.word+"\n"...)
		if x.git {
			err = os.WriteFile(file, src, 0o666)
		} else if err = os.WriteFile(file+"~", src, 0o666); err == nil {
			err = os.Rename(file+"~", file)
		}
	}
	if err != nil {
		x.code, x.out = 1, err.Error()
	}
}

func (w *writers) judge(i int, x *writer) {
	lost := func(format string, args ...any) {
		w.t.lost("writers/several round %d, %q with git: %v: %s\n  it had said: %s", i, x.args, x.git, fmt.Sprintf(format, args...), x.out)
	}
	inHead, inFiles := w.has(x)
	switch {
	case x.file != "":
		if w.saved++; !inHead && !inFiles || x.code != 0 {
			lost("what was saved by hand in %s is gone", x.file)
		}
		w.words = append(w.words, x.word)
	case strings.Contains(x.out, "panic:"):
		lost("it panics")
	case x.word == "":
		if x.code != 0 {
			lost("exit %d", x.code)
		}
	case x.code == 0:
		if w.entered++; !inHead {
			lost("it was entered and is not there")
		}
		w.words = append(w.words, x.word)
	default:
		w.refused++
		clear := false
		for _, r := range refusals {
			clear = clear || strings.Contains(x.out, r)
		}
		if !clear {
			lost("exit %d, and it does not say that somebody else was quicker", x.code)
		}
		if inHead || inFiles {
			lost("it was refused and is there all the same: in the last revision %v, in the files %v", inHead, inFiles)
		}
	}
}

// has looks for a writer's word in the last revision and in the files.
func (w *writers) has(x *writer) (inHead, inFiles bool) {
	if x.word == "" {
		return false, false
	}
	_, err := w.git(w.ledger, "grep", "-q", "-w", x.word, "HEAD", "--", "specimens")
	files, _ := filepath.Glob(filepath.Join(w.ledger, "specimens", "*", "*", "*.yaml"))
	for _, f := range files {
		src, err := os.ReadFile(f)
		inFiles = inFiles || err == nil && bytes.Contains(src, []byte(x.word+"\n")) || bytes.Contains(src, []byte(x.word+`"`))
	}
	return err == nil, inFiles
}

// tidyUp enters what was saved by hand, and then nothing may be left that was
// not there before.
func (w *writers) tidyUp(i int, all []*writer) {
	for _, x := range all {
		if x.file == "" {
			continue
		}
		r := w.run(w.ledger, w.environ(true), []string{"enter", x.file})
		if r.code != 0 { // he saved over an entry that was made between his reading and his saving
			file := filepath.Join(w.ledger, filepath.FromSlash(x.file))
			src, _ := w.git(w.ledger, "show", "HEAD:"+x.file)
			os.WriteFile(file, []byte(src+"# "+x.word+"\n"), 0o666)
			r = w.run(w.ledger, w.environ(true), []string{"enter", x.file})
		}
		if r.code != 0 {
			w.t.lost("writers/several round %d: what was saved by hand cannot be entered: %s", i, r.out)
		}
	}
	now, err := w.git(w.ledger, "status", "--porcelain", "--untracked-files=all")
	if err != nil || now != w.stands {
		w.t.lost("writers/several round %d: left are\n%s\nbut were\n%s", i, now, w.stands)
		w.stands = now
	}
}

// end holds the whole history to all that was written.
func (w *writers) end() {
	for _, amiss := range w.whole(w.place()) {
		w.t.lost("writers/several: %s", amiss)
	}
	if still := locks(w.place()); len(still) > 0 {
		w.t.lost("writers/several: locks are left: %v", still)
	}
	history, err := w.git(w.ledger, "log", "-p", "--format=%B")
	if err != nil {
		w.t.lost("writers/several: %v", err)
	}
	for _, word := range w.words {
		if !strings.Contains(history, word+"\n") && !strings.Contains(history, word+`"`) {
			w.t.lost("writers/several: %s is nowhere in the history", word)
		}
	}
	for _, args := range [][]string{{"verify"}, {"check"}} {
		if r := w.run(w.ledger, w.environ(true), args); r.code != 0 {
			w.t.lost("writers/several: blotter %s: exit %d\n%s", args[0], r.code, r.out)
		}
	}
}
