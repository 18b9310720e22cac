package gitrepo

import (
	"os"
	"path/filepath"
	"strings"
)

// ignoreRule is one line of a .gitignore or exclude file (gitignore(5)).
type ignoreRule struct {
	base     string // folder of the file it stands in: "" or "a/b/", from the top
	pattern  string
	negate   bool
	dirOnly  bool
	anchored bool // matched against the path below base, not the bare name
	literal  int  // bytes of the pattern before its first wildcard
}

// ignore knows what git ignores. Rules later in the list win.
type ignore struct {
	top    string
	prefix string // of the ledger below top: "" or "a/b/"
	rules  []ignoreRule
}

// newIgnore gathers the rules that hold for the whole work tree and those of
// the folders above the ledger.
func newIgnore(s workSource) (*ignore, error) {
	ig := &ignore{top: s.top}
	if s.repo != nil {
		ig.prefix = s.repo.prefix
		set, err := s.repo.settings()
		if err != nil {
			return nil, err
		}
		ig.read("", set.excludesFile(s.repo.environ))
		ig.read("", filepath.Join(s.repo.common, "info", "exclude"))
		for i := range ig.prefix {
			if i == 0 || ig.prefix[i-1] == '/' {
				ig.read(ig.prefix[:i], filepath.Join(ig.top, filepath.FromSlash(ig.prefix[:i]), ".gitignore"))
			}
		}
	}
	return ig, nil
}

// enter adds the rules of the .gitignore in a folder of the ledger.
func (ig *ignore) enter(rel string) {
	base := ig.prefix
	if rel != "" {
		base += rel + "/"
	}
	ig.read(base, filepath.Join(ig.top, filepath.FromSlash(base), ".gitignore"))
}

// read adds the rules of one file. Like git it follows no symbolic link in
// the work tree and takes a missing file for an empty one.
func (ig *ignore) read(base, file string) {
	if st, err := os.Lstat(file); file == "" || err != nil || (st.Mode()&os.ModeSymlink != 0 && filepath.Base(file) == ".gitignore") {
		return
	}
	b, err := os.ReadFile(file)
	if err != nil {
		return
	}
	for line := range strings.SplitSeq(strings.TrimPrefix(string(b), "\ufeff"), "\n") {
		if r, ok := parseIgnore(base, line); ok {
			ig.rules = append(ig.rules, r)
		}
	}
}

func parseIgnore(base, line string) (ignoreRule, bool) {
	line = strings.TrimSuffix(line, "\r")
	if strings.HasPrefix(line, "#") {
		return ignoreRule{}, false
	}
	for strings.HasSuffix(line, " ") && !strings.HasSuffix(line, `\ `) {
		line = line[:len(line)-1]
	}
	r := ignoreRule{base: base}
	if p, ok := strings.CutPrefix(line, "!"); ok {
		r.negate, line = true, p
	}
	if p, ok := strings.CutSuffix(line, "/"); ok {
		r.dirOnly, line = true, p
	}
	r.anchored = strings.Contains(line, "/")
	r.pattern = strings.TrimPrefix(line, "/")
	r.literal = strings.IndexAny(r.pattern, `*?[\`)
	if r.literal < 0 {
		r.literal = len(r.pattern)
	}
	return r, r.pattern != ""
}

// match reports whether git ignores the file or folder at rel, a path in the
// ledger none of whose folders is ignored.
func (ig *ignore) match(rel string, dir bool) bool {
	path := ig.prefix + rel
	name := path[strings.LastIndexByte(path, '/')+1:]
	for i := len(ig.rules) - 1; i >= 0; i-- {
		r := &ig.rules[i]
		below, ok := strings.CutPrefix(path, r.base)
		if !ok || (r.dirOnly && !dir) {
			continue
		}
		text := name
		if r.anchored {
			text = below
		}
		if r.fits(text) {
			return !r.negate
		}
	}
	return false
}

// fits compares the pattern's beginning letter by letter and has wildmatch
// judge what is left, as git does: so the ** of "d**/" begins a name for it.
func (r *ignoreRule) fits(text string) bool {
	if !r.anchored {
		return r.literal == len(r.pattern) && r.pattern == text || wildmatch(r.pattern, text)
	}
	rest, ok := strings.CutPrefix(text, r.pattern[:r.literal])
	return ok && wildmatch(r.pattern[r.literal:], rest)
}

// wildmatch is git's pattern language: ? and * within a name, ** across
// folders, [...] sets, \ before a character that stands for itself.
func wildmatch(p, s string) bool {
	start := true // at the beginning of a name
	for p != "" {
		if rest := strings.TrimLeft(p, "*"); len(p)-len(rest) >= 2 && start && (rest == "" || rest[0] == '/') {
			if rest == "" {
				return true
			}
			for t := s; ; {
				if wildmatch(rest[1:], t) {
					return true
				}
				i := strings.IndexByte(t, '/')
				if i < 0 {
					return false
				}
				t = t[i+1:]
			}
		}
		if p[0] == '*' {
			p = strings.TrimLeft(p, "*")
			for i := 0; ; i++ {
				if wildrest(p, s[i:]) {
					return true
				}
				if i == len(s) || s[i] == '/' {
					return false
				}
			}
		}
		if s == "" {
			return false
		}
		n, ok := wildchar(p, s[0])
		if !ok {
			return false
		}
		start = s[0] == '/'
		p, s = p[n:], s[1:]
	}
	return s == ""
}

// wildrest matches what follows a star, which is not the start of a name.
func wildrest(p, s string) bool {
	if strings.HasPrefix(p, "/") {
		return strings.HasPrefix(s, "/") && wildmatch(p[1:], s[1:])
	}
	return wildmatch(p, s)
}

// wildchar matches one character (byte) against the head of p and says how
// much of p that took.
func wildchar(p string, c byte) (int, bool) {
	switch p[0] {
	case '?':
		return 1, c != '/'
	case '\\':
		if len(p) == 1 {
			return 0, false
		}
		return 2, p[1] == c
	case '[':
		return wildset(p, c)
	}
	return 1, p[0] == c
}

// wildset matches c against the set that p begins with.
func wildset(p string, c byte) (int, bool) {
	i, negate, hit := 1, false, false
	if i < len(p) && (p[i] == '!' || p[i] == '^') {
		negate, i = true, i+1
	}
	for first := true; ; first = false {
		if i >= len(p) {
			return 0, false
		}
		if p[i] == ']' && !first {
			break
		}
		if name, rest, ok := strings.Cut(p[i:], ":]"); ok && strings.HasPrefix(name, "[:") {
			hit = hit || inClass(name[2:], c)
			i = len(p) - len(rest)
			continue
		}
		lo, n := setChar(p[i:])
		i += n
		hi := lo
		if i+1 < len(p) && p[i] == '-' && p[i+1] != ']' {
			hi, n = setChar(p[i+1:])
			i += 1 + n
		}
		hit = hit || lo <= c && c <= hi
	}
	return i + 1, hit != negate && c != '/'
}

func setChar(p string) (byte, int) {
	if p[0] == '\\' && len(p) > 1 {
		return p[1], 2
	}
	return p[0], 1
}

// inClass is membership in a POSIX class such as [:digit:].
func inClass(name string, c byte) bool {
	lower, upper, digit := 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9'
	switch name {
	case "alpha":
		return lower || upper
	case "alnum":
		return lower || upper || digit
	case "digit":
		return digit
	case "lower":
		return lower
	case "upper":
		return upper
	case "xdigit":
		return digit || 'a' <= c && c <= 'f' || 'A' <= c && c <= 'F'
	case "space":
		return strings.IndexByte(" \t\n\v\f\r", c) >= 0
	case "blank":
		return c == ' ' || c == '\t'
	case "punct":
		return 33 <= c && c <= 126 && !lower && !upper && !digit
	}
	return false
}
