package gitrepo

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger/history"
)

// Release is one tag.
type Release struct {
	Name   string         // of the tag
	ID     string         // what the name leads to: a tag object, or a commit
	Commit string         // the revision it stands for; "" when it leads to none
	Called string         // the name that the tag object bears itself; "" for a plain tag
	By     history.Person // who made the tag object
	Words  string         // what was said of it, on one line
	Signed bool
	// Archives are the files that went out with it, in the order of its lines.
	Archives []Archive
}

// Archive is a file that went out with a release, as the release names it.
type Archive struct {
	Name string // without its folder
	Sum  string // SHA-256, 64 hexadecimal digits in lower case
	Size int64  // in bytes
}

// archiveLine is one line of a release's words: "Archive: sha256 SUM SIZE NAME".
var archiveLine = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^Archive: sha256 ([0-9a-f]{64}) (0|[1-9][0-9]{0,18}) (.+)$`)
})

func (a Archive) line() string { return fmt.Sprintf("Archive: sha256 %s %d %s", a.Sum, a.Size, a.Name) }

// readArchives reads the lines of a release's text that name files.
func readArchives(text string) (all []Archive) {
	for line := range strings.Lines(text) {
		m := archiveLine().FindStringSubmatch(strings.TrimSuffix(line, "\n"))
		if m == nil {
			continue
		}
		if size, err := strconv.ParseInt(m[2], 10, 64); err == nil {
			all = append(all, Archive{m[3], m[1], size})
		}
	}
	return all
}

// Releases are the tags, in order of name. A tag whose object cannot be read
// has no Commit.
func (r *Repo) Releases(ctx context.Context) ([]Release, error) {
	refs, err := r.BundleRefs(ctx)
	if errors.Is(err, ErrNoCommits) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("list releases: %w", err)
	}
	var out []Release
	for _, ref := range refs {
		if name, ok := strings.CutPrefix(ref.Name, "refs/tags/"); ok {
			t, err := r.Release(ctx, name, ref.ID)
			if err != nil {
				return nil, err
			}
			out = append(out, t)
		}
	}
	return out, nil
}

// Release reads what a tag of that name leads to.
func (r *Repo) Release(ctx context.Context, name, id string) (Release, error) {
	t := Release{Name: name, ID: id}
	for depth := range 8 {
		kind, body, err := r.pool.read(ctx, id, 0)
		if err := ctx.Err(); err != nil {
			return t, err
		}
		if err != nil || kind != "tag" {
			if err == nil && kind == "commit" {
				t.Commit = id
			}
			return t, nil
		}
		if depth == 0 {
			t.Called = headerValue(body, "tag")
			t.By = parsePerson(headerValue(body, "tagger"))
			text, signed := withoutSignature(body)
			t.Signed = signed || headerValue(body, "gpgsig") != "" || headerValue(body, "gpgsig-sha256") != ""
			words, rest, _ := strings.Cut(strings.TrimLeft(text, "\n"), "\n")
			t.Words, t.Archives = strings.TrimSpace(words), readArchives(rest)
		}
		id = headerValue(body, "object")
	}
	return t, nil
}

// withoutSignature is the text of a tag object before the signature that ends
// it, and whether there is one: as for git, from the last line on that begins
// one (its parse_signed_buffer).
func withoutSignature(body []byte) (text string, signed bool) {
	_, message, _ := bytes.Cut(body, []byte("\n\n"))
	at, begin := 0, len(message)
	for line := range bytes.Lines(message) {
		if slices.ContainsFunc(signatureBegins, func(b string) bool { return bytes.HasPrefix(line, []byte(b)) }) {
			begin, signed = at, true
		}
		at += len(line)
	}
	return string(message[:begin]), signed
}

var signatureBegins = []string{"-----BEGIN PGP SIGNATURE-----", "-----BEGIN PGP MESSAGE-----", "-----BEGIN SSH SIGNATURE-----", "-----BEGIN SIGNED MESSAGE-----"}
