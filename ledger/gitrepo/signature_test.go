package gitrepo

import "testing"

// TestReadSignature: what git verify-tag --raw prints, by OpenPGP programs
// (the status lines of gpg's doc/DETAILS) and by ssh-keygen -Y (its words, as
// OpenSSH 9 prints them), each from memory of those; verify_releases.txtar has
// ssh-keygen itself at work.
func TestReadSignature(t *testing.T) {
	for _, c := range []struct {
		name, text string
		passed     bool
		want       Signature
		who        string
	}{
		{"OpenPGP, good", "[GNUPG:] NEWSIG\n[GNUPG:] GOODSIG 0123456789ABCDEF Signe Rask <signe@lauvkroken.example>\n[GNUPG:] VALIDSIG 0123\n", true, SignatureGood, "Signe Rask <signe@lauvkroken.example>"},
		{"OpenPGP, altered text", "[GNUPG:] BADSIG 0123456789ABCDEF Signe Rask\n", false, SignatureBad, "Signe Rask"},
		{"OpenPGP, key not here", "[GNUPG:] ERRSIG 0123456789ABCDEF 1 8 00 1762162800 9\n[GNUPG:] NO_PUBKEY 0123456789ABCDEF\n", false, SignatureUnknown, ""},
		{"OpenPGP, key run out since", "[GNUPG:] KEYEXPIRED 1762162800\n[GNUPG:] EXPKEYSIG 0123456789ABCDEF Signe Rask\n", true, SignatureOld, "Signe Rask"},
		{"OpenPGP, key called back", "[GNUPG:] REVKEYSIG 0123456789ABCDEF Signe Rask\n", false, SignatureOld, "Signe Rask"},
		{"OpenPGP, the program is missing", "error: cannot run gpg: No such file or directory\n", false, SignatureNotChecked, ""},
		{"OpenPGP, known and not trusted enough", "[GNUPG:] GOODSIG 0123456789ABCDEF Signe Rask\n[GNUPG:] TRUST_UNDEFINED 0 pgp\n", false, SignatureUntrusted, "Signe Rask"},
		{"OpenPGP, never to be trusted", "[GNUPG:] GOODSIG 0123456789ABCDEF Signe Rask\n[GNUPG:] TRUST_NEVER 0 pgp\n", true, SignatureUntrusted, "Signe Rask"},
		{"ssh, good", "Good \"git\" signature for signe@lauvkroken.example with ED25519 key SHA256:abc\n", true, SignatureGood, "signe@lauvkroken.example"},
		{"ssh, altered text", "Signature verification failed: incorrect signature\n", false, SignatureBad, ""},
		{"ssh, nobody's key", "Good \"git\" signature with ED25519 key SHA256:abc\nNo principal matched.\n", false, SignatureUnknown, ""},
		{"ssh, no list of keys", "error: gpg.ssh.allowedSignersFile needs to be configured and exist for ssh signature verification\n", false, SignatureUnknown, ""},
		{"words that nobody knows", "something else\n", false, SignatureBad, ""},
	} {
		if got := readSignature(c.text, c.passed); got.Signature != c.want || got.Who != c.who {
			t.Errorf("%s: %d of %q, want %d of %q", c.name, got.Signature, got.Who, c.want, c.who)
		}
	}
}
