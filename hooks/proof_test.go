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
	for _, tt := range proofCases {
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
