package public_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"blotter/ledger/public"
)

// secretsOf are those of a ledger of records.
func secretsOf(t testing.TB, records ...string) *public.Secrets {
	t.Helper()
	v, load := ledgerOf(t, nil, records...)
	s, err := v.Secrets(context.Background(), load)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// through is what a Scanner that knows state finds in files, and its own state.
func through(t testing.TB, s *public.Secrets, state []byte, files map[string]string) (public.ScanReport, []byte) {
	t.Helper()
	x := s.Scanner(public.ScanOptions{State: state})
	for name, text := range files {
		x.ScanSum(name, fmt.Sprintf("%x", sha256.Sum256([]byte(text))), []byte(text))
	}
	r, err := x.Report(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return r, x.State()
}

// told is what a report says, without words.
func told(r public.ScanReport) []string {
	out := []string{}
	for _, l := range r.Leaks {
		out = append(out, fmt.Sprint(l.File, " ", l.Line, " ", l.Number, " ", l.Field))
	}
	slices.Sort(out)
	return out
}

var spots = []string{"the boathouse under Trollabotn", "the chapel behind Raundal", "the sluice over Holbygda", "the kiln beside Gråsteinen"}

// TestScanAgain: after any edits of outputs, words and marks, what a Scanner
// finds with the state of the last run is what one finds that knows nothing.
func TestScanAgain(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		files := map[string]string{}
		var state []byte
		for range rapid.IntRange(2, 4).Draw(r, "runs") {
			var records []string
			for i := range rapid.IntRange(1, 4).Draw(r, "records") {
				text := gathering("Signe Rask", fmt.Sprint(1200+7*i), "14.vii.2025", rapid.SampledFrom(spots).Draw(r, "spot"), fmt.Sprintf("60.%d034, 6.6512", 1+i))
				if rapid.Bool().Draw(r, "withheld") {
					text += marked(rapid.SampledFrom([]string{"1", "2", "3", "4"}).Draw(r, "category"))
				}
				records = append(records, text)
			}
			for range rapid.IntRange(0, 4).Draw(r, "edits") {
				name := rapid.SampledFrom([]string{"a.html", "b.md", "c.json"}).Draw(r, "file")
				files[name] = "x " + rapid.SampledFrom(append([]string{"60.1034, 6.6512", "60.2034 6.6512", "nothing", "Rask 1207"}, spots...)).Draw(r, "text") + " y"
			}
			s := secretsOf(t, records...)
			cold, _ := through(t, s, nil, files)
			again, next := through(t, s, state, files)
			if d := cmp.Diff(told(cold), told(again)); d != "" {
				r.Fatalf("with the state of the last run another find (-cold +again):\n%s", d)
			}
			state = next
		}
	})
}

// TestScanWitness: a value that an open record holds too is a hit as soon as
// that record is withheld or says something else, though the file is known.
func TestScanWitness(t *testing.T) {
	const words = "writings:\n  - {text: \"by the boathouse under Trollabotn\"}\n"
	secret := gathering("Signe Rask", "1207", "14.vii.2025", "Raundal", "60.7034, 6.6512") + words + marked("2")
	far := gathering("Ove Bannister", "88", "2.viii.1999", "Holbygda", "60.9123, 6.9321")
	files := map[string]string{"about.html": "We came by the boathouse under Trollabotn.\n"}
	r, state := through(t, secretsOf(t, secret, far+words), nil, files)
	if len(r.Leaks) != 0 {
		t.Fatalf("words that an open record holds are a hit: %v", told(r))
	}
	for _, c := range []struct{ second, reason string }{
		{far + words + marked("2"), "the other record is withheld now"},
		{far, "the other record has the words no more"},
	} {
		if r, _ := through(t, secretsOf(t, secret, c.second), state, files); len(r.Leaks) == 0 {
			t.Errorf("no hit: %s", c.reason)
		}
	}
}

// TestScanDamaged: a state of which any byte is another is none.
func TestScanDamaged(t *testing.T) {
	s := secretsOf(t, gathering("Signe Rask", "1207", "14.vii.2025", "the boathouse under Trollabotn", "60.7034, 6.6512")+marked("2"))
	_, state := through(t, s, nil, map[string]string{"a.html": "nothing here"})
	if r, _ := through(t, s, state, map[string]string{"a.html": "nothing here"}); r.Skipped != 1 {
		t.Fatalf("%+v: a known file is looked through again", r)
	}
	for i := range state {
		b := bytes.Clone(state)
		b[i] ^= 0x40
		if r, _ := through(t, s, b, map[string]string{"a.html": "nothing here"}); r.Skipped != 0 {
			t.Fatalf("byte %d of %d is another and the state counts", i, len(state))
		}
		if r, _ := through(t, s, state[:i], map[string]string{"a.html": "nothing here"}); r.Skipped != 0 {
			t.Fatalf("%d bytes of %d count as a state", i, len(state))
		}
	}
}

// FuzzScanState: whatever stands in a state whose checksum is right, a file
// that it does not know is looked through for what it does not hold.
func FuzzScanState(f *testing.F) {
	s := secretsOf(f, gathering("Signe Rask", "1207", "14.vii.2025", "the boathouse under Trollabotn", "60.7034, 6.6512")+marked("2"))
	_, state := through(f, s, nil, map[string]string{"a.html": "nothing here"})
	head := state[:bytes.IndexByte(state, '\n')+1]
	f.Add(state[len(head) : len(state)-8])
	f.Add([]byte{0, 0, 0})
	f.Add([]byte("\xff\xff\xff\xff\x01"))
	f.Fuzz(func(t *testing.T, body []byte) {
		b := append(bytes.Clone(head), body...)
		sum := sha256.Sum256(b)
		r, next := through(t, s, append(b, sum[:8]...), map[string]string{"new.html": "at 60.7034, 6.6512"})
		if len(r.Leaks) == 0 && !strings.Contains(string(body), "LK7-") {
			t.Fatal("a new file is passed over")
		}
		if !bytes.HasPrefix(next, head) {
			t.Fatal("the next state is of another form")
		}
	})
}
