package gitrepo

import (
	"context"
	"maps"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/history"
)

// numbersBucket holds the numbers used up to a set of tips. Version 1.
var numbersBucket = disk.Bucket{Name: "numbers", Version: 1}

// NumbersUsed lists, sorted, every number that was ever a record's in the
// history of any ref. The numbers up to the last call's refs come from cache,
// which may be nil.
func (r *Repo) NumbersUsed(ctx context.Context, cache *disk.Cache) ([]ledger.Number, error) {
	tips, err := r.Tips(ctx)
	if err != nil {
		return nil, err
	}
	slices.Sort(tips)
	key := []byte(r.prefix)
	known, used := decodeNumbers(cache.Get(numbersBucket, key))
	if slices.Equal(known, tips) {
		return slices.Sorted(maps.Keys(used)), nil
	}
	if !r.extends(ctx, tips, known) {
		known, used = nil, map[ledger.Number]bool{}
	}
	err = r.Log(ctx, tips, known, func(c history.Commit) error {
		for _, t := range c.Touches {
			if n, ok := ledger.NumberOfPath(t.Path); ok && t.Blob != "" {
				used[n] = true
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	numbers := slices.Sorted(maps.Keys(used))
	cache.Put(numbersBucket, []disk.Entry{{Key: key, Value: encodeNumbers(tips, numbers)}})
	return numbers, nil
}

// extends reports whether everything reachable from known is still reachable
// from tips.
func (r *Repo) extends(ctx context.Context, tips, known []string) bool {
	left, err := r.Commits(ctx, Range{Tips: known, Not: tips})
	return err == nil && len(left) == 0
}

// encodeNumbers writes the tips and the numbers, a word each, in two lines.
func encodeNumbers(tips []string, numbers []ledger.Number) []byte {
	var b strings.Builder
	b.WriteString(strings.Join(tips, " "))
	b.WriteByte('\n')
	for i, n := range numbers {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(string(n))
	}
	return []byte(b.String())
}

func decodeNumbers(v []byte) (tips []string, used map[ledger.Number]bool) {
	first, second, _ := strings.Cut(string(v), "\n")
	used = map[ledger.Number]bool{}
	for n := range strings.SplitSeq(second, " ") {
		if n != "" {
			used[ledger.Number(n)] = true
		}
	}
	return strings.Fields(first), used
}
