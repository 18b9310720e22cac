package main

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
)

// everUsed are all numbers that are or ever were in the ledger.
func (d *desk) everUsed(ctx context.Context) ([]ledger.Number, error) {
	used := d.numbers()
	if d.repo == nil {
		return used, nil
	}
	before, err := d.repo.NumbersUsed(ctx, d.cache())
	if err != nil {
		return nil, stuck("%v", err)
	}
	return append(used[:len(used):len(used)], before...), nil
}

// freeNumbers gives one free number after the other: the lowest above all of
// the museum's series ever used, within the blocks of numbers of the person or
// computer, if there are any; else beside those of others.
func (d *desk) freeNumbers(ctx context.Context) (func() (ledger.Number, error), error) {
	used, err := d.everUsed(ctx)
	if err != nil {
		return nil, err
	}
	runs, whose, err := d.runs()
	if err != nil {
		return nil, err
	}
	next := make([]uint64, len(runs))
	for i, r := range runs {
		next[i] = r.from
	}
	prefix := strings.ToLower(d.museum.Numbering.Prefix.Text)
	for _, n := range used {
		rest, ok := strings.CutPrefix(n.Key(), prefix)
		if !ok || rest == "" || strings.Trim(rest, "0123456789") != "" {
			continue
		}
		v, ok := n.Serial()
		if !ok || whose == "" && d.inBlock(v) != 0 {
			continue
		}
		for i, r := range runs {
			if v >= next[i] && v <= r.to {
				next[i] = v + 1
			}
		}
	}
	return func() (ledger.Number, error) {
		for i, r := range runs {
			for whose == "" && d.inBlock(next[i]) != 0 {
				next[i] = d.inBlock(next[i]) + 1
			}
			if next[i] <= r.to {
				next[i]++
				return d.short(next[i] - 1), nil
			}
		}
		last := d.short(runs[len(runs)-1].to)
		if whose == blockSetting {
			return "", stuck("the block of numbers of this copy is used up: the last is %s", last).
				try("Another block: git config blotter.block FROM-TO")
		}
		return "", stuck("the block of numbers for %s is used up: the last is %s", whose, last).
			try(`Another block is a line more in blotter.yaml under blocks: {for: `+whose+`, from: "FROM", to: "TO"}`, "Then: blotter enter blotter.yaml, blotter share; and try again")
	}, nil
}

// numberRun is a run of numbers that may be taken from.
type numberRun struct{ from, to uint64 }

const (
	lastSerial   = 1<<53 - 1
	blockSetting = "blotter.block"
)

// runs are those that new numbers are taken from, and whose they are: of git's
// setting blotter.block, of the blocks in blotter.yaml for the person who types
// or for this computer (git's setting blotter.machine); "" for all that are
// nobody's.
func (d *desk) runs() (list []numberRun, whose string, err error) {
	all := []numberRun{{1, lastSerial}}
	if d.repo == nil {
		return all, "", nil
	}
	text, err := d.repo.Setting(blockSetting)
	if err != nil {
		return nil, "", stuck("%v", err)
	}
	if text != "" {
		a, b, ok := strings.Cut(text, "-")
		from, errA := strconv.ParseUint(strings.TrimSpace(a), 10, 63)
		to, errB := strconv.ParseUint(strings.TrimSpace(b), 10, 63)
		if !ok || errA != nil || errB != nil || from == 0 || from > to {
			return nil, "", stuck("git config blotter.block is %q; it should be like 1200-1399", text)
		}
		return []numberRun{{from, to}}, blockSetting, nil
	}
	if len(d.museum.Blocks) == 0 {
		return all, "", nil
	}
	machine, err := d.repo.Setting("blotter.machine")
	if err != nil {
		return nil, "", stuck("%v", err)
	}
	names := []string{}
	if author, _, err := d.author(); err == nil {
		names = append(names, author.Name)
		if p, err := d.person(author.Name); err == nil {
			names = append(names, leafTexts(p.Spellings)...)
			names = append(names, p.Name.Text)
		}
	}
	for _, is := range [][]string{names, {machine}} {
		for _, b := range d.museum.Blocks {
			if from, to, ok := spanOfBlock(b); ok && b.For.Set() && slices.ContainsFunc(is, func(n string) bool { return strings.EqualFold(n, b.For.Text) }) {
				list, whose = append(list, numberRun{from, to}), b.For.Text
			}
		}
		if len(list) > 0 {
			return list, whose, nil
		}
	}
	return all, "", nil
}

func spanOfBlock(b ledger.Block) (from, to uint64, ok bool) {
	from, err := strconv.ParseUint(b.From.Text, 10, 53)
	to, err2 := strconv.ParseUint(b.To.Text, 10, 53)
	return max(from, 1), to, err == nil && err2 == nil && from <= to
}

// inBlock is the end of somebody's block that a number lies in; 0 for none.
func (d *desk) inBlock(v uint64) uint64 {
	for _, b := range d.museum.Blocks {
		if from, to, ok := spanOfBlock(b); ok && v >= from && v <= to {
			return to
		}
	}
	return 0
}

// mayBeGiven refuses a number for a new sheet that is or was another's.
func (d *desk) mayBeGiven(ctx context.Context, n ledger.Number) error {
	if !n.Valid() {
		return misuse("%q cannot be a number: letters, digits, dot, hyphen and underline, beginning with a letter or digit", n)
	}
	if have, ok := d.find(n); ok {
		_, _, r, err := d.record(have)
		if err != nil {
			return err
		}
		if k := len(r.Fate); k > 0 && r.Fate[k-1].Is.Text != "found" {
			f := r.Fate[k-1]
			return misuse("%s was withdrawn on %s (%s); a number is never used twice", have, d.shownDate(f.Date.Text), f.Why)
		}
		return misuse("%s is in the ledger already: %s", have, d.standing(r).shown)
	}
	used, err := d.everUsed(ctx)
	if err != nil {
		return err
	}
	for _, u := range used {
		if u.Key() == n.Key() {
			return misuse("%s was another sheet's once; a number is never used twice", n)
		}
	}
	return nil
}
