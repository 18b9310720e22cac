// Package render builds the catalogue: from a public Book and the history of
// its records to a folder of pages. It knows no git, and it takes nothing
// that has not passed through ledger/public.
package render
