package main

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"blotter/ledger"
)

// The synthetic ledger: n records entered in commits of a thousand, then
// 0.11 n commits that each re-determine one record. Everything follows from
// the record's serial number, so two runs make the same commits; making it
// takes time and room that grow with n and no faster.

var (
	synFamilies = []string{"Ranunculaceae", "Rosaceae", "Cyperaceae", "Poaceae", "Asteraceae", "Ericaceae", "Salicaceae", "Orchidaceae"}
	synGenera   = [][]string{{"Ranunculus", "Caltha", "Trollius"}, {"Rubus", "Potentilla", "Alchemilla"}, {"Carex", "Eriophorum"}, {"Poa", "Festuca", "Agrostis"}, {"Hieracium", "Cirsium", "Crepis"}, {"Vaccinium", "Erica"}, {"Salix", "Populus"}, {"Dactylorhiza", "Neottia"}}
	synEpithets = []string{"acris", "repens", "palustris", "alpina", "nivalis", "europaea", "vulgaris", "pratensis", "borealis", "minor", "montana", "rivularis", "lapponica", "glauca", "sylvatica", "nigra", "erecta", "maritima", "aquatilis", "tenella"}
	synPeople   = []string{"Signe Rask", "Ove Bannister", "Tiril Aune", "M. Ostrander", "Halvard Lie", "Ingrid Moe", "Per Stokke", "Anna Vik"}
	synDistrict = []string{"Voss", "Granvin", "Ulvik", "Eidfjord", "Aurland", "Vik", "Vaksdal", "Modalen"}
	synHabitats = []string{"Unfertilised hay meadow on moraine", "Wet flush below the road, moving water", "Birch wood with tall herbs on a north slope", "Scree of phyllite, open and dry", "Edge of a raised bog, Sphagnum lawn"}
)

// pick chooses from a list by a mixed hash of i, so that neighbours differ.
func pick[T any](list []T, i, salt int) T {
	h := uint64(i)*0x9E3779B97F4A7C15 + uint64(salt)*0xBF58476D1CE4E5B9
	h ^= h >> 29
	h *= 0x94D049BB133111EB
	h ^= h >> 32
	return list[h%uint64(len(list))]
}

func synNumber(i int) ledger.Number { return ledger.Number(fmt.Sprintf("SY9-%07d", i)) }

// synCollected is how many gatherings a collector of the synthetic ledger
// makes, two hundred and fifty a summer: as many people more as the ledger is
// larger, and numbers that run with the days, as in a collection.
const synCollected = 5000

var synSurnames = []string{"Aasen", "Berge", "Dale", "Eide", "Foss", "Grimstad", "Haugen", "Iversen", "Juvik", "Kvamme", "Lunde", "Myklebust", "Nesse", "Opheim", "Prestegard", "Rongve", "Skjerve", "Tveit", "Utne", "Ygre"}

// synCollector is who collected serial i.
func synCollector(i int) string {
	b := i / synCollected
	if b < len(synPeople) {
		return synPeople[b]
	}
	b -= len(synPeople)
	return string(rune('A'+b/len(synSurnames)%26)) + ". " + synSurnames[b%len(synSurnames)]
}

// synDay is when serial i was collected.
func synDay(i int) time.Time {
	b, k := i/synCollected, i%synCollected
	return time.Date(1890+b*13%110+k/250, 5, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, k%250*120/250)
}

func synName(i, salt int) (name string) {
	f := pick([]int{0, 1, 2, 3, 4, 5, 6, 7}, i, salt)
	return pick(synGenera[f], i, salt+1) + " " + pick(synEpithets, i, salt+2) + " L."
}

// synRecord is the record of serial i with dets determinations after the
// label's own: about 1.2 kB, 45 lines.
func synRecord(i, dets int) string {
	var b strings.Builder
	day := synDay(i)
	p := func(format string, a ...any) { fmt.Fprintf(&b, format, a...) }
	district := pick(synDistrict, i, 3)
	p("specimen: %s\nentry: full\nkept_as: sheet\naccession: %d-%03d\n", synNumber(i), day.Year(), i%900+1)
	p("collector: %s\nwith: [%s]\ncoll_no: \"%d\"\ndate: %s\n", synCollector(i), pick(synPeople, i, 5), i%synCollected+1, day.Format("2006-01-02"))
	p("place:\n  country: Norway\n  province: Vestland\n  district: %s\n", district)
	p("  locality: %d.%d km %s of %s church, above the track to the upper farm\n", i%14+1, i%10, pick([]string{"N", "NE", "E", "S", "SW", "W"}, i, 6), district)
	p("  position: %.4f, %.4f\n  datum: WGS84\n  gps_accuracy: %d m\n  elevation: %d m\n  elevation_by: map\n", 60.3+float64(i%7000)/10000, 5.8+float64(i%13000)/10000, i%12+4, i%1200+20)
	p("habitat: %s\nsubstrate: shallow soil over mica schist\n", pick(synHabitats, i, 7))
	p("associates: [%s, %s]\n", strings.TrimSuffix(synName(i, 20), " L."), strings.TrimSuffix(synName(i, 30), " L."))
	p("description: Perennial herb to %d cm; petals clear yellow, paler beneath, fading on drying; stems %d.\n", i%60+8, i%9+1)
	p("phenology: [flower]\nabundance: %s\npopulation: \"%d\"\ntaken: \"1\"\norigin: wild\n", pick([]string{"rare", "occasional", "frequent", "common"}, i, 8), i%200+20)
	p("fieldbook: {volume: \"%d\", page: \"%d\"}\n", i%20+1, i%180+1)
	p("determinations:\n  - name: %s\n    kind: det\n    by: %s\n    date: %s\n    from: label\n", synName(i, 40), synCollector(i), day.Format("2006-01-02"))
	for d := range dets {
		p("  - name: %s\n    kind: det\n    by: %s\n    date: 2025-%02d-%02d\n    from: slip\n    seen: sheet\n    why: Beak and receptacle hairs, against the regional flora\n",
			synName(i, 50+d), pick(synPeople, i, 60+d), i%12+1, i%28+1)
	}
	p("duplicates:\n  - made: \"2\"\n    on_hand: \"1\"\nwritings:\n  - on_sheet: label\n    text: Flora of %s, hay meadow, %s\n", district, day.Format("2 January 2006"))
	p("remarks: Mounted with linen straps; a fragment packet holds loose fruits.\n")
	return b.String()
}

// synMuseum is the files of the synthetic museum of n records besides these.
func synMuseum(n int) map[string]string {
	m := map[string]string{
		".gitattributes":  "* -text\n",
		ledger.MuseumFile: "format: \"1\"\nname: Synthetic Museum\ncode: SY9\nnumbering: {prefix: SY9-, digits: \"7\"}\n",
		ledger.PeopleFile: "people:\n",
		"pages/front.md":  "A collection made by a program, to measure with.\n",
	}
	people := slices.Clone(synPeople)
	for b := len(people); b <= n/synCollected; b++ {
		people = append(people, synCollector(b*synCollected))
	}
	for _, p := range people {
		m[ledger.PeopleFile] += "  - name: " + p + "\n"
	}
	for f, family := range synFamilies {
		var b strings.Builder
		fmt.Fprintf(&b, "family: %s\nnames:\n", family)
		for _, g := range synGenera[f] {
			for _, e := range synEpithets {
				fmt.Fprintf(&b, "  - name: %s %s L.\n", g, e)
			}
		}
		m[ledger.NamesDir+"/"+family+".yaml"] = b.String()
	}
	return m
}

// synthesize makes the ledger of n records in dir through git fast-import and
// checks it out; it does nothing when dir holds one already.
func synthesize(dir string, n int) error {
	if _, err := os.Stat(filepath.Join(dir, ledger.MuseumFile)); err == nil {
		return nil
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	if err := runIn(dir, "git", "init", "-q", "-b", "main"); err != nil {
		return err
	}
	imp := exec.Command("git", "-c", "core.compression=1", "fast-import", "--quiet")
	imp.Dir, imp.Stderr = dir, os.Stderr
	in, err := imp.StdinPipe()
	if err != nil {
		return err
	}
	if err := imp.Start(); err != nil {
		return err
	}
	w := bufio.NewWriterSize(in, 1<<20)
	writeHistory(w, n)
	if err := w.Flush(); err != nil {
		return err
	}
	in.Close()
	if err := imp.Wait(); err != nil {
		return fmt.Errorf("git fast-import: %w", err)
	}
	if err := runIn(dir, "git", "gc", "-q"); err != nil {
		return err
	}
	return runIn(dir, "git", "reset", "-q", "--hard", "main")
}

// writeHistory writes the fast-import stream of n records and their history.
func writeHistory(w *bufio.Writer, n int) {
	moment := int64(1700000000)
	commit := func(subject string) {
		moment += 60
		fmt.Fprintf(w, "commit refs/heads/main\ncommitter Signe Rask <signe@lauvkroken.example> %d +0100\ndata %d\n%s\n", moment, len(subject), subject)
	}
	file := func(path, content string) {
		fmt.Fprintf(w, "M 100644 inline %s\ndata %d\n%s\n", path, len(content), content)
	}
	commit("Begin the ledger")
	museum := synMuseum(n)
	for _, path := range sortedKeys(museum) {
		file(path, museum[path])
	}
	for i := 1; i <= n; i++ {
		if i%1000 == 1 {
			commit(fmt.Sprintf("Enter sheets from %s on", synNumber(i)))
		}
		file(synNumber(i).Path(), synRecord(i, 0))
	}
	for d := range n * 11 / 100 {
		i := d*7919%n + 1
		commit(fmt.Sprintf("%s is now %s", synNumber(i), synName(i, 50)))
		file(synNumber(i).Path(), synRecord(i, 1))
	}
}
