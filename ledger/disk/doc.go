// Package disk is how bytes reach the disk: files that are old or new and
// never torn, the ledger's lock, and the disposable cache. All writes of the
// program go through it, so that a test can break any of them (disktest).
//
// It never writes through a symbolic link that leads out of the tree it was
// given, and never takes a cache's word over the content it was made from.
package disk
