package gitrepo

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"

	"blotter/ledger/history"
)

// Release is one tag.
type Release struct {
	Name   string         // of the tag
	ID     string         // what the name leads to: a tag object, or a commit
	Commit string         // the revision it stands for; "" when it leads to none
	Called string         // the name that the tag object bears itself; "" for a plain tag
	By     history.Person // who made the tag object
	Signed bool
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
			t.Signed = bytes.Contains(body, []byte("\n-----BEGIN PGP SIGNATURE-----")) || bytes.Contains(body, []byte("\n-----BEGIN SSH SIGNATURE-----")) || bytes.Contains(body, []byte("\n-----BEGIN SIGNED MESSAGE-----"))
			t.By = parsePerson(headerValue(body, "tagger"))
		}
		id = headerValue(body, "object")
	}
	return t, nil
}

// Signature is what the git program says of a signature.
type Signature int

const (
	SignatureGood       Signature = iota
	SignatureOld                  // good, by a key that has run out or was called back since
	SignatureUnknown              // the key is not known on this computer
	SignatureBad                  // it does not fit what is signed
	SignatureNotChecked           // nothing here can check it
)

// CheckSignature asks the git program about the signature of a tag object, and
// for whom it speaks.
func (r *Repo) CheckSignature(ctx context.Context, id string) (s Signature, who string, err error) {
	if r.git == "" {
		return SignatureNotChecked, "", nil
	}
	cmd := r.command(ctx, nil, "verify-tag", "--raw", id)
	text, err := cmd.CombinedOutput()
	if ctx.Err() != nil {
		return SignatureNotChecked, "", ctx.Err()
	}
	s, who = readSignature(string(text), err == nil)
	return s, who, nil
}

// readSignature reads what git verify-tag --raw prints: the status lines of
// OpenPGP programs (gpg's doc/DETAILS), or the words of ssh-keygen -Y.
func readSignature(text string, passed bool) (s Signature, who string) {
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(text, w) {
				return true
			}
		}
		return false
	}
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		for _, key := range []string{"GOODSIG", "EXPKEYSIG", "REVKEYSIG", "EXPSIG"} {
			if rest, ok := strings.CutPrefix(line, "[GNUPG:] "+key+" "); ok {
				_, who, _ = strings.Cut(rest, " ")
			}
		}
		if rest, ok := strings.CutPrefix(line, `Good "git" signature for `); ok {
			who, _, _ = strings.Cut(rest, " with ")
		}
	}
	switch {
	case has("[GNUPG:] BADSIG", "incorrect signature", "Signature verification failed"):
		return SignatureBad, who
	case has("[GNUPG:] EXPKEYSIG", "[GNUPG:] REVKEYSIG", "[GNUPG:] EXPSIG"):
		return SignatureOld, who
	case passed:
		return SignatureGood, who
	case has("NO_PUBKEY", "No principal matched", "allowedSignersFile", "NO_PRINCIPAL"):
		return SignatureUnknown, who
	case has("cannot run", "could not run", "No such file"):
		return SignatureNotChecked, who
	}
	return SignatureBad, who
}
