// Package hooks puts Blotter's checks between a commit and the ledger. One
// function judges a commit from its parents, its tree and its message; each
// git hook is that function with the right three. Installing, showing and
// removing the hook files is here too; an earlier hook of the user is kept
// and run first. Nothing here prints or asks.
package hooks
