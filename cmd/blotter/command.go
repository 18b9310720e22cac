package main

import (
	"context"

	"blotter/ledger/gitrepo"
)

// family is the promise a command makes (interface: Ask, Enter, Make, Set up).
type family string

const (
	famAsk   family = "Ask"
	famEnter family = "Enter"
	famMake  family = "Make"
	famSetUp family = "Set up"
)

// families in the order in which help shows them.
var families = []struct {
	name    family
	promise string
}{
	{famAsk, "changes nothing"},
	{famEnter, "one run, one entry in the ledger; all of it or nothing"},
	{famMake, "writes outside the ledger"},
	{famSetUp, "this computer, not the ledger"},
}

// command is one verb: its words in the help and what it does.
type command struct {
	Name     string
	Alias    string // only determine has one
	Family   family
	Synopsis string      // what is typed after the name
	Says     string      // one sentence, capital and full stop
	Notes    []string    // further paragraphs of the help; mostly none
	Examples []example   // three
	Args     []argument  // what stands in Synopsis
	Flags    []*flag     // beside the common ones
	Exits    []int       // codes it can end in, beside 0, 2, 3 and 130
	Kin      []string    // next of kin: commands that belong near it
	Kinds    []string    // words the first argument may be; only for hooks and completion
	Hidden   bool        // called by git, not by people; not in help
	RawFlags bool        // leave every argument as it stands (commands called by git)
	Complete string      // what completion offers for arguments: "sheets", "commands", "shells", "files", ""
	Run      runFunction // gets its options from call
}

type runFunction func(ctx context.Context, c *call) error

type example struct{ Line, Does string }

type argument struct{ Name, Help string }

// call is one run of a command: the world and what was typed.
type call struct {
	*env
	cmd  *command
	args []string
	opts options

	opened []*gitrepo.Repo // by desk
}

// in is the same command in another folder.
func (c *call) in(dir string) *call {
	e := *c.env
	e.Dir = dir
	return &call{env: &e, cmd: c.cmd, opts: c.opts}
}

// close lets go of the repositories that desk opened: each may have a git
// program waiting for questions, which a process that runs many commands, or
// serves for days, would gather.
func (c *call) close() {
	for _, r := range c.opened {
		r.Close()
	}
	c.opened = nil
}

// options are the flags that were typed, by name. A flag that the command does
// not declare was not typed; a test holds the names asked for to those there
// are.
type options struct {
	declared map[string]*flag
	texts    map[string][]string
	bools    map[string]bool
}

// text is the value of a flag, "" when it was not typed.
func (o options) text(name string) string {
	if v := o.texts[name]; len(v) > 0 {
		return v[len(v)-1]
	}
	return ""
}

// texts of a flag that may be typed several times.
func (o options) list(name string) []string {
	return o.texts[name]
}

// given reports whether a flag was typed at all.
func (o options) given(name string) bool {
	return len(o.texts[name]) > 0 || o.bools[name]
}

// on reports whether a flag without a value was typed.
func (o options) on(name string) bool {
	return o.bools[name]
}

// has reports whether the command declares the flag.
func (o options) has(name string) bool { return o.declared[name] != nil }

// findCommand is the command of that name or alias.
func findCommand(name string) *command {
	for _, c := range commands() {
		if c.Name == name || c.Alias != "" && c.Alias == name {
			return c
		}
	}
	return nil
}
