package main

import (
	"path"

	"blotter/ledger"
)

// findingJSON is a finding for programs; the README lists the names.
func findingJSON(f ledger.Finding) any {
	n, _ := ledger.NumberOfPath(f.Path)
	return struct {
		Path     string `json:"path"`
		Sheet    string `json:"sheet,omitempty"`
		Line     int    `json:"line"`
		Col      int    `json:"col"`
		Severity string `json:"severity"`
		Code     string `json:"code"`
		Field    string `json:"field,omitempty"`
		Message  string `json:"message"`
		Hint     string `json:"hint,omitempty"`
	}{f.Path, string(n), f.Line, f.Col, f.Severity.String(), f.Code, f.Field, f.Message, f.Hint}
}

// The Static Analysis Results Interchange Format, version 2.1.0 (OASIS
// Standard, 2020), as far as a list of findings needs it.
type (
	sarifLog struct {
		Schema  string     `json:"$schema"`
		Version string     `json:"version"`
		Runs    []sarifRun `json:"runs"`
	}
	sarifRun struct {
		Tool       sarifTool     `json:"tool"`
		ColumnKind string        `json:"columnKind"`
		Results    []sarifResult `json:"results"`
	}
	sarifTool struct {
		Driver sarifDriver `json:"driver"`
	}
	sarifDriver struct {
		Name    string      `json:"name"`
		Version string      `json:"semanticVersion,omitempty"`
		Rules   []sarifRule `json:"rules"`
	}
	sarifRule struct {
		ID string `json:"id"`
	}
	sarifResult struct {
		RuleID    string          `json:"ruleId"`
		Level     string          `json:"level"`
		Message   sarifText       `json:"message"`
		Locations []sarifLocation `json:"locations"`
	}
	sarifText struct {
		Text string `json:"text"`
	}
	sarifLocation struct {
		Physical sarifPhysical `json:"physicalLocation"`
	}
	sarifPhysical struct {
		Artifact sarifArtifact `json:"artifactLocation"`
		Region   *sarifRegion  `json:"region,omitempty"`
	}
	sarifArtifact struct {
		URI string `json:"uri"`
	}
	sarifRegion struct {
		Line int `json:"startLine"`
		Col  int `json:"startColumn,omitempty"`
	}
)

// printSARIF prints findings for the screens of code hosts.
func (d *desk) printSARIF(found []ledger.Finding) error {
	run := sarifRun{Tool: sarifTool{sarifDriver{Name: "blotter", Rules: []sarifRule{}}}, ColumnKind: "unicodeCodePoints", Results: []sarifResult{}}
	seen := map[string]bool{}
	prefix := ""
	if d.repo != nil {
		prefix = d.repo.Prefix()
	}
	for _, f := range found {
		if !seen[f.Code] {
			seen[f.Code] = true
			run.Tool.Driver.Rules = append(run.Tool.Driver.Rules, sarifRule{f.Code})
		}
		where := sarifPhysical{Artifact: sarifArtifact{path.Join(prefix, f.Path)}}
		if f.Line > 0 {
			where.Region = &sarifRegion{f.Line, f.Col}
		}
		text := f.Message
		if f.Hint != "" {
			text += "\n" + f.Hint
		}
		run.Results = append(run.Results, sarifResult{f.Code, f.Severity.String(), sarifText{text}, []sarifLocation{{where}}})
	}
	return d.printJSON(sarifLog{"https://json.schemastore.org/sarif-2.1.0.json", "2.1.0", []sarifRun{run}})
}
