package main

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/history"
)

var flagNobody = &flag{Name: "nobody", Help: "nobody types here any more today"}

func iamCommand() *command {
	return &command{
		Name: "iam", Family: famEnter, Synopsis: "[PERSON]",
		Says: "Says who types at this computer today; entries of others need --as PERSON.",
		Notes: []string{"It ends with the day, in the museum's time zone. PERSON is of people.yaml, by name or spelling; who is not there is added after a question. " +
			"An e-mail address there stays in the entries and is never published; who has none enters under that of this computer.",
			"With shared_computer: \"yes\" in blotter.yaml every command that enters something asks first, when nobody has said so today."},
		Examples: []example{
			{`blotter iam "Ove Bannister"`, "until the end of the day"},
			{"blotter iam", "who is it?"},
			{"blotter iam --nobody", "he has gone home"},
		},
		Args:  []argument{{"PERSON", "a name or spelling of people.yaml, or a new volunteer's whole name"}},
		Flags: joinFlags([]*flag{flagNobody}, enterFlags),
		Kin:   []string{"new", "enter", "status"},
		Run:   runIam,
	}
}

func runIam(ctx context.Context, c *call) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	if d.repo == nil {
		return stuck("this folder has no git repository, so nobody enters anything here")
	}
	who := strings.Join(c.args, " ")
	switch {
	case c.opts.on(flagNobody.Name) && who != "":
		return misuse("--nobody and a person are both given")
	case c.opts.on(flagNobody.Name):
		if err := os.Remove(d.iamFile()); err != nil && !errors.Is(err, os.ErrNotExist) {
			return stuck("%v", err)
		}
		c.say("Nobody types here.")
		return nil
	case who == "":
		return d.sayWho()
	}
	return d.nowTypes(ctx, who)
}

func (d *desk) sayWho() error {
	if who := d.typist(); who != "" {
		d.say("%s types here, until the end of %s.", who, d.shownDate(d.today()))
		return nil
	}
	if author, _, err := d.author(); err == nil {
		d.say("Nobody has said so today; entries are by %s, as this copy is set up.", author.Name)
		return nil
	}
	d.say("Nobody has said so today.")
	d.next("blotter iam PERSON")
	return nil
}

// nowTypes keeps who types for the day; one who is not in people.yaml is
// offered to be put there.
func (d *desk) nowTypes(ctx context.Context, who string) error {
	p, err := d.person(who)
	if err != nil {
		f, ok := err.(*fault)
		if !ok || strings.Contains(err.Error(), "can be") {
			return err
		}
		if !d.Asks && !d.opts.on("yes") {
			return f.try("A new volunteer is added by: blotter iam \"" + who + "\" --yes")
		}
		d.tell("%s.", sentence(strings.TrimSuffix(err.Error(), ".")))
		if ok, err := d.consent(ctx, "Add "+who+" to people.yaml?"); !ok {
			return err
		}
		if err := d.addPerson(ctx, who); err != nil {
			return err
		}
		if p, err = d.person(who); err != nil {
			return err
		}
	}
	if d.opts.on("dry-run") {
		d.report(entered{dry: true}, "")
		return nil
	}
	if err := d.keepTypist(p.Name.Text); err != nil {
		return err
	}
	d.say("%s types here, until the end of %s.", p.Name.Text, d.shownDate(d.today()))
	return nil
}

// addPerson enters a new person, in the name of that person.
func (d *desk) addPerson(ctx context.Context, who string) error {
	src, err := d.read(ledger.PeopleFile)
	if err != nil {
		return err
	}
	now := src
	if now == nil {
		now = []byte("people: []\n")
	}
	if now, err = ledger.EditFile(ledger.PeopleKind, now, ledger.Append("people", ledger.KV{Key: "name", Value: who})); err != nil {
		return stuck("people.yaml is left as it is: %v", err).try("Add the line by hand: - name: " + who)
	}
	if err := d.keepTypist(who); err != nil {
		return err
	}
	d.adding = who
	r, err := d.enter(ctx, entry{changes: []fileChange{{path: ledger.PeopleFile, old: src, new: now}}, subject: "people.yaml: " + who})
	d.adding = ""
	if err != nil {
		os.Remove(d.iamFile())
		return err
	}
	d.report(r, "1 person, "+who)
	return nil
}

// The person who types is a thing of this computer and of one day: a file
// under the git folder, the day and the name.

func (d *desk) iamFile() string { return filepath.Join(d.repo.StateDir(), "iam") }

func (d *desk) keepTypist(who string) error {
	if err := os.MkdirAll(d.repo.StateDir(), 0o777); err != nil {
		return stuck("%v", err)
	}
	if err := os.WriteFile(d.iamFile(), []byte(d.today()+"\n"+who+"\n"), 0o666); err != nil {
		return stuck("%v", err)
	}
	return nil
}

// typist is who said today that he types here; "" for nobody.
func (d *desk) typist() string {
	if d.repo == nil {
		return ""
	}
	return typistOn(d.iamFile(), d.today())
}

func typistOn(file, today string) string {
	b, err := os.ReadFile(file)
	if err != nil {
		return ""
	}
	day, who, _ := strings.Cut(strings.TrimSpace(string(b)), "\n")
	if day != today {
		return ""
	}
	return strings.TrimSpace(who)
}

func (d *desk) sharedComputer() bool { return d.museum.Shared.Text == "yes" }

// mustSayWho asks who types, on a computer that several share, before anything
// is typed; without a terminal it says what to type.
func (d *desk) mustSayWho(ctx context.Context) error {
	if d.repo == nil || !d.sharedComputer() || d.opts.text("as") != "" || d.typist() != "" || d.opts.on("hold") || d.opts.on("dry-run") || !d.opts.has("as") || d.cmd.Name == "iam" {
		return nil
	}
	if !d.Asks {
		return misuse("several people type at this computer, and nobody has said today who it is").
			try(`blotter iam "Ove Bannister"   until the end of the day`, `or add: --as "Ove Bannister"`)
	}
	for {
		who, err := d.asker().ask(ctx, "Who types here today? ")
		if errors.Is(err, io.EOF) {
			return errInterrupted
		}
		if err != nil {
			return err
		}
		if who == "" {
			continue
		}
		switch err := d.nowTypes(ctx, who); {
		case errors.Is(err, errInterrupted):
			return err
		case err != nil:
			d.tell("%v", err)
		case d.typist() != "":
			return nil
		}
	}
}

// authorToday is the person who said today that he types here, with the address
// of people.yaml, or else that of this computer.
func (d *desk) authorToday(who string, author, committer history.Person, nobody error, now time.Time) (history.Person, history.Person, error) {
	email := author.Email
	if who != d.adding {
		p, err := d.person(who)
		if err != nil {
			return author, committer, err
		}
		who = p.Name.Text
		if p.Email.Text != "" {
			email = p.Email.Text
		}
	}
	if email == "" {
		return author, committer, stuck("people.yaml has no email for %s, and this computer has none, which an entry needs", who).
			try("For this computer: git config user.email herbarium@example.org", "or add the line  email: ...  to that person")
	}
	typed := history.Person{Name: who, Email: email, When: author.When}
	if typed.When.IsZero() {
		typed.When = now
	}
	if nobody != nil {
		committer = typed
	}
	return typed, committer, nil
}
