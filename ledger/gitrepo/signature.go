package gitrepo

import (
	"context"
	"os"
	"regexp"
	"strings"
	"sync"
)

// Signature is what can be said of a signature.
type Signature int

const (
	SignatureGood       Signature = iota
	SignatureOld                  // good, by a key that has run out or was called back
	SignatureUnknown              // the key is not known on this computer
	SignatureUntrusted            // good, by a key that is not trusted enough here (gpg.minTrustLevel, or never)
	SignatureBad                  // it does not fit what is signed, or is none
	SignatureNotChecked           // nothing here can check it
)

// Vouched is what the git program says of the signature of a release.
type Vouched struct {
	Signature Signature
	Who       string // for whom it speaks; "" when that is not known
	Key       string // the fingerprint of the key, of OpenPGP the primary one where it is known
}

// CheckSignature asks the git program about the signature of a tag object.
func (r *Repo) CheckSignature(ctx context.Context, id string) (Vouched, error) {
	if r.git == "" {
		return Vouched{Signature: SignatureNotChecked}, nil
	}
	s, err := r.settings()
	if err != nil {
		return Vouched{}, err
	}
	var with []string
	if s.get("gpg.ssh.allowedsignersfile") == "" {
		// Git looks at no ssh signature without such a list; with an empty one it
		// says at least whether it fits.
		with = []string{"-c", "gpg.ssh.allowedSignersFile=" + os.DevNull}
	}
	v, err := r.verifyTag(ctx, id, with)
	if err != nil || v.Signature != SignatureBad || s.get("gpg.ssh.revocationfile") == "" {
		return v, err
	}
	// Of a key that was called back ssh-keygen says no more than that it would not.
	again, err := r.verifyTag(ctx, id, append(with, "-c", "gpg.ssh.revocationFile="))
	if again.Signature == SignatureGood {
		again.Signature = SignatureOld
		v = again
	}
	return v, err
}

func (r *Repo) verifyTag(ctx context.Context, id string, with []string) (Vouched, error) {
	cmd := r.command(ctx, nil, append(with, "verify-tag", "--raw", id)...)
	text, err := cmd.CombinedOutput()
	if ctx.Err() != nil {
		return Vouched{Signature: SignatureNotChecked}, ctx.Err()
	}
	return readSignature(string(text), err == nil), nil
}

// fingerprint is how ssh-keygen names a key.
var fingerprint = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^Good "git" signature .*with [A-Z0-9-]+ key (SHA256:\S+)$`)
})

// readSignature reads what git verify-tag --raw prints: the status lines of
// OpenPGP programs (gpg's doc/DETAILS), or the words of ssh-keygen -Y.
func readSignature(text string, passed bool) (v Vouched) {
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(text, w) {
				return true
			}
		}
		return false
	}
	for line := range strings.Lines(text) {
		v.read(strings.TrimSpace(line))
	}
	switch {
	case has("[GNUPG:] BADSIG", "incorrect signature", "Couldn't verify signature: "):
		v.Signature = SignatureBad
	case has("[GNUPG:] EXPKEYSIG", "[GNUPG:] REVKEYSIG", "[GNUPG:] EXPSIG"), !passed && has(": key has expired: "):
		v.Signature = SignatureOld
	case passed && !has("[GNUPG:] TRUST_NEVER"):
		v.Signature = SignatureGood
	case has("[GNUPG:] GOODSIG"):
		v.Signature = SignatureUntrusted
	case has("NO_PUBKEY", "No principal matched", "allowedSignersFile", "NO_PRINCIPAL"):
		v.Signature = SignatureUnknown
	case has("cannot run", "could not run", "[GNUPG:] FAILURE"):
		v.Signature = SignatureNotChecked
	default:
		v.Signature = SignatureBad
	}
	return v
}

// read takes from one line who signed, and with which key.
func (v *Vouched) read(line string) {
	if words, ok := strings.CutPrefix(line, "[GNUPG:] "); ok {
		f := strings.Fields(words)
		switch {
		case len(f) < 2:
		case f[0] == "GOODSIG" || f[0] == "EXPKEYSIG" || f[0] == "REVKEYSIG" || f[0] == "EXPSIG" || f[0] == "BADSIG":
			_, v.Who, _ = strings.Cut(strings.TrimPrefix(words, f[0]+" "), " ")
		case f[0] == "VALIDSIG" || f[0] == "ERRSIG": // the last word is the primary key's, or the key's
			v.Key = f[len(f)-1]
			if f[0] == "ERRSIG" && len(v.Key) < 16 { // older ones end with a code
				v.Key = f[1]
			}
		}
		return
	}
	if rest, ok := strings.CutPrefix(line, `Good "git" signature for `); ok {
		v.Who, _, _ = strings.Cut(rest, " with ")
	}
	if m := fingerprint().FindStringSubmatch(line); m != nil {
		v.Key = m[1]
	}
}
