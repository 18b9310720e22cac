package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// parsed is what was typed after the command's name.
type parsed struct {
	args []string
	opts options
}

// parse reads the arguments of a command. Flags may stand before or after
// arguments; no prefix of a flag is taken for the whole.
func parse(cmd *command, typed []string) (parsed, error) {
	flags := slices.Concat(cmd.Flags, commonFlags)
	out := parsed{opts: options{declared: map[string]*flag{}, texts: map[string][]string{}, bools: map[string]bool{}}}
	for _, f := range flags {
		out.opts.declared[f.Name] = f
	}
	if cmd.RawFlags {
		out.args = typed
		return out, nil
	}
	ordered, err := flagsFirst(cmd.Name, flags, typed)
	if err != nil {
		return out, err
	}
	// The library would answer these two itself and skip the action.
	typedFlags := ordered[:slices.Index(ordered, "--")]
	out.opts.bools["help"] = slices.Contains(typedFlags, "--help") || slices.Contains(typedFlags, "-h")
	out.opts.bools["version"] = slices.Contains(typedFlags, "--version")
	if out.opts.bools["help"] || out.opts.bools["version"] {
		return out, nil
	}
	app := &cli.App{
		Name: "blotter", Writer: io.Discard, ErrWriter: io.Discard,
		HideHelp: true, HideHelpCommand: true, HideVersion: true,
		DisableSliceFlagSeparator: true,
		ExitErrHandler:            func(*cli.Context, error) {},
		OnUsageError:              func(_ *cli.Context, err error, _ bool) error { return err },
		Flags:                     cliFlags(flags),
		Action: func(c *cli.Context) error {
			out.args = c.Args().Slice()
			for _, f := range flags {
				switch {
				case !c.IsSet(f.Name):
				case f.Value == "":
					out.opts.bools[f.Name] = c.Bool(f.Name)
				default:
					out.opts.texts[f.Name] = c.StringSlice(f.Name)
				}
			}
			return nil
		},
	}
	if err := app.Run(append([]string{"blotter"}, ordered...)); err != nil {
		return out, misuse("%v", err)
	}
	for _, f := range flags {
		if vs := out.opts.texts[f.Name]; len(vs) > 1 && !f.Many {
			return out, misuse("--%s is given %d times; it can stand only once", f.Name, len(vs))
		}
	}
	return out, nil
}

// cliFlags are our flags in the library's form. Every value is taken as a
// list, so that a flag given twice is seen and not silently overwritten.
func cliFlags(flags []*flag) []cli.Flag {
	var all []cli.Flag
	for _, f := range flags {
		var aliases []string
		if f.Short != "" {
			aliases = []string{f.Short}
		}
		if f.Value == "" {
			all = append(all, &cli.BoolFlag{Name: f.Name, Aliases: aliases})
		} else {
			all = append(all, &cli.StringSliceFlag{Name: f.Name, Aliases: aliases})
		}
	}
	return all
}

// flagsFirst puts flags and their values before the arguments, with -- in
// between, since the library stops reading flags at the first argument. A
// lone "-", and "-" with a digit after it, are arguments.
func flagsFirst(name string, flags []*flag, typed []string) ([]string, error) {
	var first, rest []string
	for i := 0; i < len(typed); i++ {
		arg := typed[i]
		if arg == "--" {
			rest = append(rest, typed[i+1:]...)
			break
		}
		if len(arg) < 2 || arg[0] != '-' || arg[1] >= '0' && arg[1] <= '9' {
			rest = append(rest, arg)
			continue
		}
		word, _, hasValue := strings.Cut(arg, "=")
		f, err := lookFlag(name, flags, word)
		if err != nil {
			return nil, err
		}
		switch {
		case f.Value == "" && hasValue:
			return nil, misuse("--%s takes no value", f.Name)
		case f.Value == "" || hasValue:
			first = append(first, arg)
		case f.Bare != "" && (i+1 == len(typed) || strings.HasPrefix(typed[i+1], "-")):
			first = append(first, word+"="+f.Bare)
		case i+1 == len(typed):
			return nil, misuse("--%s needs a value: --%s %s", f.Name, f.Name, f.Value)
		default:
			i++
			first = append(first, word+"="+typed[i])
		}
	}
	return append(append(first, "--"), rest...), nil
}

// lookFlag is the flag meant by word, exactly; a near miss is answered with
// the right word.
func lookFlag(name string, flags []*flag, word string) (*flag, error) {
	long, isLong := strings.CutPrefix(word, "--")
	short := strings.TrimPrefix(word, "-")
	var names []string
	for _, f := range flags {
		if isLong && f.Name == long || !isLong && f.Short != "" && f.Short == short {
			return f, nil
		}
		names = append(names, f.Name)
	}
	fault := misuse("no flag %s", word)
	if near := nearest(strings.TrimLeft(word, "-"), names); near != "" {
		fault = misuse("no flag %s; did you mean --%s?", word, near)
	}
	return nil, fault.try(fmt.Sprintf("All its flags: blotter help %s", name))
}
