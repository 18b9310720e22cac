package survey

import (
	"cmp"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"slices"
	"strings"
)

// mark is a number that stands for a name under some words: the first 8 bytes,
// the most significant first, of the SHA-256 sum of
//
//	words LF name
//
// the words being joined with one LF between them. Nobody can choose it, and
// anybody can work it out again with a sha256sum program. It never changes.
func mark(words []string, name string) uint64 {
	sum := sha256.Sum256([]byte(strings.Join(words, "\n") + "\n" + name))
	return binary.BigEndian.Uint64(sum[:8])
}

type marked struct {
	mark uint64
	name string
}

func marks(words, names []string) []marked {
	all := make([]marked, len(names))
	for i, name := range names {
		all[i] = marked{mark(words, name), name}
	}
	slices.SortFunc(all, func(a, b marked) int {
		return cmp.Or(cmp.Compare(a.mark, b.mark), strings.Compare(a.name, b.name))
	})
	return slices.CompactFunc(all, func(a, b marked) bool { return a == b })
}

// Draw is n of the names by chance, each as likely as any other, in the order
// in which they were drawn. The words (the revision of the ledger, the number of
// the survey) settle the draw: the same words and names give the same draw
// whatever the order of names, and other words another. A name that stands
// twice counts once; with n beyond their number all are drawn.
//
// The names are sorted by the SHA-256 sum of the words and the name, and the
// first n are taken, so that a name more or less changes the draw by one name
// at most, and the first n of a longer draw are the shorter draw.
func Draw(words, names []string, n int) []string {
	all := marks(words, names)
	drawn := make([]string, 0, max(0, min(n, len(all))))
	for _, m := range all[:cap(drawn)] {
		drawn = append(drawn, m.name)
	}
	return drawn
}

// Rolling is an inventory that sees a share of the collection each round and
// all of it in Rounds.
type Rolling struct {
	Words   []string // what settles who is when: the inventory's name; not the round
	Percent float64  // of the collection a round, above 0 up to 100
}

// Rounds is how many rounds see the whole: 10 at 10 %, 7 at 15 %.
func (r Rolling) Rounds() (int, error) {
	if !(r.Percent > 0 && r.Percent <= 100) || r.Percent < 1e-4 {
		return 0, fmt.Errorf("rolling inventory: %v %%: write a share of the collection above 0 and up to 100", r.Percent)
	}
	return int(math.Ceil(100/r.Percent - 1e-9)), nil
}

// Round is the round, counted from 0, in which name has its turn. It depends on
// the words and the name alone: what comes in or goes out between two rounds
// moves nothing else, and in Rounds rounds each name has its turn once. The
// rounds are equal by chance, not by count: about Percent of the names each.
func (r Rolling) Round(name string) (int, error) {
	rounds, err := r.Rounds()
	if err != nil {
		return 0, err
	}
	at := float64(mark(r.Words, name)>>11) / (1 << 53)
	return min(int(at*100/r.Percent), rounds-1), nil
}

// Turn is the names whose turn is in a round, in the order given. Rounds go on
// for ever: round 10 of ten is round 0 again.
func (r Rolling) Turn(names []string, round int) ([]string, error) {
	rounds, err := r.Rounds()
	if err != nil {
		return nil, err
	}
	round = (round%rounds + rounds) % rounds
	var turn []string
	for _, name := range names {
		if at, _ := r.Round(name); at == round {
			turn = append(turn, name)
		}
	}
	return turn, nil
}
