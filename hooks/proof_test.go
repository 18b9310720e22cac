package hooks

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// prove proves a tip with a cache or without, with the git program or without.
func (h *teller) prove(tip string, cached, program bool) Proof {
	h.t.Helper()
	repo, err := gitrepo.Open(h.dir, environ(program))
	if err != nil {
		h.t.Fatal(err)
	}
	defer repo.Close()
	var cache *disk.Cache
	if cached {
		cache = repo.Cache()
	}
	id, err := repo.Resolve(context.Background(), tip)
	if err != nil {
		h.t.Fatal(err)
	}
	p, err := Bench{Repo: repo, Cache: cache}.Prove(context.Background(), id, nil)
	if err != nil {
		h.t.Fatal(err)
	}
	return p
}

// TestProve holds one small history after another to the laws.
func TestProve(t *testing.T) {
	for _, tt := range []struct {
		name   string
		tell   func(h *teller)
		want   string // codes of what is broken, ! before what stands again
		reason string
	}{
		{"added", func(h *teller) { h.put(1, "a"); h.enter("1"); h.put(1, "ab"); h.enter("2") }, "", "a new opinion is no harm"},
		{"older slip", func(h *teller) { h.put(1, "b"); h.enter("1"); h.put(1, "ab"); h.enter("2") }, "opinion-changed", "its date is written anew by the slip before it here"},
		{"gone", func(h *teller) { h.put(1, "ab"); h.enter("1"); h.put(1, "a"); h.enter("2") }, "opinion-changed", ""},
		{"gone, and put back", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			h.put(1, "a")
			h.enter("2")
			h.put(1, "abc")
			h.enter("3")
		}, "!opinion-changed", "what stands again is told as such"},
		{"corrected", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			h.put(1, "a")
			h.enter("2\n\nCorrects: LK7-0000001 slip of another sheet")
		}, "", "a correction is on record"},
		{"corrected of another", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			h.put(1, "a")
			h.enter("2\n\nCorrects: LK7-0000002 slip of another sheet")
		}, "opinion-changed", "a trailer is for one number"},
		{"record removed", func(h *teller) {
			h.put(1, "a")
			h.put(2, "a")
			h.enter("1")
			h.git("rm", "-q", h.path(1))
			h.enter("2")
		}, "record-removed", ""},
		{"record removed and another in its place", func(h *teller) {
			h.write(1, "specimen: LK7-0000001\nentry: draft\ncollector: Signe Rask\n")
			h.enter("1")
			h.git("rm", "-q", h.path(1))
			h.enter("2\n\nCorrects: LK7-0000001 never was a sheet")
			h.write(1, "specimen: LK7-0000001\nentry: draft\ncollector: Ove Bannister\n")
			h.enter("3")
		}, "number-used", "a number is one plant for ever"},
		{"broken and mended between", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			h.write(1, "determinations: [\n")
			h.enter("2")
			h.put(1, "a")
			h.enter("3")
		}, "opinion-changed", "no version shows both, the law sees over it"},
		{"broken and mended whole", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			h.write(1, "determinations: [\n")
			h.enter("2")
			h.put(1, "abc")
			h.enter("3")
		}, "", "nothing was lost"},
		{"unread from the first", func(h *teller) { h.write(1, "determinations: [\n"); h.enter("1"); h.put(1, "a"); h.enter("2") }, "parent-unread", "said, and no fault"},
		{"merge keeps both", func(h *teller) {
			h.put(1, "a")
			h.enter("1")
			h.aside(func() { h.put(2, "x"); h.enter("2") })
			h.put(1, "ab")
			h.enter("3")
			h.git("merge", "-q", "--no-edit", "side")
		}, "", ""},
		{"merge drops the other side", func(h *teller) {
			h.put(1, "a")
			h.enter("1")
			h.aside(func() { h.put(1, "ac"); h.enter("2") })
			h.put(3, "ab")
			h.enter("3")
			h.git("merge", "-q", "-s", "ours", "--no-edit", "side")
		}, "opinion-changed", "equal to one parent, so no change of its own: the other's opinion is gone"},
		{"merge drops the other side's sheet", func(h *teller) {
			h.put(1, "a")
			h.enter("1")
			h.aside(func() { h.put(2, "x"); h.enter("2") })
			h.put(3, "ab")
			h.enter("3")
			h.git("merge", "-q", "-s", "ours", "--no-edit", "side")
		}, "record-removed", ""},
		{"merge of a correction", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			h.aside(func() { h.put(1, "a"); h.enter("2\n\nCorrects: LK7-0000001 slip of another sheet") })
			h.put(2, "x")
			h.enter("3")
			h.git("merge", "-q", "--no-edit", "side")
		}, "", "corrected on one side need not be corrected again"},
		{"renumbered and told", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			h.enter("2" + h.move(1, 3, true))
		}, "", "the plant goes on as 3, of 1 the stub is left"},
		{"renumbered and told, nothing left", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			h.enter("2" + h.move(1, 3, false))
		}, "", "the number was nobody else's yet"},
		{"swapped and told", func(h *teller) {
			h.put(1, "ab")
			h.put(2, "c")
			h.enter("1")
			h.enter("2" + h.move(1, 2, false))
			h.enter("3" + h.move(2, 1, false))
		}, "", "there and back"},
		{"swapped and not told", func(h *teller) {
			h.put(1, "ab")
			h.put(2, "c")
			h.enter("1")
			h.move(1, 2, false)
			h.enter("2")
		}, "opinion-changed number-moved opinion-changed opinion-changed", "each number lost its opinions"},
		{"renumbered and not told", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			h.move(1, 3, true)
			h.enter("2")
		}, "opinion-changed opinion-changed number-moved", ""},
		{"told and not so", func(h *teller) {
			h.put(1, "ab")
			h.put(2, "c")
			h.enter("1")
			h.put(3, "x")
			h.enter("2\n\nRenumbered: LK7-0000001 LK7-0000003 stuck")
		}, "number-moved", "another plant bears the new number"},
		{"an opinion gone while it was renumbered", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			message := "2" + h.move(1, 3, true)
			h.put(3, "a")
			h.enter(message)
		}, "opinion-changed opinion-changed number-moved", "a move is no cover for a change"},
		{"gone, renumbered, and put back there", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			h.put(1, "a")
			h.enter("2")
			h.enter("3" + h.move(1, 3, true))
			h.put(3, "ab")
			h.enter("4")
		}, "!opinion-changed", "what stands again is looked for under the number that the plant bears then"},
		{"renumbered on one side, determined on the other", func(h *teller) {
			h.put(1, "a")
			h.enter("1")
			h.aside(func() { h.enter("2" + h.move(1, 3, true)) })
			h.put(1, "ab")
			h.enter("3")
			h.enter("4" + h.move(1, 3, true))
			h.git("merge", "-q", "-s", "ours", "--no-edit", "side")
		}, "", "the move done on both sides loses nothing"},
		{"the number of a plant that went on, given again", func(h *teller) {
			h.write(1, "specimen: LK7-0000001\nentry: draft\ncollector: Signe Rask\n")
			h.enter("1")
			h.enter("2" + h.move(1, 3, false))
			h.write(1, "specimen: LK7-0000001\nentry: draft\ncollector: Ove Bannister\n")
			h.enter("3")
		}, "", "it was this copy's alone when it was given up"},
		{"merge of a correction drops the other side's opinion", func(h *teller) {
			h.apart("ab", "a", correct1, "abc", "")
			h.joined("a", "4")
		}, "opinion-changed", "a correction on one side excuses what that side changed, not what the other said meanwhile"},
		{"merge of a correction keeps the other side's opinion", func(h *teller) {
			h.apart("ab", "a", correct1, "abc", "")
			h.joined("ac", "4")
		}, "", ""},
		{"merge drops what the other side entered, whoever corrects the number", func(h *teller) {
			h.apart("ab", "abc", "", "a", correct1)
			h.joined("a", "4")
		}, "opinion-changed", "the same, the correction being on the line joined into"},
		{"merge that corrects itself", func(h *teller) {
			h.apart("ab", "a", correct1, "abc", "")
			h.joined("a", "4"+correct1)
		}, "", "its own message tells it"},
		{"one opinion corrected on both sides", func(h *teller) {
			h.apart("ab", "ac", correct1, "ad", correct1)
			h.joined("ae", "4")
		}, "", "a third reading, which a person decided on"},
		{"one opinion corrected on one side alone", func(h *teller) {
			h.apart("ab", "ac", correct1, "abd", "")
			h.joined("acd", "4")
		}, "", ""},
		{"the same typed on both sides, and the slip in it mended on one", func(h *teller) {
			h.say(1, "a")
			h.enter("1")
			h.aside(func() { h.say(1, "ab"); h.enter("2"); h.say(1, "ac"); h.enter("3" + correct1) })
			h.say(1, "ab")
			h.enter("4")
			h.joined("ac", "5")
		}, "", "what was corrected away there need not stand because it was typed here too"},
		{"two orders of the same opinions", func(h *teller) {
			h.apart("a", "abc", "", "acb", "")
			h.joined("abc", "4")
		}, "", "one order stands"},
		{"an order that nobody had", func(h *teller) {
			h.apart("ab", "abc", "", "abd", "")
			h.joined("bacd", "4")
		}, "opinion-changed opinion-changed", "against either side"},
		{"record removed by a correction, with the other side's opinion", func(h *teller) {
			h.say(1, "a")
			h.enter("1")
			h.aside(func() { h.git("rm", "-q", h.path(1)); h.enter("2" + correct1) })
			h.say(1, "ab")
			h.enter("3")
			h.git("merge", "-q", "--no-commit", "-s", "ours", "side")
			h.git("rm", "-q", h.path(1))
			h.enter("4")
		}, "record-removed", "the opinion given meanwhile is gone with it"},
		{"work: heading corrected on one side, a line of the other dropped", func(h *teller) {
			h.loan("Fjelheim Museum", "sent")
			h.enter("1")
			h.aside(func() { h.loan("Fjellheim Museum", "sent"); h.enter("2\n\nCorrects: loan-2026-001 letter seen") })
			h.loan("Fjelheim Museum", "sent", "reminded")
			h.enter("3")
			h.git("merge", "-q", "--no-commit", "-s", "ours", "side")
			h.loan("Fjellheim Museum", "sent")
			h.enter("4")
		}, "line-changed", ""},
		{"work: heading corrected on one side, a line added on the other", func(h *teller) {
			h.loan("Fjelheim Museum", "sent")
			h.enter("1")
			h.aside(func() { h.loan("Fjellheim Museum", "sent"); h.enter("2\n\nCorrects: loan-2026-001 letter seen") })
			h.loan("Fjelheim Museum", "sent", "reminded")
			h.enter("3")
			h.git("merge", "-q", "--no-commit", "-s", "ours", "side")
			h.loan("Fjellheim Museum", "sent", "reminded")
			h.enter("4")
		}, "", "the heading is told again by nobody"},
		{"moved to another folder", func(h *teller) {
			h.put(1, "ab")
			h.enter("1")
			os.MkdirAll(filepath.Join(h.dir, "specimens/other"), 0o777)
			h.git("mv", h.path(1), "specimens/other/LK7-0000001.yaml")
			h.enter("2")
		}, "", "a record is its number, whatever its folder"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			h := newTeller(t)
			tt.tell(h)
			p := h.prove("HEAD", false, true)
			var got []string
			for _, x := range p.Breaches {
				mark := ""
				if x.Mended != "" {
					mark = "!"
				}
				got = append(got, mark+x.Finding.Code)
				if x.Held == "" && x.Finding.Code != "number-used" && x.Finding.Code != history.CodeMoved && x.Finding.Code != history.CodeUnread {
					t.Errorf("%v does not say which version was not kept", x)
				}
			}
			if s := strings.Join(got, " "); s != tt.want {
				t.Errorf("%q, want %q: %s\n%v", s, tt.want, tt.reason, p.Breaches)
			}
			if d := cmp.Diff(p, h.prove("HEAD", false, false)); d != "" {
				t.Errorf("without the git program (-with +without):\n%s", d)
			}
		})
	}
}

// TestProveSHA256: a repository whose ids are SHA-256 is proved with the git
// program; without it that is said, not guessed.
func TestProveSHA256(t *testing.T) {
	h := newTeller(t)
	os.RemoveAll(filepath.Join(h.dir, ".git"))
	h.git("init", "-q", "-b", "main", "--object-format=sha256")
	h.put(1, "ab")
	h.put(2, "c")
	h.enter("1")
	h.put(1, "a")
	h.enter("2")
	tip := h.enter("3" + h.move(1, 2, false))
	if len(tip) != 64 {
		t.Skipf("this git makes ids of %d letters", len(tip))
	}
	for _, cached := range []bool{false, true, true} {
		if p := h.prove("HEAD", cached, true); len(p.Breaches) != 1 || p.Breaches[0].Finding.Code != history.CodeChanged || p.Entries != 3 {
			t.Errorf("cached %t: %d entries, %v; want the one opinion that is gone", cached, p.Entries, p.Breaches)
		}
	}
	repo, err := gitrepo.Open(h.dir, environ(false))
	if err != nil {
		return // said when it is opened
	}
	defer repo.Close()
	if _, err := (Bench{Repo: repo}).Prove(context.Background(), tip, nil); err == nil {
		t.Error("without the git program nothing can be read, and nothing was said")
	}
}

// TestProvedIsProvedFromScratch grows a history at random, with entries that
// break every law, branches, merges either way and revisions taken back, and
// asks now for this tip, now for that: what was kept changes no answer.
func TestProvedIsProvedFromScratch(t *testing.T) {
	h := newTeller(t)
	random := rand.New(rand.NewPCG(11, 7))
	opinions := map[int]string{}
	h.put(1, "a")
	h.enter("first")
	broken := 0
	for i := range 45 {
		n := random.IntN(4) + 1
		message := fmt.Sprint("entry ", i)
		switch k := random.IntN(14); {
		case k < 4:
			opinions[n] += string(rune('a' + random.IntN(20)))
			h.put(n, opinions[n])
		case k < 6 && len(opinions[n]) > 1:
			opinions[n] = opinions[n][1:]
			h.put(n, opinions[n])
			if k == 5 {
				message += fmt.Sprintf("\n\nCorrects: LK7-%07d slip", n)
			}
		case k == 6:
			h.write(n, "determinations: [\n")
		case k == 7:
			os.Remove(filepath.Join(h.dir, h.path(n)))
		case k == 8:
			h.git("checkout", "-q", "-B", "side")
			h.put(n, opinions[n]+"z")
			h.enter("side " + message)
			h.git("checkout", "-q", "main")
		case k == 9:
			if _, err := os.Stat(filepath.Join(h.dir, ".git", "refs", "heads", "side")); err == nil {
				h.git("merge", "-q", "-s", "ours", "--no-edit", "side")
			}
		case k == 10 && i > 10:
			h.git("reset", "-q", "--hard", "HEAD~1")
		case k > 11:
			to := n%4 + 1
			message += h.move(n, to, k == 12)
			opinions[n], opinions[to] = opinions[to], opinions[n]
		}
		h.enter(message)
		tip := []string{"main", "HEAD~1", "main"}[i%3]
		kept, scratch := h.prove(tip, true, i%5 != 0), h.prove(tip, false, true)
		kept.Anew = scratch.Anew
		if d := cmp.Diff(scratch, kept); d != "" {
			t.Fatalf("after entry %d (-scratch +kept):\n%s", i, d)
		}
		broken = max(broken, len(scratch.Breaches))
	}
	if broken < 5 {
		t.Errorf("only %d promises were broken; the test proves nothing", broken)
	}
	if again := h.prove("main", true, true); again.Anew > 3 {
		t.Errorf("%d entries were judged again though all were proved", again.Anew)
	}
}
