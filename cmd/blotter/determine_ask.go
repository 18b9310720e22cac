package main

import (
	"context"
	"errors"
	"io"

	"blotter/ledger"
)

// determineAsking asks for everything that an opinion needs, so that nobody
// must fight the shell over quotes.
func (d *desk) determineAsking(ctx context.Context, ns []ledger.Number, o opinionTyped) error {
	a := d.asker()
	for _, n := range ns {
		_, _, r, err := d.record(n)
		if err != nil {
			return err
		}
		d.tell("%s  %s", n, d.standing(r).shown)
	}
	d.tell("Empty: nothing to say.  Ctrl-C: stop, nothing is entered.")
	var agreed string
	questions := []struct {
		label string
		into  *string
		need  bool
		check func(string) (string, error)
	}{
		{"name", &o.name, false, nil},
		{"agrees?", &agreed, false, nil},
		{"by", &o.by, true, d.whoSays},
		{"date", &o.date, true, d.dateArgument},
		{"why", &o.why, false, nil},
		{"seen", &o.seen, false, oneOf("sheet", "picture", "duplicate", "dna")},
	}
	for _, q := range questions {
		if q.label == "agrees?" {
			if o.name != "" {
				continue
			}
			ok, err := a.yesNo(ctx, "  "+pad("", 15)+"No name: does the person agree with the one that stands?", true)
			if err != nil {
				return err
			}
			if !ok {
				return misuse("without a name there is no opinion; a doubt is a note").try("blotter note " + string(ns[0]) + ` "..." --kind question --by me`)
			}
			o.kind = "conf"
			continue
		}
		if err := d.askField(ctx, a, q.label, q.into, q.need, q.check); err != nil {
			return err
		}
	}
	return d.determine(ctx, ns, o, false, func() (bool, error) { return a.yesNo(ctx, "Enter it?", true) })
}

// askField asks until the answer passes. An answer that is needed is asked
// again when it is empty.
func (d *desk) askField(ctx context.Context, a *asker, label string, into *string, need bool, check func(string) (string, error)) error {
	for {
		answer, err := a.ask(ctx, "  "+pad(label, 15))
		if errors.Is(err, io.EOF) {
			return errInterrupted
		}
		if err != nil {
			return err
		}
		if answer == "" && need {
			d.tell("  %s%s", pad("", 15), "is needed; who it was if it is not known: unsigned, s.d.")
			continue
		}
		if answer != "" && check != nil {
			if answer, err = check(answer); err != nil {
				d.tell("  %s%v", pad("", 15), err)
				continue
			}
		}
		*into = answer
		return nil
	}
}

func oneOf(words ...string) func(string) (string, error) {
	return func(s string) (string, error) {
		if contains(words, s) {
			return s, nil
		}
		return "", misuse("is one of %s", either(words))
	}
}
