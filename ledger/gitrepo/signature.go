package gitrepo

import (
	"context"
	"strings"
)

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
