package main

import (
	"context"
	"os"
	"slices"
	"strings"
	"time"

	"blotter/ledger/gitrepo"
)

// sharedStand is how this copy stands to the other one.
type sharedStand struct {
	With    string   `json:"with"`
	ToSend  int      `json:"not_yet_sent"`               // entries
	ToTake  *int     `json:"not_yet_received,omitempty"` // entries; absent where nobody asked, -1: some
	By      []string `json:"sent_by,omitempty"`
	Unseen  bool     `json:"unseen,omitempty"`    // the other copy is not there now
	Back    bool     `json:"gone_back,omitempty"` // it has not all any more that it had
	branch  string
	tip     string // of the other copy, as received last
	address address
	other   gitrepo.Other
}

// lookPatience is how long status waits for a folder that may lie on a network
// drive; askPatience for a copy at another machine.
const (
	lookPatience = 2 * time.Second
	askPatience  = 20 * time.Second
)

// standShared finds out what waits to be sent, and what others have sent: of a
// copy on this machine by a look, of one at another machine when asked.
func (d *desk) standShared(ctx context.Context, s *standOf) error {
	if d.repo == nil || !d.repo.HasProgram() || s.Last == nil {
		return nil
	}
	usual, ok, err := d.repo.Usual()
	if err != nil || !ok {
		return err
	}
	x := &sharedStand{With: shownAddress(usual.Address), other: usual, address: d.addressOf(usual.Address)}
	if x.branch, x.tip, err = d.repo.TipOf(ctx, usual); err != nil {
		return nil // share says what is amiss
	}
	g := gitrepo.Range{Tips: []string{s.Last.Revision}}
	if x.tip != "" {
		g.Not = []string{x.tip}
	}
	ids, err := d.repo.Commits(ctx, g)
	if err != nil {
		return stuck("%v", err)
	}
	x.ToSend = len(ids)
	s.Shared = x
	patience, look := lookPatience, d.lookAtShare
	switch x.address.kind {
	case placeFar:
		if !d.opts.on("ask") {
			return nil
		}
		patience, look = askPatience, d.askMachine
	case placeFile:
		look = d.lookAtStick
	case placeNothing, placeFolder:
		x.Unseen = true
		return nil
	}
	x.look(ctx, patience, look)
	return nil
}

// look waits for an answer as long as patience lasts: a network drive that is
// gone may never answer.
func (x *sharedStand) look(ctx context.Context, patience time.Duration, ask func(context.Context, sharedStand) (sharedStand, error)) {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	type answer struct {
		sharedStand
		err error
	}
	come := make(chan answer, 1)
	go func(x sharedStand) {
		y, err := ask(ctx, x)
		come <- answer{y, err}
	}(*x)
	select {
	case <-ctx.Done():
		x.Unseen = true
	case a := <-come:
		if a.err != nil {
			x.Unseen = true
			return
		}
		*x = a.sharedStand
	}
}

// fresh notes that entries are there that are not here: n of them, or -1.
func (x *sharedStand) fresh(n int) { x.ToTake = &n }

// lookAtShare counts the entries of a folder that are not here.
func (d *desk) lookAtShare(ctx context.Context, x sharedStand) (sharedStand, error) {
	there, err := gitrepo.Open(x.address.text, d.Environ)
	if err != nil {
		return x, err
	}
	defer there.Close()
	tip, err := there.Resolve(ctx, "refs/heads/"+x.branch)
	if err != nil {
		return x, err
	}
	if d.holds(ctx, tip) {
		return d.compare(ctx, x, tip), nil
	}
	g := gitrepo.Range{Tips: []string{tip}}
	if _, err := there.Revision(ctx, x.tip); err == nil && x.tip != "" {
		g.Not = []string{x.tip}
		if has, err := there.IsAncestor(ctx, x.tip, tip); err == nil && !has {
			x.Back = true
			return x, nil
		}
	}
	ids, err := there.Commits(ctx, g)
	if err != nil {
		return x, err
	}
	x.fresh(len(ids))
	for _, id := range ids[:min(len(ids), 200)] {
		c, err := there.Revision(ctx, id)
		if err == nil && !slices.Contains(x.By, c.Author.Name) {
			x.By = append(x.By, c.Author.Name)
		}
	}
	return x, nil
}

// lookAtStick compares the last revision of a file with what is here.
func (d *desk) lookAtStick(ctx context.Context, x sharedStand) (sharedStand, error) {
	if _, err := os.Stat(x.address.text); err != nil {
		return x, err
	}
	tip, err := fileTip(x.address.text)
	return d.compare(ctx, x, tip), err
}

// askMachine asks a copy at another machine where it is.
func (d *desk) askMachine(ctx context.Context, x sharedStand) (sharedStand, error) {
	tip, err := d.repo.AskTip(ctx, x.other, x.branch, d.Asks)
	return d.compare(ctx, x, tip), err
}

func (d *desk) compare(ctx context.Context, x sharedStand, tip string) sharedStand {
	switch {
	case tip == "" && x.tip == "":
		x.fresh(0)
	case tip == "":
		x.Back = true
	case !d.holds(ctx, tip):
		x.fresh(-1)
	default:
		has, err := d.repo.IsAncestor(ctx, x.tip, tip)
		if x.Back = x.tip != "" && err == nil && !has; !x.Back {
			x.fresh(0)
		}
	}
	return x
}

// holds reports whether a revision is part of this copy's own history.
func (d *desk) holds(ctx context.Context, id string) bool {
	if _, err := d.repo.Revision(ctx, id); err != nil {
		return false
	}
	head, err := d.head(ctx)
	if err != nil {
		return false
	}
	has, err := d.repo.IsAncestor(ctx, id, head)
	return err == nil && has
}

// lines are what status says of it.
func (x *sharedStand) lines() (lines []string) {
	if x == nil {
		return nil
	}
	if x.ToSend > 0 {
		lines = append(lines, count(x.ToSend, "entry")+" not yet shared: blotter share.")
	}
	switch {
	case x.Unseen:
		lines = append(lines, "The other copy is not to be seen now: "+x.With)
	case x.Back:
		lines = append(lines, "The other copy has not all any more that it had; blotter share says what, and asks.")
	case x.ToTake == nil || *x.ToTake == 0 && len(lines) > 0:
	case *x.ToTake == 0:
		lines = append(lines, "Shared: all that is entered here and in the other copy.")
	case *x.ToTake < 0:
		lines = append(lines, "Others have sent what is not here yet: blotter share.")
	default:
		who := strings.Join(x.By[:min(len(x.By), 3)], ", ")
		if n := len(x.By) - 3; n > 0 {
			who += " and " + thousands(n) + " more"
		}
		lines = append(lines, "Sent by "+who+", not yet received: "+count(*x.ToTake, "entry")+": blotter share.")
	}
	return lines
}
