package gitrepo

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Bundle is a file in git's bundle format (gitformat-bundle(5), version 2 or
// 3): a whole history in one file. It is read, never changed. One goroutine at
// a time uses it.
type Bundle struct {
	Refs []BundleRef // as the file lists them

	in     io.ReaderAt
	end    int64 // of the file
	start  int64 // of the pack in it
	width  int   // bytes of an object id
	rows   []bundleRow
	places map[anyID]int32 // in rows; filled by Verify
	again  inflater        // of single objects
	trees  *bodies         // read lately, by raw id
	stray  string          // the first name in a tree that would write elsewhere
}

// BundleRef is a name and the object that it leads to, tags not followed.
type BundleRef struct{ Name, ID string }

var (
	// ErrNotBundle is about a file that is no git bundle.
	ErrNotBundle = errors.New("not a git bundle")
	// ErrPartOfHistory is about a bundle that lacks objects which its own
	// objects lead to, as an incremental one does.
	ErrPartOfHistory = errors.New("it holds only part of a history")
	// ErrDamaged is about a bundle that does not read as it was written.
	ErrDamaged = errors.New("it is damaged")
	// ErrNoLedger is about a bundle whose last revision holds no ledger.
	ErrNoLedger = errors.New("it holds no ledger")
	// ErrStray is about a bundle that would write outside its folder.
	ErrStray = errors.New("a file in it would be written elsewhere")
)

// maxObject is the largest object that is read out of a bundle, in bytes.
const maxObject = 1<<31 - 1

// anyID is a raw id of either width, filled up with zeros.
type anyID [32]byte

func idFrom(raw []byte) (id anyID) {
	copy(id[:], raw)
	return id
}

// OpenBundle reads the head of a bundle of size bytes. The error is
// ErrNotBundle, or ErrPartOfHistory for one that asks for what others have.
func OpenBundle(in io.ReaderAt, size int64) (*Bundle, error) {
	b := &Bundle{in: in, end: size, width: 20, trees: newBodies()}
	lines := bufio.NewReaderSize(io.NewSectionReader(in, 0, size), 1<<16)
	for n := 0; ; n++ {
		line, err := lines.ReadSlice('\n')
		if err != nil {
			if n > 0 && errors.Is(err, io.EOF) {
				return nil, fmt.Errorf("read bundle: %w: it ends within its head", ErrDamaged)
			}
			return nil, fmt.Errorf("read bundle: %w", ErrNotBundle)
		}
		b.start += int64(len(line))
		text := string(bytes.TrimSuffix(line, []byte("\n")))
		if n == 0 {
			if text != "# v2 git bundle" && text != "# v3 git bundle" {
				return nil, fmt.Errorf("read bundle: %w", ErrNotBundle)
			}
			continue
		}
		if text == "" {
			break
		}
		if err := b.headLine(text); err != nil {
			return nil, fmt.Errorf("read bundle: %w", err)
		}
	}
	if len(b.Refs) == 0 {
		return nil, fmt.Errorf("read bundle: %w: it names no branch", ErrDamaged)
	}
	return b, nil
}

// headLine takes one line of the head after the first.
func (b *Bundle) headLine(text string) error {
	switch {
	case text == "@object-format=sha256":
		b.width = 32
	case text == "@object-format=sha1":
	case strings.HasPrefix(text, "@filter="):
		return fmt.Errorf("%w: objects were left out on purpose (%s)", ErrPartOfHistory, text)
	case strings.HasPrefix(text, "@"):
		return fmt.Errorf("%w: it asks for %s, which is not known", ErrNotBundle, text)
	case strings.HasPrefix(text, "-"):
		id, _, _ := strings.Cut(text[1:], " ")
		return fmt.Errorf("%w: it begins after revision %.10s, which is not in it", ErrPartOfHistory, id)
	default:
		id, name, ok := strings.Cut(text, " ")
		if !ok || len(id) != 2*b.width || !fullID().MatchString(id) || !cleanRef(name) {
			return fmt.Errorf("%w: %q in its head is no branch", ErrDamaged, text)
		}
		b.Refs = append(b.Refs, BundleRef{name, id})
	}
	return nil
}

// cleanRef reports whether a name may be written as a ref: HEAD, or below
// refs/ with nothing that leads elsewhere (git-check-ref-format(1)).
func cleanRef(name string) bool {
	if name == "HEAD" {
		return true
	}
	if !strings.HasPrefix(name, "refs/") || strings.Contains(name, "..") || strings.Contains(name, "@{") || strings.HasSuffix(name, ".") {
		return false
	}
	for part := range strings.SplitSeq(name, "/") {
		if part == "" || strings.HasPrefix(part, ".") || strings.HasSuffix(part, ".lock") {
			return false
		}
	}
	return !strings.ContainsFunc(name, func(r rune) bool { return r <= ' ' || r == 0x7f || strings.ContainsRune(`~^:?*[\`, r) })
}

// Head is the object that HEAD leads to, "" when the bundle does not say.
func (b *Bundle) Head() string {
	for _, r := range b.Refs {
		if r.Name == "HEAD" {
			return r.ID
		}
	}
	return ""
}

// Branch is the branch that HEAD is on: one that leads to the same commit,
// main before others; "" for none. Without HEAD it is the only branch.
func (b *Bundle) Branch() string {
	head, best := b.Head(), ""
	for _, r := range b.Refs {
		name, ok := strings.CutPrefix(r.Name, "refs/heads/")
		if ok && (head == "" || r.ID == head) && (best == "" || name == "main" || name == "master" && best != "main") {
			best = name
		}
	}
	return best
}

// backupRefs are the places whose refs go into a bundle. What was fetched from
// elsewhere, and what git put aside, does not.
var backupRefs = []string{"refs/heads/", "refs/notes/", "refs/tags/"}

// BundleRefs are the refs that WriteBundle puts into a bundle: HEAD, then
// branches, notes and tags in order of name. The error is ErrNoCommits before
// the first commit.
func (r *Repo) BundleRefs(ctx context.Context) ([]BundleRef, error) {
	head, err := r.Head(ctx)
	if err != nil {
		return nil, err
	}
	var refs []BundleRef
	if r.git != "" {
		out, err := r.run(ctx, nil, append([]string{"for-each-ref", "--format=%(objectname) %(refname)"}, backupRefs...)...)
		if err != nil {
			return nil, fmt.Errorf("list refs: %w", err)
		}
		for line := range strings.Lines(string(out)) {
			if id, name, ok := strings.Cut(strings.TrimSuffix(line, "\n"), " "); ok {
				refs = append(refs, BundleRef{name, id})
			}
		}
	} else if refs, err = r.bundleRefsNative(); err != nil {
		return nil, err
	}
	slices.SortFunc(refs, func(a, b BundleRef) int { return strings.Compare(a.Name, b.Name) })
	return append([]BundleRef{{"HEAD", head}}, refs...), nil
}

// WriteBundle writes everything that BundleRefs lead to into a bundle. Without
// the git program the same objects always give the same bytes; with it they do
// while the repository is packed alike.
func (r *Repo) WriteBundle(ctx context.Context, w io.Writer) error {
	if r.git == "" {
		return r.writeBundleNative(ctx, w)
	}
	args := []string{"-c", "pack.threads=1", "bundle", "create", "-", "HEAD", "--branches", "--tags", "--glob=refs/notes/*"}
	return r.bundleTo(ctx, w, args)
}

// bundleTo runs git bundle into w. When w takes no more, as on a stick that is
// full, its error is the cause and not that git then died.
func (r *Repo) bundleTo(ctx context.Context, w io.Writer, args []string) error {
	cmd := r.command(ctx, nil, args...)
	var text bytes.Buffer
	to := &firstError{w: w}
	cmd.Stdout, cmd.Stderr = to, &text
	err := cmd.Run()
	if to.err != nil && ctx.Err() == nil {
		return to.err
	}
	return failed(ctx, "bundle", text.String(), err)
}

// firstError keeps the first error of a writer.
type firstError struct {
	w   io.Writer
	err error
}

func (f *firstError) Write(p []byte) (int, error) {
	n, err := f.w.Write(p)
	if f.err == nil {
		f.err = err
	}
	return n, err
}

// Tip is the commit that a bundle's ledger is at: HEAD, or without one the end
// of Branch; "" for neither.
func (b *Bundle) Tip() string {
	if head := b.Head(); head != "" {
		return head
	}
	branch := b.Branch()
	for _, r := range b.Refs {
		if branch != "" && r.Name == "refs/heads/"+branch {
			return r.ID
		}
	}
	return ""
}
