package harm

import (
	"fmt"
	"os"
	"path/filepath"
)

// A command is one that writes, as a person types it.
type command struct {
	name    string
	args    []string
	dir     string     // where it is typed, in the place; "" is the ledger
	prepare [][]string // typed before, unharmed, in the ledger
	files   map[string]string
	noGit   string // why it is not tried without the git program
	twice   bool   // typed again after it was done it goes one step further
	slow    bool   // takes many seconds: a few kills are enough
}

var (
	freezer   = []string{"open", "freezer", "1,2"}
	mounting  = []string{"open", "mounting", "1"}
	logger    = "time,temp\n2026-10-30 08:00,-31\n2026-10-31 08:00,-31\n2026-11-03 08:00,-31\n"
	register  = "Collector,Date,Country\nSigne Rask,3.vii.2025,Norway\nSigne Rask,4.vii.2025,Norway\n"
	mapping   = "columns:\n  - column: Collector\n    field: collector\n  - column: Date\n    field: date\n  - column: Country\n    field: place.country\n"
	gathering = "collector: Signe Rask\ndate: 5.vii.2025\ncountry: Norway\n---\nname: Carex nigra\n---\nname: Carex rostrata\n"
	lost      = []string{"withdraw", "1", "--is", "lost", "--why", "not in its folder", "--yes"}
)

const shared = "sharing goes through the git program"

// commands are every command that writes. Each is typed at the ledger that
// stock makes, which holds four sheets, a draft, and an edit not yet entered.
var commands = []command{
	{name: "new", args: []string{"new", "collector=Signe Rask", "date=14.vii.2025", "country=Norway", "name=Trollius europaeus"}},
	{name: "new-from", args: []string{"new", "--from", "../day.txt", "--yes"}},
	{name: "set", args: []string{"set", "1,2", "substrate=Moraine"}},
	{name: "set-why", args: []string{"set", "1", "date=3.vii.2025", "--why", "label seen again"}},
	{name: "determine", args: []string{"determine", "1", "Ranunculus repens", "--by", "Signe Rask"}},
	{name: "determine-many", args: []string{"determine", "1..3", "Ranunculus repens", "--by", "Signe Rask"}},
	{name: "typestatus", args: []string{"typestatus", "1", "Isotype", "--of", "Ranunculus pumilus Wahlenb.", "--published", "Fl. Lapp.: 1 (1812)", "--by", "Signe Rask", "--basis", "verified"}},
	{name: "rename", args: []string{"rename", "Ranunculus repens L.", "Ranunculus acris L.", "--source", "regional flora, 3rd ed.", "--yes"}},
	{name: "note", args: []string{"note", "1", "runners", "--by", "Signe Rask"}},
	{name: "accept", args: []string{"accept", "3", "elevation-unit", "--why", "the label has no unit"}},
	{name: "withdraw", args: lost},
	{name: "found", prepare: [][]string{lost}, args: []string{"found", "1", "--why", "in another cover"}},
	{name: "tidy", args: []string{"tidy", "4", "--yes"}},
	{name: "import", args: []string{"import", "../register.csv", "--map", "../map.yaml", "--yes"}},
	{name: "open", args: freezer},
	{name: "add", prepare: [][]string{freezer}, args: []string{"add", "freezer-2026-001", "3"}},
	{name: "log", prepare: [][]string{freezer}, args: []string{"log", "freezer-2026-001", "in"}},
	{name: "close", prepare: [][]string{freezer, {"log", "freezer-2026-001", "in"}}, args: []string{"close", "freezer-2026-001", "--from", "../logger.csv"}},
	{name: "incident", args: []string{"incident", "1,2", "--place", "workroom", "--what", "water"}},
	{name: "enter", args: []string{"enter"}},
	{name: "undo", twice: true, prepare: [][]string{mounting}, args: []string{"undo", "--yes"}},
	{name: "share", args: []string{"share", "--yes"}, prepare: [][]string{
		{"share", "--with", "../other.git", "--new", "--yes"}, {"join", "../other.git", "../peer"},
		{"--ledger", "../peer", "set", "2", "substrate=Gravel"}, {"--ledger", "../peer", "share", "--yes"}, mounting}, noGit: shared},
	{name: "share-new", args: []string{"share", "--with", "../other.git", "--new", "--yes"}, noGit: shared},
	{name: "join", prepare: [][]string{{"share", "--with", "../other.git", "--new", "--yes"}}, dir: ".", args: []string{"join", "other.git", "peer"}, noGit: shared},
	{name: "publish", args: []string{"publish"}},
	{name: "publish-again", prepare: [][]string{{"publish"}, {"determine", "1", "Ranunculus repens", "--by", "Signe Rask"}}, args: []string{"publish"}},
	{name: "export-csv", prepare: [][]string{{"export", "csv", "--to", "../out.csv"}, {"set", "1", "substrate=Moraine"}}, args: []string{"export", "csv", "--to", "../out.csv", "--yes"}},
	{name: "export-dwca", args: []string{"export", "dwca", "--to", "../out.zip"}},
	{name: "export-xlsx", args: []string{"export", "xlsx", "--to", "../out.xlsx"}},
	{name: "print-labels", args: []string{"print", "labels", "1..2", "--to", "../labels.pdf", "--yes"}},
	{name: "print-covers", args: []string{"print", "covers", "1..3", "--to", "../covers.html", "--yes"}},
	{name: "mirror", args: []string{"mirror", "--to", "../public.git"}},
	{name: "mirror-again", prepare: [][]string{{"mirror", "--to", "../public.git"}, {"set", "1", "substrate=Moraine"}}, args: []string{"mirror", "--to", "../public.git"}},
	{name: "backup", args: []string{"backup", "--to", "../all.bundle", "--yes"}},
	{name: "restore", prepare: [][]string{{"backup", "--to", "../all.bundle"}}, dir: ".", args: []string{"restore", "all.bundle", "again"}},
	{name: "init", dir: ".", args: []string{"init", "fresh", "--code", "LK7", "--name", "Lauvkroken Museum"}},
	{name: "hooks", args: []string{"hooks", "install"}},
	{name: "verify", args: []string{"verify"}},
	{name: "demo", dir: ".", args: []string{"demo", "museum", "--no-serve"}, slow: true},
}

// title is the name of a command's case with or without the git program.
func (k command) title(git bool) string {
	if git {
		return k.name + "+git"
	}
	return k.name + "-git"
}

// at is the folder in which it is typed.
func (k command) at(place string) string {
	if k.dir != "" {
		return filepath.Join(place, k.dir)
	}
	return filepath.Join(place, "ledger")
}

// base makes the ledger that all cases begin with, in the folder "base".
func (c *Campaign) base() (string, error) {
	stock := filepath.Join(c.Dir, "base")
	if _, err := os.Stat(stock); err == nil {
		return stock, nil
	}
	if err := os.MkdirAll(filepath.Join(c.Dir, "empty"), 0o777); err != nil {
		return "", err
	}
	if err := c.renew(filepath.Join(c.Dir, "empty")); err != nil {
		return "", err
	}
	at := c.place()
	if err := write(at, map[string]string{"register.csv": register, "map.yaml": mapping, "day.txt": gathering, "logger.csv": logger}); err != nil {
		return "", err
	}
	ledger := filepath.Join(at, "ledger")
	steps := []func() error{
		func() error {
			return c.must(at, "init", "ledger", "--code", "LK7", "--name", "Lauvkroken Museum", "--timezone", "Europe/Oslo")
		},
		func() error {
			return write(ledger, map[string]string{
				"people.yaml":              "people:\n  - name: Signe Rask\n    email: signe@lauvkroken.example\n  - name: Tiril Aune\n    email: tiril@lauvkroken.example\n",
				"names/Ranunculaceae.yaml": "family: Ranunculaceae\nnames:\n  - name: Ranunculus acris L.\n  - name: Ranunculus repens L.\n  - name: Trollius europaeus L.\n",
			})
		},
		func() error { return c.must(ledger, "enter") },
		func() error { return c.sheet(ledger, "1.vii.2025", "elevation=384 m") },
		func() error { return c.sheet(ledger, "2.vii.2025") },
		func() error { return c.sheet(ledger, "3.vii.2025", "elevation=1150") },
		func() error { return c.sheet(ledger, "4.vii.2025") },
		func() error {
			return c.must(ledger, "new", "--hold", "collector=Signe Rask", "remarks=typed, not entered")
		},
		func() error { return c.must(ledger, "set", "--hold", "4", "substrate=Edited by hand") },
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return "", err
		}
	}
	samples, _ := filepath.Glob(filepath.Join(ledger, ".git", "hooks", "*.sample"))
	for _, f := range samples {
		os.Remove(f)
	}
	return stock, os.Rename(at, stock)
}

func (c *Campaign) sheet(ledger, date string, more ...string) error {
	return c.must(ledger, append([]string{"new", "collector=Signe Rask", "date=" + date, "country=Norway", "locality=by the track", "coll_no=s.n.", "habitat=Meadow edge", "name=Ranunculus acris L."}, more...)...)
}

// must runs the program unharmed.
func (c *Campaign) must(dir string, args ...string) error {
	return c.mustWith(true, dir, args...)
}

func (c *Campaign) mustWith(git bool, dir string, args ...string) error {
	if r := c.run(dir, c.environ(git), args); r.code != 0 {
		return fmt.Errorf("unharmed %q: exit %d\n%s", args, r.code, r.out)
	}
	return nil
}

// stock makes the folder that a command's case begins with.
func (c *Campaign) stock(k command, git bool) (string, error) {
	base, err := c.base()
	if err != nil || k.prepare == nil {
		return base, err
	}
	stock := filepath.Join(c.Dir, "stock-"+k.title(git))
	if _, err := os.Stat(stock); err == nil {
		return stock, nil
	}
	if err := c.renew(base); err != nil {
		return "", err
	}
	for _, args := range k.prepare {
		if err := c.mustWith(git, filepath.Join(c.place(), "ledger"), args...); err != nil {
			return "", err
		}
	}
	return stock, os.Rename(c.place(), stock)
}
