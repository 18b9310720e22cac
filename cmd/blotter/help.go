package main

import (
	"context"
	"fmt"
	"slices"
	"strings"
)

func helpCommand() *command {
	return &command{
		Name: "help", Family: famSetUp, Synopsis: "[COMMAND|all]",
		Says: "Explains a command, or lists all of them.",
		Examples: []example{
			{"blotter help determine", "what a new opinion needs"},
			{"blotter help all", "every command in one line each"},
			{"blotter find --help", "the same as: blotter help find"},
		},
		Args:     []argument{{"COMMAND", "the command to explain"}},
		Kin:      []string{"version", "completion"},
		Complete: "commands",
		Run: func(_ context.Context, c *call) error {
			switch {
			case len(c.args) == 0:
				c.front()
			case len(c.args) > 1:
				return misuse("one command at a time")
			case c.args[0] == "all":
				c.helpAll()
			default:
				cmd := findCommand(c.args[0])
				if cmd == nil {
					return unknownCommand(c.args[0])
				}
				c.helpOne(cmd)
			}
			return nil
		},
	}
}

// frontCommand is what `blotter` alone does.
func frontCommand() *command {
	return &command{Family: famSetUp, Run: func(_ context.Context, c *call) error {
		c.front()
		return nil
	}}
}

// front prints the twelve lines of `blotter` alone.
func (e *env) front() {
	fmt.Fprintln(e.Out, wrap("Blotter keeps a herbarium's specimens as plain text with their whole history.", e.Width, ""))
	for _, name := range daily {
		cmd := findCommand(name)
		if cmd == nil {
			continue
		}
		fmt.Fprintln(e.Out, hang("  "+pad(cmd.Name, 10)+" ", cmd.Says, e.Width))
	}
	fmt.Fprintln(e.Out, wrap("In a ledger already? blotter status. Joining one? blotter join. Beginning one? blotter init. Only looking? blotter demo. All: blotter help all", e.Width, ""))
}

func (e *env) helpAll() {
	for _, f := range families {
		fmt.Fprintf(e.Out, "%s: %s\n", f.name, f.promise)
		for _, cmd := range commands() {
			if cmd.Family == f.name && !cmd.Hidden {
				fmt.Fprintln(e.Out, hang("  "+pad(cmd.Name, 11)+" ", cmd.Says, e.Width))
			}
		}
		fmt.Fprintln(e.Out)
	}
	fmt.Fprintln(e.Out, "Every command takes:")
	e.helpFlags(commonFlags)
	fmt.Fprintln(e.Out)
	fmt.Fprintln(e.Out, "More on one of them: blotter help COMMAND")
}

func (e *env) helpOne(cmd *command) {
	fmt.Fprintln(e.Out, wrap(cmd.Says, e.Width, ""))
	for _, note := range cmd.Notes {
		fmt.Fprintln(e.Out, wrap(note, e.Width, ""))
	}
	fmt.Fprintf(e.Out, "\nblotter %s\n", strings.TrimSpace(cmd.Name+" "+cmd.Synopsis))
	if cmd.Alias != "" {
		fmt.Fprintf(e.Out, "%s is short for it.\n", cmd.Alias)
	}
	if len(cmd.Examples) > 0 {
		fmt.Fprintln(e.Out, "\nExamples")
	}
	for _, x := range cmd.Examples {
		fmt.Fprintf(e.Out, "  %s\n%s\n", x.Line, hang("      ", x.Does, e.Width))
	}
	if len(cmd.Args) > 0 {
		fmt.Fprintln(e.Out, "\nArguments")
	}
	for _, a := range cmd.Args {
		fmt.Fprintln(e.Out, hang("  "+pad(a.Name, 20)+"  ", a.Help, e.Width))
	}
	fmt.Fprintln(e.Out, "\nFlags")
	e.helpFlags(append(slices.Clone(cmd.Flags), commonFlags...))
	fmt.Fprintln(e.Out, "\nExit codes")
	for _, x := range exitMeanings {
		if x.code != exitFindings || slices.Contains(cmd.Exits, exitFindings) {
			fmt.Fprintf(e.Out, "  %-3d  %s\n", x.code, x.meaning)
		}
	}
	if len(cmd.Kin) > 0 {
		fmt.Fprintf(e.Out, "\nNext of kin: %s\n", strings.Join(cmd.Kin, ", "))
	}
}

func (e *env) helpFlags(flags []*flag) {
	for _, f := range flags {
		left := "--" + f.Name
		if f.Short != "" {
			left = "-" + f.Short + ", " + left
		}
		if f.Value != "" {
			left += " " + f.Value
		}
		fmt.Fprintln(e.Out, hang("  "+pad(left, 20)+"  ", f.Help, e.Width))
	}
}
