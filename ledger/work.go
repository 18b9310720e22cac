package ledger

import (
	"bytes"
	"path"
	"reflect"
	"regexp"
	"strings"
	"sync"
)

// Work is one file of work/: a batch or a movement as written. What its
// heading says holds for the whole of it; whatever happens is a dated line.
// Which fields and events a kind of work has is in WorkKinds.
type Work struct {
	Work       Leaf       `yaml:"work"`  // its number: kind, year, running number
	Title      Leaf       `yaml:"title"` // a few words
	Partner    Leaf       `yaml:"partner"`
	Theirs     Leaf       `yaml:"their_number"`
	Person     Leaf       `yaml:"person"`
	Purpose    Leaf       `yaml:"purpose"`
	Place      Leaf       `yaml:"place"`
	Plants     Leaf       `yaml:"plants"`
	Method     Leaf       `yaml:"method"`
	Weather    Leaf       `yaml:"weather"`
	Profile    Leaf       `yaml:"profile"`
	Source     Leaf       `yaml:"source"`
	Standing   Leaf       `yaml:"standing"`
	Material   Leaf       `yaml:"material"`
	Period     Leaf       `yaml:"period"`
	Every      Leaf       `yaml:"every"`
	Percent    Leaf       `yaml:"percent"`
	Seed       Leaf       `yaml:"seed"`
	Permit     Permit     `yaml:"permit"`
	Permits    []Leaf     `yaml:"permits"`
	Conditions []Leaf     `yaml:"conditions"`
	Cautions   []Leaf     `yaml:"cautions"`
	Note       Leaf       `yaml:"note"`
	Lines      []WorkLine `yaml:"lines"`

	// Path is the file, relative to the ledger; not a field.
	Path string `yaml:"-"`
}

// Permit is what a permit allows, as its paper says.
type Permit struct {
	Number      Leaf   `yaml:"number"`
	Issuer      Leaf   `yaml:"issuer"`
	For         Leaf   `yaml:"for"`
	From        Leaf   `yaml:"from"`
	To          Leaf   `yaml:"to"`
	Taxa        []Leaf `yaml:"taxa"`
	Places      []Leaf `yaml:"places"`
	Persons     []Leaf `yaml:"persons"`
	Most        Leaf   `yaml:"most"`
	Report      Leaf   `yaml:"report"`
	Country     Leaf   `yaml:"country"`
	Accessed    Leaf   `yaml:"accessed"`
	Consent     Leaf   `yaml:"consent"`
	Terms       Leaf   `yaml:"terms"`
	Certificate Leaf   `yaml:"certificate"`
	Uses        []Leaf `yaml:"uses"`
	ThirdParty  Leaf   `yaml:"third_party"`
	Line        int32
}

// WorkLine is one event: on this day that happened to these sheets, or to all
// that the work holds. Lines are append-only.
type WorkLine struct {
	Date        Leaf   `yaml:"date"` // any precision, or a day and the time of day: 2026-11-03 09:40
	Event       Leaf   `yaml:"event"`
	Sheets      []Leaf `yaml:"sheets"`     // specimen numbers and spans LK7-0000480..LK7-0000489
	Gatherings  []Leaf `yaml:"gatherings"` // collector and number: Signe Rask 1311, Signe Rask 1311..1320
	Others      []Leaf `yaml:"others"`     // another herbarium's numbers
	Count       Leaf   `yaml:"count"`      // a bundle: 120 folds
	How         Leaf   `yaml:"how"`        // counted, estimated
	What        Leaf   `yaml:"what"`       // what the bundle is: Carex, box 3
	By          Leaf   `yaml:"by"`
	To          Leaf   `yaml:"to"` // where, or to whom
	Until       Leaf   `yaml:"until"`
	Number      Leaf   `yaml:"number"`
	Paper       Leaf   `yaml:"paper"`    // what was printed: PaperWords
	Revision    Leaf   `yaml:"revision"` // from which state of the ledger
	Result      Leaf   `yaml:"result"`
	Grade       Leaf   `yaml:"grade"`
	Damage      []Leaf `yaml:"damage"`
	Method      Leaf   `yaml:"method"`
	Material    Leaf   `yaml:"material"`
	Weight      Leaf   `yaml:"weight"`
	Trap        Leaf   `yaml:"trap"`
	Insect      Leaf   `yaml:"insect"`
	Stage       Leaf   `yaml:"stage"`
	Alive       Leaf   `yaml:"alive"`
	Temperature Leaf   `yaml:"temperature"`
	Humidity    Leaf   `yaml:"humidity"`
	Hours       Leaf   `yaml:"hours"`
	File        Leaf   `yaml:"file"`
	Note        Leaf   `yaml:"note"`
	Why         Leaf   `yaml:"why"`
	Mistake     Leaf   `yaml:"mistake"`
	Line        int32
}

// WorkNumber is the number of one work: loan-2026-004.
type WorkNumber string

var workNumber = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([a-z]+)-([0-9]{4})-([0-9]{3,})$`) })

// Valid reports whether n is well formed and of a kind that there is.
func (n WorkNumber) Valid() bool {
	m := workNumber().FindStringSubmatch(string(n))
	if m == nil {
		return false
	}
	_, ok := WorkKindOf(m[1])
	return ok
}

// Kind is the word before the year.
func (n WorkNumber) Kind() string {
	k, _, _ := strings.Cut(string(n), "-")
	return k
}

// Path is where the file of n lies in the ledger.
func (n WorkNumber) Path() string { return WorkDir + "/" + n.Kind() + "/" + string(n) + ".yaml" }

// WorkNumberOfPath is the number that a work's path gives it; false when p is
// no .yaml file in a folder of work/.
func WorkNumberOfPath(p string) (WorkNumber, bool) {
	if !strings.HasPrefix(p, WorkDir+"/") || !strings.HasSuffix(p, ".yaml") || strings.Count(p, "/") != 2 {
		return "", false
	}
	return WorkNumber(strings.TrimSuffix(path.Base(p), ".yaml")), true
}

// DecodeWork reads a file of work/ as Decode reads a record.
func DecodeWork(p string, src []byte) (*Work, []Finding) {
	w := &Work{Path: p}
	d := decodeInto(WorkFileKind, p, src, reflect.ValueOf(w).Elem())
	d.workLaws(w)
	return w, d.findings(bytes.Contains(src, []byte("places:")))
}

// EncodeWork, like Encode, writes a file of work/.
func EncodeWork(w *Work) []byte {
	at := w.Path
	if at == "" {
		at = WorkNumber(w.Work.Text).Path()
	}
	return appendGroup(append([]byte(EditorLine(at)), '\n'), plans()[WorkFileKind], reflect.ValueOf(w).Elem(), "")
}
