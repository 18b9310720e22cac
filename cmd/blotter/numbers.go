package main

import (
	"context"
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
// the museum's series ever used, within the block of numbers that this copy
// was given, if it was given one.
func (d *desk) freeNumbers(ctx context.Context) (func() (ledger.Number, error), error) {
	used, err := d.everUsed(ctx)
	if err != nil {
		return nil, err
	}
	from, to, err := d.block()
	if err != nil {
		return nil, err
	}
	highest := from - 1
	prefix := strings.ToLower(d.museum.Numbering.Prefix.Text)
	for _, n := range used {
		rest, ok := strings.CutPrefix(n.Key(), prefix)
		if !ok || rest == "" || strings.Trim(rest, "0123456789") != "" {
			continue
		}
		if v, ok := n.Serial(); ok && v > highest && v <= to {
			highest = v
		}
	}
	return func() (ledger.Number, error) {
		highest++
		if highest > to {
			return "", stuck("the block of numbers of this copy is used up: the last is %s", d.short(to)).
				try("Another block: git config blotter.block FROM-TO")
		}
		return d.short(highest), nil
	}, nil
}

const lastSerial = 1<<53 - 1

// block is the run of numbers that this copy takes new ones from.
func (d *desk) block() (from, to uint64, err error) {
	if d.repo == nil {
		return 1, lastSerial, nil
	}
	text, err := d.repo.Setting("blotter.block")
	if err != nil {
		return 0, 0, stuck("%v", err)
	}
	if text == "" {
		return 1, lastSerial, nil
	}
	a, b, ok := strings.Cut(text, "-")
	from, errA := strconv.ParseUint(strings.TrimSpace(a), 10, 63)
	to, errB := strconv.ParseUint(strings.TrimSpace(b), 10, 63)
	if !ok || errA != nil || errB != nil || from == 0 || from > to {
		return 0, 0, stuck("git config blotter.block is %q; it should be like 1200-1399", text)
	}
	return from, to, nil
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
