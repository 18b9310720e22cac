package main

import (
	"net/url"
	"path"

	"blotter/ledger"
	"blotter/ledger/check"
)

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
		Version string      `json:"version"`
		Rules   []sarifRule `json:"rules"`
	}
	sarifRule struct {
		ID      string       `json:"id"`
		Short   sarifText    `json:"shortDescription"`
		Help    sarifText    `json:"help"`
		Default sarifDefault `json:"defaultConfiguration"`
	}
	sarifDefault struct {
		Level string `json:"level"`
	}
	sarifResult struct {
		RuleID       string             `json:"ruleId"`
		RuleIndex    int                `json:"ruleIndex"`
		Level        string             `json:"level"`
		Message      sarifText          `json:"message"`
		Locations    []sarifLocation    `json:"locations"`
		Suppressions []sarifSuppression `json:"suppressions,omitempty"`
	}
	sarifSuppression struct {
		Kind          string `json:"kind"`
		Justification string `json:"justification"`
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

// sarifMaker puts a log together.
type sarifMaker struct {
	prefix string // of the ledger in the repository
	run    sarifRun
	rules  map[string]int
}

// rule is the place of a code among the rules; each stands there once, with
// what `check --explain` says.
func (m *sarifMaker) rule(f ledger.Finding) int {
	if i, ok := m.rules[f.Code]; ok {
		return i
	}
	c, ok := codeOf(f.Code)
	if !ok {
		c = check.Code{Code: f.Code, Severity: f.Severity, Says: f.Code}
	}
	m.rules[f.Code] = len(m.run.Tool.Driver.Rules)
	m.run.Tool.Driver.Rules = append(m.run.Tool.Driver.Rules, sarifRule{c.Code, sarifText{c.Says}, sarifText{c.String()}, sarifDefault{c.Severity.String()}})
	return m.rules[f.Code]
}

func (m *sarifMaker) add(f ledger.Finding, settled ...sarifSuppression) {
	where := sarifPhysical{Artifact: sarifArtifact{(&url.URL{Path: path.Join(m.prefix, f.Path)}).String()}}
	if f.Line > 0 {
		where.Region = &sarifRegion{f.Line, f.Col}
	}
	text := f.Message
	if f.Hint != "" {
		text += "\n" + f.Hint
	}
	m.run.Results = append(m.run.Results, sarifResult{f.Code, m.rule(f), f.Severity.String(), sarifText{text}, []sarifLocation{{where}}, settled})
}

// printSARIF prints findings for the screens of code hosts. What was let
// stand is among them as suppressed, with who said why: hosts show it as
// closed, and a viewer may ask for it.
func (d *desk) printSARIF(found []ledger.Finding, settled []check.Settled) error {
	m := &sarifMaker{rules: map[string]int{}, run: sarifRun{
		Tool:       sarifTool{sarifDriver{Name: "blotter", Version: programVersion(), Rules: []sarifRule{}}},
		ColumnKind: "unicodeCodePoints", Results: []sarifResult{},
	}}
	if d.repo != nil {
		m.prefix = d.repo.Prefix()
	}
	for _, f := range found {
		m.add(f)
	}
	for _, s := range settled {
		m.add(s.Finding, sarifSuppression{"inSource", letBy(s)})
	}
	return d.printJSON(sarifLog{"https://json.schemastore.org/sarif-2.1.0.json", "2.1.0", []sarifRun{m.run}})
}
