package book

import (
	"context"
	"strings"

	"blotter/ledger"
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

	Files    []ledger.File    // the files it was made from, in order of path
	Findings []ledger.Finding // of those files alone
}

// IsMuseumFile reports whether the file at path is one that every record is
// judged against, so that a change to it may touch them all.
func IsMuseumFile(path string) bool {
	switch path {
	case ledger.MuseumFile, ledger.PeopleFile, ledger.PlacesFile:
		return true
	}
	return strings.HasPrefix(path, ledger.NamesDir+"/") && strings.HasSuffix(path, ".yaml")
}

// LoadMuseum reads the museum's files among files.
func LoadMuseum(ctx context.Context, src ledger.Source, files []ledger.File) (*Museum, error) {
	m := &Museum{}
	var names []*ledger.FamilyNames
	for _, f := range files {
		if !IsMuseumFile(f.Path) || f.Link {
			continue
		}
		m.Files = append(m.Files, f)
		text, err := src.Read(ctx, f)
		if err != nil {
			return nil, err
		}
		switch f.Path {
		case ledger.MuseumFile:
			x, fs := ledger.DecodeMuseum(f.Path, text)
			m.Museum, m.Findings = *x, append(m.Findings, fs...)
		case ledger.PeopleFile:
			x, fs := ledger.DecodePeople(f.Path, text)
			m.People, m.Findings = newPeople(x), append(m.Findings, fs...)
		case ledger.PlacesFile:
			x, fs := ledger.DecodePlaces(f.Path, text)
			m.Places, m.Findings = x.Places, append(m.Findings, fs...)
		default:
			x, fs := ledger.DecodeNames(f.Path, text)
			names, m.Findings = append(names, x), append(m.Findings, fs...)
		}
	}
	m.Conventions = reading.ConventionsOf(&m.Museum)
	m.Names = newNames(names)
	return m, nil
}

// FamilyOf is the family of a name by names/: its own, else that of its
// genus; written is what the record says, for names that are in no list.
func (m *Museum) FamilyOf(key, written string) string {
	if f := m.Names.FamilyOf(key); f != "" {
		return f
	}
	return written
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
