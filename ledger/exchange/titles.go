package exchange

import (
	"bytes"
	"strings"
)

// titleLines is how many lines with words are looked at for the headings when
// the first of them has none.
const titleLines = 20

// headsIn counts the cells of a row with words, and those of them that are
// headings which are known.
func headsIn(cells []string) (filled, known int) {
	for _, c := range cells {
		c = strings.Trim(c, " \t\"")
		if c == "" {
			continue
		}
		filled++
		_, usual := meaningOf(c)
		_, below := rankOf(c)
		if usual || below || strings.Contains(c, ".") && ownField(c) {
			known++
		}
	}
	return filled, known
}

// areTitles reports whether a first row is words about the table rather than
// its headings, as far as it can be told by itself.
func areTitles(cells []string) bool {
	filled, known := headsIn(cells)
	return known == 0 || filled <= 2 && known < 2
}

// areHeads reports whether a row below such a one is that of the headings: at
// least three, of which two are known and no fewer than half.
func areHeads(cells []string) bool {
	filled, known := headsIn(cells)
	return filled >= 3 && known >= 2 && known*2 >= filled
}

// headRow is the row of the headings: the first that is not blank, or, where
// that is a title, the first of headings below it.
func (t *headed) headRow() (first Row, found bool, err error) {
	looked := 0
	for row, err := range t.lines() {
		if err != nil {
			if found {
				return first, true, nil // told when the row is reached
			}
			return Row{Line: row.Line}, false, err
		}
		if row = t.cells(row); row.empty() {
			continue
		}
		switch looked++; {
		case !found:
			first, found = Row{Line: row.Line, Cells: append([]string{}, row.Cells...)}, true
			if !areTitles(first.Cells) {
				return first, true, nil
			}
		case areHeads(row.Cells):
			t.above = looked - 1
			return row, true, nil
		}
		if looked == titleLines {
			break
		}
	}
	return first, found, nil
}

// separatorOf is the separator of the line of the headings among the first
// lines of a text: that of the first, or, where that is a title, that of the
// first line of headings below it.
func separatorOf(head []byte) byte {
	first, looked := []byte(nil), 0
	for line := range bytes.SplitSeq(bytes.ReplaceAll(head, []byte("\r"), []byte("\n")), []byte("\n")) {
		if len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		comma := commaOf(line)
		cells := strings.Split(string(line), string(rune(comma)))
		if looked++; looked == 1 {
			if first = line; !areTitles(cells) {
				break
			}
		} else if areHeads(cells) {
			return comma
		}
		if looked == titleLines {
			break
		}
	}
	return commaOf(first)
}

// datumWords begin the names of geodetic datums as they stand in tables, from
// memory: common practice.
var datumWords = []string{"wgs", "nad", "ed50", "ed 50", "ed-50", "etrs", "euref", "osgb", "ngo", "rt90", "rt 90", "sweref", "ch1903", "gda", "agd", "nzgd", "sad69", "sad 69", "sirgas", "psad", "tokyo", "jgd", "pulkovo", "dhdn", "mgi", "lambert", "clarke", "epsg", "gauss", "european datum", "north american", "world geodetic"}

// geodetic reports whether most cells of a column name a geodetic datum.
func (c *ColumnProfile) geodetic() bool {
	n := 0
	for words, times := range c.words {
		for _, w := range datumWords {
			if strings.HasPrefix(strings.ToLower(words), w) {
				n += times
				break
			}
		}
	}
	return 2*n > c.Filled
}
