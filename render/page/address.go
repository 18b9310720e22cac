package page

import "strings"

// Address is where a link leads: the path of a page from the root of the
// site, without an ending, perhaps with a #fragment. An address with Ending
// or an outside one (https://...) is taken as it stands.
type Address string

// Split parts the page from its fragment, which keeps its #.
func (a Address) Split() (path, fragment string) {
	if i := strings.IndexByte(string(a), '#'); i >= 0 {
		return string(a)[:i], string(a)[i:]
	}
	return string(a), ""
}

// Outside reports whether a leads out of the site. Only https counts: the
// makers of pages give no other.
func (a Address) Outside() bool { return strings.HasPrefix(string(a), "https://") }

// File reports whether a names a file that is no page, such as feed.xml: its
// last part has one of the endings that the site writes.
func (a Address) File() bool {
	p, _ := a.Split()
	for _, e := range fileEndings {
		if strings.HasSuffix(p, e) {
			return true
		}
	}
	return strings.HasPrefix(p, "images/")
}

var fileEndings = []string{".json", ".xml", ".md", ".html", ".css", ".js", ".txt", ".zip"}

// Up is the way from the page at a to the root of the site: "" or "../../".
func (a Address) Up() string {
	p, _ := a.Split()
	return strings.Repeat("../", strings.Count(p, "/"))
}
