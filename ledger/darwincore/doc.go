// Package darwincore is where a record meets Darwin Core (TDWG, list of terms
// of 2026-05-26): one table says, for each term of each kind of row, where its
// value comes from. Out of it come the archive (WriteArchive), simple tables
// with Darwin Core headings and the conformance table of TERMS.md.
//
// Words stay words: a verbatim term has what the label says to the letter, and
// what is read in them stands in the terms beside it. A field that has no term
// goes into dynamicProperties under its own path, so that nothing public is
// lost on the way.
//
// The package decides nothing about what may be public: the sheets it gets
// have been through ledger/public, or are meant for a partner by name.
package darwincore
