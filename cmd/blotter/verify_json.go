package main

import (
	"slices"

	"blotter/ledger/gitrepo"
)

// verifyInJSON is what verify found, for programs; the README lists the names.
type verifyInJSON struct {
	Holds    bool            `json:"holds"`
	Revision string          `json:"revision"`
	Entries  int             `json:"entries"`
	Anew     int             `json:"proved_anew"`
	Complete bool            `json:"whole_history"`
	Broken   []breachInJSON  `json:"broken"`
	Objects  int             `json:"objects"`
	Stored   []storedInJSON  `json:"damaged"`
	Releases []releaseInJSON `json:"releases"`
	Pictures int             `json:"pictures"`
	Absent   int             `json:"pictures_absent"`
	Changed  []findingInJSON `json:"pictures_changed"`
	Why      string          `json:"why,omitempty"` // the history cannot be read
}

type breachInJSON struct {
	findingInJSON
	Revision string   `json:"revision"`
	By       string   `json:"by"`
	Date     string   `json:"date"`
	Entry    string   `json:"entry"`
	Right    []string `json:"to_type"`
	Mended   string   `json:"put_right_by,omitempty"`
}

type storedInJSON struct {
	File   string `json:"file,omitempty"`
	Object string `json:"object,omitempty"`
	About  string `json:"about,omitempty"`
	What   string `json:"what"`
}

type releaseInJSON struct {
	Name      string          `json:"name"`
	Revision  string          `json:"revision"`
	Signature string          `json:"signature,omitempty"`
	By        string          `json:"signed_by,omitempty"`
	Key       string          `json:"signing_key,omitempty"`
	Faults    []string        `json:"faults"`
	Right     []string        `json:"to_type"`
	Doubts    []string        `json:"doubts"`
	Words     string          `json:"words,omitempty"`
	Archives  []archiveInJSON `json:"archives"`
}

var signatureWords = map[gitrepo.Signature]string{
	gitrepo.SignatureGood: "good", gitrepo.SignatureOld: "old key", gitrepo.SignatureUnknown: "key not known", gitrepo.SignatureUntrusted: "key not trusted", gitrepo.SignatureBad: "bad", gitrepo.SignatureNotChecked: "not checked",
}

func (v *verification) inJSON() verifyInJSON {
	out := verifyInJSON{Holds: !v.broken(), Revision: v.tip, Entries: v.proof.Entries, Anew: v.proof.Anew, Objects: v.whole.Objects,
		Pictures: v.pictures.looked, Absent: v.pictures.absent,
		Broken: []breachInJSON{}, Stored: []storedInJSON{}, Changed: []findingInJSON{}}
	if v.noPast != nil {
		out.Why = v.noPast.Error()
	}
	if v.view != nil {
		out.Complete = !v.view.Incomplete()
	}
	for i, x := range v.proof.Breaches {
		b := breachInJSON{findingInJSON: findingJSON(x.Finding), Revision: x.Commit, Mended: x.Mended, Right: slices.Concat([]string{}, v.remedies[i])}
		b.Hint = ""
		if place, ok := v.view.Place(x.Commit); ok {
			c := v.view.Commit(place)
			b.By, b.Date, b.Entry = c.Author.Name, c.Author.When.In(v.zone).Format("2006-01-02"), c.Subject()
		}
		out.Broken = append(out.Broken, b)
	}
	about := v.sheetsOf(v.whole.Faults)
	for _, f := range v.whole.Faults {
		out.Stored = append(out.Stored, storedInJSON{f.File, f.ID, about[f.ID], f.What})
	}
	out.Releases = v.releasesInJSON()
	for _, f := range v.pictures.changed {
		out.Changed = append(out.Changed, findingJSON(f))
	}
	return out
}

func (v *verification) releasesInJSON() []releaseInJSON {
	out := []releaseInJSON{}
	for _, r := range slices.Concat(v.releases, v.gone) {
		x := releaseInJSON{Name: r.Name, Revision: r.Commit, By: r.vouched.Who, Faults: slices.Concat([]string{}, r.faults), Right: slices.Concat([]string{}, r.right), Doubts: slices.Concat([]string{}, r.doubts),
			Words: r.Words, Archives: filesInJSON(r.Archives)}
		if r.Signed {
			x.Signature = signatureWords[r.vouched.Signature]
			x.Key = r.vouched.Key
		}
		out = append(out, x)
	}
	return out
}
