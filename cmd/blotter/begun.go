package main

// begunWithGit stops a command in the midst of a merge, rebase, cherry-pick or
// revert. No command of ours ever leaves one: share joins two copies without
// it, so somebody began it with git. This is therefore the one place where a
// command says what to type to git, which that person knows. why is what the
// command waits for.
func begunWithGit(doing, why string) *fault {
	end := "End it: decide what it left (blotter enter asks), then: git " + doing + " --continue"
	switch doing {
	case "merge":
		end = "End it: blotter enter, which asks what it left to decide"
	case "bisect": // looks for the revision that began something, and stands at an older one
		return stuck("git bisect was begun in this ledger and is not ended; %s", why).try("End it: git bisect reset")
	}
	return stuck("git %s was begun in this ledger and is not ended; %s", doing, why).
		try(end, "Or give it up: git "+doing+" --abort")
}

// notBegun refuses what cannot be done in the midst of such a thing.
func (d *desk) notBegun(why string) error {
	if d.repo == nil {
		return nil
	}
	if doing := d.repo.InProgress(); doing != "" {
		return begunWithGit(doing, why)
	}
	return nil
}
