package gitrepo

import (
	"context"
	"encoding/pem"
	"errors"
	"io"
	"net/http"
	"net/http/cgi"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
)

// newSharer is a copy with one entry, and an empty server end beside it.
func newSharer(t *testing.T, environ []string) (r *Repo, root string) {
	t.Helper()
	root = t.TempDir()
	mustGit(t, root, "init", "-q", "-b", "main", "mine")
	write(t, filepath.Join(root, "mine"), map[string]string{"blotter.yaml": "format: 1\n"})
	mustGit(t, filepath.Join(root, "mine"), "add", ".")
	mustGit(t, filepath.Join(root, "mine"), "commit", "-q", "-m", "first")
	mustGit(t, root, "init", "-q", "--bare", "-b", "main", "lk7.git")
	mustGit(t, filepath.Join(root, "lk7.git"), "config", "http.receivepack", "true")
	r, err := Open(filepath.Join(root, "mine"), environ)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	return r, root
}

// thereAndBack sends a copy's branch to an address, makes another copy from
// there, and asks where the branch is.
func thereAndBack(t *testing.T, r *Repo, address string, environ []string) {
	t.Helper()
	ctx := context.Background()
	head, err := r.Head(ctx)
	if err != nil {
		t.Fatal(err)
	}
	o := Other{Name: "far", Address: address}
	if err := r.Receive(ctx, o, false); err != nil {
		t.Fatalf("receive from an empty one: %v", err)
	}
	mustGit(t, r.top, "tag", "-a", "2026.1", "-m", "the first release")
	if err := r.Send(ctx, o, "main", head, []string{"2026.1"}, false); err != nil {
		t.Fatalf("send: %v", err)
	}
	if tip, err := r.AskTip(ctx, o, "main", false); err != nil || tip != head {
		t.Errorf("asked: %s %v, want %s", tip, err, head)
	}
	other, err := Copy(ctx, address, filepath.Join(t.TempDir(), "other"), environ, false)
	if err != nil {
		t.Fatalf("copy: %v", err)
	}
	defer other.Close()
	if now, err := other.Head(ctx); err != nil || now != head {
		t.Errorf("copied: %s %v, want %s", now, err, head)
	}
	if err := other.Receive(ctx, Other{"origin", address, true}, false); err != nil {
		t.Error(err)
	}
	if had, err := other.ReleasesOf(ctx, Other{Name: "origin"}); err != nil || had["2026.1"].Commit != head {
		t.Errorf("releases: %v %v", had, err)
	}
}

// reaches holds the cause that is found in what git says of an address.
func reaches(t *testing.T, r *Repo, what, address string, want Reach) {
	t.Helper()
	var reach *ReachError
	err := r.Receive(context.Background(), Other{Name: "none", Address: address}, false)
	if !errors.As(err, &reach) || reach.Kind != want {
		t.Errorf("%s: %v, want the cause %d", what, err, want)
	}
}

// TestHTTPS shares through git's own server end behind a real TLS server, and
// holds what is found when that says no.
func TestHTTPS(t *testing.T) {
	needGit(t)
	git, err := exec.LookPath("git")
	if err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(git, "--exec-path").Output(); err != nil {
		t.Fatal(err)
	} else if _, err := os.Stat(filepath.Join(strings.TrimSpace(string(out)), "git-http-backend")); err != nil {
		t.Skip("this git has no server end for https")
	}
	certificate := filepath.Join(t.TempDir(), "museum.pem")
	trusting := append(testEnviron(t), "GIT_SSL_CAINFO="+certificate)
	r, root := newSharer(t, trusting)
	backend := &cgi.Handler{Path: git, Args: []string{"http-backend"}, Env: []string{"GIT_PROJECT_ROOT=" + root, "GIT_HTTP_EXPORT_ALL=1"}, Stderr: io.Discard}
	var answer atomic.Int64 // instead of the server end's own
	server := httptest.NewTLSServer(http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		name, password, _ := req.BasicAuth()
		switch {
		case answer.Load() != 0:
			w.WriteHeader(int(answer.Load()))
		case name != "ove" || password != "secret":
			w.Header().Set("WWW-Authenticate", `Basic realm="ledger"`)
			w.WriteHeader(http.StatusUnauthorized)
		default:
			backend.ServeHTTP(w, req)
		}
	}))
	defer server.Close()
	if err := os.WriteFile(certificate, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: server.Certificate().Raw}), 0o600); err != nil {
		t.Fatal(err)
	}
	at := func(who, path string) string {
		return strings.Replace(server.URL, "https://", "https://"+who, 1) + path
	}
	thereAndBack(t, r, at("ove:secret@", "/lk7.git"), trusting)
	reaches(t, r, "nobody's name", at("", "/lk7.git"), NoRight)
	reaches(t, r, "a wrong password", at("ove:guess@", "/lk7.git"), NoRight)
	reaches(t, r, "nothing there", at("ove:secret@", "/lk8.git"), NoSuch)
	for _, x := range []struct {
		says int
		want Reach
	}{{http.StatusForbidden, NoRight}, {http.StatusNotFound, NoSuch}, {http.StatusInternalServerError, Ailing}, {http.StatusServiceUnavailable, Ailing}} {
		answer.Store(int64(x.says))
		reaches(t, r, http.StatusText(x.says), at("ove:secret@", "/lk7.git"), x.want)
	}
	answer.Store(0)
	doubting, err := Open(r.top, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	defer doubting.Close()
	reaches(t, doubting, "a certificate that nobody vouches for", at("ove:secret@", "/lk7.git"), NotProved)
	closed := at("ove:secret@", "/lk7.git")
	server.Close()
	reaches(t, r, "nobody listens", closed, NoNetwork)
	reaches(t, r, "no such machine", "https://museum.invalid/lk7.git", NoNetwork)
}
