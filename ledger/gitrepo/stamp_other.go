//go:build !unix

package gitrepo

// stampDir knows no time that a program cannot put back here, as on Windows:
// every file is read.
type stampDir struct{}

func openStamps(string) stampDir { return stampDir{} }

func (stampDir) of(string) (stamp, bool) { return stamp{}, false }

func (stampDir) close() {}
