package book

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/reading"
)

// Museum is the files beside the records, of the same version of the ledger:
// settings, people, names, standing localities. It is not changed once made.
type Museum struct {
	ledger.Museum
	Conventions reading.Conventions
	People      People
	Names       Names
	Places      []ledger.NamedPlace
	Reviewed    []ledger.Reviewed // public.yaml

	Files    []ledger.File    // the files it was made from, in order of path
	Findings []ledger.Finding // of those files alone
}

// Stamp is a text that changes whenever one of the files does, for what is kept
// from one run to the next and follows from them.
func (m *Museum) Stamp() string {
	h := sha256.New()
	for _, f := range m.Files {
		fmt.Fprintf(h, "%s %s\n", f.Path, f.Blob)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// IsMuseumFile reports whether the file at path is one that every record is
// judged against, so that a change to it may touch them all.
func IsMuseumFile(path string) bool {
	switch path {
	case ledger.MuseumFile, ledger.PeopleFile, ledger.PlacesFile, ledger.PublicFile:
		return true
	}
	return strings.HasPrefix(path, ledger.NamesDir+"/") && strings.HasSuffix(path, ".yaml")
}

// LoadMuseum reads the museum's files among files. What the cache has of
// people and names is not decoded again.
func LoadMuseum(ctx context.Context, src ledger.Source, files []ledger.File, c *disk.Cache) (*Museum, error) {
	m := &Museum{}
	for _, f := range files {
		if IsMuseumFile(f.Path) && !f.Link {
			m.Files = append(m.Files, f)
		}
	}
	k := keptNames(c, m.Files)
	var names []*ledger.FamilyNames
	for _, f := range m.Files {
		if x := k.names[f.Path]; x != nil {
			names = append(names, x)
			continue
		}
		if f.Path == ledger.PeopleFile && k.people != nil {
			m.People = NewPeople(k.people)
			continue
		}
		text, err := src.Read(ctx, f)
		if errors.Is(err, ledger.ErrLarge) {
			text, err = make([]byte, ledger.MaxFile+1), nil // its one finding is that
		}
		if err != nil {
			return nil, err
		}
		if x := m.decode(f, text, k); x != nil {
			names = append(names, x)
		}
	}
	k.store(c)
	m.Conventions = reading.ConventionsOf(&m.Museum)
	m.Names = newNames(names)
	return m, nil
}

// decode decodes one of the museum's files; what it gives is not nil for a
// file of names.
func (m *Museum) decode(f ledger.File, text []byte, k *keptMuseum) *ledger.FamilyNames {
	switch f.Path {
	case ledger.MuseumFile:
		x, fs := ledger.DecodeMuseum(f.Path, text)
		m.Museum, m.Findings = *x, append(m.Findings, fs...)
	case ledger.PeopleFile:
		x, fs := ledger.DecodePeople(f.Path, text)
		m.People, m.Findings = NewPeople(x), append(m.Findings, fs...)
		k.keep(f, x, fs)
	case ledger.PlacesFile:
		x, fs := ledger.DecodePlaces(f.Path, text)
		m.Places, m.Findings = x.Places, append(m.Findings, fs...)
	case ledger.PublicFile:
		x, fs := ledger.DecodePublic(f.Path, text)
		m.Reviewed, m.Findings = x.Reviewed, append(m.Findings, fs...)
	default:
		x, fs := ledger.DecodeNames(f.Path, text)
		m.Findings = append(m.Findings, fs...)
		k.keep(f, x, fs)
		return x
	}
	return nil
}

// FamilyOf is the family of a name by names/: its own, else that of its
// genus; written is what the record says, for names that are in no list.
func (m *Museum) FamilyOf(key, written string) string {
	if f := m.Names.FamilyOf(key); f != "" {
		return f
	}
	return written
}

// Withheld reports whether the exact place of a sheet may not become public:
// by the record's own mark, or by that of the name that stands.
func (m *Museum) Withheld(e *Entry) bool {
	if e.Flags.Has(Sensitive) {
		return true
	}
	n := m.Names.Accepted(e.NameKey)
	return n != nil && n.Given.Sensitive.Why.Set() && !n.Given.Sensitive.Released.Why.Set()
}

// Renamings are the entries of names/ by which a determination's name is
// another now, oldest first (record.md, rule 4: the accepted name is looked up,
// never written into the record). Of "A or B" neither is renamed.
func (m *Museum) Renamings(n reading.Name) []*Name {
	if len(n.Keys) != 1 {
		return nil
	}
	return m.Names.Renamings(n.Keys[0])
}

// Renamed is the accepted name under which an entry's sheet stands, when its
// determination has another; nil when it stands as it was determined.
func (m *Museum) Renamed(e *Entry) *Name {
	if n := m.Names.byKey[e.NameKey]; n == nil || n.Of == nil {
		return nil
	}
	steps := m.Renamings(reading.ReadName(e.Name))
	if len(steps) == 0 {
		return nil
	}
	return steps[len(steps)-1].Of
}

// sameFiles reports whether files has the very files that m was made from.
func (m *Museum) sameFiles(files []ledger.File) bool {
	i := 0
	for _, f := range files {
		if !IsMuseumFile(f.Path) || f.Link {
			continue
		}
		if i == len(m.Files) || m.Files[i].Path != f.Path || m.Files[i].Blob != f.Blob {
			return false
		}
		i++
	}
	return i == len(m.Files)
}
