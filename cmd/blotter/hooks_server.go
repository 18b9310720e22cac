package main

import (
	"context"
	"strings"

	"blotter/hooks"
	"blotter/ledger/gitrepo"
)

// serverStands reads the ledger of a server end once, so that whoever sends to
// it first does not wait for that, and says how it stands.
func (c *call) serverStands(ctx context.Context, repo *gitrepo.Repo) error {
	at, err := repo.Setting("blotter.ledger")
	if err != nil {
		return stuck("%v", err)
	}
	inside := repo.In(strings.TrimPrefix(at, "."))
	defer inside.Close()
	bench := hooks.Bench{Repo: inside, Cache: inside.Cache(), Progress: c.hookProgress()}
	bench.Today = dayIn(c.Now(), zoneOf(ctx, inside))
	v, err := bench.Ready(ctx)
	if err != nil {
		return stuck("the hook stands, and the ledger could not be read beforehand: %v", err)
	}
	if err := inside.ShareState(); err != nil {
		c.tell("what the hook keeps could not be opened to the others who send here (%v): their sending is slower", err)
	}
	main, err := repo.Branch()
	if err != nil {
		return stuck("%v", err)
	}
	switch {
	case v.Entries == 0:
		c.say("Nothing has been sent here yet. The main branch is %s.", main)
	default:
		c.say("The main branch is %s; its last entry is judged: %s.", main, count(v.Older+len(v.Findings), "finding"))
	}
	return c.showHooks(repo, "The hooks stand.")
}
