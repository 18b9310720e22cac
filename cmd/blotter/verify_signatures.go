package main

import (
	"slices"

	"blotter/ledger/gitrepo"
)

// judgeSignature says what is amiss with the signature of a release. One that
// does not fit is a fault; whose it is may be unknown here.
func (v *verification) judgeSignature(x *release, fault func(right, format string, args ...any)) {
	if !x.Signed {
		return
	}
	doubt := func(words string) { x.doubts = append(x.doubts, words) }
	by := joinNonEmpty(" ", prefixWord("by", x.vouched.Who), bracketed(x.vouched.Key))
	switch x.vouched.Signature {
	case gitrepo.SignatureBad:
		fault("Ask who signed it; a release that nobody can vouch for is made anew, under a new name.", "bears a signature that does not fit it")
	case gitrepo.SignatureUnknown:
		doubt(joinNonEmpty(" ", "is signed with a key", bracketed(x.vouched.Key), "that this computer does not know, so whose it is was not looked at"))
	case gitrepo.SignatureUntrusted:
		doubt("is signed " + by + ", with a key that is not trusted enough on this computer")
	case gitrepo.SignatureOld:
		doubt(joinNonEmpty(" ", "is signed", by, "with a key that has run out or was called back"))
	case gitrepo.SignatureNotChecked:
		doubt("is signed; nothing on this computer can check that")
	}
}

func bracketed(words string) string {
	if words == "" {
		return ""
	}
	return "(" + words + ")"
}

// compareSigners holds each release to the one that was signed before it, as
// its maker dated it: the museum signs, and with the same key.
func (v *verification) compareSigners() {
	order := make([]*release, len(v.releases))
	for i := range v.releases {
		order[i] = &v.releases[i]
	}
	slices.SortStableFunc(order, func(a, b *release) int { return a.By.When.Compare(b.By.When) })
	first, before := "", (*release)(nil) // the first that is signed; the last by a key that is known
	for _, x := range order {
		switch {
		case !x.Signed && first != "":
			x.doubts = append(x.doubts, "is not signed, though "+first+" before it is")
		case !x.Signed:
			continue
		case keyKnown(x.vouched) && before != nil && before.vouched.Key != x.vouched.Key:
			x.doubts = append(x.doubts, "is signed with another key than "+before.Name+" before it: "+
				joinNonEmpty(" ", x.vouched.Who, bracketed(x.vouched.Key))+", not "+joinNonEmpty(" ", before.vouched.Who, bracketed(before.vouched.Key)))
		}
		if x.Signed && first == "" {
			first = x.Name
		}
		if x.Signed && keyKnown(x.vouched) {
			before = x
		}
	}
}

// keyKnown reports whether the signature fits and is of a key known here.
func keyKnown(v gitrepo.Vouched) bool {
	return v.Key != "" && (v.Signature == gitrepo.SignatureGood || v.Signature == gitrepo.SignatureOld || v.Signature == gitrepo.SignatureUntrusted)
}
