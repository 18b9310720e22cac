//go:build unix

package harm

import (
	"os/exec"
	"syscall"
)

// ownGroup starts a program in a group of its own.
func ownGroup(cmd *exec.Cmd) { cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} }

// kill ends a program at once, with all that it started or alone.
func kill(cmd *exec.Cmd, group bool) {
	if group {
		syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL)
		return
	}
	cmd.Process.Kill()
}
