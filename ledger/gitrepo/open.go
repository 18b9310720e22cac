package gitrepo

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"blotter/ledger/disk"
)

// ErrNoRepository is returned by Open when neither the folder nor any folder
// above it is a git repository.
var ErrNoRepository = errors.New("not in a git repository")

// Repo is the git repository that holds a ledger. It keeps object readers
// open between calls until Close; it may be used from several goroutines.
type Repo struct {
	place
	prefix  string   // the ledger below the top of the work tree: "" or "a/b/"
	environ []string // of the person, as given
	git     string   // path of the git program; "" when there is none
	index   string   // the index file that holds now, absolute
	refused error    // why go-git does not open this repository; nil when it does
	width   int      // bytes of an object id: 20 or 32

	names    *names
	pool     pool
	indexes  packIndexes
	settings func() (settings, error)
}

// Open opens the repository that holds the ledger in dir. environ is the
// person's environment ("KEY=value", see os.Environ): it says where the git
// program is (PATH), which index holds in a hook (GIT_INDEX_FILE) and whose
// settings count (HOME, GIT_CONFIG_*). An empty PATH means that there is no
// git program. The error is ErrNoRepository when dir is in no repository.
func Open(dir string, environ []string) (*Repo, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, fmt.Errorf("open %s: %w", dir, err)
	}
	if dir, err = filepath.EvalSymlinks(dir); err != nil {
		return nil, fmt.Errorf("open ledger: %w", err)
	}
	where, err := discover(dir)
	if err != nil {
		return nil, fmt.Errorf("open %s: %w", dir, err)
	}
	r := &Repo{place: where, environ: environ, git: findProgram(environ), width: 20, names: &names{}}
	r.settings = sync.OnceValues(r.readSettings)
	r.index = filepath.Join(r.gitDir, "index")
	if f := getenv(environ, "GIT_INDEX_FILE"); f != "" {
		r.index = f
		if !filepath.IsAbs(f) {
			r.index = filepath.Join(r.home(), f)
		}
	}
	if r.top != "" {
		rel, err := filepath.Rel(r.top, dir)
		if err != nil {
			return nil, fmt.Errorf("open %s: %w", dir, err)
		}
		if rel != "." {
			r.prefix = filepath.ToSlash(rel) + "/"
		}
	}
	if r.refused = r.tryNative(); r.refused != nil {
		if r.git == "" {
			return nil, fmt.Errorf("open %s: this repository needs the git program: %v", dir, r.refused)
		}
		if err := r.askWidth(); err != nil {
			return nil, fmt.Errorf("open %s: %w", dir, err)
		}
	}
	r.pool.open = r.openObjects
	return r, nil
}

// Close lets go of everything that the repository holds open. The Repo may
// be used again afterwards.
func (r *Repo) Close() { r.pool.drop() }

// In is the same repository with the ledger in folder, relative to its top
// ("" for the top itself): for a bare repository, where Open cannot see it.
func (r *Repo) In(folder string) *Repo {
	c := &Repo{place: r.place, environ: r.environ, git: r.git, index: r.index, refused: r.refused, width: r.width, names: r.names, settings: r.settings}
	if folder = strings.Trim(folder, "/"); folder != "" {
		c.prefix = folder + "/"
	}
	c.pool.open = c.openObjects
	return c
}

// HasProgram reports whether the git program is there.
func (r *Repo) HasProgram() bool { return r.git != "" }

// Bare reports whether the repository has no work tree.
func (r *Repo) Bare() bool { return r.top == "" }

// Root is the ledger's folder on disk; "" in a bare repository.
func (r *Repo) Root() string {
	if r.top == "" {
		return ""
	}
	return filepath.Join(r.top, filepath.FromSlash(r.prefix))
}

// Top is the top of the work tree; "" in a bare repository.
func (r *Repo) Top() string { return r.top }

// Prefix is where the ledger lies below the top: "" or a path that ends in a
// slash.
func (r *Repo) Prefix() string { return r.prefix }

// GitDir is this work tree's own git folder.
func (r *Repo) GitDir() string { return r.gitDir }

// CommonDir is the git folder that all linked work trees share.
func (r *Repo) CommonDir() string { return r.common }

// StateDir is where the program keeps its lock and its caches: blotter/ in
// the common git folder. It is made when first written to.
func (r *Repo) StateDir() string { return filepath.Join(r.common, "blotter") }

// Cache is the disposable cache of the ledger (see disk.Cache).
func (r *Repo) Cache() *disk.Cache {
	return disk.NewCache(filepath.Join(r.StateDir(), "cache.db"))
}

// home is the folder in which the git program is run.
func (r *Repo) home() string {
	if r.top != "" {
		return r.top
	}
	return r.gitDir
}

// place is where the parts of a repository are.
type place struct {
	top    string // top of the work tree; "" when bare
	gitDir string
	common string
}

// discover looks for a repository at dir and above, as git does.
func discover(dir string) (place, error) {
	for d := dir; ; d = filepath.Dir(d) {
		dot := filepath.Join(d, ".git")
		if st, err := os.Stat(dot); err == nil {
			p := place{top: d, gitDir: dot}
			if !st.IsDir() {
				if p.gitDir, err = followFile(dot, "gitdir: "); err != nil {
					return p, err
				}
			}
			if isGitDir(p.gitDir) || !st.IsDir() {
				return p.withCommon()
			}
		}
		if isGitDir(d) {
			return (place{gitDir: d}).withCommon()
		}
		if d == filepath.Dir(d) {
			return place{}, ErrNoRepository
		}
	}
}

func isGitDir(d string) bool {
	for _, name := range []string{"HEAD", "objects", "refs"} {
		if _, err := os.Lstat(filepath.Join(d, name)); err != nil {
			return false
		}
	}
	return true
}

// withCommon fills in the common git folder of a linked work tree.
func (p place) withCommon() (place, error) {
	p.common = p.gitDir
	c, err := followFile(filepath.Join(p.gitDir, "commondir"), "")
	if errors.Is(err, os.ErrNotExist) {
		return p, nil
	}
	if err != nil {
		return p, err
	}
	p.common = c
	return p, nil
}

// followFile reads a file that names a path, relative to its own folder.
func followFile(file, intro string) (string, error) {
	b, err := os.ReadFile(file)
	if err != nil {
		return "", err
	}
	s := strings.TrimRight(strings.TrimPrefix(string(b), intro), "\r\n")
	if !filepath.IsAbs(s) {
		s = filepath.Join(filepath.Dir(file), s)
	}
	return filepath.Clean(s), nil
}

// getenv is the last value of key in environ, "" when unset.
func getenv(environ []string, key string) string {
	for i := len(environ) - 1; i >= 0; i-- {
		if v, ok := strings.CutPrefix(environ[i], key+"="); ok {
			return v
		}
	}
	return ""
}
