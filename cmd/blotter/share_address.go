package main

import (
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"

	"blotter/ledger/gitrepo"
)

// placeKind is what an address of a copy leads to.
type placeKind int

const (
	placeFar     placeKind = iota // another machine
	placeServer                   // a folder in which nobody works
	placeWorked                   // somebody's ledger
	placeFile                     // one file that holds all: a bundle, in git's words
	placeFolder                   // a folder that holds none of these at its top
	placeNothing                  // nothing is there
)

// address is where another copy is.
type address struct {
	text string // as git takes it; a path is absolute
	kind placeKind
}

// String is the address as it may be shown: without the password that may
// stand in it.
func (p address) String() string { return shownAddress(p.text) }

func shownAddress(text string) string {
	if u, err := url.Parse(text); err == nil && u.User != nil {
		if _, secret := u.User.Password(); secret {
			return u.Scheme + "://" + u.User.Username() + ":***@" + u.Host + u.RequestURI()
		}
	}
	return text
}

// onDisk reports whether the copy is a folder or file that this machine sees.
func (p address) onDisk() bool { return p.kind != placeFar }

// byMachine is an address like museum.example:herbarium.git or with a scheme.
var byMachine = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(?:[A-Za-z][A-Za-z0-9+.-]*://|[^/\\]+:)`) })

// addressOf reads an address as typed or as remembered.
func (c *call) addressOf(typed string) address {
	if path, ok := strings.CutPrefix(typed, "file://"); ok {
		typed = path
	}
	drive := runtime.GOOS == "windows" && len(typed) > 1 && typed[1] == ':'
	if byMachine().MatchString(typed) && !drive {
		return address{typed, placeFar}
	}
	path := inDir(c.Dir, typed)
	p := address{path, placeFolder}
	info, err := os.Stat(path)
	switch {
	case err != nil:
		p.kind = placeNothing
	case !info.IsDir():
		p.kind = placeFile
	default:
		standing, top := gitrepo.StandingOf(path)
		switch standing {
		case gitrepo.Server:
			p.kind = placeServer
		case gitrepo.WorkedIn:
			p.kind = placeWorked
		case gitrepo.Inside:
			if _, isLedger := ledgerAbove(path); isLedger {
				p = address{top, placeWorked}
			}
		}
	}
	return p
}

// usable refuses what cannot be an address, and this ledger itself.
func (p address) usable(root string) error {
	if p.text == "" || strings.HasPrefix(p.text, "-") || strings.ContainsAny(p.text, "\n\r\x00") {
		return misuse("%q is no address of a copy", p.text)
	}
	if p.onDisk() && root != "" && realPath(p.text) == realPath(root) {
		return misuse("%s is this ledger itself", p.text)
	}
	return nil
}

// there refuses an address on this machine that leads nowhere.
func (p address) there() error {
	if p.kind == placeNothing {
		return stuck("there is nothing at %s", p).try("Nothing was changed. Look at the address, letter by letter; is the stick in, is the network drive there?")
	}
	return nil
}

// sharedEnding ends the name of the file by which copies are shared on a
// stick. A backup is another thing: it stays as it was written.
const sharedEnding = "-shared.bundle"

// narrow finds the copy in a folder that is none itself, such as the top of a
// stick. verb is what was typed before the address.
func (p *address) narrow(verb string) error {
	if p.kind != placeFolder {
		return nil
	}
	found := p.within()
	switch {
	case len(found) == 1:
		*p = found[0]
		return nil
	case len(found) > 1:
		f := misuse("%s holds several copies of ledgers; which one?", p.text)
		for _, x := range found {
			f.try("blotter " + verb + " " + shellWord(x.text))
		}
		return f
	case verb == "join":
		return stuck("%s holds no ledger and no copy of one", p.text).try("Nothing was changed. Look at the address; a copy is made by: blotter share --with " + shellWord(p.text) + " --new")
	}
	return stuck("%s holds no copy of a ledger; nothing was changed", p.text).try("To make one there: blotter share --with " + shellWord(p.text) + " --new")
}

// within lists the copies in a folder: files to share by and folders in which
// nobody works; if there are none, ledgers, then backups.
func (p address) within() []address {
	entries, err := os.ReadDir(p.text)
	if err != nil {
		return nil
	}
	var shared, worked, backups []address
	for _, e := range entries {
		path := filepath.Join(p.text, e.Name())
		switch {
		case strings.HasPrefix(e.Name(), "."):
		case strings.HasSuffix(e.Name(), sharedEnding) && e.Type().IsRegular():
			shared = append(shared, address{path, placeFile})
		case strings.HasSuffix(e.Name(), ".bundle") && e.Type().IsRegular():
			backups = append(backups, address{path, placeFile})
		case e.IsDir():
			switch standing, _ := gitrepo.StandingOf(path); standing {
			case gitrepo.Server:
				shared = append(shared, address{path, placeServer})
			case gitrepo.WorkedIn:
				if _, isLedger := ledgerAbove(path); isLedger {
					worked = append(worked, address{path, placeWorked})
				}
			}
		}
	}
	for _, list := range [][]address{shared, worked, backups} {
		if len(list) > 0 {
			return slices.Clip(list)
		}
	}
	return nil
}

// isBackup reports whether a file stands as backup wrote it, beside its
// checksum.
func (p address) isBackup() bool {
	_, err := os.Stat(p.text + sumEnding)
	return p.kind == placeFile && err == nil
}
