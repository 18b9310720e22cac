package main

import (
	"slices"
	"strings"

	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// mostTold is how many broken promises after the first are listed; a program
// gets all of them (--json).
const mostTold = 20

// tell says what was proved and what was not, the first broken promise first.
func (v *verification) tell() {
	if len(v.archives) > 0 {
		v.tellArchives()
		return
	}
	open, mended, unread := v.sorted()
	if v.noPast != nil {
		v.say("%s", wrap(sentence("The history cannot be read, so no entry was proved: "+v.noPast.Error()), v.Width, ""))
	}
	if len(open) > 0 {
		v.tellFirst(open[0])
		v.tellOthers(open[1:])
	}
	v.tellStored()
	v.tellReleases()
	if len(v.pictures.changed) > 0 {
		findingsView{env: v.env}.show(v.pictures.changed)
	}
	if v.view != nil && !v.opts.on("quiet") {
		v.sums(open, mended, unread)
	}
	if !v.broken() {
		v.say("Every promise holds.")
		return
	}
	v.sumFaults(open)
}

// sumFaults counts what is not as it was.
func (v *verification) sumFaults(open []int) {
	var words []string
	add := func(n int, noun string) {
		if n > 0 {
			words = append(words, count(n, noun))
		}
	}
	add(len(open), "broken promise")
	add(len(v.whole.Faults), "stored file or object")
	bad := len(v.gone)
	for _, r := range v.releases {
		if r.bad() {
			bad++
		}
	}
	add(bad, "release")
	add(len(v.pictures.changed), "picture")
	bad = 0
	for _, a := range v.archives {
		if len(a.with) == 0 {
			bad++
		}
	}
	add(bad, "file")
	v.say("Not as it was: %s.", joinNonEmpty(", ", words...))
}

// tellFirst tells the first entry that broke a promise: who, when, of which
// sheet, what vanished, what to type.
func (v *verification) tellFirst(i int) {
	x := v.proof.Breaches[i]
	v.say("%s", wrap("The first promise that broke: "+v.byWhom(x.Commit)+quotedSubject(v.view, x.Commit), v.Width, "  "))
	v.tellBreach(i)
	for j := i + 1; j < len(v.proof.Breaches) && v.proof.Breaches[j].Commit == x.Commit; j++ {
		if v.remedies[j] != nil {
			v.tellBreach(j)
		}
	}
}

func quotedSubject(view *history.View, id string) string {
	place, ok := view.Place(id)
	if !ok {
		return ""
	}
	return `, "` + view.Commit(place).Subject() + `"`
}

func (v *verification) tellBreach(i int) {
	x := v.proof.Breaches[i]
	v.say("%s", hang("  "+subjectWord(x.Finding.Path)+"  ", x.Finding.Message+"   ["+x.Finding.Code+"]", v.Width))
	v.say("  To put it right:")
	for _, line := range v.remedies[i] {
		v.say("    %s", line)
	}
}

// tellOthers lists broken promises of later entries, a line each.
func (v *verification) tellOthers(rest []int) {
	rest = slices.DeleteFunc(slices.Clone(rest), func(i int) bool {
		open, _, _ := v.sorted()
		return v.proof.Breaches[i].Commit == v.proof.Breaches[open[0]].Commit
	})
	if len(rest) == 0 {
		return
	}
	v.say("After that:")
	var rows [][]string
	for _, i := range rest[:min(len(rest), mostTold)] {
		x := v.proof.Breaches[i]
		place, _ := v.view.Place(x.Commit)
		c := v.view.Commit(place)
		rows = append(rows, []string{dayWord(c.Author.When, v.zone), c.ID[:7], subjectWord(x.Finding.Path), x.Finding.Message + "; " + c.Author.Name + "   [" + x.Finding.Code + "]"})
	}
	v.table("  ", rows)
	if n := len(rest) - mostTold; n > 0 {
		v.say("and %s more: blotter verify --json", thousands(n))
	}
}

// tellStored tells what is amiss with stored files and objects, and which
// sheets it is about.
func (v *verification) tellStored() {
	if len(v.whole.Faults) == 0 {
		return
	}
	v.say("What is stored is damaged:")
	sheets := v.sheetsOf(v.whole.Faults)
	index := false
	for _, f := range v.whole.Faults[:min(len(v.whole.Faults), mostTold)] {
		what := f.What
		if f.ID != "" {
			what = "object " + f.ID[:8] + " " + what
		}
		v.say("%s", hang("  ", joinNonEmpty(": ", joinNonEmpty(", ", sheets[f.ID], f.File), what), v.Width))
		index = index || strings.HasSuffix(f.File, ".idx")
	}
	if n := len(v.whole.Faults) - mostTold; n > 0 {
		v.say("  and %s more", thousands(n))
	}
	objects := shellWord(v.repo.CommonDir() + "/objects/.")
	v.say("  To put it right, in a copy of this folder: move the damaged files away, then bring back what they held")
	v.say("  from a backup or another copy that is whole:")
	v.say("    blotter restore BACKUP ../whole; cp -rn ../whole/.git/objects/. %s", objects)
	if index {
		v.say("  An index of a pack alone is made anew:  git index-pack PACK")
	}
	v.say("  Then: blotter verify")
}

// sheetsOf says, for objects that hold a version of a sheet or a file, of
// which, and who entered it.
func (v *verification) sheetsOf(faults []gitrepo.Fault) map[string]string {
	out := map[string]string{}
	if v.view == nil {
		return out
	}
	for _, f := range faults {
		if f.ID != "" {
			out[f.ID] = ""
		}
	}
	if len(out) == 0 {
		return out
	}
	for place := range v.view.Len() {
		for _, f := range v.view.Files(place) {
			if was, ok := out[string(f.Blob)]; ok && was == "" {
				out[string(f.Blob)] = subjectWord(f.Path) + ", entered " + v.byWhom(v.view.ID(place))
			}
		}
	}
	return out
}

// tellReleases tells what is amiss with releases.
func (v *verification) tellReleases() {
	for _, r := range slices.Concat(v.releases, v.gone) {
		v.tellRelease(r)
	}
}

func (v *verification) tellRelease(r release) {
	for i, f := range r.faults {
		v.say("%s", wrap("Release "+r.Name+" "+f+".", v.Width, "  "))
		v.say("  To put it right:  %s", r.right[i])
	}
	for _, d := range r.doubts {
		v.say("%s", wrap("Release "+r.Name+" "+d+".", v.Width, "  "))
	}
}

// sums say what was looked at and holds.
func (v *verification) sums(open, mended, unread []int) {
	entries := count(v.proof.Entries, "entry")
	if v.since {
		entries += " since " + v.opts.text("since")
	}
	held := "nothing shared vanished without a correction on record"
	if len(open) > 0 {
		held = count(len(open), "promise") + " broken"
	}
	v.say("%s", wrap(entries+": "+held+"; "+count(v.corrections(), "correction")+" on record.", v.Width, "  "))
	for _, i := range mended {
		x := v.proof.Breaches[i]
		v.say("%s", wrap("Put right since: "+subjectWord(x.Finding.Path)+", "+x.Finding.Message+" ("+v.byWhom(x.Commit)+"); it stands again by "+v.byWhom(x.Mended)+".", v.Width, "  "))
	}
	for _, i := range unread {
		x := v.proof.Breaches[i]
		v.say("%s", wrap("Could not be read: "+subjectWord(x.Finding.Path)+" before "+v.byWhom(x.Commit)+", so what it said was not compared.", v.Width, "  "))
	}
	if v.view.Incomplete() {
		v.say("This copy does not have the whole history: what stood before its first entries was not looked at.")
	}
	v.sumReleases()
	if n := v.pictures.looked; n > 0 || v.pictures.absent > 0 {
		words := count(n, "picture") + " held to the checksum in its record"
		if n != 1 {
			words = count(n, "picture") + " held to the checksums in their records"
		}
		if v.pictures.absent > 0 {
			words += "; " + thousands(v.pictures.absent) + " not in this copy"
		}
		v.say("%s.", words)
	}
	whole := count(v.whole.Objects, "stored object") + " read"
	if len(v.whole.Faults) == 0 {
		whole += ", each whole"
	}
	if v.whole.Partial {
		whole += "; others were left out when this copy was made"
	}
	v.say("%s.", whole)
}

// signedWords say whose signatures fit.
func (v *verification) signedWords() string {
	var who []string
	for _, r := range v.releases {
		if r.Signed && r.vouched.Signature == gitrepo.SignatureGood {
			name := joinNonEmpty(" ", r.Name, prefixWord("by", r.vouched.Who))
			who = append(who, name)
		}
	}
	if len(who) == 0 {
		return ""
	}
	return "; signed: " + strings.Join(who, ", ")
}

func prefixWord(word, of string) string {
	if of == "" {
		return ""
	}
	return word + " " + of
}

// corrections counts the corrections on record in the entries looked at.
func (v *verification) corrections() (n int) {
	for place := range v.view.Len() {
		n += len(history.Corrections(v.view.Message(place)))
	}
	return n
}
