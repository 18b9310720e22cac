package harm

import (
	"reflect"
	"strings"
	"testing"
)

// TestParseStrace: the lines that strace 6.1 writes with -f -y -xx; how it ends
// a call whose process was gone is as its program has the words (strings(1)).
func TestParseStrace(t *testing.T) {
	for _, c := range []struct {
		log  string
		want []sysCall
	}{
		{`7 mkdirat(AT_FDCWD<\x2f>, "\x61", 0777) = 0`, []sysCall{{7, "mkdirat", []string{`AT_FDCWD<\x2f>`, `"\x61"`, "0777"}, 0}}},
		{"7 fsync(3<\\x2f> <unfinished ...>\n8 sync() = 0\n7 <... fsync resumed>) = 0", []sysCall{{8, "sync", []string{""}, 0}, {7, "fsync", []string{`3<\x2f>`}, 0}}},
		{`7 unlink("\x61") = -1 ENOENT (No such file or directory)`, nil},
		{"7 fsync(3<\\x2f>) = ?\n7 +++ exited with 0 +++", nil},
		{"7 ???( <detached ...>", nil},
		{"7 clone3({flags=CLONE_VM|CLONE_FS, exit_signal=0} <detached ...>", nil},
		{"7 clone3({flags=CLONE_VM|CLONE_FS, exit_signal=0} <Cannot restart pid 7 with ptrace(SYSCALL): No such process>", nil},
		{"7 clone3({flags=CLONE_VM|CLONE_FS, exit_si <pid changed to 8 ...>", nil},
	} {
		got, err := parseStrace(strings.NewReader(c.log))
		if err != nil || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s\nis %v, %v\nwant %v", c.log, got, err, c.want)
		}
	}
	for _, torn := range []string{"7 write(3<\\x2f>, \"\\x61", "write(3) = 1"} {
		if _, err := parseStrace(strings.NewReader(torn)); err == nil {
			t.Errorf("%s is read without an error", torn)
		}
	}
}
