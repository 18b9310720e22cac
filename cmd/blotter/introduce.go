package main

import (
	"cmp"
	"context"
	"errors"
	"io"
	"strings"
	"unicode"

	"blotter/ledger/history"
)

// errNobody: neither --as nor git's settings say who enters.
var errNobody = errors.New("nobody is known to enter this")

// recorder is the person who records, asked for at a terminal when nobody is
// known yet. The answer is kept in this copy alone.
func (d *desk) recorder(ctx context.Context) (author, committer history.Person, err error) {
	author, committer, err = d.author()
	if !errors.Is(err, errNobody) || !d.Asks || d.sharedComputer() {
		return author, committer, err
	}
	if err := d.introduce(ctx); err != nil {
		return author, committer, err
	}
	return d.author()
}

// introduce asks who works at this copy.
func (d *desk) introduce(ctx context.Context) error { return d.introduceAs(ctx, "", "") }

// introduceAs asks who works at this copy; Enter alone takes what is known
// already.
func (d *desk) introduceAs(ctx context.Context, name, email string) error {
	d.tell("%s", wrap("Who are you? Name and e-mail address stand in every entry; catalogue and mirror never show the address.", d.Width, ""))
	a := d.asker()
	answers := []string{}
	for _, q := range []struct {
		label, known string
		unfit        func(string) string
	}{{"your name", name, unfitName}, {"e-mail", email, unfitAddress}} {
		label := "  " + pad(q.label, labelWidth)
		if q.known != "" {
			label += "Enter: " + q.known + "  "
		}
		for {
			answer, err := a.ask(ctx, label)
			if errors.Is(err, io.EOF) {
				return errInterrupted
			}
			if err != nil {
				return err
			}
			answer = cmp.Or(answer, q.known)
			why := q.unfit(answer)
			if why == "" {
				answers = append(answers, answer)
				break
			}
			d.tell("%s", hang("  "+pad("", labelWidth), why, d.Width))
		}
	}
	if answers[0] == name && answers[1] == email {
		return nil
	}
	return d.keepIdentity(ctx, answers[0], answers[1])
}

// unfitName says why words are no name to enter under; "" when they are one.
func unfitName(name string) string {
	switch {
	case strings.Contains(name, "@"):
		return "is an e-mail address; that is asked next"
	case strings.ContainsAny(name, "<>") || !strings.ContainsFunc(name, unicode.IsLetter):
		return "the name as it is to stand in every entry, for example: Tiril Aune"
	}
	return ""
}

// unfitAddress says why words are no e-mail address; "" when they look like one.
func unfitAddress(address string) string {
	user, host, ok := strings.Cut(address, "@")
	if !ok || user == "" || host == "" || strings.ContainsAny(address, "<> \t") || strings.Contains(host, "@") {
		return "an address has an @ with words on both sides, for example: tiril@lauvkroken.example"
	}
	return ""
}

// keepIdentity writes down who works at this copy, in this copy alone.
func (d *desk) keepIdentity(ctx context.Context, name, email string) error {
	for _, kv := range [][2]string{{"user.name", name}, {"user.email", email}} {
		if err := d.repo.SetSetting(ctx, kv[0], kv[1]); err != nil {
			return stuck("%v", err)
		}
	}
	return nil
}
