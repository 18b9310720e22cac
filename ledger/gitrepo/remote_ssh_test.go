package gitrepo

import (
	"fmt"
	"net"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// startSSH starts OpenSSH's server for this user alone on a port of this
// machine, and returns the port and a folder with the key "key" that it lets in
// and "stranger", which it does not.
func startSSH(t *testing.T) (port int, dir string) {
	t.Helper()
	sshd, err := exec.LookPath("sshd")
	if err != nil {
		if _, err = os.Stat("/usr/sbin/sshd"); err != nil {
			t.Skip("sshd is missing: OpenSSH's server is what is sent to here")
		}
		sshd = "/usr/sbin/sshd"
	}
	if os.Getuid() == 0 { // the server of the machine makes it when it starts
		if err := os.Mkdir("/run/sshd", 0o755); err == nil {
			t.Cleanup(func() { os.Remove("/run/sshd") })
		}
	}
	dir = t.TempDir()
	for _, name := range []string{"host", "key", "stranger"} {
		if out, err := exec.Command("ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", filepath.Join(dir, name)).CombinedOutput(); err != nil {
			t.Skipf("ssh-keygen: %v: %s", err, out)
		}
	}
	free, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	port = free.Addr().(*net.TCPAddr).Port
	free.Close()
	write(t, dir, map[string]string{"config": fmt.Sprintf("Port %d\nListenAddress 127.0.0.1\nHostKey %s/host\nAuthorizedKeysFile %s/key.pub\n"+
		"StrictModes no\nUsePAM no\nPidFile none\nPasswordAuthentication no\nKbdInteractiveAuthentication no\nPermitRootLogin yes\n", port, dir, dir)})
	server := exec.Command(sshd, "-D", "-e", "-f", filepath.Join(dir, "config"))
	var said strings.Builder
	server.Stderr = &said
	if err := server.Start(); err != nil {
		t.Skipf("sshd does not start here: %v", err)
	}
	t.Cleanup(func() { server.Process.Kill(); server.Wait() })
	for range 100 {
		if c, err := net.DialTimeout("tcp", fmt.Sprintf("127.0.0.1:%d", port), time.Second); err == nil {
			c.Close()
			return port, dir
		}
		time.Sleep(50 * time.Millisecond)
	}
	server.Process.Kill()
	server.Wait()
	t.Skipf("sshd does not serve here: %s", said.String())
	return 0, ""
}

// TestSSH shares with a real machine's server of OpenSSH, and holds what is
// found when that says no.
func TestSSH(t *testing.T) {
	needGit(t)
	port, keys := startSSH(t)
	me, err := user.Current()
	if err != nil {
		t.Fatal(err)
	}
	host, err := os.ReadFile(filepath.Join(keys, "host.pub"))
	if err != nil {
		t.Fatal(err)
	}
	write(t, keys, map[string]string{"known": fmt.Sprintf("[127.0.0.1]:%d %s", port, host), "nobody": ""})
	by := func(key, known string) []string {
		return append(testEnviron(t), fmt.Sprintf("GIT_SSH_COMMAND=ssh -F none -i %s/%s -o IdentitiesOnly=yes -o IdentityAgent=none -o UserKnownHostsFile=%s/%s -o StrictHostKeyChecking=yes -o BatchMode=yes",
			keys, key, keys, known))
	}
	r, root := newSharer(t, by("key", "known"))
	address := fmt.Sprintf("ssh://%s@127.0.0.1:%d%s/lk7.git", me.Username, port, root)
	thereAndBack(t, r, address, by("key", "known"))
	reaches(t, r, "nothing there", strings.Replace(address, "lk7", "lk8", 1), NoSuch)
	for _, x := range []struct {
		what, key, known string
		want             Reach
	}{{"a key that is not let in", "stranger", "known", NoRight}, {"a machine never met", "key", "nobody", NotMet}} {
		other, err := Open(r.top, by(x.key, x.known))
		if err != nil {
			t.Fatal(err)
		}
		reaches(t, other, x.what, address, x.want)
		other.Close()
	}
	reaches(t, r, "nobody listens", fmt.Sprintf("ssh://%s@127.0.0.1:1%s/lk7.git", me.Username, root), NoNetwork)
}
