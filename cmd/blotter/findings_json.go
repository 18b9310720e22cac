package main

import (
	"blotter/ledger"
	"blotter/ledger/check"
)

// findingInJSON is a finding for programs; the README lists the names.
type findingInJSON struct {
	Path     string     `json:"path"`
	Sheet    string     `json:"sheet,omitempty"`
	Line     int        `json:"line"`
	Col      int        `json:"col"`
	Severity string     `json:"severity"`
	Code     string     `json:"code"`
	Field    string     `json:"field,omitempty"`
	Message  string     `json:"message"`
	Hint     string     `json:"hint,omitempty"`
	Settled  *sicInJSON `json:"settled,omitempty"`
}

// sicInJSON is what lets a warning stand, and the sheet whose record has it.
type sicInJSON struct {
	Why   string `json:"why"`
	By    string `json:"by"`
	Date  string `json:"date"`
	Sheet string `json:"sheet"`
}

func findingJSON(f ledger.Finding) findingInJSON {
	n, _ := ledger.NumberOfPath(f.Path)
	return findingInJSON{f.Path, string(n), f.Line, f.Col, f.Severity.String(), f.Code, f.Field, f.Message, f.Hint, nil}
}

func settledJSON(s check.Settled) findingInJSON {
	out := findingJSON(s.Finding)
	out.Settled = &sicInJSON{s.Sic.Why, s.Sic.By, s.Sic.Date, string(s.In)}
	return out
}
