package main

import (
	"context"

	"blotter/hooks"
)

// warnOfHooks tells a person whose copy has no hooks that commits of other
// programs are not checked here.
func (d *desk) warnOfHooks() {
	if d.repo == nil || hooks.Stands(d.repo) {
		return
	}
	d.tell("This copy has no hooks: what another git program commits is not checked. To set them up: blotter hooks install")
}

// installHooks puts the checks between git's commits and the ledger.
func (d *desk) installHooks(ctx context.Context) error {
	return hooks.Setup(ctx, d.repo, d.Program)
}

// bench is what judging an entry needs of this desk.
func (d *desk) bench() hooks.Bench {
	return hooks.Bench{Repo: d.repo, Cache: d.cache(), Today: d.todayAsDay(), Progress: d.progress("Reading")}
}
