package mirror_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/gitrepo"
	"blotter/ledger/mirror"
)

// environs are the two back ends: with the git program and without.
func environs() [2][]string {
	bare := []string{"HOME=" + os.DevNull, "LC_ALL=C", "GIT_CONFIG_NOSYSTEM=1", "GIT_CONFIG_GLOBAL=" + os.DevNull}
	return [2][]string{append([]string{"PATH=" + os.Getenv("PATH")}, bare...), append([]string{"PATH="}, bare...)}
}

func git(t testing.TB, dir, in string, args ...string) string {
	t.Helper()
	cmd := exec.Command("git", args...)
	cmd.Dir, cmd.Env, cmd.Stdin = dir, environs()[0], strings.NewReader(in)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("git %s: %v\n%s", strings.Join(args, " "), err, out)
	}
	return string(out)
}

// mirrored brings the mirror in dir up to the ledger's main branch; no report
// when a sheet would give a withheld one away.
func mirrored(t testing.TB, source, dir string, environ []string, kept *[]byte) (*mirror.Report, []gitrepo.ObjectID) {
	t.Helper()
	ctx := context.Background()
	repo, err := gitrepo.Open(source, environ)
	if err != nil {
		t.Fatal(err)
	}
	defer repo.Close()
	j := job(t, repo)
	if s := mirror.DecodeState(*kept); s != nil {
		j.Kept = append(j.Kept, s)
	}
	target, err := gitrepo.OpenBare(dir, environ)
	if err != nil {
		t.Fatal(err)
	}
	defer target.Close()
	r, err := j.Make(ctx, target, func(s *mirror.State) (err error) { *kept, err = s.Encode(); return err })
	if away := (*mirror.GivesAway)(nil); errors.As(err, &away) {
		return nil, nil
	}
	if err != nil {
		t.Fatal(err)
	}
	ids, err := target.IDs()
	if err != nil {
		t.Fatal(err)
	}
	return r, ids
}

func job(t testing.TB, repo *gitrepo.Repo) *mirror.Job {
	t.Helper()
	ctx := context.Background()
	tip, err := repo.Resolve(ctx, "main")
	if err != nil {
		t.Fatal(err)
	}
	src, err := repo.At(ctx, tip)
	if err != nil {
		t.Fatal(err)
	}
	b, err := book.Load(ctx, src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	view, err := repo.History(ctx, nil, tip)
	if err != nil {
		t.Fatal(err)
	}
	return &mirror.Job{Source: repo, Tip: tip, Book: b, Loader: b.Loader(src, nil), History: view}
}

// story makes a random ledger: a stream for git fast-import.
type story struct {
	*rand.Rand
	bytes.Buffer
	mark  int
	next  int                       // plants that there were
	heads []int                     // marks of commits that a next one may stand on; the last is main
	files map[int]map[string]string // of a commit, by its mark
}

func newStory(seed uint64) *story {
	return &story{Rand: rand.New(rand.NewPCG(seed, 11)), files: map[int]map[string]string{}}
}

const settings = "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\n"

// entry adds a commit that changes some files.
func (s *story) entry(first bool) {
	s.mark++
	files := map[string]string{}
	var parents []int
	if len(s.heads) > 0 {
		parents = append(parents, s.heads[len(s.heads)-1])
		if s.IntN(5) == 0 {
			parents[0] = s.heads[s.IntN(len(s.heads))]
		}
		if other := s.heads[s.IntN(len(s.heads))]; s.IntN(5) == 0 && other != parents[0] {
			parents = append(parents, other)
		}
		for _, p := range slices.Backward(parents) {
			for path, text := range s.files[p] {
				files[path] = text
			}
		}
	}
	once(files)
	if first {
		files["blotter.yaml"] = settings
	}
	for range s.IntN(4) {
		s.change(files)
	}
	moved := ""
	if s.IntN(4) == 0 {
		moved = s.move(files)
	}
	when := 1_700_000_000 + s.mark*60 - s.IntN(200)
	fmt.Fprintf(s, "commit refs/heads/main\nmark :%d\nauthor %s <%s> %d +0100\ncommitter Tiril Aune <tiril@lauvkroken.example> %d +0200\ndata <<END\nSecret message %d\n\nCorrects: LK7-0000001 secret reason\n%sEND\n",
		s.mark, []string{"Signe Rask", "Ove Bannister", "ove@lauvkroken.example"}[s.IntN(3)], "who@lauvkroken.example", when, when, s.mark, moved)
	for i, p := range parents {
		fmt.Fprintf(s, "%s :%d\n", []string{"from", "merge"}[min(i, 1)], p)
	}
	s.WriteString("deleteall\n")
	for _, path := range sortedKeys(files) {
		fmt.Fprintf(s, "M 100644 inline %s\ndata %d\n%s\n", path, len(files[path]), files[path])
	}
	s.files[s.mark] = files
	s.heads = append(s.heads, s.mark)
	if len(s.heads) > 4 {
		s.heads = s.heads[1:]
	}
}

// change changes one file.
func (s *story) change(files map[string]string) {
	switch s.IntN(12) {
	case 0:
		files["names/Ranunculaceae.yaml"] = []string{
			"family: Ranunculaceae\nnames:\n  - name: Ranunculus acris L.\n",
			"# a comment\nfamily: Ranunculaceae\nnames:\n  - {name: Ranunculus acris L., by: Ove Bannister}\n",
			"family: Ranunculaceae\nnames:\n  - {name: Ranunculus repens L., sensitive: {why: rare here, category: \"3\"}}\n",
			"family: Ranunculaceae\nnames: [broken\n"}[s.IntN(4)]
	case 1:
		files["people.yaml"] = "people:\n  - {name: Signe Rask, email: signe@lauvkroken.example}\n  - {name: Ove Bannister, born: \"1960\"}\n"
	case 2:
		files["pages/about.md"] = fmt.Sprintf("# Secret page %d\n", s.mark)
	case 3:
		n := ledger.Number(fmt.Sprintf("LK7-%07d", 1+s.IntN(5)))
		delete(files, n.Path())
	case 4: // another folder, or a second file of one number
		n := ledger.Number(fmt.Sprintf("LK7-%07d", 1+s.IntN(5)))
		if text, ok := files[n.Path()]; ok {
			files["specimens/hidden valley/"+string(n)+".yaml"] = text
			if s.IntN(2) == 0 {
				delete(files, n.Path())
			}
		}
	case 5:
		n := ledger.Number(fmt.Sprintf("LK7-%07d", 1+s.IntN(5)))
		delete(files, "specimens/hidden valley/"+string(n)+".yaml")
	default:
		n := ledger.Number(fmt.Sprintf("LK7-%07d", 1+s.IntN(5)))
		plant := plantOf(files[n.Path()])
		if plant < 0 {
			plant, s.next = s.next, s.next+1
		}
		files[n.Path()] = s.record(n, plant)
	}
}

// once leaves each plant under one number: lines of work in which it went under
// two are brought together as people would.
func once(files map[string]string) {
	at := map[int]ledger.Number{}
	for _, path := range sortedKeys(files) {
		n, ok := ledger.NumberOfPath(path)
		plant := plantOf(files[path])
		if !ok || plant < 0 {
			continue
		}
		if have, twice := at[plant]; twice && have != n {
			delete(files, path)
			continue
		}
		at[plant] = n
	}
}

// plantOf is the plant of a record, as its collector's number tells; -1 for no
// record.
func plantOf(text string) int {
	_, rest, ok := strings.Cut(text, "coll_no: \"")
	v := -1
	if ok {
		fmt.Sscanf(rest, "%d", &v)
		v = (v - 100) / 13
	}
	return v
}

// move lets two plants exchange their numbers, or one go on under another, with
// a stub or without one; the trailer that says so.
func (s *story) move(files map[string]string) string {
	a, b := ledger.Number(fmt.Sprintf("LK7-%07d", 1+s.IntN(5))), ledger.Number(fmt.Sprintf("LK7-%07d", 1+s.IntN(8)))
	from, to := files[a.Path()], files[b.Path()]
	bears := func(text string, n ledger.Number) string {
		_, rest, _ := strings.Cut(text, "\n")
		return "specimen: " + string(n) + "\n" + rest
	}
	if a == b || from == "" {
		return ""
	}
	files[b.Path()] = bears(from, b)
	if to != "" {
		files[a.Path()] = bears(to, a)
		return fmt.Sprintf("Swapped: %s %s secret reason\n", a, b)
	}
	delete(files, a.Path())
	if s.IntN(2) == 0 {
		files[a.Path()] = fmt.Sprintf("specimen: %s\nentry: stub\nfate:\n  - {is: same-as, to: %s, by: Ove Bannister, date: 2026-11-03, why: secret reason}\n", a, b)
	}
	return fmt.Sprintf("Renumbered: %s %s secret reason\n", a, b)
}

// record is one version of the record of plant i.
func (s *story) record(n ledger.Number, i int) string {
	tag := fmt.Sprintf("%dv%d", i, s.mark) // no four words in a row stand in two records: they would tell on each other
	where := fmt.Sprintf("Kvam%s Lid%s Moen%s Rud%s", tag, tag, tag, tag)
	text := fmt.Sprintf("specimen: %s\nentry: full\ncollector: Signe Rask\ncoll_no: \"%d\"\ndate: %d.vii.%d\nplace:\n  country: Norway\n  province: Vestland\n  locality: %s\n  position: 60.%05d, 6.%05d\n",
		n, 100+13*i, 1+3*i%27, 1900+i%110, where, 10000+s.IntN(80000), 10000+s.IntN(80000))
	switch s.IntN(9) {
	case 0:
		return text + "determinations: [broken\n"
	case 1:
		return strings.Replace(text, "entry: full", "entry: draft", 1)
	case 2:
		text += "# a remark for the staff\n"
	case 3:
		text += fmt.Sprintf("same_gathering: [LK7-%07d]\n", 1+s.IntN(5))
	case 4, 5, 6:
		if i%5 < 3 {
			text += fmt.Sprintf("sensitive: {why: would be dug up, category: \"%d\"}\n", 1+s.IntN(4))
		}
	}
	return text + fmt.Sprintf("determinations:\n  - {name: Ranunculus %s, by: Ove Bannister, date: 2026-0%d-02}\n", []string{"acris", "repens"}[s.IntN(2)], 1+s.IntN(9))
}

func sortedKeys[V any](m map[string]V) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// TestBitByBitIsAtOnce grows random ledgers with branches, merges, sheets in
// wrong folders, broken files and marks that come late, and mirrors them bit by
// bit. Each time a mirror made at once, by the other back end, has the same
// objects, and none of them holds a word that is withheld.
func TestBitByBitIsAtOnce(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("git is missing: nothing to make random ledgers with")
	}
	seeds := uint64(4)
	if testing.Short() {
		seeds = 2
	}
	seen, looked := map[mirror.Reason]int{}, 0
	for seed := range seeds {
		s := newStory(seed)
		dir := t.TempDir()
		source, grown := filepath.Join(dir, "ledger"), filepath.Join(dir, "grown.git")
		git(t, dir, "", "init", "-q", "-b", "main", source)
		var kept []byte
		for round := range 6 {
			s.Reset()
			for i := range 1 + s.IntN(9) {
				s.entry(round == 0 && i == 0)
			}
			git(t, source, s.String(), "fast-import", "--quiet", "--force", "--import-marks-if-exists=.git/marks", "--export-marks=.git/marks")
			report, ids := mirrored(t, source, grown, environs()[round%2], &kept)
			var nothing []byte
			once, want := mirrored(t, source, filepath.Join(dir, fmt.Sprint("once", round, ".git")), environs()[(round+1)%2], &nothing)
			if report == nil || once == nil {
				if report != nil || once != nil {
					t.Fatalf("seed %d round %d: refused bit by bit: %t, at once: %t", seed, round, report == nil, once == nil)
				}
				continue
			}
			seen[report.Anew]++
			if once.Tip != report.Tip || !slices.Equal(ids, want) {
				t.Fatalf("seed %d round %d: bit by bit (%v) %s with %d objects, at once %s with %d", seed, round, report.Anew, report.Tip, len(ids), once.Tip, len(want))
			}
		}
		if out := git(t, grown, "", "fsck", "--strict", "--full"); out != "" {
			t.Errorf("seed %d: fsck: %s", seed, out)
		}
		all := git(t, grown, "", "cat-file", "--batch", "--batch-all-objects")
		for _, secret := range []string{"Secret", "secret", "hidden valley", "remark for the staff", "@lauvkroken.example"} {
			if strings.Contains(all, secret) {
				t.Errorf("seed %d: %q stands in an object", seed, secret)
			}
		}
		for _, w := range withheldWords(t, source) {
			looked++
			if strings.Contains(all, w) {
				t.Errorf("seed %d: %q of a sheet that is withheld stands in an object", seed, w)
			}
		}
	}
	if looked == 0 || seen[mirror.Not] == 0 || seen[mirror.Stricter] == 0 {
		t.Errorf("too tame: %d words looked for, gone on with %d times, made anew %d times", looked, seen[mirror.Not], seen[mirror.Stricter])
	}
}

// withheldWords are the localities and positions that any version says of a
// plant, whatever its number was then, of which any version is marked.
func withheldWords(t *testing.T, source string) []string {
	var ids strings.Builder
	for line := range strings.Lines(git(t, source, "", "rev-list", "--objects", "main")) {
		ids.WriteString(strings.Fields(line)[0] + "\n")
	}
	held, words := map[string]bool{}, map[string][]string{}
	for object := range strings.SplitSeq(git(t, source, ids.String(), "cat-file", "--batch"), "\nspecimen: ") {
		plant := fmt.Sprint(plantOf(object))
		held[plant] = held[plant] || strings.Contains(object, "\nsensitive:")
		for line := range strings.Lines(object) {
			for _, key := range []string{"  locality: ", "  position: "} {
				if w, ok := strings.CutPrefix(line, key); ok {
					words[plant] = append(words[plant], strings.TrimSpace(w))
				}
			}
		}
	}
	var out []string
	for _, n := range sortedKeys(words) {
		if held[n] {
			out = append(out, words[n]...)
		}
	}
	return out
}
