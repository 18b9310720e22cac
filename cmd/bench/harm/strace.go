package harm

import (
	"bufio"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

// asked are the calls of the system that alter a disk, wait for it, or say
// where in a file the next bytes go.
const asked = "open,openat,openat2,creat,write,pwrite64,writev,pwritev,pwritev2,ftruncate,truncate,fallocate,rename,renameat,renameat2," +
	"link,linkat,symlink,symlinkat,unlink,unlinkat,mkdir,mkdirat,rmdir,fsync,fdatasync,sync_file_range,syncfs,sync,copy_file_range,sendfile,splice," +
	"clone,clone3,fork,vfork,chdir,fchdir,lseek,read,readv,dup,dup2,dup3,fcntl,chmod,fchmod,fchmodat"

// sysCall is one call of the system that did not fail, in the order in which they ended.
type sysCall struct {
	pid  int
	name string
	args []string
	ret  int64
}

// traced runs the program to its end and gives every call by which it, and
// the git that it started, altered the disk. strace(1) sees both; a library
// put before the program (LD_PRELOAD) would not see a static Go program.
func (c *Campaign) traced(dir string, env, args []string) ([]sysCall, result, error) {
	log := filepath.Join(c.Dir, "strace.log")
	strace, err := exec.LookPath("strace")
	if err != nil {
		return nil, result{}, err
	}
	t := *c
	t.Program = strace
	r := t.run(dir, env, append([]string{"-f", "-y", "-qq", "-xx", "-s", "99999999", "--seccomp-bpf", "-e", "trace=" + asked, "-e", "signal=none", "-o", log, c.Program}, args...))
	f, err := os.Open(log)
	if err != nil {
		return nil, r, fmt.Errorf("strace wrote no log: %s", r.out)
	}
	defer os.Remove(log)
	defer f.Close()
	calls, err := parseStrace(f)
	return calls, r, err
}

// parseStrace reads what strace -f -y -xx wrote. All words are in hexadecimal,
// so that the signs between them are never part of one.
func parseStrace(r io.Reader) ([]sysCall, error) {
	begun := map[int]string{} // by process: a call that others came between
	var all []sysCall
	in := bufio.NewReader(r)
	for {
		line, err := in.ReadString('\n')
		if line == "" && err == io.EOF {
			return all, nil
		}
		if err != nil && err != io.EOF {
			return nil, err
		}
		word, rest, ok := strings.Cut(strings.TrimSpace(line), " ")
		pid, err := strconv.Atoi(word)
		if !ok || err != nil {
			return nil, fmt.Errorf("strace: %.200q", line)
		}
		rest = strings.TrimSpace(rest)
		if head, ok := strings.CutSuffix(rest, "<unfinished ...>"); ok {
			begun[pid] = head
			continue
		}
		if strings.HasPrefix(rest, "<... ") {
			_, tail, _ := strings.Cut(rest, " resumed>")
			rest = begun[pid] + tail
			delete(begun, pid)
		}
		call, done, err := parseCall(pid, rest)
		if err != nil {
			return nil, err
		}
		if done {
			all = append(all, call)
		}
	}
}

// parseCall reads "name(arg, arg) = 3"; done is false for a call that failed,
// for one whose end strace did not see, because its process was gone by then
// ("name(arg, <detached ...>"), and for what is none, such as the end of a process.
func parseCall(pid int, s string) (c sysCall, done bool, err error) {
	name, rest, ok := strings.Cut(s, "(")
	if !ok || strings.HasPrefix(s, "+++") || strings.HasPrefix(s, "---") || strings.HasPrefix(s, "???") { // "???( <detached ...>": let go of at its end
		return c, false, nil
	}
	args, ret, ok := cutLast(rest, ") = ", ")  ")
	switch {
	case !ok && strings.HasSuffix(s, ">"):
		return c, false, nil
	case !ok:
		return c, false, fmt.Errorf("strace: %.200q ... %q", s, s[max(0, len(s)-200):])
	}
	ret = strings.TrimLeft(ret, "= ")
	word, _, _ := strings.Cut(ret, "<")
	word, _, _ = strings.Cut(word, " ")
	if strings.HasPrefix(word, "-1") || word == "?" {
		return c, false, nil
	}
	c = sysCall{pid: pid, name: name, args: splitArgs(args)}
	c.ret, err = strconv.ParseInt(word, 0, 64)
	return c, err == nil, err
}

// cutLast cuts at the last of the separators.
func cutLast(s string, seps ...string) (before, after string, ok bool) {
	for _, sep := range seps {
		if i := strings.LastIndex(s, sep); i >= 0 {
			return s[:i], s[i+len(sep):], true
		}
	}
	return s, "", false
}

// splitArgs cuts at the commas that stand in no bracket.
func splitArgs(s string) (args []string) {
	depth, from := 0, 0
	for i := range len(s) {
		switch s[i] {
		case '{', '[', '(':
			depth++
		case '}', ']', ')':
			depth--
		case ',':
			if depth == 0 {
				args, from = append(args, strings.TrimSpace(s[from:i])), i+1
			}
		}
	}
	return append(args, strings.TrimSpace(s[from:]))
}

// word is an argument of the call; "" when it has not so many.
func (c sysCall) word(i int) string {
	if i >= len(c.args) {
		return ""
	}
	return c.args[i]
}

// text is a word in quotation marks.
func (c sysCall) text(i int) string {
	w := strings.Trim(c.word(i), `"`)
	b, _ := hex.DecodeString(strings.ReplaceAll(w, `\x`, ""))
	return string(b)
}

// number is a whole number, also that of an open file.
func (c sysCall) number(i int) int64 {
	w, _, _ := strings.Cut(c.word(i), "<")
	n, _ := strconv.ParseInt(w, 0, 64)
	return n
}

// open is the path that strace says an open file has; "" for AT_FDCWD without
// one.
func (c sysCall) open(i int) string {
	_, w, _ := strings.Cut(c.word(i), "<")
	w, _, _ = strings.Cut(w, ">")
	b, err := hex.DecodeString(strings.ReplaceAll(w, `\x`, ""))
	if err != nil {
		return ""
	}
	return string(b)
}

// has reports whether flags hold one.
func (c sysCall) has(i int, flag string) bool {
	for f := range strings.SplitSeq(c.word(i), "|") {
		if f == flag {
			return true
		}
	}
	return false
}

// pieces are the bytes of a writev.
func (c sysCall) pieces(i int) (all []byte) {
	for _, part := range strings.Split(c.word(i), `iov_base="`)[1:] {
		hexed, _, _ := strings.Cut(part, `"`)
		b, _ := hex.DecodeString(strings.ReplaceAll(hexed, `\x`, ""))
		all = append(all, b...)
	}
	return all
}
