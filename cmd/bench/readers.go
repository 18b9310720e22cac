package main

import (
	"bufio"
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger/dates"
	"blotter/ledger/georeference"
	"blotter/ledger/names"
	"blotter/ledger/people"
	"blotter/ledger/places"
)

// readerGoal is how many values each reader reads in a second of one core at
// the least.
const readerGoal = 100_000

// reader is one row of the table of readers: what it reads, from which file
// of the oracles and which of its columns, or of some texts made up here.
type reader struct {
	name    string
	file    string
	columns []int // joined by a blank; nil: whole lines
	made    []string
	read    func(text string)
}

var readers = []reader{
	{"dates", "dates/verbatim-corpus.txt", nil,
		[]string{"14.vii.1987", "1987-07-14", "July 14, 1987", "3-9 Aug. 1952", "3/4/1934", "14/15.vii.1987", "spring 1910", "ca. 1890", "17IV1934", "5 juillet 1902"},
		func(s string) { dates.Read(s, dates.Ask) }},
	{"positions", "coordinates/verbatim-to-decimal.tsv", []int{1, 2},
		[]string{`60°42'12"N 6°39'05"E`, "60.7034, 6.6512", "60°42.2'N 6°39.1'E", "32V 361500 6730000", "32V LN 615 300", "T12N R4W Sec. 23 NE1/4", "E032S18CB"},
		func(s string) { places.ReadPosition(s) }},
	{"elevations", "coordinates/elevation.tsv", []int{1},
		[]string{"348 m", "1,150-1,200 ft", "ca. 300 m", "1200 m (3937 ft)", "20 m below sea level", "5 fathoms"},
		func(s string) { places.ReadElevation(s) }},
	{"names", "names/all.tsv", []int{2},
		[]string{"Ranunculus acris L.", "Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve", "Taraxacum sp. 3", "Salix aurita L. × S. caprea L.", "Dryopteris filix-mas (L.) Schott", "Carex cf. nigra"},
		func(s string) { names.Read(s) }},
	{"people", "people/strings.tsv", []int{0},
		[]string{"Signe Rask", "S. Rask & O. Bannister, Jr.", "Rask, S.; Bannister, O.", "T. Aune et al. 1207", "M. Ostrander with H. Lie s.n."},
		func(s string) { people.ReadTeam(s) }},
	{"offsets", "", nil,
		[]string{"10 km NE of Voss church", "Vossevangen, 900 m NNE of Voss church, along the stream", "2.8 mi S and 1.2 mi E of the junction", "Stalheim, below the hotel"},
		func(s string) { georeference.ReadOffset(s) }},
}

// readersTable measures each reader in a process of its own with one core and
// prints values a second of its CPU.
func (b *bench) readersTable() error {
	fmt.Printf("\n%-12s %10s  %-40s %12s %10s\n", "reader", "texts", "of", "a second", "goal")
	for _, r := range readers {
		if len(b.only) > 0 && !slices.Contains(b.only, r.name) && !slices.Contains(b.only, "readers") {
			continue
		}
		texts, of, err := r.texts()
		if err != nil {
			return err
		}
		var rates []float64
		for range b.rounds {
			const passes = 1 << 19 // values a round
			c, err := work{name: r.name, argv: []string{b.self, "-child", "read", r.name, strconv.Itoa(passes)}, env: []string{"GOMAXPROCS=1"}}.run()
			if err != nil {
				return err
			}
			rates = append(rates, passes/c.cpu.Seconds())
		}
		slices.Sort(rates)
		rate, verdict := rates[len(rates)/2], "met"
		if rate < readerGoal {
			verdict = "MISSED"
		}
		fmt.Printf("%-12s %10d  %-40s %12.0f %10d  %s\n", r.name, len(texts), of, rate, readerGoal, verdict)
	}
	return nil
}

// readPiece reads texts of one reader, over and over, until it has read n.
func readPiece(name string, n int) error {
	i := slices.IndexFunc(readers, func(r reader) bool { return r.name == name })
	if i < 0 {
		return fmt.Errorf("no reader named %q", name)
	}
	texts, _, err := readers[i].texts()
	if err != nil {
		return err
	}
	for k := range n {
		readers[i].read(texts[k%len(texts)])
	}
	return nil
}

// texts are those of the oracles when they are here (BLOTTER_ORACLES, or
// ../shared/oracles), else the made up ones; of says which.
func (r reader) texts() (texts []string, of string, err error) {
	dir := os.Getenv("BLOTTER_ORACLES")
	if dir == "" {
		dir = filepath.Join("..", "shared", "oracles")
	}
	f, err := os.Open(filepath.Join(dir, filepath.FromSlash(r.file)))
	if err != nil || r.file == "" {
		return r.made, "made up", nil
	}
	defer f.Close()
	if r.columns == nil {
		lines := bufio.NewScanner(f)
		for lines.Scan() {
			texts = append(texts, lines.Text())
		}
		return texts, r.file, lines.Err()
	}
	table := csv.NewReader(f)
	table.Comma, table.FieldsPerRecord, table.LazyQuotes = '\t', -1, true
	for head := true; ; head = false {
		row, err := table.Read()
		if err == io.EOF {
			return texts, r.file, nil
		}
		if err != nil {
			return nil, "", fmt.Errorf("%s: %w", r.file, err)
		}
		var parts []string
		for _, c := range r.columns {
			if c < len(row) && row[c] != "" {
				parts = append(parts, row[c])
			}
		}
		if !head && len(parts) > 0 {
			texts = append(texts, strings.Join(parts, " "))
		}
	}
}
