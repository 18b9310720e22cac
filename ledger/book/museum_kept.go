package book

import (
	"encoding"

	"blotter/ledger"
	"blotter/ledger/disk"
)

// museumBucket has people.yaml and the files of names/ as decoded, each by
// its path behind the blob that it was made from. A file with findings is
// never kept.
var museumBucket = disk.Bucket{Name: "museum", Version: ledger.DecodeVersion}

// keptMuseum is what the cache has of the museum's files, and what it is to
// get.
type keptMuseum struct {
	names  map[string]*ledger.FamilyNames
	people *ledger.People
	more   []disk.Entry
}

func keptNames(c *disk.Cache, files []ledger.File) *keptMuseum {
	k := &keptMuseum{}
	c.View(museumBucket, func(get func([]byte) []byte) {
		k.names, k.people = map[string]*ledger.FamilyNames{}, nil
		for _, f := range files {
			if f.Path == ledger.MuseumFile || f.Path == ledger.PlacesFile || f.Path == ledger.PublicFile {
				continue
			}
			r := &reader{s: string(get([]byte(f.Path)))}
			if r.s == "" || ledger.BlobID(r.inline()) != f.Blob || r.bad {
				continue
			}
			if f.Path == ledger.PeopleFile {
				if x := (&ledger.People{}); x.UnmarshalBinary([]byte(r.s)) == nil {
					k.people = x
				}
			} else if x := (&ledger.FamilyNames{}); x.UnmarshalBinary([]byte(r.s)) == nil {
				x.Path = f.Path
				k.names[f.Path] = x
			}
		}
	})
	return k
}

func (k *keptMuseum) keep(f ledger.File, x encoding.BinaryMarshaler, fs []ledger.Finding) {
	if b, err := x.MarshalBinary(); err == nil && len(fs) == 0 {
		k.more = append(k.more, disk.Entry{Key: []byte(f.Path), Value: append(appendText(nil, string(f.Blob)), b...)})
	}
}

func (k *keptMuseum) store(c *disk.Cache) { c.Put(museumBucket, k.more) }
