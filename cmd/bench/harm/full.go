package harm

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"
)

// diskSize is the size of the disk that is filled: a file system in memory.
const diskSize = 48 << 20

// FullDisk lets every command meet a disk with less and less room, at most so
// many sizes each, until there is none; after each it makes room and types the
// command again. It needs the right to mount a file system.
func (c *Campaign) FullDisk(sizes int) Tally {
	var t Tally
	if sizes == 0 || !c.wantedAny("full") {
		return t
	}
	list := c.courses(&t, "full")
	if err := c.mount(); err != nil {
		t.Left = append(t.Left, fmt.Sprintf("full: a disk that can be filled is not to be had here: %v", err))
		return t
	}
	defer c.unmount()
	for _, u := range list {
		if u.slow {
			continue
		}
		begun, lost, runs := time.Now(), len(t.Lost), t.Full
		for _, free := range rooms(sizes) {
			c.fullOnce(&t, u, free)
		}
		c.sayf("full/%-20s %4d runs   %2d lost  %5.1f s", u.title(u.git), t.Full-runs, len(t.Lost)-lost, time.Since(begun).Seconds())
		c.sayLost(t.Lost[lost:])
	}
	return t
}

// rooms are how many bytes are left on the disk: none, then half as much more
// each time, in pages.
func rooms(n int) []int {
	const page = 4096
	all := []int{0}
	for pages := 1; len(all) < n; pages += (pages + 1) / 2 {
		all = append(all, pages*page)
	}
	return all
}

func (c *Campaign) mount() error {
	if runtime.GOOS != "linux" {
		return errors.New("only Linux mounts a file system in memory")
	}
	if err := os.MkdirAll(c.place(), 0o777); err != nil {
		return err
	}
	out, err := exec.Command("mount", "-t", "tmpfs", "-o", fmt.Sprintf("size=%d", diskSize), "tmpfs", c.place()).CombinedOutput()
	if err != nil {
		return fmt.Errorf("mount: %w: %s", err, bytes.TrimSpace(out))
	}
	return nil
}

func (c *Campaign) unmount() {
	for range 20 { // a git that was left alone may still be there
		if exec.Command("umount", c.place()).Run() == nil {
			return
		}
		time.Sleep(100 * time.Millisecond)
	}
}

// filler is the file that takes the room.
const filler = ".blotter-filler"

// fill leaves so many bytes free.
func (c *Campaign) fill(free int) error {
	f, err := os.Create(filepath.Join(c.place(), filler))
	if err != nil {
		return err
	}
	defer f.Close()
	size, block := int64(0), make([]byte, 1<<20)
	for len(block) > 0 {
		n, err := f.Write(block)
		size += int64(n)
		if err != nil {
			block = block[:len(block)/2]
		}
	}
	return f.Truncate(max(size-int64(free), 0))
}

// fullOnce runs a command with so many bytes free.
func (c *Campaign) fullOnce(t *Tally, u *course, free int) {
	again := fmt.Sprintf("full/%s, %d bytes free\n  again: go run ./cmd/bench -harm -kills 0 -writers 0 -only full/%s\n", u.title(u.git), free, u.title(u.git))
	tmp := filepath.Join(c.place(), ".blotter-tmp") // one disk for all, as on a laptop
	err := c.renew(u.stock)
	if err == nil {
		err = errors.Join(os.Mkdir(tmp, 0o777), c.fill(free))
	}
	if err != nil {
		t.lost("%s: %v", again, err)
		return
	}
	r := c.run(u.at(c.place()), c.environ(u.git, "TMPDIR="+tmp), u.args)
	t.Full++
	os.Remove(filepath.Join(c.place(), filler))
	c.judgeFull(t, u, again, r, "the disk is full", "there is no room left")
}

// judgeFull looks at a run that could not write all: it says so in these words
// and has changed nothing, or it has done all; then it is judged as one that
// was killed.
func (c *Campaign) judgeFull(t *Tally, u *course, again string, r result, words ...string) {
	now, err := c.look(c.place())
	if err != nil {
		t.lost("%s: %v", again, err)
		return
	}
	said := strings.ToLower(r.out)
	plain := false
	for _, w := range words {
		plain = plain || strings.Contains(said, w)
	}
	switch {
	case strings.Contains(said, "panic:") || strings.Contains(said, "goroutine ") || strings.Contains(said, "fatal error:"):
		t.lost("%s  it panics:\n%s", again, r.out)
	case r.code == 0 && len(unlike(now, u.after, u.loose)) > 0 && u.done == "":
		for _, p := range unlike(now, u.after, u.loose) {
			if !strings.HasSuffix(p, " status") {
				t.lost("%s  it says it is done, and %s is\n%s\nbut should be\n%s\n  it said: %s", again, p, clip(now[p]), clip(u.after[p]), r.out)
			}
		}
	case r.code != 0 && !plain:
		t.lost("%s  exit %d, and it does not say in plain words that there is no room:\n%s", again, r.code, r.out)
	}
	c.judge(t, u, again, r.out)
}

// Limited runs every command where no file may become larger than so many
// bytes, which needs no right at all: what cannot be written whole is as on a
// full disk, for git too.
func (c *Campaign) Limited(sizes int) Tally {
	var t Tally
	shell, err := exec.LookPath("sh")
	if sizes == 0 || !c.wantedAny("limit") {
		return t
	}
	if runtime.GOOS == "windows" || err != nil {
		t.Left = append(t.Left, "limit: there is no shell that limits the size of files")
		return t
	}
	for _, u := range c.courses(&t, "limit") {
		if u.slow {
			continue
		}
		begun, lost, runs := time.Now(), len(t.Lost), t.Full
		for blocks, i := 0, 0; i < sizes; i, blocks = i+1, blocks*2+1 {
			c.limitOnce(&t, u, shell, blocks)
		}
		c.sayf("limit/%-19s %4d runs   %2d lost  %5.1f s", u.title(u.git), t.Full-runs, len(t.Lost)-lost, time.Since(begun).Seconds())
		c.sayLost(t.Lost[lost:])
	}
	return t
}

// limitOnce runs a command with files of at most so many blocks of the shell,
// which are 512 or 1024 bytes.
func (c *Campaign) limitOnce(t *Tally, u *course, shell string, blocks int) {
	again := fmt.Sprintf("limit/%s, files of at most %d blocks\n  again: go run ./cmd/bench -harm -kills 0 -writers 0 -only limit/%s\n", u.title(u.git), blocks, u.title(u.git))
	if err := c.renew(u.stock); err != nil {
		t.lost("%s: %v", again, err)
		return
	}
	cmd := exec.Command(shell, append([]string{"-c", fmt.Sprintf(`ulimit -f %d; exec "$0" "$@"`, blocks), c.Program}, u.args...)...)
	cmd.Dir, cmd.Env = u.at(c.place()), c.environ(u.git)
	var out bytes.Buffer // through a pipe: the limit does not count there
	cmd.Stdout, cmd.Stderr = &out, &out
	err := cmd.Run()
	r := result{out: out.String()}
	if err != nil {
		r.code = max(cmd.ProcessState.ExitCode(), 1)
	}
	t.Full++
	c.judgeFull(t, u, again, r, "the disk is full", "there is no room left", "file too large", "file size limit")
}

// wantedAny reports whether any case of a way may be wanted.
func (c *Campaign) wantedAny(way string) bool {
	head, _, cut := strings.Cut(c.Only, "/")
	return !cut || strings.HasSuffix(way, head)
}
