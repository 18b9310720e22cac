package main

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"codeberg.org/go-pdf/fpdf"
)

// labelsPrinted is how many labels row print makes at most.
const labelsPrinted = 2000

// measurePrint prints labels of the first records as PDF, beside writing the
// same words as PDF line by line, in one face and one size, where they fall.
func measurePrint(s stage) (ours, peer cost, err error) {
	sheets := fmt.Sprintf("1..%d", min(s.n, labelsPrinted))
	if err := errors.Join(s.noOutput(), os.MkdirAll(s.out, 0o777)); err != nil {
		return ours, peer, err
	}
	words := filepath.Join(s.out, "labels.txt")
	if _, err := s.ours("print", "labels", sheets, "--trial", "--to", words).run(); err != nil {
		return ours, peer, err
	}
	font, err := filepath.Abs(filepath.FromSlash("render/paper/fonts/GentiumPlus-Regular.ttf"))
	if err != nil {
		return ours, peer, err
	}
	w := s.ours("print", "labels", sheets, "--trial", "--yes", "--to", filepath.Join(s.out, "labels.pdf"))
	return alternate(s.rounds, w, s.piece("plain-pdf", font, words, filepath.Join(s.out, "plain.pdf")))
}

// plainPDF writes the lines of a text into a PDF: the peer of print.
func plainPDF(font, words, to string) error {
	letters, err := os.ReadFile(font)
	if err != nil {
		return err
	}
	in, err := os.Open(words)
	if err != nil {
		return err
	}
	defer in.Close()
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm"})
	f.AddUTF8FontFromBytes("G", "", letters)
	f.SetFont("G", "", 9.5)
	y := 297.0
	lines := bufio.NewScanner(in)
	for lines.Scan() {
		if y += 4; y > 290 {
			f.AddPage()
			y = 10
		}
		if l := strings.TrimSpace(lines.Text()); l != "" {
			f.Text(10, y, l)
		}
	}
	if err := lines.Err(); err != nil {
		return err
	}
	return f.OutputFileAndClose(to)
}
