package main

import (
	"context"
	"io/fs"
	"os"
	"os/exec"
	"runtime"
)

func editCommand() *command {
	return &command{
		Name: "edit", Family: famEnter, Synopsis: "SHEET|WORK",
		Says: "Opens the file of a sheet or work in your editor and checks it when you close it.",
		Notes: []string{"The editor is that of VISUAL, EDITOR or git config core.editor. " +
			"What another program wrote into a file is entered by: blotter enter."},
		Examples: []example{
			{"blotter edit 1205", "one sheet"},
			{"blotter edit people.yaml", "another file of the ledger"},
			{"blotter edit 1205 --hold", "without the question whether to enter it"},
		},
		Args:  []argument{{"SHEET|WORK", "482, LK7-0000482, loan-2026-004, or a file of the ledger"}},
		Flags: []*flag{flagHold, flagYes, flagAs, flagDryRun}, Exits: []int{exitFindings},
		Kin: []string{"set", "enter", "show"}, Complete: "sheets",
		Run: runEdit,
	}
}

func runEdit(ctx context.Context, c *call) error {
	if len(c.args) != 1 {
		return misuse("which sheet? One at a time").try("blotter edit 1205")
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	path, err := d.editable(c.args[0])
	if err != nil {
		return err
	}
	a := d.asker()
	for {
		if err := d.openEditor(ctx, path); err != nil {
			return err
		}
		again, err := d.afterEdit(ctx, a, path)
		if err != nil || !again {
			return err
		}
	}
}

// editable is the path of the file that was named.
func (d *desk) editable(typed string) (string, error) {
	if path, ok := d.ledgerPath(typed); ok {
		if !fs.ValidPath(path) {
			return "", misuse("%s does not lie in this ledger", typed)
		}
		if _, err := os.Lstat(d.file(path)); err != nil {
			return "", misuse("there is no plain file %s in this ledger", path)
		}
		return path, d.plainWay(path + "/")
	}
	if d.isWork(typed) {
		n, err := d.workArgument(typed)
		return n.Path(), err
	}
	n, err := d.rowNumber(typed)
	if err != nil {
		return "", err
	}
	path := d.pathOf(n)
	return path, d.plainWay(path + "/")
}

// afterEdit shows what is found in the file as it now is, and offers to open
// it again or to enter it.
func (d *desk) afterEdit(ctx context.Context, a *asker, path string) (again bool, err error) {
	changes, odd, err := d.chosen(ctx, []string{d.file(path)})
	if err != nil {
		return false, err
	}
	if len(odd) > 0 {
		findingsView{env: d.env}.show(odd)
		return false, errFindings
	}
	if len(changes) == 0 {
		d.say("%s is as it was entered last.", sheetOrPath(path))
		return false, nil
	}
	sound, _, found, err := d.sortOut(ctx, changes)
	if err != nil {
		return false, err
	}
	d.viewOf(d.env, changes).show(found)
	errs, warns := countFindings(found)
	sums := count(errs, "error") + ", " + count(warns, "warning") + "."
	if errs+warns > 0 {
		if !d.Asks {
			d.say("%s", sums)
		} else if again, err = a.yesNo(ctx, sums+" Open it again?", true); err != nil || again {
			return again, err
		}
	}
	if len(sound) == 0 {
		d.say("%s is not entered: its file stays as you left it.", sheetOrPath(path))
		d.next("blotter edit %s", d.briefPath(path))
		return false, errFindings
	}
	if d.opts.on("hold") || !d.Asks && !d.opts.on("yes") {
		d.say("%s written, not yet entered.", sheetOrPath(path))
		return false, nil
	}
	if !d.opts.on("yes") {
		ok, err := a.yesNo(ctx, "Enter it now?", true)
		if err != nil {
			return false, err
		}
		if !ok {
			d.say("%s written, not yet entered.", sheetOrPath(path))
			d.next("blotter enter")
			return false, nil
		}
	}
	if err := d.enterFiles(ctx, sound); err != nil {
		return false, err
	}
	return false, d.compareMended(path)
}

// openEditor runs the person's editor on a file and waits for it.
func (d *desk) openEditor(ctx context.Context, path string) error {
	editor, err := d.editor()
	if err != nil {
		return err
	}
	var cmd *exec.Cmd
	if runtime.GOOS == "windows" {
		cmd = exec.CommandContext(ctx, "cmd", "/c", editor+` "`+d.file(path)+`"`)
	} else {
		// An editor may come with words of its own: "code --wait".
		cmd = exec.CommandContext(ctx, "sh", "-c", editor+` "$1"`, "sh", d.file(path))
	}
	cmd.Dir, cmd.Env = d.Dir, d.Environ
	// The terminal itself, not d.Out: an editor draws on it, and cleanWriter
	// would take its drawing apart.
	cmd.Stdin, cmd.Stdout, cmd.Stderr = os.Stdin, os.Stdout, os.Stderr
	if err := cmd.Run(); err != nil {
		return stuck("the editor %s ended with: %v", editor, err).try("The file stays as it is on disk.")
	}
	return nil
}

func (d *desk) editor() (string, error) {
	for _, key := range []string{"VISUAL", "EDITOR"} {
		if e := d.getenv(key); e != "" {
			return e, nil
		}
	}
	if d.repo != nil {
		if e, err := d.repo.Setting("core.editor"); err == nil && e != "" {
			return e, nil
		}
	}
	if runtime.GOOS == "windows" {
		return "notepad", nil
	}
	for _, e := range []string{"nano", "vi"} {
		if _, err := exec.LookPath(e); err == nil {
			return e, nil
		}
	}
	return "", stuck("no editor is known").try(`Say which: git config --global core.editor "nano"`, "Or open the file in any editor; blotter enter takes it.")
}
