package main

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// registerOf is a spreadsheet of n rows as a volunteer keeps one, about 220
// bytes a row; every tenth names two plants in order.
func registerOf(file string, n int) error {
	if _, err := os.Stat(file); err == nil {
		return nil
	}
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	w := bufio.NewWriterSize(f, 1<<20)
	fmt.Fprintln(w, "Running no.;Collector;Coll. no.;Date;Country;Province;District;Locality;Latitude;Longitude;Elevation (m);Habitat;Names;Det. by;Det. date;Shelf;Notes")
	for i := 1; i <= n; i++ {
		names := synName(i, 1)
		if i%10 == 0 {
			names = synName(i, 2) + ", " + names
		}
		fmt.Fprintf(w, "%d;%s;%d;%d.%d.%d;Norway;Vestland;%s;%d.%d km N of the church, above the track;%.4f;%.4f;%d;%s;%s;%s;%d;K%d;Mounted with linen straps\n",
			i, pick(synPeople, i/50, 3), i%9000+1, 1+i%28, 5+i%4, 1890+i/90%130, pick(synDistrict, i, 4), i%14+1, i%10,
			60.3+float64(i%7000)/10000, 5.8+float64(i%13000)/10000, i%1200, pick(synHabitats, i, 5), names, pick(synPeople, i, 6), 2021, i%40)
	}
	return errors.Join(w.Flush(), f.Close())
}

// measureImport brings a table of as many rows into a ledger that is empty, or
// only rehearses it.
func measureImport(flag string) func(s stage) (ours, peer cost, err error) {
	return func(s stage) (ours, peer cost, err error) {
		register := filepath.Join(s.work, fmt.Sprintf("register-%d.csv", s.n))
		if err := registerOf(register, s.n); err != nil {
			return ours, peer, err
		}
		dir := filepath.Join(s.work, "import")
		defer os.RemoveAll(dir)
		fresh := func() error {
			if err := os.RemoveAll(dir); err != nil {
				return err
			}
			if err := runIn(s.work, s.blotter, "init", dir, "--name", "Synthetic Museum", "--code", "SY9", "--prefix", "SY9-", "--digits", "7", "--yes"); err != nil {
				return err
			}
			for path, text := range synMuseum(s.n) { // so that people and names are known
				full := filepath.Join(dir, path)
				if err := errors.Join(os.MkdirAll(filepath.Dir(full), 0o777), os.WriteFile(full, []byte(text), 0o666)); err != nil {
					return err
				}
			}
			return runIn(dir, s.blotter, "enter", "--quiet")
		}
		if err := fresh(); err != nil {
			return ours, peer, err
		}
		w := work{name: "import", dir: dir, argv: []string{s.blotter, "import", register, flag}}
		if flag == "--yes" {
			w.prepare = fresh
		}
		return alternate(s.rounds, w, work{name: "cp", dir: s.work, argv: []string{"cp", register, filepath.Join(s.work, "copy")}})
	}
}
