package gitrepo

import (
	"bytes"
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"golang.org/x/text/encoding/htmlindex"

	"blotter/ledger/history"
)

// parseCommit reads the body of a commit object into the Commit of that id
// and the id of its tree. The message comes without white space at the ends
// of its lines and without blank lines before and after, each line ended by a
// line feed; words in another character set are turned into UTF-8.
func parseCommit(id string, body []byte) (c history.Commit, tree string, err error) {
	head, message, _ := bytes.Cut(body, []byte("\n\n"))
	c.ID = id
	charset := ""
	for line := range strings.SplitSeq(string(head), "\n") {
		key, value, _ := strings.Cut(line, " ")
		switch key {
		case "tree":
			tree = value
		case "parent":
			c.Parents = append(c.Parents, value)
		case "author":
			c.Author = parsePerson(value)
		case "committer":
			c.Committer = parsePerson(value)
		case "encoding":
			charset = value
		}
	}
	if tree == "" {
		return c, "", fmt.Errorf("commit %s is damaged", id)
	}
	c.Message = tidyMessage(string(message))
	recode(&c, charset)
	return c, tree, nil
}

// tidyMessage is the message as the log shows it (see parseCommit).
func tidyMessage(s string) string {
	var b strings.Builder
	blank, started := 0, false
	for line := range strings.SplitSeq(s, "\n") {
		line = strings.TrimRight(line, " \t\r\v\f")
		if line == "" {
			blank++
			continue
		}
		if started {
			for range blank {
				b.WriteByte('\n')
			}
		}
		blank, started = 0, true
		b.WriteString(line)
		b.WriteByte('\n')
	}
	return b.String()
}

// parsePerson reads "Name <address> SECONDS ZONE".
func parsePerson(s string) history.Person {
	var p history.Person
	open, end := strings.IndexByte(s, '<'), strings.LastIndexByte(s, '>')
	if open < 0 || end < open {
		p.Name = strings.TrimSpace(s)
		return p
	}
	p.Name, p.Email = strings.TrimSpace(s[:open]), s[open+1:end]
	seconds, zone, _ := strings.Cut(strings.TrimSpace(s[end+1:]), " ")
	sec, err := strconv.ParseInt(seconds, 10, 64)
	if err != nil {
		sec = 0
	}
	p.When = time.Unix(sec, 0).In(zoneOf(zone))
	return p
}

// zoneOf reads a zone as git writes it, for example +0530; UTC when it is
// none.
func zoneOf(s string) *time.Location {
	n, err := strconv.Atoi(s)
	if err != nil || n == 0 {
		return time.UTC
	}
	hours, minutes := n/100, n%100
	return time.FixedZone("", (hours*60+minutes)*60)
}

// zoneText is the inverse of zoneOf.
func zoneText(t time.Time) string { return t.Format("-0700") }

// recode turns the words of c from charset into UTF-8. An unknown charset
// leaves them as they are.
func recode(c *history.Commit, charset string) {
	if charset == "" || strings.EqualFold(charset, "utf-8") || strings.EqualFold(charset, "utf8") {
		return
	}
	enc, err := htmlindex.Get(charset)
	if err != nil {
		return
	}
	for _, s := range []*string{&c.Message, &c.Author.Name, &c.Author.Email, &c.Committer.Name, &c.Committer.Email} {
		if out, err := enc.NewDecoder().String(*s); err == nil {
			*s = out
		}
	}
}

// Revision reads one commit, without its touches.
func (r *Repo) Revision(ctx context.Context, id string) (history.Commit, error) {
	body, err := r.readAs(ctx, "commit", id)
	if err != nil {
		return history.Commit{}, err
	}
	c, _, err := parseCommit(id, body)
	if err == nil && r.cutAt(id) {
		c.Parents = nil
	}
	return c, err
}
