// Command bench builds synthetic ledgers with history and prints how long
// Blotter's work takes beside a named peer of the same run: git, the YAML
// parser alone, hugo, an empty Go program, plain writing of files; and how
// many values each reader reads in a second of one core. It is
// never a test: figures are ratios, taken in alternating rounds.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

func main() {
	sizes := flag.String("n", "1000,10000", "comma list: how many records each synthetic ledger holds; empty: the readers alone")
	rounds := flag.Int("rounds", 3, "rounds; the median CPU is judged")
	dir := flag.String("dir", "", "where to build the ledgers (default: memory-backed disk if it has room, else the temp folder)")
	only := flag.String("only", "", "comma list of row names, readers among them; empty: all")
	keep := flag.Bool("keep", false, "leave the ledgers behind, and use those already there")
	harmful := flag.Bool("harm", false, "instead: kill the program, fill its disk, let two write at once; count what is lost (-only: part of a case's name)")
	var o harmOptions
	flag.IntVar(&o.kills, "kills", 1000, "of -harm: how many kills")
	flag.IntVar(&o.full, "full", 8, "of -harm: how many sizes of a full disk each command meets")
	flag.IntVar(&o.rounds, "writers", 200, "of -harm: how many rounds of several writers at once")
	flag.IntVar(&o.cuts, "cuts", 1000, "of -harm: how many power cuts")
	flag.IntVar(&o.cut, "cut", 0, "of -harm: the only power cut to be made, by its number; 0: all")
	flag.Uint64Var(&o.seed, "seed", 1, "of -harm: another seed, other moments")
	flag.DurationVar(&o.moment, "moment", 0, "of -harm: when each kill comes; 0: at random")
	child := flag.String("child", "", "internal: do one piece of work in this process and end")
	flag.Parse()
	if *child != "" {
		if err := runChild(*child, flag.Args()); err != nil {
			fail(err)
		}
		return
	}
	work, err := workFolder(*dir)
	if err != nil {
		fail(err)
	}
	if !*keep {
		defer os.RemoveAll(work)
	}
	if *harmful {
		o.only, o.keep = *only, *keep
		if err := runHarm(work, o); err != nil {
			fail(err)
		}
		return
	}
	b := &bench{work: work, rounds: *rounds, only: split(*only)}
	if err := b.build(); err != nil {
		fail(err)
	}
	if err := b.readersTable(); err != nil {
		fail(err)
	}
	for _, s := range split(*sizes) {
		n, err := strconv.Atoi(s)
		if err != nil || n < 1 {
			fail(fmt.Errorf("-n %s: not a number of records", s))
		}
		if err := b.size(n); err != nil {
			fail(err)
		}
	}
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, "bench:", err)
	os.Exit(3)
}

func split(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, ",")
}

// workFolder is where ledgers are built: dir, or a folder on memory-backed
// disk, or one in the temp folder.
func workFolder(dir string) (string, error) {
	if dir != "" {
		return filepath.Abs(dir)
	}
	if info, err := os.Stat("/dev/shm"); err == nil && info.IsDir() {
		return filepath.Join("/dev/shm", "blotter-bench"), nil
	}
	return filepath.Join(os.TempDir(), "blotter-bench"), nil
}
