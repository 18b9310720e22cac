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

// numbersBucket holds the numbers used up to a set of tips. Version 2: those
// of work/ too.
var numbersBucket = disk.Bucket{Name: "numbers", Version: 2}

// workMark stands before a number of work/ where both kinds are kept.
const workMark = ledger.WorkDir + "/"

// NumbersUsed lists, sorted, every number that was ever a record's in the
// history of any ref. The numbers up to the last call's refs come from cache,
// which may be nil.
func (r *Repo) NumbersUsed(ctx context.Context, cache *disk.Cache) ([]ledger.Number, error) {
	used, err := r.numbersUsed(ctx, cache)
	var all []ledger.Number
	for _, n := range used {
		if !strings.HasPrefix(n, workMark) {
			all = append(all, ledger.Number(n))
		}
	}
	return all, err
}

// WorkNumbersUsed, like NumbersUsed, lists every number of a file of work/.
func (r *Repo) WorkNumbersUsed(ctx context.Context, cache *disk.Cache) ([]ledger.WorkNumber, error) {
	used, err := r.numbersUsed(ctx, cache)
	var all []ledger.WorkNumber
	for _, n := range used {
		if n, ok := strings.CutPrefix(n, workMark); ok {
			all = append(all, ledger.WorkNumber(n))
		}
	}
	return all, err
}

func (r *Repo) numbersUsed(ctx context.Context, cache *disk.Cache) ([]string, error) {
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
		known, used = nil, map[string]bool{}
	}
	err = r.Log(ctx, tips, known, func(c history.Commit) error {
		for _, t := range c.Touches {
			if t.Blob == "" {
				continue
			}
			if n, ok := ledger.NumberOfPath(t.Path); ok {
				used[string(n)] = true
			} else if n, ok := ledger.WorkNumberOfPath(t.Path); ok {
				used[workMark+string(n)] = true
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
func encodeNumbers(tips []string, numbers []string) []byte {
	var b strings.Builder
	b.WriteString(strings.Join(tips, " "))
	b.WriteByte('\n')
	for i, n := range numbers {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(n)
	}
	return []byte(b.String())
}

func decodeNumbers(v []byte) (tips []string, used map[string]bool) {
	first, second, _ := strings.Cut(string(v), "\n")
	used = map[string]bool{}
	for n := range strings.SplitSeq(second, " ") {
		if n != "" {
			used[n] = true
		}
	}
	return strings.Fields(first), used
}
