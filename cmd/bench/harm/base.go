package harm

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

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
		if args[0] == "git" {
			c.gitSays(filepath.Join(c.place(), "ledger"), args[1:])
			continue
		}
		if err := c.mustWith(git, filepath.Join(c.place(), "ledger"), args...); err != nil {
			return "", err
		}
	}
	return stock, os.Rename(c.place(), stock)
}

// gitSays runs git as a person does; it may say no, as in the middle of a merge.
func (c *Campaign) gitSays(ledger string, args []string) {
	cmd := exec.Command("git", args...)
	cmd.Dir, cmd.Env = ledger, c.environ(true)
	cmd.Run()
}
