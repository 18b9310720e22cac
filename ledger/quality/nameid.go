package quality

import "strings"

// nameIDComplete asks whether scientificNameID is a whole identifier: an LSID,
// another URN, an identifier within a named scope (gbif:8102122), or a web
// address with a path.
func nameIDComplete(in *input) Response {
	if in.empty(dwcScientificNameID) {
		return internal("dwc:scientificNameID is empty")
	}
	ok, why := wholeIdentifier(in.value(dwcScientificNameID))
	return complies(ok, why, why)
}

func wholeIdentifier(s string) (ok bool, why string) {
	if strings.ContainsFunc(s, blank) {
		return false, "holds blanks, which no identifier does"
	}
	scope, value, found := strings.Cut(s, ":")
	switch {
	case !found:
		return false, "nothing says whose identifier it is"
	case strings.EqualFold(scope, "urn"):
		return wholeURN(value)
	case strings.HasPrefix(value, "//"):
		host, path, _ := strings.Cut(value[2:], "/")
		if end := strings.IndexAny(path, "?#"); end >= 0 {
			path = path[:end]
		}
		return isName(scope) && host != "" && strings.Trim(path, "/") != "", "a web address is an identifier when it has a path after the host"
	case termScopes[strings.ToLower(scope)]:
		return false, "is the name of a term, not of a name"
	}
	return isName(scope) && value != "", "an identifier within a scope has both, as in gbif:8102122"
}

// termScopes are prefixes of vocabularies: what follows names a term, not a
// scientific name.
var termScopes = map[string]bool{"dwc": true, "dwciri": true, "dc": true, "dcterms": true, "ac": true, "bdqval": true}

// wholeURN reads what follows urn: (RFC 8141: a name space of 2 to 32 letters,
// digits and hyphens, then its own part); for an LSID authority, name space and
// object, perhaps a revision.
func wholeURN(s string) (ok bool, why string) {
	space, own, _ := strings.Cut(s, ":")
	if len(space) < 2 || len(space) > 32 || !isName(space) || own == "" {
		return false, "a URN has a name space and a part of its own"
	}
	if !strings.EqualFold(space, "lsid") {
		return true, "is a URN"
	}
	parts := strings.Split(own, ":")
	for _, p := range parts {
		if p == "" {
			return false, "a part of the LSID is empty"
		}
	}
	return len(parts) == 3 || len(parts) == 4, "an LSID has an authority, a name space and an object"
}

// isName reports whether s is letters, digits, dot, plus and hyphen, beginning
// with a letter or digit.
func isName(s string) bool {
	for i := range len(s) {
		c := s[i] | 0x20
		if (c < 'a' || c > 'z') && (s[i] < '0' || s[i] > '9') && (i == 0 || !strings.ContainsRune("-.+_", rune(s[i]))) {
			return false
		}
	}
	return s != ""
}
