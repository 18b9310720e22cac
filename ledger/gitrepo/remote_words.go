package gitrepo

import (
	"errors"
	"slices"
	"strings"
)

// Reach is why another copy could not be reached.
type Reach int

// The reasons, as far as git's words tell.
const (
	Unknown   Reach = iota
	NoNetwork       // nobody answers, or the machine's name is not known
	NoSuch          // there is no such place, or no repository in it
	NoRight         // the other end wants another name, password or key, or says no
	NotMet          // ssh does not know the other machine yet
	NotOwned        // a folder of another user, which git does not trust
	DiskFull        // here or there
	Partial         // a bundle that begins after what this copy has
	Damaged         // objects are missing or broken
	Occupied        // another git program is at work in one of the two
	NotProved       // the other machine's certificate is not trusted here
	Ailing          // the other machine answers with a fault of its own
	Ended           // git died here while it took in what came, without a word: room, memory, a limit
)

// ReachError is a git command that could not reach another copy, or not take
// all that it has.
type ReachError struct {
	Kind Reach
	Text string // what git wrote, in English
	code int
	err  error
}

func (e *ReachError) Error() string { return e.err.Error() }
func (e *ReachError) Unwrap() error { return e.err }

// Lines are git's words, one a line, without those that only say that it
// ended.
func (e *ReachError) Lines() (lines []string) {
	for line := range strings.Lines(e.Text) {
		line = strings.TrimSpace(line)
		if line == "" || slices.ContainsFunc(emptyWords, func(w string) bool { return strings.Contains(line, w) }) {
			continue
		}
		lines = append(lines, line)
	}
	return lines
}

// emptyWords are lines of git that say nothing of a cause.
var emptyWords = []string{"error: failed to push", "hint:", "Could not read from remote repository", "Please make sure you have the correct access rights",
	"and the repository exists."}

// reachWords are pieces of what git, ssh and curl say (git 2.30 to 2.50,
// OpenSSH 9; from their sources and from memory), in the order in which they
// are looked for.
var reachWords = []struct {
	kind  Reach
	words []string
}{
	{DiskFull, []string{"No space left on device", "Disk quota exceeded", "file size limit exceeded", "file write error", "File too large"}},
	{Occupied, []string{"cannot lock ref", "Unable to create '", "shallow file has changed"}},
	{NotOwned, []string{"dubious ownership", "unsafe repository"}},
	{NotMet, []string{"Host key verification failed", "REMOTE HOST IDENTIFICATION HAS CHANGED"}},
	{NotProved, []string{"SSL certificate problem", "server certificate verification failed", "certificate verify failed", "unable to get local issuer", "self signed certificate",
		"self-signed certificate", "no alternative certificate subject name", "certificate subject name"}},
	{Ailing, []string{"requested URL returned error: 5"}},
	{Partial, []string{"lacks these prerequisite commits", "bundle-uri"}},
	{NoNetwork, []string{"Could not resolve host", "Temporary failure in name resolution", "Name or service not known", "Network is unreachable", "No route to host",
		"Connection timed out", "Operation timed out", "Connection refused", "Failed to connect", "Couldn't connect", "Could not connect", "Connection reset",
		"Connection closed", "Resolving timed out", "unable to look up", "nodename nor servname"}},
	{NoRight, []string{"Permission denied", "Authentication failed", "could not read Username", "could not read Password", "terminal prompts disabled",
		"requested URL returned error: 401", "requested URL returned error: 403", "Access denied", "access denied", "insufficient permission", "not allowed"}},
	{Damaged, []string{"does not match", "did not receive expected object", "bad object", "is corrupt", "missing blob", "missing tree", "pack has bad", "inflate",
		"unresolved deltas", "pack signature mismatch", "early EOF", "bad pack header", "SHA1 COLLISION"}},
	{Ended, []string{"invalid index-pack output", "index-pack failed"}}, // beside the words of a damage, if there is one
	{NoSuch, []string{"does not appear to be a git repository", "does not exist", "not found", "No such file or directory", "Not a git repository", "not a git repository",
		"Unable to find remote helper", "requested URL returned error: 404", "not valid: is this a git repository", "does not look like a v2", "unrecognized header", "invalid gitfile format", "is not a git command", "transport '"}},
}

// reachError says why git could not reach another copy.
func reachError(err error) error {
	var program *ProgramError
	if !errors.As(err, &program) {
		return err
	}
	e := &ReachError{Text: program.Text, code: program.Code, err: err}
	for _, row := range reachWords {
		for _, words := range row.words {
			if strings.Contains(program.Text, words) {
				e.Kind = row.kind
				return e
			}
		}
	}
	return e
}
