package main

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strings"

	"blotter/ledger/gitrepo"
)

// historyPiece brings the history index of the ledger in this folder up to
// date, with the git program or through go-git alone.
func historyPiece(program bool) error {
	environ := os.Environ()
	if !program {
		environ = slices.DeleteFunc(environ, func(v string) bool { return strings.HasPrefix(v, "PATH=") })
	}
	repo, err := gitrepo.Open(".", environ)
	if err != nil {
		return err
	}
	defer repo.Close()
	ctx := context.Background()
	head, err := repo.Head(ctx)
	if err != nil {
		return err
	}
	view, err := repo.History(ctx, repo.Cache(), head)
	if err == nil && view.Len() == 0 {
		err = fmt.Errorf("an empty history")
	}
	return err
}
