package workbook

import (
	"io"
	"strconv"
	"strings"
)

// format is how a number is shown, as far as this tells its owner's words.
type format struct {
	date          precision // not noDate: the number is a day or a time
	plain         bool      // General or text: the number as it is
	percent       bool
	whole, after  int // figures before and behind the point that are always shown
	before, below string
}

// precision is how much of a day a format shows.
type precision int

const (
	noDate precision = iota
	toYear
	toMonth
	toDay
	toSecond // day and time
	onlyTime
)

// builtIn are the formats with a fixed number that stand in no file
// (ISO/IEC 29500-1, 18.8.30 numFmt); those of 27 to 36 and 50 to 58 are days in
// the East Asian editions.
var builtIn = map[int]string{
	0: "General", 1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00",
	12: "# ?/?", 13: "# ??/??", 14: "yyyy-mm-dd", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy",
	18: "h:mm AM/PM", 19: "h:mm:ss AM/PM", 20: "h:mm", 21: "h:mm:ss", 22: "m/d/yy h:mm",
	37: "#,##0 ;(#,##0)", 38: "#,##0 ;[Red](#,##0)", 39: "#,##0.00;(#,##0.00)", 40: "#,##0.00;[Red](#,##0.00)",
	45: "mm:ss", 46: "[h]:mm:ss", 47: "mmss.0", 48: "##0.0E+0", 49: "@",
}

// readStyles reads the formats of numbers, by the style of a cell.
func (b *Book) readStyles(part string) error {
	x, c, err := b.part(part)
	if err != nil {
		return err
	}
	defer c.Close()
	codes := map[int]string{}
	cells := false
	for {
		kind, err := x.next()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		switch name := string(x.name); {
		case name == "cellXfs":
			cells = kind == xmlStart
		case kind != xmlStart:
		case name == "numFmt" && string(x.attr("formatCode")) != "":
			id, err := strconv.Atoi(string(x.attr("numFmtId")))
			if err != nil {
				continue
			}
			if codes[id], err = x.attrText("formatCode"); err != nil {
				return err
			}
		case name == "xf" && cells:
			id, _ := strconv.Atoi(string(x.attr("numFmtId")))
			b.xlsx.formats = append(b.xlsx.formats, formatOf(id, codes))
		}
	}
}

// formatOf reads the format of a number: the file's own or a built-in one.
func formatOf(id int, codes map[int]string) format {
	code, ok := codes[id]
	if !ok {
		code, ok = builtIn[id]
	}
	if !ok && (id >= 27 && id <= 36 || id >= 50 && id <= 58) {
		return format{date: toDay}
	}
	return readFormat(code)
}

// readFormat reads a format code: its first part, which is that of numbers
// from 0. What it cannot follow it takes for plain.
func readFormat(code string) format {
	var f format
	var signs strings.Builder // what is left without words, colours and conditions
	literal := &f.before
	var elapsed bool
	for i := 0; i < len(code); i++ {
		c := code[i]
		switch {
		case c == ';':
			i = len(code)
		case c == '"':
			end := strings.IndexByte(code[i+1:], '"')
			if end < 0 {
				return format{plain: true}
			}
			*literal += code[i+1 : i+1+end]
			i += end + 1
		case c == '\\' && i+1 < len(code):
			i++
			*literal += code[i : i+1]
		case c == '_' || c == '*': // a gap as wide as the next sign, or filled with it
			i++
		case c == '[':
			end := strings.IndexByte(code[i:], ']')
			if end < 0 {
				return format{plain: true}
			}
			if inner := strings.ToLower(code[i+1 : i+end]); strings.Trim(inner, "h") == "" || strings.Trim(inner, "m") == "" || strings.Trim(inner, "s") == "" {
				elapsed = true
			}
			i += end
		default:
			signs.WriteByte(c)
			if strings.IndexByte("0#?", c) >= 0 {
				literal = &f.below
			}
		}
	}
	s := strings.ToLower(signs.String())
	switch {
	case elapsed || s == "" || s == "general" || strings.Contains(s, "general") || strings.Contains(s, "@"):
		return format{plain: true}
	case strings.ContainsAny(s, "ymdhsb"):
		return format{date: datePrecision(s)}
	}
	return numberFormat(f, s)
}

// datePrecision is how much of a day the signs of a format show.
func datePrecision(s string) precision {
	clock := strings.ContainsAny(s, "hs")
	year, day := strings.ContainsAny(s, "ye"), strings.Contains(s, "d")
	month := strings.Contains(s, "m") && (!clock || day || year)
	switch {
	case clock && (day || year):
		return toSecond
	case clock:
		return onlyTime
	case day || month && !year: // a day and month without the year are still that day
		return toDay
	case month:
		return toMonth
	}
	return toYear
}

// numberFormat reads the figures of a format: 0, #, ?, a point, commas, %.
func numberFormat(f format, s string) format {
	s = strings.TrimSpace(s)
	if strings.Count(s, "%") == 1 {
		f.percent = true
		s = strings.TrimSpace(strings.Replace(s, "%", "", 1))
	}
	if strings.Trim(s, "0#?,. ") != "" || strings.HasSuffix(s, ",") {
		return format{plain: true} // powers of ten, fractions, thousands left out
	}
	whole, after, _ := strings.Cut(s, ".")
	f.whole, f.after = strings.Count(whole, "0"), strings.Count(after, "0")
	f.before, f.below = strings.TrimLeft(f.before, " "), strings.TrimRight(f.below, " ")
	return f
}
