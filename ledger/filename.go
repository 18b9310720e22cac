package ledger

import (
	"fmt"
	"strings"
)

// FileNameFault says why a path of the ledger, parts joined by /, cannot be a
// file on every system that a ledger is copied to; "" when it can. Windows has
// no names with the signs < > : " \ | ? * or control characters, none that end
// with a blank or a dot, and keeps some for devices (Microsoft, "Naming Files,
// Paths, and Namespaces").
func FileNameFault(path string) string {
	for part := range strings.SplitSeq(path, "/") {
		head, _, _ := strings.Cut(part, ".")
		if deviceNames().MatchString(strings.TrimRight(head, " ")) {
			return fmt.Sprintf("%s is a name that Windows keeps for a device", part)
		}
		if i := strings.IndexFunc(part, unportable); i >= 0 {
			return fmt.Sprintf("%q has a sign that no name of a file has on Windows", part)
		}
		if part != "." && part != ".." && (strings.HasSuffix(part, ".") || strings.HasSuffix(part, " ")) {
			return fmt.Sprintf("%q ends with a blank or a dot, which Windows takes away", part)
		}
	}
	return ""
}

func unportable(r rune) bool { return r < ' ' || strings.ContainsRune(`<>:"\|?*`, r) }
