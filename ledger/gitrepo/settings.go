package gitrepo

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"blotter/ledger/history"
)

// settings are git's settings as they hold for this repository and person,
// in git's order: a later one wins.
type settings []setting

// setting has its section and key in lower case, a subsection as written.
type setting struct{ key, value string }

func (s settings) get(key string) string {
	for i := len(s) - 1; i >= 0; i-- {
		if s[i].key == key {
			return s[i].value
		}
	}
	return ""
}

// Setting is the value of a git setting, "" when it is not set. The section
// and the last part of key are in lower case: "blotter.block", "user.name".
func (r *Repo) Setting(key string) (string, error) {
	s, err := r.settings()
	if err != nil {
		return "", err
	}
	return s.get(key), nil
}

// readSettings asks the git program, or reads the files without it.
func (r *Repo) readSettings() (settings, error) {
	if r.git == "" {
		return r.readSettingFiles()
	}
	out, err := r.run(context.Background(), nil, "config", "--list", "-z")
	if err != nil {
		return nil, fmt.Errorf("read git's settings: %w", err)
	}
	var s settings
	for item := range strings.SplitSeq(strings.TrimSuffix(string(out), "\x00"), "\x00") {
		key, value, given := strings.Cut(item, "\n")
		if !given {
			value = "true" // a key alone
		}
		s = append(s, setting{key, value})
	}
	return s, nil
}

// excludesFile is the person's own ignore file.
func (s settings) excludesFile(environ []string) string {
	home := homeOf(environ)
	if f := s.get("core.excludesfile"); f != "" {
		if rest, ok := strings.CutPrefix(f, "~/"); ok {
			return filepath.Join(home, rest)
		}
		return f
	}
	if xdg := getenv(environ, "XDG_CONFIG_HOME"); xdg != "" {
		return filepath.Join(xdg, "git", "ignore")
	}
	if home == "" {
		return ""
	}
	return filepath.Join(home, ".config", "git", "ignore")
}

func homeOf(environ []string) string {
	if h := getenv(environ, "HOME"); h != "" {
		return h
	}
	return getenv(environ, "USERPROFILE")
}

// ErrNobody is returned by Identity when git does not know who is entering.
var ErrNobody = errors.New("git does not know your name and address (user.name and user.email are not set)")

// Identity is who git takes the author and the committer to be, at the
// moment now, from GIT_AUTHOR_* and GIT_COMMITTER_* of the environment, then
// the settings. The error is ErrNobody when either has no name or address.
func (r *Repo) Identity(now time.Time) (author, committer history.Person, err error) {
	s, err := r.settings()
	if err != nil {
		return author, committer, err
	}
	author = r.identityOf(s, "AUTHOR", now)
	committer = r.identityOf(s, "COMMITTER", now)
	if slices.Contains([]string{author.Name, author.Email, committer.Name, committer.Email}, "") {
		return author, committer, ErrNobody
	}
	return author, committer, nil
}

func (r *Repo) identityOf(s settings, role string, now time.Time) history.Person {
	first := func(values ...string) string {
		for _, v := range values {
			if v != "" {
				return v
			}
		}
		return ""
	}
	lower := strings.ToLower(role)
	p := history.Person{
		Name:  first(getenv(r.environ, "GIT_"+role+"_NAME"), s.get(lower+".name"), s.get("user.name")),
		Email: first(getenv(r.environ, "GIT_"+role+"_EMAIL"), s.get(lower+".email"), s.get("user.email"), getenv(r.environ, "EMAIL")),
		When:  now,
	}
	if t, ok := parseDate(getenv(r.environ, "GIT_"+role+"_DATE")); ok {
		p.When = t
	}
	return p
}

// parseDate reads a moment as GIT_AUTHOR_DATE may hold it: "@SECONDS ZONE",
// "SECONDS ZONE", ISO 8601 and RFC 2822 forms with a zone. Git reads more.
func parseDate(s string) (time.Time, bool) {
	seconds, zone, _ := strings.Cut(strings.TrimPrefix(s, "@"), " ")
	if n, err := strconv.ParseInt(seconds, 10, 64); err == nil {
		return time.Unix(n, 0).In(zoneOf(zone)), true
	}
	for _, layout := range []string{time.RFC3339, "2006-01-02T15:04:05-0700", "2006-01-02 15:04:05 -0700", "2006-01-02T15:04:05 -0700", time.RFC1123Z, "Mon, 2 Jan 2006 15:04:05 -0700", "Mon Jan 2 15:04:05 2006 -0700"} {
		if t, err := time.Parse(layout, s); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}

// readSettingFiles reads the settings files in git's order: of the machine,
// of the person, of the repository.
func (r *Repo) readSettingFiles() (settings, error) {
	files := []string{}
	if v := getenv(r.environ, "GIT_CONFIG_NOSYSTEM"); v == "" || v == "0" || v == "false" {
		files = append(files, firstSet(getenv(r.environ, "GIT_CONFIG_SYSTEM"), "/etc/gitconfig"))
	}
	home := homeOf(r.environ)
	if g := getenv(r.environ, "GIT_CONFIG_GLOBAL"); g != "" {
		files = append(files, g)
	} else if home != "" {
		xdg := firstSet(getenv(r.environ, "XDG_CONFIG_HOME"), filepath.Join(home, ".config"))
		files = append(files, filepath.Join(xdg, "git", "config"), filepath.Join(home, ".gitconfig"))
	}
	files = append(files, filepath.Join(r.common, "config"))
	var s settings
	for _, f := range files {
		if err := r.readSettingFile(f, 0, &s); err != nil {
			return nil, err
		}
	}
	return append(s, settingsAround(r.environ)...), nil
}

// settingsAround are those that the environment passes: GIT_CONFIG_COUNT of
// them, GIT_CONFIG_KEY_0 with GIT_CONFIG_VALUE_0 and so on (git-config(1),
// "Environment").
func settingsAround(environ []string) (s settings) {
	n, _ := strconv.Atoi(getenv(environ, "GIT_CONFIG_COUNT"))
	for i := range n {
		key := getenv(environ, fmt.Sprintf("GIT_CONFIG_KEY_%d", i))
		section, rest, ok := strings.Cut(key, ".")
		if !ok {
			continue
		}
		sub := ""
		if at := strings.LastIndexByte(rest, '.'); at >= 0 {
			sub, rest = rest[:at+1], rest[at+1:]
		}
		s = append(s, setting{strings.ToLower(section) + "." + sub + strings.ToLower(rest), getenv(environ, fmt.Sprintf("GIT_CONFIG_VALUE_%d", i))})
	}
	return s
}

func firstSet(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// readSettingFile appends one file's settings to s, included files in their
// place. A missing file is an empty one.
func (r *Repo) readSettingFile(file string, depth int, s *settings) error {
	if depth > 10 {
		return fmt.Errorf("read %s: settings files include each other", file)
	}
	b, err := os.ReadFile(file)
	if errors.Is(err, os.ErrNotExist) || errors.Is(err, os.ErrPermission) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("read git's settings: %w", err)
	}
	return parseSettings(b, func(key, value string) error {
		*s = append(*s, setting{key, value})
		if path, ok := r.included(file, key, value); ok {
			return r.readSettingFile(path, depth+1, s)
		}
		return nil
	})
}

// included is the file that a setting includes, if it is include.path, or
// includeIf.gitdir:PATTERN.path with a pattern that matches this repository.
func (r *Repo) included(file, key, value string) (string, bool) {
	if key != "include.path" {
		cond, ok := strings.CutPrefix(key, "includeif.gitdir:")
		pattern, ok2 := strings.CutSuffix(cond, ".path")
		if !ok || !ok2 || !r.matchesGitDir(pattern, file) {
			return "", false
		}
	}
	return r.expand(value, file), true
}

// expand resolves a path in a settings file: ~/ is the home, a relative path
// starts at the file.
func (r *Repo) expand(path, file string) string {
	if rest, ok := strings.CutPrefix(path, "~/"); ok {
		return filepath.Join(homeOf(r.environ), rest)
	}
	if filepath.IsAbs(path) {
		return path
	}
	return filepath.Join(filepath.Dir(file), path)
}

// matchesGitDir is git's rule for includeIf "gitdir:PATTERN".
func (r *Repo) matchesGitDir(pattern, file string) bool {
	slash := strings.HasSuffix(pattern, "/")
	switch {
	case strings.HasPrefix(pattern, "~/"), strings.HasPrefix(pattern, "./"):
		pattern = filepath.ToSlash(r.expand(pattern, file))
	case !filepath.IsAbs(pattern):
		pattern = "**/" + pattern
	}
	if slash {
		pattern = strings.TrimSuffix(pattern, "/") + "/**"
	}
	return wildmatch(strings.TrimPrefix(pattern, "/"), strings.TrimPrefix(filepath.ToSlash(r.gitDir), "/"))
}
