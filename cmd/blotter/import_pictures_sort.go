package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger"
)

// outcome is what becomes of a picture.
type outcome int

const (
	tied        outcome = iota
	again               // its checksum is in a record already
	twice               // it is in the folder twice
	noNumber            // neither name nor barcode has one
	noRecord            // no sheet has its number
	twoNumbers          // it shows or names two
	disagree            // name and barcode are of two sheets
	unreadable          // not the picture that its name says
	alsoShows           // tied, and shows another number as well
	lastOutcome = iota
)

// sortPictures decides what becomes of each picture.
func (p *picturing) sortPictures(ctx context.Context) error {
	used, err := p.desk.everUsed(ctx)
	if err != nil {
		return err
	}
	for _, n := range used {
		p.taken[n.Key()] = true
	}
	if p.free, err = p.desk.freeNumbers(ctx); err != nil {
		return err
	}
	borne := map[ledger.Number]bool{}
	for i := range p.shots {
		for _, n := range append(p.shots[i].named, p.shots[i].coded...) {
			borne[n] = true
		}
	}
	seen := map[[32]byte]int{}
	for i := range p.shots {
		s := &p.shots[i]
		o, n := p.decide(s)
		if _, before := seen[s.sum]; before && o != again {
			o = twice
		} else {
			seen[s.sum] = i
		}
		if p.desk.opts.on("stubs") && (o == noNumber || o == noRecord) {
			if o, n, err = p.stub(o, n, borne); err != nil {
				return err
			}
		}
		p.sorted[o] = append(p.sorted[o], i)
		if o == tied {
			p.ties[n] = append(p.ties[n], pending{at: i})
			if len(s.coded) > 1 {
				p.sorted[alsoShows] = append(p.sorted[alsoShows], i)
			}
		}
	}
	return nil
}

// decide says what becomes of a picture and to which sheet it belongs.
func (p *picturing) decide(s *shot) (outcome, ledger.Number) {
	if _, ok := p.known.sums[s.sum]; ok {
		return again, ""
	}
	if s.wrong != "" {
		return unreadable, ""
	}
	var n ledger.Number
	switch a, b := s.named, s.coded; {
	case len(a) == 0 && len(b) == 0:
		return noNumber, ""
	case len(a) > 1, len(a) == 0 && len(b) > 1:
		return twoNumbers, ""
	case len(a) == 0:
		n = b[0]
	case len(b) == 0, slices.Contains(b, a[0]):
		n = a[0]
	case len(b) > 1:
		return twoNumbers, ""
	default:
		return disagree, ""
	}
	if _, ok := p.known.byKey[n.Key()]; !ok {
		return noRecord, n
	}
	return tied, n
}

// stub gives a picture without a record one. A number that was in the ledger
// once is not given again.
func (p *picturing) stub(o outcome, n ledger.Number, borne map[ledger.Number]bool) (outcome, ledger.Number, error) {
	if o == noNumber {
		for {
			var err error
			if n, err = p.free(); err != nil {
				return o, n, err
			}
			if !borne[n] {
				break
			}
		}
	} else if p.taken[n.Key()] && !p.stubs[n] || !n.Valid() {
		return o, n, nil
	}
	p.stubs[n] = true
	return tied, n, nil
}

// judge parts the changes that can be entered from those with an error. The
// pictures that come with them count as there.
func (p *picturing) judge(ctx context.Context, changes []fileChange) (sound, faulty []fileChange, found []ledger.Finding, err error) {
	all := slices.Clone(changes)
	for _, to := range p.place {
		all = append(all, fileChange{path: to, new: []byte{}})
	}
	sound, faulty, found, err = p.desk.sortOut(ctx, all)
	isPicture := func(c fileChange) bool { return strings.HasPrefix(c.path, ledger.ImagesDir+"/") }
	return slices.DeleteFunc(sound, isPicture), slices.DeleteFunc(faulty, isPicture), found, err
}

// bring copies what --copy asks for below images/, and gives the paths of all
// pictures there that are entered with the records. undo takes the copies away
// again.
func (p *picturing) bring(ctx context.Context, sound []fileChange) (also []string, undo func(), err error) {
	var made []string
	undo = func() {
		for _, f := range made {
			os.Remove(p.desk.file(f))
		}
	}
	var order []int
	for _, c := range sound {
		n, _ := ledger.NumberOfPath(c.path)
		for _, x := range p.ties[n] {
			if p.place[x.at] != "" {
				order = append(order, x.at)
			}
		}
	}
	tell := p.desk.progress("Pictures copied")
	for i, at := range order {
		if ctx.Err() != nil {
			return nil, undo, errInterrupted
		}
		to, from := p.place[at], filepath.Join(p.dir, filepath.FromSlash(p.shots[at].rel))
		if err := p.desk.plainWay(to); err != nil {
			return nil, undo, err
		}
		also = append(also, to)
		if _, err := os.Lstat(p.desk.file(to)); err == nil {
			continue // it lies there already
		}
		made = append(made, to)
		if err := copyFile(from, p.desk.file(to), p.shots[at].sum); err != nil {
			return nil, undo, stuck("copy %s: %v", p.shots[at].rel, err)
		}
		if tell != nil {
			tell(i+1, len(order))
		}
	}
	slices.Sort(also)
	return also, undo, nil
}

// errOther is a picture that is not any more what was looked at.
var errOther = errors.New("it has changed since it was looked at")

// copyFile copies a file that must have this checksum.
func copyFile(from, to string, want [32]byte) error {
	if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
		return err
	}
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	if _, err := io.Copy(out, in); err != nil {
		out.Close()
		return err
	}
	if err := errors.Join(out.Sync(), out.Close()); err != nil {
		return err
	}
	if sum, _, err := sumOfFile(to); err != nil || sum != want {
		return errors.Join(err, errOther)
	}
	return nil
}

// show says what would be tied and made, and lists what is left over.
func (p *picturing) show(sound, faulty []fileChange, found []ledger.Finding) {
	head := p.name + ": " + count(len(p.shots), "picture")
	if p.others > 0 {
		head += "; " + count(p.others, "other file") + " left aside"
	}
	p.desk.say("%s.", head)
	if n := len(p.sorted[again]); n > 0 {
		p.desk.say("%s in the ledger already.", count(n, "picture"))
	}
	p.showTies(sound)
	for _, o := range []struct {
		what  outcome
		title string
	}{
		{noRecord, "Without a record, so not tied; --stubs makes one"}, {noNumber, "Without a number in name or barcode, so not tied; --stubs gives the next free ones"},
		{twoNumbers, "Two numbers in one picture, so not tied"}, {disagree, "Name and barcode disagree, so not tied"},
		{twice, "The same picture twice, so taken once"}, {unreadable, "Not pictures that can be opened, so not tied"},
		{alsoShows, "Tied, but a barcode of another sheet is in the picture too"},
	} {
		if list := p.sorted[o.what]; len(list) > 0 {
			p.desk.say("%s (%s):", o.title, thousands(len(list)))
			for i, at := range list {
				if i == manyOfOneCode {
					p.desk.say("  and %s more", thousands(len(list)-i))
					break
				}
				p.desk.say("%s", strings.TrimRight(hang("  "+p.shots[at].rel+"  ", p.shots[at].grounds(o.what), p.desk.Width), " "))
			}
		}
	}
	p.showFaults(faulty, found)
	p.showLacking()
}

// grounds is why a picture was not tied.
func (s *shot) grounds(o outcome) string {
	words := func(list []ledger.Number) string {
		var out []string
		for _, n := range list {
			out = append(out, string(n))
		}
		return strings.Join(out, ", ")
	}
	switch o {
	case disagree, twoNumbers, alsoShows:
		switch {
		case len(s.coded) == 0:
			return "name " + words(s.named)
		case len(s.named) == 0:
			return "barcodes " + words(s.coded)
		}
		return "name " + words(s.named) + ", barcode " + words(s.coded)
	case noRecord:
		return words(append(slices.Clone(s.named), s.coded...)[:1])
	case unreadable:
		return s.wrong
	}
	return ""
}

// showTies lists the first of the pictures that would be tied.
func (p *picturing) showTies(sound []fileChange) {
	pics, sheets := p.counted(sound)
	if pics == 0 {
		return
	}
	words := fmt.Sprintf("Would be tied: %s to %s", count(pics, "picture"), count(sheets, "sheet"))
	if n := p.made(sound); n > 0 {
		words += fmt.Sprintf(", %s of them new, with a number and a picture only", thousands(n))
	}
	p.desk.say("%s.", words)
	var rows [][]string
	for _, c := range sound {
		n, _ := ledger.NumberOfPath(c.path)
		for _, x := range p.ties[n] {
			if len(rows) == manyOfOneCode {
				p.desk.table("  ", rows)
				p.desk.say("  and %s more", thousands(pics-len(rows)))
				return
			}
			var more []string
			for _, kv := range x.entry[1:5] {
				if kv.Value != "" {
					more = append(more, kv.Value)
				}
			}
			rows = append(rows, []string{string(n), p.shots[x.at].rel, strings.Join(more, "; ")})
		}
	}
	p.desk.table("  ", rows)
}

// showFaults says why a record could not be changed, and what else was found.
func (p *picturing) showFaults(faulty []fileChange, found []ledger.Finding) {
	touched := map[string]bool{}
	for _, c := range faulty {
		touched[c.path] = true
	}
	counts := map[string]int{}
	for _, f := range found {
		if f.Severity == ledger.Error && touched[f.Path] {
			n, _ := ledger.NumberOfPath(f.Path)
			p.desk.say("%s", hang("  "+string(n)+" is left as it is: ", f.Message, p.desk.Width))
			touched[f.Path] = false
		} else if f.Severity != ledger.Error && strings.HasPrefix(f.Code, "image-") {
			counts[f.Code]++
			if counts[f.Code] == 1 {
				n, _ := ledger.NumberOfPath(f.Path)
				p.desk.say("%s", hang("  "+f.Code+"  ", string(n)+": "+f.Message, p.desk.Width))
			}
		}
	}
}

// showLacking says which sheets are left without a picture: all when they are
// few, else those between the lowest and the highest number of the folder.
func (p *picturing) showLacking() {
	var lack, between []string
	all := sortedNumbers(p.ties)
	for _, n := range p.known.byKey {
		if p.known.pictured[n] || p.ties[n] != nil {
			continue
		}
		lack = append(lack, string(n))
		if len(all) > 1 && n > all[0] && n < all[len(all)-1] {
			between = append(between, string(n))
		}
	}
	if len(lack) == 0 {
		return
	}
	words := fmt.Sprintf("Sheets without a picture: %s of %s", thousands(len(lack)), thousands(len(p.known.byKey)))
	list := lack
	if len(lack) > manyOfOneCode {
		list, words = between, words+", among the numbers of this folder "+thousands(len(between))
	}
	slices.Sort(list)
	more := ""
	if n := len(list); n > manyOfOneCode {
		list, more = list[:manyOfOneCode], fmt.Sprintf(" and %s more", thousands(n-manyOfOneCode))
	}
	if len(list) == 0 {
		p.desk.say("%s.", words)
		return
	}
	p.desk.say("%s", hang(words+": ", strings.Join(list, ", ")+more, p.desk.Width))
}
