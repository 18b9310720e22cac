package main

import (
	"context"
	"fmt"
	"slices"
	"strings"
)

var shells = []string{"bash", "zsh", "fish", "powershell"}

func completionCommand() *command {
	return &command{
		Name: "completion", Family: famSetUp, Synopsis: "SHELL",
		Says: "Prints the lines that let your shell complete commands and flags.",
		Examples: []example{
			{"blotter completion bash > ~/.local/share/bash-completion/completions/blotter", "for bash, from the next shell on"},
			{"blotter completion fish > ~/.config/fish/completions/blotter.fish", "for fish"},
			{"blotter completion powershell >> $PROFILE", "for PowerShell"},
		},
		Args:     []argument{{"SHELL", "bash, zsh, fish or powershell"}},
		Kinds:    shells,
		Kin:      []string{"help", "version"},
		Complete: "shells",
		Run: func(_ context.Context, c *call) error {
			if len(c.args) != 1 {
				return misuse("which shell? bash, zsh, fish or powershell").try("blotter completion bash")
			}
			switch c.args[0] {
			case "bash":
				completeBash(c.env)
			case "zsh":
				completeZsh(c.env)
			case "fish":
				completeFish(c.env)
			case "powershell":
				completePowerShell(c.env)
			default:
				return misuse("no completion for %q; there is one for bash, zsh, fish and powershell", c.args[0])
			}
			return nil
		},
	}
}

// shownCommands are the commands that people type.
func shownCommands() []*command {
	return slices.DeleteFunc(commands(), func(c *command) bool { return c.Hidden })
}

// words that may follow a command.
func (c *command) words() []string {
	var words []string
	switch c.Complete {
	case "commands":
		words = append(words, "all")
		for _, other := range shownCommands() {
			words = append(words, other.Name)
		}
	default:
		words = append(words, c.Kinds...)
	}
	for _, f := range slices.Concat(c.Flags, commonFlags) {
		words = append(words, "--"+f.Name)
	}
	return words
}

func commandNames() []string {
	var names []string
	for _, c := range shownCommands() {
		names = append(names, c.Name)
	}
	return names
}

func completeBash(e *env) {
	e.say("# bash completion for blotter")
	e.say("_blotter() {")
	e.say(`  local word=${COMP_WORDS[COMP_CWORD]} words=`)
	e.say(`  if [ "$COMP_CWORD" -eq 1 ]; then words=%q`, strings.Join(commandNames(), " "))
	e.say(`  else case ${COMP_WORDS[1]} in`)
	for _, c := range shownCommands() {
		name := c.Name
		if c.Alias != "" {
			name += "|" + c.Alias
		}
		e.say(`    %s) words=%q ;;`, name, strings.Join(c.words(), " "))
	}
	e.say("  esac; fi")
	e.say(`  COMPREPLY=($(compgen -W "$words" -- "$word"))`)
	e.say("}")
	e.say("complete -o default -F _blotter blotter")
}

func completeZsh(e *env) {
	e.say("#compdef blotter")
	e.say("_blotter() {")
	e.say("  if (( CURRENT == 2 )); then")
	e.say("    local -a verbs=(")
	for _, c := range shownCommands() {
		e.say("      %s", shQuote(c.Name+":"+strings.ReplaceAll(c.Says, ":", `\:`)))
	}
	e.say("    )")
	e.say("    _describe command verbs")
	e.say("  else case $words[2] in")
	for _, c := range shownCommands() {
		e.say("    %s) compadd -- %s; _files ;;", c.Name, strings.Join(c.words(), " "))
	}
	e.say("  esac; fi")
	e.say("}")
	e.say(`if [ "$funcstack[1]" = "_blotter" ]; then _blotter "$@"; else compdef _blotter blotter; fi`)
}

func completeFish(e *env) {
	e.say("# fish completion for blotter")
	for _, c := range shownCommands() {
		e.say("complete -c blotter -n __fish_use_subcommand -a %s -d %s", c.Name, fishQuote(c.Says))
	}
	for _, c := range shownCommands() {
		when := fishQuote("__fish_seen_subcommand_from " + c.Name)
		for _, f := range slices.Concat(c.Flags, commonFlags) {
			value := ""
			if f.Value != "" {
				value = " -r"
			}
			e.say("complete -c blotter -n %s -l %s%s -d %s", when, f.Name, value, fishQuote(f.Help))
		}
		for _, w := range c.words() {
			if !strings.HasPrefix(w, "--") {
				e.say("complete -c blotter -n %s -a %s", when, w)
			}
		}
	}
}

func completePowerShell(e *env) {
	e.say("# PowerShell completion for blotter")
	e.say("Register-ArgumentCompleter -Native -CommandName blotter -ScriptBlock {")
	e.say("  param($word, $ast, $cursor)")
	e.say("  $words = @{")
	e.say("    '' = @(%s)", psList(commandNames()))
	for _, c := range shownCommands() {
		e.say("    '%s' = @(%s)", c.Name, psList(c.words()))
	}
	e.say("  }")
	e.say("  $typed = @($ast.CommandElements | ForEach-Object { $_.ToString() })")
	e.say("  $verb = if ($typed.Count -gt 2 -or ($typed.Count -eq 2 -and $word -eq '')) { $typed[1] } else { '' }")
	e.say(`  $words[$verb] | Where-Object { $_ -like "$word*" } | ForEach-Object { [System.Management.Automation.CompletionResult]::new($_) }`)
	e.say("}")
}

func psList(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = fmt.Sprintf("'%s'", strings.ReplaceAll(w, "'", "''"))
	}
	return strings.Join(quoted, ", ")
}

// shQuote puts s in single quotes for a POSIX shell.
func shQuote(s string) string { return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'" }

// fishQuote puts s in single quotes for fish.
func fishQuote(s string) string {
	return "'" + strings.NewReplacer(`\`, `\\`, "'", `\'`).Replace(s) + "'"
}
