// Package names reads scientific names of plants, algae and fungi as they
// stand on determination slips.
//
// It follows the International Code of Nomenclature for algae, fungi, and
// plants; articles are those of the Shenzhen Code (2018). A name is taken
// apart into genus, epithets with their ranks, authors, hybrid signs,
// cultivar and qualifiers (cf., aff., ?, agg., s.l., sp. 3 ...). Qualifiers are
// lifted out together with the part that they govern; the words stay. Authors
// are never needed and never filled in. Words at the end that are no part of a
// name are set aside (Name.Tail) with a warning; what is not a botanical name is
// refused with the reason. Name.String writes a name in normal spelling, so that
// it is read again as the same name; what was put right on the way is told in
// Name.Warnings.
//
// The same package decides how a name is set (Name.Pieces), what its page is
// called (Name.Slug), how it sorts (Name.SortKey) and when two names are the
// same (Same).
//
// The package imports nothing of ours.
package names
