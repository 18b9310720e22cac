package book

import (
	"encoding/binary"
	"errors"
	"math"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// codecVersion is raised when the form of a kept chunk changes or EntryOf
// gives another digest of the same reading.
const codecVersion = 17

var errChunk = errors.New("not a chunk of this version")

// kept is one entry of a chunk with the file that it was made from.
type kept struct {
	name  string // the file's path below specimens/
	entry Entry  // without Path
}

// encodeChunk writes the entries of one folder behind a stamp, which says by
// what they were made. Each string stands once in a table at the front.
func encodeChunk(stamp string, list []kept) []byte {
	w := &writer{index: map[string]uint64{}}
	w.uint(uint64(len(list)))
	for i := range list {
		w.text(list[i].name)
		w.entry(&list[i].entry)
	}
	out := binary.AppendUvarint(nil, codecVersion)
	out = appendText(out, stamp)
	out = binary.AppendUvarint(out, uint64(len(w.table)))
	for _, s := range w.table {
		out = binary.AppendUvarint(out, uint64(len(s))<<1|shared(w.shared[s]))
	}
	for _, s := range w.table {
		out = append(out, s...)
	}
	return append(out, w.body...)
}

func shared(b bool) uint64 {
	if b {
		return 1
	}
	return 0
}

func appendText(b []byte, s string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(s))), s...)
}

func (l *Lines) all() [13]*int32 {
	return [13]*int32{&l.Specimen, &l.Collector, &l.With, &l.CollNo, &l.Date, &l.Family, &l.Name, &l.By, &l.Images, &l.Latest, &l.Types, &l.Permit, &l.Position}
}

type writer struct {
	body   []byte
	table  []string
	index  map[string]uint64
	shared map[string]bool
}

func (w *writer) uint(v uint64) { w.body = binary.AppendUvarint(w.body, v) }
func (w *writer) int(v int64)   { w.body = binary.AppendVarint(w.body, v) }
func (w *writer) float(f float64) {
	w.body = binary.LittleEndian.AppendUint64(w.body, math.Float64bits(f))
}

func (w *writer) text(s string) {
	i, ok := w.index[s]
	if !ok {
		i = uint64(len(w.table))
		w.table, w.index[s] = append(w.table, s), i
	}
	w.uint(i)
}

// common is a text that records of other folders are likely to share.
func (w *writer) common(s string) {
	if w.shared == nil {
		w.shared = map[string]bool{}
	}
	w.shared[s] = true
	w.text(s)
}

func (w *writer) list(ss []string) {
	w.uint(uint64(len(ss)))
	for _, s := range ss {
		w.common(s)
	}
}

func (w *writer) entry(e *Entry) {
	w.text(string(e.Blob))
	w.uint(uint64(e.Flags)<<3 | shared(e.Dated)<<2 | shared(e.Positioned)<<1 | shared(e.Uncertain))
	w.common(string(e.Stage))
	for _, s := range []string{e.Fate, e.Collector, e.Who, e.LatestIn, e.With, e.Country, e.Province, e.District, e.Name, e.NameKey, e.By, e.Family, e.Kept} {
		w.common(s)
	}
	w.text(e.CollNo)
	w.text(e.Date)
	w.common(e.Locality)
	w.int(int64(e.First))
	w.int(int64(e.Last))
	w.int(int64(e.NamedFirst))
	w.int(int64(e.NamedOn))
	w.int(int64(e.Latest))
	for _, n := range e.Lines.all() {
		w.uint(uint64(*n))
	}
	if e.Positioned {
		w.float(e.Lat)
		w.float(e.Lon)
		w.float(e.Uncertainty)
	}
	w.list(e.Once)
	w.list(e.People)
	w.list(e.Types)
	w.mark(e.Mark)
	w.list(e.Beside)
	w.list(e.Since)
	w.sic(e.Sic)
	w.sums(e.Sums)
	w.fates(e.Fates)
	w.common(e.Permit)
	w.int(int64(e.Taken))
	w.uint(uint64(len(e.Images)))
	for _, s := range e.Images {
		w.text(s)
	}
	w.uint(uint64(len(e.Links)))
	for i := range e.Links {
		w.uint(uint64(e.Links[i].Kind))
		w.text(e.Links[i].To)
		w.uint(uint64(e.Links[i].Line))
	}
	w.uint(uint64(len(e.Findings)))
	for i := range e.Findings {
		w.finding(&e.Findings[i])
	}
}

func (w *writer) mark(m Mark) {
	w.uint(shared(m.Set))
	w.common(m.Category)
	w.int(int64(m.On))
	w.int(int64(m.Review))
	w.int(int64(m.Released))
}

func (r *reader) mark() Mark {
	return Mark{r.uint() != 0, r.text(), dates.Day(r.int()), dates.Day(r.int()), dates.Day(r.int())}
}

func (w *writer) sums(list []ImageSum) {
	w.uint(uint64(len(list)))
	for _, s := range list {
		w.text(s.File)
		w.text(s.Sum)
		w.uint(uint64(s.Line))
		w.uint(uint64(s.Col))
	}
}

func (w *writer) sic(list []Sic) {
	w.uint(uint64(len(list)))
	for _, s := range list {
		for _, words := range []string{s.Code, s.Why, s.By, s.Date} {
			w.common(words)
		}
		w.uint(uint64(s.Line))
		w.uint(uint64(s.Col))
	}
}

func (w *writer) finding(f *ledger.Finding) {
	w.uint(uint64(f.Line))
	w.uint(uint64(f.Col))
	w.uint(uint64(f.Severity))
	w.common(f.Code)
	w.common(f.Field)
	w.common(f.Message)
	w.text(f.Hint)
}

// decodeChunk reads what encodeChunk wrote, if it was made under the same
// stamp; anything else is an error, and the chunk as good as absent. Names and
// ids share the memory of b, the rest of an entry does not.
func decodeChunk(b, stamp string, in *Intern) (list []kept, err error) {
	r := &reader{s: b}
	if r.uint() != codecVersion || r.inline() != stamp || r.bad {
		return nil, errChunk
	}
	r.readTable(in)
	n := r.uint()
	if r.bad || n > uint64(len(r.s)) {
		return nil, errChunk
	}
	list = make([]kept, n)
	for i := range list {
		list[i].name = r.text()
		list[i].entry = r.entry()
		if r.bad {
			return nil, errChunk
		}
	}
	return list, nil
}

// reader reads a chunk; once something does not fit it is bad and gives zeros.
type reader struct {
	s     string
	table []string
	bad   bool
}

func (r *reader) uint() uint64 {
	var v uint64
	for i := 0; i < len(r.s) && i < binary.MaxVarintLen64; i++ {
		c := r.s[i]
		v |= uint64(c&0x7f) << (7 * i)
		if c < 0x80 {
			r.s = r.s[i+1:]
			return v
		}
	}
	r.bad, r.s = true, ""
	return 0
}

func (r *reader) int() int64 {
	u := r.uint()
	v := int64(u >> 1)
	if u&1 != 0 {
		v = ^v
	}
	return v
}

func (r *reader) float() float64 {
	b := r.bytes(8)
	var v uint64
	for i := range len(b) {
		v |= uint64(b[i]) << (8 * i)
	}
	return math.Float64frombits(v)
}

func (r *reader) bytes(n uint64) string {
	if n > uint64(len(r.s)) {
		r.bad, r.s = true, ""
		return ""
	}
	s := r.s[:n]
	r.s = r.s[n:]
	return s
}

func (r *reader) inline() string { return r.bytes(r.uint()) }

func (r *reader) text() string {
	i := r.uint()
	if i >= uint64(len(r.table)) {
		r.bad = true
		return ""
	}
	return r.table[i]
}

// own is a text that no other record is likely to have: a copy, so that an entry
// does not hold on to the whole chunk.
func (r *reader) own() string { return strings.Clone(r.text()) }

// count reads the length of a list of elements of at least one byte each.
func (r *reader) count() uint64 {
	n := r.uint()
	if n > uint64(len(r.s)) {
		r.bad = true
		return 0
	}
	return n
}

func (r *reader) readTable(in *Intern) {
	n := r.count()
	sizes := make([]uint64, n)
	for i := range sizes {
		sizes[i] = r.uint()
	}
	r.table = make([]string, n)
	for i, size := range sizes {
		r.table[i] = r.bytes(size >> 1)
		if size&1 != 0 {
			r.table[i] = in.Of(r.table[i])
		}
	}
}

func (r *reader) list() []string {
	n := r.count()
	if n == 0 {
		return nil
	}
	out := make([]string, n)
	for i := range out {
		out[i] = r.text()
	}
	return out
}

// owned is a list of such texts.
func (r *reader) owned() []string {
	out := r.list()
	for i := range out {
		out[i] = strings.Clone(out[i])
	}
	return out
}

func (r *reader) entry() Entry {
	e := newEntry()
	e.Blob = ledger.BlobID(r.text())
	f := r.uint()
	e.Flags, e.Dated, e.Positioned, e.Uncertain = Flags(f>>3), f&4 != 0, f&2 != 0, f&1 != 0
	e.Stage = ledger.Stage(r.text())
	for _, p := range []*string{&e.Fate, &e.Collector, &e.Who, &e.LatestIn, &e.With, &e.Country, &e.Province, &e.District, &e.Name, &e.NameKey, &e.By, &e.Family, &e.Kept} {
		*p = r.text()
	}
	e.CollNo, e.Date, e.Locality = r.own(), r.own(), r.text()
	for _, p := range []*dates.Day{&e.First, &e.Last, &e.NamedFirst, &e.NamedOn, &e.Latest} {
		*p = dates.Day(r.int())
	}
	for _, n := range e.Lines.all() {
		*n = int32(r.uint())
	}
	if e.Positioned {
		e.Lat, e.Lon, e.Uncertainty = r.float(), r.float(), r.float()
	}
	e.Once, e.People, e.Types = r.list(), r.list(), r.list()
	e.Mark, e.Beside, e.Since = r.mark(), r.list(), r.list()
	e.Sic, e.Sums, e.Fates = r.sic(), r.sums(), r.fates()
	e.Permit, e.Taken, e.Images = r.text(), int32(r.int()), r.owned()
	if n := r.count(); n > 0 {
		e.Links = make([]Link, n)
		for i := range e.Links {
			e.Links[i].Kind, e.Links[i].To, e.Links[i].Line = LinkKind(r.uint()), r.own(), int32(r.uint())
		}
	}
	if n := r.count(); n > 0 {
		e.Findings = make([]ledger.Finding, n)
		for i := range e.Findings {
			r.finding(&e.Findings[i])
		}
	}
	e.slim()
	return e
}

func (r *reader) sums() []ImageSum {
	n := r.count()
	if n == 0 {
		return nil
	}
	out := make([]ImageSum, n)
	for i := range out {
		out[i] = ImageSum{r.own(), r.own(), int32(r.uint()), int32(r.uint())}
	}
	return out
}

func (r *reader) sic() []Sic {
	n := r.count()
	if n == 0 {
		return nil
	}
	out := make([]Sic, n)
	for i := range out {
		out[i] = Sic{r.text(), r.text(), r.text(), r.text(), int32(r.uint()), int32(r.uint())}
	}
	return out
}

func (r *reader) finding(f *ledger.Finding) {
	f.Line, f.Col = int(r.uint()), int(r.uint())
	f.Severity = ledger.Severity(r.uint())
	f.Code, f.Field, f.Message, f.Hint = r.text(), r.text(), r.text(), r.own()
}
