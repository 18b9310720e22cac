package main

import (
	"context"
	"errors"
	"io"
	"strings"

	"blotter/ledger/history"
)

// errNobody: neither --as nor git's settings say who enters.
var errNobody = errors.New("nobody is known to enter this")

// recorder is the person who records, asked for at a terminal when nobody is
// known yet. The answer is kept in this copy alone.
func (d *desk) recorder(ctx context.Context) (author, committer history.Person, err error) {
	author, committer, err = d.author()
	if !errors.Is(err, errNobody) || !d.Asks {
		return author, committer, err
	}
	if err := d.introduce(ctx); err != nil {
		return author, committer, err
	}
	return d.author()
}

// introduce asks who works at this copy.
func (d *desk) introduce(ctx context.Context) error {
	d.tell("%s", wrap("Who are you? Name and e-mail address stand in every entry; catalogue and mirror never show the address.", d.Width, ""))
	a := d.asker()
	for _, q := range []struct{ label, key, mark string }{{"your name", "user.name", ""}, {"e-mail", "user.email", "@"}} {
		answer := ""
		for answer == "" || !strings.Contains(answer, q.mark) {
			var err error
			answer, err = a.ask(ctx, "  "+pad(q.label, labelWidth))
			if errors.Is(err, io.EOF) {
				return errInterrupted
			}
			if err != nil {
				return err
			}
		}
		if err := d.repo.SetSetting(ctx, q.key, answer); err != nil {
			return stuck("%v", err)
		}
	}
	return nil
}
