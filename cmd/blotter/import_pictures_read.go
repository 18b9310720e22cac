package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"image"
	_ "image/jpeg" // pictures that barcodes are looked for in
	_ "image/png"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"

	"blotter/ledger"
	"blotter/ledger/pictures"
	"blotter/ledger/pictures/barcode"
)

// shot is one picture of a folder: what is kept of it while the folder is
// looked through.
type shot struct {
	rel   string // below the folder, with slashes
	size  int64
	sum   [sha256.Size]byte
	meta  pictures.Meta
	named []ledger.Number // in its name
	coded []ledger.Number // in its barcodes
	shows string          // as its name says
	wrong string          // why it cannot be opened as what its name says
}

// maxPixels is how large a picture is unpacked to look for barcodes.
const maxPixels = 150_000_000

// maxUnpacked is how many pictures are unpacked at once.
const maxUnpacked = 4

// list finds the pictures of the folder, in order of path. Links and folders
// that begin with a dot are left aside.
func (p *picturing) list(ctx context.Context, only string) error {
	err := filepath.WalkDir(p.dir, func(file string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case ctx.Err() != nil:
			return ctx.Err()
		case e.IsDir() && file != p.dir && strings.HasPrefix(e.Name(), "."):
			return filepath.SkipDir
		case e.IsDir() || only != "" && e.Name() != only:
			if e.IsDir() && only != "" && file != p.dir {
				return filepath.SkipDir
			}
			return nil
		case !e.Type().IsRegular() || !pictures.IsPicture(e.Name()):
			p.others++
			return nil
		}
		rel, err := filepath.Rel(p.dir, file)
		if err == nil {
			p.shots = append(p.shots, shot{rel: filepath.ToSlash(rel)})
		}
		return err
	})
	if ctx.Err() != nil {
		return errInterrupted
	}
	if err != nil {
		return stuck("%v", err)
	}
	return nil
}

// examine reads every picture once, several at a time.
func (p *picturing) examine(ctx context.Context) error {
	if err := p.readIndex(ctx); err != nil {
		return err
	}
	tell := p.desk.progress("Pictures looked at")
	var next, done atomic.Int64
	var mu sync.Mutex
	var first error
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), maxUnpacked) {
		wg.Go(func() {
			for ctx.Err() == nil {
				i := int(next.Add(1)) - 1
				if i >= len(p.shots) {
					return
				}
				err := p.look(&p.shots[i])
				n := done.Add(1)
				mu.Lock()
				if err != nil && first == nil {
					first = err
				}
				if tell != nil {
					tell(int(n), len(p.shots))
				}
				mu.Unlock()
			}
		})
	}
	wg.Wait()
	if ctx.Err() != nil {
		return errInterrupted
	}
	return first
}

// look reads one picture.
func (p *picturing) look(s *shot) error {
	stem := strings.TrimSuffix(filepath.Base(s.rel), filepath.Ext(s.rel))
	var rest string
	s.named, rest = p.known.numbers(stem)
	if s.shows = pictures.Shows(rest); len(s.named) == 0 {
		s.shows = ""
	}
	f, err := os.Open(filepath.Join(p.dir, filepath.FromSlash(s.rel)))
	if err != nil {
		return stuck("%v", err)
	}
	defer f.Close()
	h := sha256.New()
	if s.size, err = io.Copy(h, f); err != nil {
		return stuck("read %s: %v", s.rel, err)
	}
	h.Sum(s.sum[:0])
	if s.meta, err = pictures.Read(f, s.size); err != nil {
		return stuck("read %s: %v", s.rel, err)
	}
	s.meta.Artist, s.meta.Copyright = strings.TrimSpace(s.meta.Artist), strings.TrimSpace(s.meta.Copyright)
	head := make([]byte, 8)
	n, _ := f.ReadAt(head, 0)
	format := pictures.FormatOf(head[:n])
	switch ext := strings.ToLower(filepath.Ext(s.rel)); {
	case (ext == ".jpg" || ext == ".jpeg") && format != pictures.JPEG, ext == ".png" && format != pictures.PNG,
		(ext == ".tif" || ext == ".tiff") && format != pictures.TIFF:
		s.wrong = "is not what its name says"
		return nil
	case format != pictures.JPEG && format != pictures.PNG:
		return nil
	}
	p.readCodes(f, s)
	return nil
}

// readCodes looks for barcodes, unless --no-barcodes says not to.
func (p *picturing) readCodes(f *os.File, s *shot) {
	r := io.NewSectionReader(f, 0, s.size)
	c, _, err := image.DecodeConfig(r)
	if err != nil {
		s.wrong = "cannot be opened"
		return
	}
	if p.desk.opts.on("no-barcodes") || c.Width*c.Height > maxPixels {
		return
	}
	r.Seek(0, io.SeekStart)
	img, _, err := image.Decode(r)
	if err != nil {
		s.wrong = "cannot be opened to its end"
		return
	}
	for _, found := range barcode.Read(img) {
		ns, _ := p.known.numbers(found.Text)
		for _, n := range ns {
			s.coded = addNumber(s.coded, n)
		}
	}
}

func addNumber(list []ledger.Number, n ledger.Number) []ledger.Number {
	for _, have := range list {
		if have == n {
			return list
		}
	}
	return append(list, n)
}

func sumOfFile(file string) (sum [32]byte, size int64, err error) {
	f, err := os.Open(file)
	if err != nil {
		return sum, 0, err
	}
	defer f.Close()
	h := sha256.New()
	size, err = io.Copy(h, f)
	h.Sum(sum[:0])
	return sum, size, err
}

// pictureIndex is what the ledger knows of numbers and pictures.
type pictureIndex struct {
	series   pictures.Series
	short    func(uint64) ledger.Number
	bySerial map[uint64]ledger.Number // of the museum's own series
	byKey    map[string]ledger.Number
	sums     map[[32]byte]ledger.Number // of pictures that are tied
	pictured map[ledger.Number]bool
}

// readIndex reads the checksums of all pictures that records name.
func (p *picturing) readIndex(ctx context.Context) error {
	digits, err := strconv.Atoi(p.desk.museum.Numbering.Digits.Text)
	if err != nil {
		digits = 0
	}
	prefix := p.desk.museum.Numbering.Prefix.Text
	k := pictureIndex{series: pictures.SeriesOf(prefix, digits), short: p.desk.short, bySerial: map[uint64]ledger.Number{},
		byKey: map[string]ledger.Number{}, sums: map[[32]byte]ledger.Number{}, pictured: map[ledger.Number]bool{}}
	for _, file := range p.desk.recordPaths() {
		if ctx.Err() != nil {
			return errInterrupted
		}
		n, ok := ledger.NumberOfPath(file)
		if !ok || !n.Valid() {
			continue
		}
		k.byKey[n.Key()] = n
		if rest, ok := strings.CutPrefix(n.Key(), strings.ToLower(prefix)); ok && rest != "" && strings.Trim(rest, "0123456789") == "" {
			if v, ok := n.Serial(); ok {
				k.bySerial[v] = n
			}
		}
		src, err := p.desk.read(file)
		if err != nil {
			return err
		}
		block := blockOf(src, "images")
		if block == nil {
			continue
		}
		k.pictured[n] = true
		for _, sum := range sumsIn(block) {
			k.sums[sum] = n
		}
	}
	p.known = k
	return nil
}

// blockOf is the lines of a top field of a record, nil when it has none.
func blockOf(src []byte, key string) []byte {
	start := 0
	if !bytes.HasPrefix(src, []byte(key+":")) {
		if start = bytes.Index(src, []byte("\n"+key+":")) + 1; start == 0 {
			return nil
		}
	}
	block := src[start:]
	for end := 0; ; {
		i := bytes.IndexByte(block[end:], '\n')
		if i < 0 || end+i+1 == len(block) {
			return block
		}
		end += i + 1
		if c := block[end]; c >= 'a' && c <= 'z' {
			return block[:end]
		}
	}
}

// sumsIn are the checksums in some lines.
func sumsIn(block []byte) (out [][32]byte) {
	const mark = "sha256:"
	for {
		i := bytes.Index(block, []byte(mark))
		if i < 0 {
			return out
		}
		block = block[i+len(mark):]
		var sum [32]byte
		if len(block) >= 64 {
			if _, err := hex.Decode(sum[:], block[:64]); err == nil {
				out = append(out, sum)
			}
		}
	}
}

// numbers are the numbers in a file's name or a barcode, and the rest of it.
func (k *pictureIndex) numbers(text string) (ns []ledger.Number, rest string) {
	serials, rest := k.series.Numbers(text)
	for _, v := range serials {
		n, ok := k.bySerial[v]
		if !ok {
			n = k.short(v)
		}
		ns = addNumber(ns, n)
	}
	if ns != nil {
		return ns, rest
	}
	for _, end := range []string{"", "_", " ", "("} { // a number of another series, as the record has it
		word := text
		if end != "" {
			word, _, _ = strings.Cut(text, end)
		}
		if n, ok := k.byKey[strings.ToLower(strings.TrimSpace(word))]; ok {
			return []ledger.Number{n}, text[len(word):]
		}
	}
	return nil, text
}
