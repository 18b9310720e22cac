// Package survey has the statistics of looking at a part of a collection and
// speaking of the whole: how many sheets to look at, which ones, and between
// what bounds the true share lies; and the rolling inventory.
//
// A share is a proportion between 0 and 1 of a population of Size sheets that
// were drawn without putting back; Size 0 is a population without end. The
// formulas are those of every handbook of sampling (sample size for a
// proportion, finite population correction; Wilson 1927; Clopper and Pearson
// 1934; exact bounds by the hypergeometric distribution), from memory; the
// tests hold them to published tables.
//
// Draws come from words (a revision, a survey's number) and from nothing else,
// so that anyone draws the same sheets again from the same words.
//
// What a survey cannot do: bounds hold for sheets drawn by chance (Draw), never
// for those that were looked at since they came to hand.
package survey
