package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestSignedReleases signs releases with real keys, of OpenPGP by gpg and of
// ssh by ssh-keygen, and holds verify to what each signature is worth.
func TestSignedReleases(t *testing.T) {
	for _, program := range []string{"git", "gpg", "gpgconf", "ssh-keygen", "sh"} {
		if _, err := exec.LookPath(program); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatalf("%s is missing, and CI must check real signatures", program)
			}
			t.Skipf("%s is missing: the signatures are made by it", program)
		}
	}
	t.Run("OpenPGP", func(t *testing.T) { signAndVerify(t, newSigners(t), openPGP{}) })
	t.Run("ssh", func(t *testing.T) { signAndVerify(t, newSigners(t), sshKeys{}) })
}

// signAndVerify makes releases with three keys and asks verify about them, as
// knowledge of the keys comes and goes.
func signAndVerify(t *testing.T, s *signers, k keys) {
	k.make(s, "first")
	k.make(s, "second")
	k.makeOld(s)

	k.use(s, "first")
	s.blotter(0, "release", "2026-1", "--sign", "--why", "Spring")
	s.says("2026-1, revision [0-9a-f]{7}, signed\\.")
	s.verifies(0, "good", `1 release, each what it was; signed: 2026-1 by first`)
	k.forget(s)
	s.verifies(0, "key not known", `Release 2026-1 is signed with a key \(\S+\) that this computer does not know`)

	s.forge("2026-1", func(tag string) string { return strings.Replace(tag, "Spring", "Summer", 1) })
	k.know(s)
	s.verifies(1, "bad", `Release 2026-1 bears a signature that does not fit it`)
	s.putBack("2026-1")
	s.forge("2026-1", func(tag string) string { // words that are no signature at all
		return regexp.MustCompile(`(SIGNATURE-----\n)[^-]*`).ReplaceAllString(tag, "${1}\nAAAA\n")
	})
	s.verifies(1, "bad", `bears a signature that does not fit it`)
	s.putBack("2026-1")

	// By another key of somebody known; by the settings, without a flag.
	k.use(s, "second")
	s.git("config", "tag.gpgSign", "true")
	s.at("2026-11-04T09:40:00Z")
	s.blotter(0, "release", "2026-2")
	s.verifies(0, "good", `(?s)Release 2026-2 is signed with another key than 2026-1 before it:.*second.*not.*first.*signed: 2026-1 by first.*2026-2 by second`)
	s.at("2026-11-05T09:40:00Z")
	s.blotter(0, "release", "2026-3", "--unsigned")
	s.says(`It is not signed, though 2026-2 before it is`)
	s.verifies(0, "", `Release 2026-3 is not signed, though 2026-1 before it is`)
	s.git("tag", "-d", "2026-3")
	s.unseen("2026-3")

	k.revoke(s, "second")
	s.verifies(0, "old key", `Release 2026-2 is signed .*with a key that has run out\s+or was called back`)

	// A key that has run out, and one that is nowhere: then there is no release.
	s.git("tag", "-d", "2026-2")
	s.unseen("2026-2")
	k.useOld(s)
	s.at("2026-11-06T09:40:00Z")
	s.blotter(0, "release", "2026-4")
	s.verifies(0, "old key", `Release 2026-4 is signed .*with a key that has run out\s+or was called back`)
	k.use(s, "nobody")
	s.blotter(3, "release", "2026-5")
	s.says(`nothing was released: the signature could not be made`)
	if tags := s.git("tag"); tags != "2026-1\n2026-4\n" {
		t.Errorf("the releases are %q", tags)
	}
}

// signers is a ledger whose releases are signed, and a home in which keys lie.
type signers struct {
	t         *testing.T
	dir, home string
	environ   []string
	said      string // by the last command
}

// newSigners makes a ledger with an entry. The home lies at a short path:
// gpg-agent listens there, and the names of sockets are short.
func newSigners(t *testing.T) *signers {
	home, err := os.MkdirTemp(filepath.FromSlash("/tmp"), "k")
	if err != nil {
		home, err = os.MkdirTemp("", "k")
	}
	if err != nil {
		t.Fatal(err)
	}
	s := &signers{t: t, dir: t.TempDir(), home: home}
	s.environ = []string{"BLOTTER_AS_PROGRAM=1", "PATH=" + os.Getenv("PATH"), "HOME=" + home, "GNUPGHOME=" + filepath.Join(home, "g"), "GIT_CONFIG_NOSYSTEM=1", "TZ=UTC", "LC_ALL=C.UTF-8",
		"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=t@lauvkroken.example", "GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=t@lauvkroken.example", "BLOTTER_NOW=2026-11-03T09:40:00Z"}
	t.Cleanup(func() {
		s.run("gpgconf", "--kill", "gpg-agent")
		os.RemoveAll(home)
	})
	if err := os.Mkdir(filepath.Join(home, "g"), 0o700); err != nil {
		t.Fatal(err)
	}
	s.blotter(0, "init", ".", "--code", "LK7", "--name", "Lauvkroken Museum", "--no-hooks")
	s.blotter(0, "new", "collector=Signe Rask", "date=1.vii.2025", "country=Norway", "name=Ranunculus acris")
	return s
}

func (s *signers) at(moment string) { s.environ[len(s.environ)-1] = "BLOTTER_NOW=" + moment }

func (s *signers) run(name string, args ...string) (string, int) {
	cmd := exec.Command(name, args...)
	cmd.Dir, cmd.Env = s.dir, s.environ
	out, err := cmd.CombinedOutput()
	if err != nil && cmd.ProcessState == nil {
		s.t.Fatal(err)
	}
	return string(out), cmd.ProcessState.ExitCode()
}

// do runs a program that must not fail.
func (s *signers) do(name string, args ...string) string {
	s.t.Helper()
	out, code := s.run(name, args...)
	if code != 0 {
		s.t.Fatalf("%s %s: exit %d\n%s", name, strings.Join(args, " "), code, out)
	}
	return out
}

func (s *signers) git(args ...string) string {
	s.t.Helper()
	return s.do("git", args...)
}

func (s *signers) blotter(code int, args ...string) {
	s.t.Helper()
	var got int
	if s.said, got = s.run(os.Args[0], args...); got != code {
		s.t.Fatalf("blotter %s: exit %d, want %d\n%s", strings.Join(args, " "), got, code, s.said)
	}
}

func (s *signers) says(want string) {
	s.t.Helper()
	if !regexp.MustCompile(want).MatchString(s.said) {
		s.t.Errorf("no %q in\n%s", want, s.said)
	}
}

// verifies holds verify to its exit code, what it says, and the word for the
// signature of the last release.
func (s *signers) verifies(code int, signature, want string) {
	s.t.Helper()
	s.blotter(code, "verify")
	s.said = strings.Join(strings.Fields(s.said), " ") // whatever the width
	s.says(want)
	s.blotter(code, "verify", "--json")
	words := regexp.MustCompile(`"signature":"([^"]*)"`).FindAllStringSubmatch(s.said, -1)
	if signature != "" && (len(words) == 0 || words[len(words)-1][1] != signature) {
		s.t.Errorf("the signature is %v, want %q\n%s", words, signature, s.said)
	}
}

// forge puts another tag in a release's place, under the signature that it had.
func (s *signers) forge(name string, change func(string) string) {
	s.t.Helper()
	was := s.git("cat-file", "tag", name)
	now := change(was)
	if now == was {
		s.t.Fatalf("nothing was forged in\n%s", was)
	}
	file := filepath.Join(s.home, "forged")
	if err := os.WriteFile(file, []byte(now), 0o666); err != nil {
		s.t.Fatal(err)
	}
	id := strings.TrimSpace(s.git("hash-object", "-t", "tag", "-w", file))
	s.git("update-ref", "refs/tags/"+name, id)
}

// seen is the file in which this copy notes what each release was.
func (s *signers) seen() (file string, lines []string) {
	file = filepath.Join(s.dir, ".git", "blotter", "releases")
	src, err := os.ReadFile(file)
	if err != nil {
		s.t.Fatal(err)
	}
	return file, strings.SplitAfter(string(src), "\n")
}

func (s *signers) putBack(name string) {
	_, lines := s.seen()
	for _, line := range lines {
		if f := strings.Fields(line); len(f) == 3 && f[0] == name {
			s.git("update-ref", "refs/tags/"+name, f[1])
		}
	}
}

// unseen makes this copy forget that a release was ever there.
func (s *signers) unseen(name string) {
	file, lines := s.seen()
	lines = slices.DeleteFunc(lines, func(l string) bool { return strings.HasPrefix(l, name+" ") })
	if err := os.WriteFile(file, []byte(strings.Join(lines, "")), 0o666); err != nil {
		s.t.Fatal(err)
	}
}

// write writes a file of the home.
func (s *signers) write(name, text string, mode os.FileMode) string {
	file := filepath.Join(s.home, name)
	if err := os.WriteFile(file, []byte(text), mode); err != nil {
		s.t.Fatal(err)
	}
	return file
}

// keys are a way of signing. Each key is of a person of its name.
type keys interface {
	make(s *signers, name string)
	makeOld(s *signers)          // one that has run out
	use(s *signers, name string) // to sign with, from now on
	useOld(s *signers)
	forget(s *signers) // this computer knows none of them
	know(s *signers)   // and knows them again
	revoke(s *signers, name string)
}

type openPGP struct{}

func (openPGP) gpg(s *signers, args ...string) string {
	s.t.Helper()
	return s.do("gpg", append([]string{"--batch", "--quiet", "--pinentry-mode", "loopback", "--passphrase", ""}, args...)...)
}

func (k openPGP) make(s *signers, name string) {
	k.gpg(s, "--quick-generate-key", name+" <"+name+"@lauvkroken.example>", "ed25519", "sign", "never")
}

func (k openPGP) makeOld(s *signers) {
	k.gpg(s, "--faked-system-time", "20250101T000000", "--quick-generate-key", "old <old@lauvkroken.example>", "ed25519", "sign", "30d")
}

func (openPGP) use(s *signers, name string) {
	s.git("config", "user.signingKey", name+"@lauvkroken.example")
}

// useOld signs as in the month in which the key was good.
func (k openPGP) useOld(s *signers) {
	k.use(s, "old")
	s.git("config", "gpg.program", s.write("gpg-then", "#!/bin/sh\ncase \"$*\" in *--verify*) exec gpg \"$@\";; esac\nexec gpg --faked-system-time 20250110T000000 \"$@\"\n", 0o755))
}

func (openPGP) forget(s *signers) {
	if err := os.Rename(filepath.Join(s.home, "g", "pubring.kbx"), filepath.Join(s.home, "pubring.kbx")); err != nil {
		s.t.Fatal(err)
	}
}

func (openPGP) know(s *signers) {
	if err := os.Rename(filepath.Join(s.home, "pubring.kbx"), filepath.Join(s.home, "g", "pubring.kbx")); err != nil {
		s.t.Fatal(err)
	}
}

// revoke takes the certificate that gpg made with the key, and its guard off:
// a colon before its first line.
func (k openPGP) revoke(s *signers, name string) {
	found := regexp.MustCompile(`(?m)^fpr:+([0-9A-F]+):`).FindStringSubmatch(k.gpg(s, "--with-colons", "--list-keys", name))
	src, err := os.ReadFile(filepath.Join(s.home, "g", "openpgp-revocs.d", found[1]+".rev"))
	if err != nil {
		s.t.Fatal(err)
	}
	k.gpg(s, "--import", s.write("revoked", strings.Replace(string(src), ":-----BEGIN", "-----BEGIN", 1), 0o600))
}

type sshKeys struct{}

func (sshKeys) make(s *signers, name string) {
	s.do("ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-C", name, "-f", filepath.Join(s.home, name))
	s.git("config", "gpg.format", "ssh")
	sshKeys{}.list(s, name+"@lauvkroken.example", name)
}

// list adds a key to those that are known here.
func (sshKeys) list(s *signers, words, name string) {
	key, err := os.ReadFile(filepath.Join(s.home, name+".pub"))
	if err != nil {
		s.t.Fatal(err)
	}
	before, _ := os.ReadFile(filepath.Join(s.home, "signers"))
	s.write("signers", string(before)+words+" "+string(key), 0o666)
	sshKeys{}.know(s)
}

func (k sshKeys) makeOld(s *signers) {
	s.do("ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-C", "old", "-f", filepath.Join(s.home, "old"))
	k.list(s, `old@lauvkroken.example valid-before="20250101"`, "old")
}

func (sshKeys) use(s *signers, name string) {
	s.git("config", "user.signingKey", filepath.Join(s.home, name))
}

func (k sshKeys) useOld(s *signers) { k.use(s, "old") }

func (sshKeys) forget(s *signers) { s.git("config", "--unset", "gpg.ssh.allowedSignersFile") }

func (sshKeys) know(s *signers) {
	s.git("config", "gpg.ssh.allowedSignersFile", filepath.Join(s.home, "signers"))
}

func (sshKeys) revoke(s *signers, name string) {
	s.git("config", "gpg.ssh.revocationFile", filepath.Join(s.home, name+".pub"))
}
