// Package gitrepo is the ledger's only door to git: versions of the ledger as
// ledger.Source (work tree, index, any commit), the log of revisions, and the
// making of commits. It is the only importer of go-git and the only caller of
// the git program.
//
// Behind one small border (objects) stand two back ends. go-git is always
// there. The git program, when it is on the PATH, does what it does better:
// what is staged, the bulk pass over the history, commits, single objects
// (go-git reads a whole pack index before its first); and everything for a
// repository that go-git does not open. A contract test holds the two equal.
//
// Numbers, not paths, are followed through the history: a record is the file
// of that base name, whatever its folder.
package gitrepo
