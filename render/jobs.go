package render

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger/book"
	"blotter/render/figure"
	"blotter/render/html"
	"blotter/render/markdown"
	"blotter/render/page"
)

// Version is raised whenever the same Input gives other pages; pages of an
// older version are then made anew.
const Version = 16

// job is one page, or a sheet's page with what belongs to it. Its key is a
// hash of everything that it shows.
type job struct {
	name  string // address
	key   pageKey
	rows  int                        // about as many sheets stand on the page
	sheet *book.Entry                // of a specimen
	page  func() (*page.Page, error) // of any other page
	data  func() ([]byte, error)     // of a file that is no page; name is the whole path
}

// jobs are all pages of the site, sheets first in order of path.
func (s *shelf) jobs() ([]job, error) {
	pros, err := s.readProse()
	if err != nil {
		return nil, err
	}
	s.stamp()
	s.set0 = s.publishedKey()
	out := make([]job, 0, len(s.sheets)+len(s.names)+len(s.people)+len(s.places)+100)
	k := &keyer{}
	for _, e := range s.sheets {
		k.add(s.stamped, "sheet", string(e.Number), string(e.Blob))
		if s.in.StoryKey != nil {
			k.add(s.in.StoryKey(e))
		}
		s.keyState(k, e)
		for _, f := range e.Images {
			k.add(f, itoa(boolInt(s.in.Book.Has(f))))
		}
		s.keyTrail(k, s.currentKey(e), s.in.Book.Museum.FamilyOf(s.currentKey(e), e.Family))
		out = append(out, job{name: string(sheetAddress(e.Number)), key: k.sum(), sheet: e})
	}
	out = s.taxonJobs(out)
	out = s.otherJobs(out)
	always := func(p *page.Page) { // small or showing the whole: always made
		out = append(out, job{name: string(p.Address), page: func() (*page.Page, error) { return p, nil }})
	}
	var intro page.Block
	for _, p := range pros {
		if p.isIntro() {
			intro = p.block
			continue
		}
		always(s.prosePage(p))
	}
	out = append(out, job{name: "index", page: func() (*page.Page, error) { return s.front(intro), nil }})
	for _, p := range s.indexes() {
		always(p)
	}
	out = s.changeJobs(out)
	out = s.workJobs(out)
	for _, p := range []*page.Page{s.howToRead(), s.notFound(), s.searchPage(s.searchParts())} {
		always(p)
	}
	out = append(out, job{name: "about/data", page: func() (*page.Page, error) { return s.dataPage(), nil }})
	out = s.dataJobs(out)
	for _, p := range s.movedPages() {
		always(p)
	}
	return out, nil
}

// keyName adds whether a name has a page, and where.
func (s *shelf) keyName(k *keyer, key string) {
	if t := s.names[key]; t != nil {
		k.add(t.slug)
	} else {
		k.add("")
	}
}

// keyTrail adds what the trail above a name depends on.
func (s *shelf) keyTrail(k *keyer, key, fam string) {
	k.add(itoa(boolInt(s.families[fam] != nil)))
	s.keyName(k, key)
	s.keyName(k, genusOf(key))
}

func (s *shelf) taxonJobs(out []job) []job {
	for _, key := range sorted(s.names) {
		t := s.names[key]
		k := s.keyer().add("taxon", t.key, t.fam, t.slug).entries(t.now, t.once)
		for _, u := range t.under {
			k.add(u.key, u.slug).entries(u.now)
		}
		s.keyTrail(k, t.key, t.fam)
		for _, n := range s.synonymsOf[t.key] {
			s.keyName(k, n.Key())
		}
		if n := s.in.Book.Museum.Names.Find(t.key); n != nil && n.Of != nil {
			s.keyName(k, n.Of.Key())
		}
		h := s.taxonHolder(t)
		out = append(out, job{name: string(taxonAddress(t)), key: k.sum(), rows: h.onPage(), page: func() (*page.Page, error) { return s.taxonPage(t), nil }})
		out = s.partJobs(out, taxonAddress(t), h)
	}
	for _, key := range sorted(s.families) {
		f := s.families[key]
		k := s.keyer().add("family", f.key, f.slug)
		for _, u := range f.under {
			k.add(u.key, u.slug).entries(s.allNow(u))
		}
		if t := s.names[f.key]; t != nil {
			k.entries(t.now)
		}
		h := s.familyHolder(f)
		out = append(out, job{name: "families/" + f.slug, key: k.sum(), rows: h.onPage(), page: func() (*page.Page, error) { return s.familyPage(f), nil }})
		out = s.partJobs(out, page.Address("families/"+f.slug), h)
	}
	return out
}

func (s *shelf) otherJobs(out []job) []job {
	for _, key := range sorted(s.people) {
		p := s.people[key]
		k := s.keyer().add("person", p.name, p.slug).entries(p.collected, p.named, p.with, p.earlier)
		h := s.personHolder(p)
		out = append(out, job{name: string(personAddress(p)), key: k.sum(), rows: h.onPage(), page: func() (*page.Page, error) { return s.personPage(p), nil }})
		out = s.partJobs(out, personAddress(p), h)
	}
	for _, key := range sorted(s.places) {
		r := s.places[key]
		k := s.keyer().add("place", r.path).entries(r.sheets)
		h := s.regionHolder(r)
		out = append(out, job{name: string(regionAddress(r.path)), key: k.sum(), rows: h.onPage(), page: func() (*page.Page, error) { return s.regionPage(r), nil }})
		out = s.partJobs(out, regionAddress(r.path), h)
	}
	if len(s.undated) > 0 {
		key := s.keyer().add("undated").entries(s.undated).sum()
		h := s.undatedHolder()
		out = append(out, job{name: "years/not-known", key: key, rows: h.onPage(), page: func() (*page.Page, error) { return s.undatedPage(), nil }})
		out = s.partJobs(out, "years/not-known", h)
	}
	for _, y := range sorted(s.years) {
		k := s.keyer().add("year", itoa(y)).entries(s.years[y])
		h := s.yearHolder(y)
		out = append(out, job{name: "years/" + itoa(y), key: k.sum(), rows: h.onPage(), page: func() (*page.Page, error) { return s.yearPage(y), nil }})
		out = s.partJobs(out, page.Address("years/"+itoa(y)), h)
	}
	return out
}

// dataJobs are the files that the search page looks through.
func (s *shelf) dataJobs(out []job) []job {
	if s.in.Options.HTMLOnly {
		return out
	}
	for i := range s.searchParts() {
		list := s.sheets[i*searchPart : min((i+1)*searchPart, len(s.sheets))]
		key := s.keyer().add("search").entries(list).sum()
		out = append(out, job{name: page.SearchPart(i), key: key, data: func() ([]byte, error) { return s.searchData(list) }})
	}
	return out
}

// readProse reads the museum's own pages and lists them in the site.
func (s *shelf) readProse() ([]prose, error) {
	var out []prose
	for _, f := range s.in.Prose {
		p, err := readProse(f)
		if err != nil {
			return nil, err
		}
		if p.slug == "" || strings.Contains(strings.TrimPrefix(f.Path, "pages/"), "/") {
			continue
		}
		if p.slug == "data" || p.slug == "how-to-read" { // these the site has itself
			p.slug += "-2"
		}
		if !p.isIntro() {
			s.site.About = append(s.site.About, page.Link{To: page.Address("about/" + p.slug), Text: []page.Part{page.Person(p.title)}})
		}
		out = append(out, p)
	}
	return out, nil
}

// isIntro reports whether the page is not one of its own but the words at the
// top of the first page: pages/front.md.
func (p prose) isIntro() bool { return p.slug == "front" }

// largeRows is how many sheets may stand on a page that is made beside another
// such: a row takes a kilobyte until its page is written and looked through,
// and no day may be known of half a million.
const largeRows = 10_000

// worker does jobs one after another, with memory of its own.
type worker struct {
	b   *build
	buf []byte
}

func (w *worker) do(ctx context.Context, j *job) error {
	b := w.b
	switch {
	case j.sheet != nil:
		return w.sheet(ctx, j)
	case j.data != nil:
		data, err := j.data()
		if err != nil {
			return err
		}
		b.keep(j.name, saved{key: j.key, gone: true, files: []string{j.name}})
		return b.put(j.name, data)
	}
	if j.rows > largeRows {
		b.large.Lock()
		defer b.large.Unlock()
		defer func() { w.buf = nil }() // it may have grown to a quarter of a gigabyte
	}
	p, err := j.page()
	if err != nil {
		return err
	}
	sv := saved{key: j.key, gone: p.Gone}
	if err := w.write(p, &sv); err != nil {
		return err
	}
	b.keep(j.name, sv)
	return nil
}

// unchanged takes out of jobs those whose page stands as the last build made
// it, and leaves the rest.
func (b *build) unchanged(ctx context.Context, jobs []job) ([]job, error) {
	b.made = make(map[string]packed, len(jobs))
	left := jobs[:0]
	for _, j := range jobs {
		old, ok := b.before[j.name]
		want := j.key
		if ok && old.related() {
			want = b.shelf.relatedKey(j.key)
		}
		if !ok || j.key == (pageKey{}) || old.key != want || !b.still(j.name, old) {
			left = append(left, j)
			continue
		}
		stand, err := b.picturesStand(ctx, old.images())
		if err != nil {
			return nil, err
		}
		if !stand {
			left = append(left, j)
			continue
		}
		b.made[j.name] = old
		for _, f := range old.files(j.name) {
			b.files.stays(f)
		}
		for _, f := range old.images() {
			b.images[f] = true
		}
		if b.in.Look != nil && !b.known(&j) {
			b.doubtful = append(b.doubtful, j)
		}
	}
	b.before = nil // a million of them
	return left, nil
}

func (s *shelf) relatedKey(key pageKey) pageKey { return (&keyer{}).add(key.String(), s.set0).sum() }

// still reports whether all files of a page stand as the last build left them.
func (b *build) still(name string, v packed) bool {
	for _, f := range v.files(name) {
		if b.files.of(f).is&(inFolder|inManifest) != inFolder|inManifest {
			return false
		}
	}
	return true
}

// keep notes what a job made.
func (b *build) keep(name string, v saved) {
	p := b.packer.pack(name, v)
	b.mu.Lock()
	defer b.mu.Unlock()
	b.made[name] = p
	for _, f := range v.images {
		b.images[f] = true
	}
}

// sheet makes the page of a specimen, its twin and its data.
func (w *worker) sheet(ctx context.Context, j *job) error {
	in, s := w.b.in, w.b.shelf
	d, why, err := in.Reading(ctx, j.sheet)
	if err != nil {
		return err
	}
	var st Story
	if in.Story != nil {
		if st, err = in.Story(ctx, j.sheet, d.Record); err != nil {
			return err
		}
	}
	x := s.sheetOf(j.sheet, d, why, st)
	if x.refused, err = w.b.refusedPictures(ctx, x); err != nil {
		return err
	}
	w.b.refuse(x.refused)
	p := x.page()
	sv := saved{key: j.key, related: x.related}
	if x.related {
		sv.key = s.relatedKey(j.key)
	}
	if x.refused != nil {
		sv.key = pageKey{} // looked at again next time: the picture may be mended by then
	}
	if err := w.write(p, &sv); err != nil {
		return err
	}
	if len(st.Corrections) > maxCorrections {
		if err := w.write(x.correctionsPage(), &sv); err != nil {
			return err
		}
	}
	if !in.Options.HTMLOnly {
		data, err := x.json()
		if err != nil {
			return err
		}
		if err := w.b.put(string(p.JSON), data); err != nil {
			return err
		}
		sv.files = append(sv.files, string(p.JSON))
	}
	w.b.keep(j.name, sv)
	return nil
}

// picturesOf are the files that a page shows, the land of its maps among them.
func picturesOf(p *page.Page) []string {
	var out []string
	for _, pic := range p.Pictures {
		if pic.File != "" {
			out = append(out, string(pic.File))
		}
	}
	for _, sec := range p.Sections {
		for _, bl := range sec.Blocks {
			if m, ok := bl.(page.Map); ok {
				out = append(out, figure.MapFile(m))
			}
		}
	}
	return out
}

// write writes a page and its twin.
func (w *worker) write(p *page.Page, sv *saved) error {
	sv.images = append(sv.images, picturesOf(p)...)
	if w.b.in.Book.Staff() {
		p.Notices = slices.Insert(slices.Clone(p.Notices), 0, w.b.shelf.staffNotice())
		p.Title = w.b.shelf.lang.StaffOnlyWord + " " + p.Title
	}
	w.buf = html.Append(w.buf[:0], w.b.shelf.site, p)
	file := string(p.Address) + ".html"
	if err := w.b.put(file, w.buf); err != nil {
		return err
	}
	sv.files = append(sv.files, file)
	if p.Twinless {
		return nil
	}
	w.buf = markdown.Append(w.buf[:0], w.b.shelf.site, p)
	file = string(p.Address) + ".md"
	sv.files = append(sv.files, file)
	return w.b.put(file, w.buf)
}
