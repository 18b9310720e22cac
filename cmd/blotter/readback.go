package main

import (
	"fmt"
	"strings"
	"unicode"

	"blotter/ledger/names"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

// unreadName says that a name could not be read; "" when it could.
func unreadName(typed string) string {
	if reading.AbsenceOf(typed) != reading.Present {
		return ""
	}
	switch n, err := names.Read(typed); {
	case err != nil:
		return "could not be read as a name; it stays as typed"
	case n.Tail != "":
		return "its end could not be read as part of the name: " + n.Tail
	}
	return ""
}

// noPerson doubts that somebody is called as typed: a number stands there that
// was meant for the next question.
func noPerson(typed string) (string, bool) {
	if strings.ContainsFunc(typed, unicode.IsLetter) || !strings.ContainsFunc(typed, unicode.IsDigit) {
		return "", false
	}
	return "is a number and nobody's name; the number is asked for below", true
}

// readPosition says what is read in a position.
func readPosition(typed string) (string, bool) {
	p := places.ReadPosition(typed)
	if !p.Known() {
		if reading.AbsenceOf(typed) != reading.Present {
			return "", false
		}
		if height := places.ReadElevation(typed); height.Known() && len(height.Warnings) == 0 {
			return "is no position; it reads as an elevation, which is asked for below", true
		}
		return "could not be read as a position; it stays as typed", false
	}
	return fmt.Sprintf("read as %s, to about %.0f m", p, p.Precision()), false
}

// readHeight says what is read in a height.
func readHeight(typed string) (string, bool) {
	return lengthSaid(typed, places.ReadElevation(typed), "height")
}

// readLength says what is read in a length.
func readLength(typed string) (string, bool) {
	return lengthSaid(typed, places.ReadLength(typed), "length")
}

func lengthSaid(typed string, l places.Length, what string) (string, bool) {
	switch {
	case !l.Known():
		if reading.AbsenceOf(typed) != reading.Present {
			return "", false
		}
		return "could not be read as a " + what + "; it stays as typed", false
	case len(l.Warnings) > 0:
		return l.Warnings[0].Message, false
	case l.String() != typed:
		return "read as " + l.String(), false
	}
	return "", false
}
