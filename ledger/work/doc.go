// Package work reads the files of work/ of one version of a ledger: each dated
// line an event, all events in one order, and by folding them the state of any
// sheet on any day: where it is, and what has been done to it. It is pure: the
// day is passed in, and the same files give the same answers.
package work
