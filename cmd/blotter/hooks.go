package main

import (
	"context"
	"errors"

	"blotter/hooks"
	"blotter/ledger/gitrepo"
)

func hooksCommand() *command {
	return &command{
		Name: "hooks", Family: famSetUp, Synopsis: "install|status|remove",
		Says: "Puts the checks between git and the ledger, whatever program makes a commit.",
		Notes: []string{"A hook of your own that stands there already is kept and runs first; core.hooksPath is respected.",
			"In a bare repository, the server end, only pre-receive is installed. It judges all that one push brings, at once: every entry by the law of what was shared, the last of each branch by the checks of files. It refuses to move back or delete the main branch, to drop entries of another branch that stand nowhere else, and to move or delete a release (a tag); branches may be renamed."},
		Examples: []example{
			{"blotter hooks install", "sets them up in this copy; twice does no harm"},
			{"blotter hooks install --server", "in a bare repository that many send to"},
			{"blotter hooks status", "shows how each one stands"},
			{"blotter hooks remove", "takes them away and puts your own back"},
		},
		Args:  []argument{{"install|status|remove", "what to do"}},
		Flags: []*flag{flagServer},
		Kinds: []string{"install", "status", "remove"}, Exits: []int{exitFindings},
		Kin: []string{"doctor", "check"},
		Run: runHooks,
	}
}

func runHooks(ctx context.Context, c *call) error {
	if len(c.args) > 0 && c.args[0] == "run" {
		return runHook(ctx, c)
	}
	if len(c.args) != 1 {
		return misuse("say what to do with the hooks: install, status or remove")
	}
	repo, err := c.hooksRepo()
	if err != nil {
		return err
	}
	defer repo.Close()
	switch c.args[0] {
	case "install":
		if c.opts.on("server") && !repo.Bare() {
			return stuck("%s is a copy that people work in, not a server end: nothing should be sent into it while somebody writes there", repo.Top()).
				try("A server end: git init --bare -b main DIR.git; cd DIR.git; blotter hooks install --server", "The checks of this copy: blotter hooks install")
		}
		if err := hooks.Setup(ctx, repo, c.Program); err != nil {
			return stuck("%v", err)
		}
		if repo.Bare() {
			return c.serverStands(ctx, repo)
		}
		return c.showHooks(repo, "The hooks stand.")
	case "status":
		if hooks.Stands(repo) {
			return c.showHooks(repo, "The hooks stand.")
		}
		return c.showHooks(repo, "The hooks do not all stand. To set them up: blotter hooks install")
	case "remove":
		if err := hooks.TakeDown(ctx, repo); err != nil {
			return stuck("%v", err)
		}
		return c.showHooks(repo, "The hooks are gone; nothing is checked here any more when a commit is made.")
	}
	return misuse("%q is nothing to do with hooks: install, status or remove", c.args[0])
}

// hooksRepo is the repository that we stand in, bare or not.
func (c *call) hooksRepo() (*gitrepo.Repo, error) {
	dir := c.Dir
	if root, ok := ledgerAbove(c.Dir); ok {
		dir = root
	}
	repo, err := gitrepo.Open(dir, c.Environ)
	if errors.Is(err, gitrepo.ErrNoRepository) {
		return nil, stuck("%s is in no git repository", c.Dir)
	}
	if err != nil {
		return nil, stuck("%v", err)
	}
	return repo, nil
}

// showHooks lists how each hook stands, then says a sentence.
func (c *call) showHooks(repo *gitrepo.Repo, sentence string) error {
	folder, err := hooks.FolderOf(repo)
	if err != nil {
		return stuck("%v", err)
	}
	states, err := hooks.Status(folder)
	if err != nil {
		return stuck("%v", err)
	}
	for _, s := range states {
		c.say("%-18s  %s", s.Name, hookWords(s))
	}
	c.say("%s", sentence)
	return nil
}

func hookWords(s hooks.State) string {
	words := "not there"
	switch {
	case s.Ours && s.Older:
		words = "stands, written by another version of Blotter"
	case s.Ours:
		words = "stands"
	case s.Others:
		words = "not there; a hook of your own is"
	}
	if s.Kept {
		words += "; your own is kept and runs first"
	}
	return words
}
