package gitrepo

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/go-git/go-git/v5/plumbing"

	"blotter/ledger/history"
)

// ReleaseRequest is a release that is to be made.
type ReleaseRequest struct {
	Name     string // fit for a tag, and not yet given
	Commit   string
	Words    string // one line
	Archives []Archive
	By       history.Person // with the moment
	Sign     bool           // with the key that git is set up to sign with
}

// ErrUnsigned is returned by MakeRelease where a signature is wanted and could
// not be made; the git program's own words come with it, where there is one.
var ErrUnsigned = errors.New("it could not be signed")

// SignsReleases reports whether the settings ask for a signature on releases.
func (r *Repo) SignsReleases() (bool, error) {
	for _, key := range []string{"tag.gpgsign", "tag.forcesignannotated"} {
		v, err := r.Setting(key)
		if err != nil {
			return false, err
		}
		switch strings.ToLower(v) {
		case "true", "yes", "on", "1":
			return true, nil
		}
	}
	return false, nil
}

// MakeRelease makes an annotated tag and returns it. The name leads to it last
// and in one step: until then nothing has changed. The caller holds the lock
// of the ledger.
func (r *Repo) MakeRelease(ctx context.Context, q ReleaseRequest) (Release, error) {
	q.By.Name, q.By.Email = cleanIdentity(q.By.Name), cleanIdentity(q.By.Email)
	if q.By.Name == "" || q.By.When.IsZero() {
		return Release{}, fmt.Errorf("release %s: %w", q.Name, ErrNobody)
	}
	defer r.pool.drop()
	var err error
	switch {
	case r.git != "":
		err = r.tagProgram(ctx, q)
	case q.Sign:
		err = fmt.Errorf("%w: %w", ErrUnsigned, ErrNoProgram)
	default:
		err = r.tagNative(q)
	}
	t, found, e := r.madeRelease(context.WithoutCancel(ctx), q)
	switch {
	case found && t.Signed == q.Sign:
		return t, nil // whatever failed after that, as on a full disk
	case found && err == nil:
		err = r.takeUnsignedBack(context.WithoutCancel(ctx), t)
	case err == nil:
		err = fmt.Errorf("what was made is not found (%v)", e)
	}
	return Release{}, fmt.Errorf("release %s: %w", q.Name, err)
}

// madeRelease finds the release that was asked for.
func (r *Repo) madeRelease(ctx context.Context, q ReleaseRequest) (t Release, found bool, err error) {
	r.pool.drop()
	all, err := r.Releases(ctx)
	for _, t := range all {
		if t.Name == q.Name && t.Called == q.Name && t.Commit == q.Commit && t.Words == q.Words && slices.Equal(t.Archives, q.Archives) {
			return t, true, nil
		}
	}
	return t, false, err
}

// takeUnsignedBack takes a release away that git made without the signature
// that it was to bear, and said nothing: git 2.39 does so where the file of an
// ssh key is not there (tried).
func (r *Repo) takeUnsignedBack(ctx context.Context, t Release) error {
	_, err := r.run(ctx, nil, "update-ref", "-d", "refs/tags/"+t.Name, t.ID)
	if err != nil {
		return fmt.Errorf("%w, and stands without a signature: %w", ErrUnsigned, err)
	}
	return fmt.Errorf("%w: the git program left the signature out; it may not find the key", ErrUnsigned)
}

// text is what the release says.
func (q ReleaseRequest) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", q.Words)
	for i, a := range q.Archives {
		if i == 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "%s\n", a.line())
	}
	return b.String()
}

// tagProgram makes the tag by git tag, which alone signs.
func (r *Repo) tagProgram(ctx context.Context, q ReleaseRequest) error {
	how := "--annotate"
	if q.Sign {
		how = "--sign"
	}
	// In a file, not in a pipe: when this process is killed before it has
	// written, git would take what it got for the whole.
	words, err := os.CreateTemp("", "blotter-release-*")
	if err != nil {
		return err
	}
	defer os.Remove(words.Name())
	_, err = words.WriteString(q.text())
	if err = cmp.Or(err, words.Close()); err != nil {
		return err
	}
	note := r.announceWork(nil)
	who := CommitRequest{Author: q.By, Committer: q.By}
	cmd := r.command(ctx, identityEnv(who), "-c", "tag.gpgSign=false", "-c", "i18n.commitEncoding=UTF-8",
		"tag", how, "--cleanup=verbatim", "--file="+words.Name(), "--end-of-options", q.Name, q.Commit)
	var text bytes.Buffer
	cmd.Stdout, cmd.Stderr = &text, &text
	err = r.runNoted(ctx, note, "tag", cmd, &text)
	r.endWork(ctx, note, err)
	if err != nil && q.Sign && ctx.Err() == nil {
		return fmt.Errorf("%w: %w", ErrUnsigned, err)
	}
	return err
}

// tagNative makes the tag without the git program.
func (r *Repo) tagNative(q ReleaseRequest) error {
	store := r.storage()
	defer store.ObjectStorage.Close()
	body := fmt.Sprintf("object %s\ntype commit\ntag %s\ntagger %s\n\n%s", q.Commit, q.Name, personLine(q.By), q.text())
	raw, err := writeObject(store, plumbing.TagObject, []byte(body))
	if err != nil {
		return err
	}
	name := plumbing.NewTagReferenceName(q.Name)
	if _, err := store.Reference(name); err == nil {
		return fmt.Errorf("%w: %s", ErrMoved, name)
	}
	return writeRef(r.common, name.String(), entry{id: raw}.hex())
}
