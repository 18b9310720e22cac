package main

import (
	"errors"

	"blotter/ledger/gitrepo"
)

// unreachable says in words why another copy could not be reached; after is
// what that leaves.
func (p address) unreachable(after string, err error) error {
	var reach *gitrepo.ReachError
	if !errors.As(err, &reach) {
		return stuck("%v", err).try(after)
	}
	switch reach.Kind {
	case gitrepo.NoNetwork:
		return stuck("%s does not answer", p).try(after, "Is this computer on the network, and is the machine's name spelled as it was given you? You can go on entering; share later.")
	case gitrepo.NoRight:
		if p.onDisk() {
			return stuck("you may not open or change %s", p).try(after, "Whoever keeps it can give you the right.")
		}
		return stuck("%s does not let you in", p).try(after, "Is it your name, password or key? Whoever keeps the other copy can give you the right.")
	case gitrepo.NotMet:
		return stuck("this computer has not met the machine of %s yet, or it is not the one it was", p).
			try(after, "Once, by hand: ssh and the name of that machine. Compare what it shows with what its keeper tells you.")
	case gitrepo.NotProved:
		return stuck("the machine of %s does not prove that it is the one: this computer does not trust its certificate", p).
			try(after, "Is the address right, letter by letter? A machine of the house may vouch for itself: its keeper gives a file for that, once: git config --global http.sslCAInfo FILE",
				"Do not go on without it: whoever stands between would read everything.")
	case gitrepo.Ailing:
		return stuck("the machine of %s answers, with a fault of its own", p).try(after, "In a while again; if it stays so, whoever keeps the other copy should know.")
	case gitrepo.NotOwned:
		return stuck("%s belongs to another user of this computer, so git does not open it", p).
			try(after, "If you trust who keeps it, once: git config --global --add safe.directory "+shellWord(p.text))
	case gitrepo.DiskFull:
		return stuck("there is no room left, here or where %s is", p).try(after, "Make room, then again.")
	case gitrepo.Occupied:
		return stuck("another git program is at work here, or where %s is", p).try(after, "In a moment again; if it stays so: blotter doctor")
	case gitrepo.Partial:
		return stuck("%s begins later than this copy ends, so it cannot be joined to it", p).try(after, "A whole one: blotter share --with ANOTHER-FILE --new, where it was made")
	case gitrepo.Damaged:
		return stuck("%s is damaged: not all that it should hold can be read", p).try(after, "Another copy may be whole; a stick or disk that does this is not to be trusted.")
	case gitrepo.Ended:
		return stuck("what %s sent could not be taken in: the program that writes it here ended without a word", p).
			try(after, "Perhaps there is no room left here, or no memory, or files may not be so large. Make room, then again.")
	case gitrepo.NoSuch:
		return stuck("there is no copy of a ledger at %s", p).try(after, "Look at the address, letter by letter; whoever keeps the other copy knows it.")
	}
	return stuck("%s could not be reached", p).try(after).quote("the git program", reach.Lines()...)
}
