package render

import (
	"encoding/json"
	"io/fs"

	"blotter/render/html"
)

// siteFile is site.json: what the whole site is, for machines.
func (b *build) siteFile() error {
	s := b.shelf
	v := struct {
		Museum   string `json:"museum"`
		Title    string `json:"title"`
		Revision string `json:"revision,omitempty"`
		Date     string `json:"date,omitempty"`
		Sheets   int    `json:"sheets"`
		Withheld int    `json:"places_withheld"`
		Drafts   int    `json:"drafts"`
		Stubs    int    `json:"stubs"`
		Staff    bool   `json:"staff_only,omitempty"` // never to be made public

		Archive *archiveJSON `json:"archive,omitempty"`
	}{Archive: s.archiveJSON(), Museum: string(s.site.Museum), Title: string(s.site.Title), Sheets: len(s.sheets), Withheld: s.withheld, Drafts: s.drafts, Stubs: s.stubs, Staff: b.in.Book.Staff()}
	if b.in.Site.Known() {
		v.Revision, v.Date = b.in.Site.Short(), b.in.Site.When.Format("2006-01-02")
	}
	data, err := json.MarshalIndent(v, "", " ")
	if err != nil {
		return err
	}
	return b.put("site.json", append(data, '\n'))
}

// assets writes the files that every site has: style, script, fonts.
func (b *build) assets() error {
	return fs.WalkDir(html.Assets, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(html.Assets, p)
		if err != nil {
			return err
		}
		return b.put(p, data)
	})
}
