package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"net/url"
	"slices"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/check"
)

// shape is a property of an object in the schema of SARIF 2.1.0.
type shape struct {
	need  bool
	check func(at string, v any) []string
}

// object is an object of the schema; other properties than those of of are
// refused, since the schema does not allow them.
func object(of map[string]shape) func(string, any) []string {
	return func(at string, v any) (faults []string) {
		m, ok := v.(map[string]any)
		if !ok {
			return []string{at + ": no object"}
		}
		for k := range m {
			if _, ok := of[k]; !ok {
				faults = append(faults, at+": no property "+k)
			}
		}
		for k, p := range of {
			x, ok := m[k]
			switch {
			case ok:
				faults = append(faults, p.check(at+"."+k, x)...)
			case p.need:
				faults = append(faults, at+": lacks "+k)
			}
		}
		return faults
	}
}

func list(of func(string, any) []string) func(string, any) []string {
	return func(at string, v any) (faults []string) {
		l, ok := v.([]any)
		if !ok {
			return []string{at + ": no array"}
		}
		for i, x := range l {
			faults = append(faults, of(fmt.Sprintf("%s[%d]", at, i), x)...)
		}
		return faults
	}
}

func said(at string, v any) []string {
	if s, ok := v.(string); !ok || s == "" {
		return []string{at + ": no text"}
	}
	return nil
}

func among(words ...string) func(string, any) []string {
	return func(at string, v any) []string {
		if s, _ := v.(string); !slices.Contains(words, s) {
			return []string{fmt.Sprintf("%s: %v is none of %v", at, v, words)}
		}
		return nil
	}
}

func atLeast(least float64) func(string, any) []string {
	return func(at string, v any) []string {
		if n, ok := v.(float64); !ok || n < least || n != math.Trunc(n) {
			return []string{fmt.Sprintf("%s: %v", at, v)}
		}
		return nil
	}
}

// reference is a URI reference (RFC 3986).
func reference(at string, v any) []string {
	s, _ := v.(string)
	if _, err := url.Parse(s); err != nil || s == "" || strings.ContainsAny(s, " \\\"<>^`{|}") {
		return []string{fmt.Sprintf("%s: %v is no URI reference", at, v)}
	}
	for _, r := range s {
		if r > 126 {
			return []string{fmt.Sprintf("%s: %v is no URI reference", at, v)}
		}
	}
	return nil
}

// The part of the schema of SARIF 2.1.0 (OASIS Standard, 27 March 2020) that
// our logs use: sections 3.13 sarifLog, 3.14 run, 3.18 tool, 3.19
// toolComponent, 3.27 result, 3.28 location, 3.29 physicalLocation, 3.30
// region, 3.35 suppression, 3.49 reportingDescriptor, 3.11 message; written
// down from memory of the standard.
var (
	level   = among("none", "note", "warning", "error")
	message = object(map[string]shape{"text": {true, said}, "markdown": {false, said}})
	sarif   = object(map[string]shape{
		"$schema": {false, reference},
		"version": {true, among("2.1.0")},
		"runs": {true, list(object(map[string]shape{
			"tool": {true, object(map[string]shape{
				"driver": {true, object(map[string]shape{
					"name":    {true, said},
					"version": {false, said},
					"rules": {false, list(object(map[string]shape{
						"id":                   {true, said},
						"shortDescription":     {false, message},
						"help":                 {false, message},
						"defaultConfiguration": {false, object(map[string]shape{"level": {false, level}})},
					}))},
				})},
			})},
			"columnKind": {false, among("utf16CodeUnits", "unicodeCodePoints")},
			"results": {false, list(object(map[string]shape{
				"ruleId":    {false, said},
				"ruleIndex": {false, atLeast(-1)},
				"level":     {false, level},
				"message":   {true, message},
				"locations": {false, list(object(map[string]shape{
					"physicalLocation": {false, object(map[string]shape{
						"artifactLocation": {false, object(map[string]shape{"uri": {false, reference}})},
						"region":           {false, object(map[string]shape{"startLine": {false, atLeast(1)}, "startColumn": {false, atLeast(1)}})},
					})},
				}))},
				"suppressions": {false, list(object(map[string]shape{
					"kind":          {true, among("inSource", "external")},
					"justification": {false, said},
				}))},
			}))},
		}))},
	})
)

// TestSARIF: a log has the shape that the schema asks for, its rules are
// where its results say, and what was let stand is suppressed.
func TestSARIF(t *testing.T) {
	var out bytes.Buffer
	d := &desk{call: &call{env: &env{Out: &out}}}
	found := []ledger.Finding{
		{Path: "specimens/000/04/LK7-0000482.yaml", Line: 3, Col: 7, Severity: ledger.Warning, Code: "date-two-ways", Field: "date", Message: "can be two days", Hint: "one\ntwo"},
		{Path: "specimens/other/a b é%.yaml", Severity: ledger.Error, Code: "file-empty", Message: "holds nothing"},
		{Path: "names/x.yaml", Line: 1, Severity: ledger.Warning, Code: "date-two-ways", Message: "again"},
	}
	let := []check.Settled{{Finding: found[0], Sic: book.Sic{Code: "date-two-ways", Why: "the field book is lost", By: "Tiril Aune", Date: "2026-01-09"}, In: "LK7-0000999"}}
	if err := d.printSARIF(found, let); err != nil {
		t.Fatal(err)
	}
	var log map[string]any
	if err := json.Unmarshal(out.Bytes(), &log); err != nil {
		t.Fatal(err)
	}
	for _, fault := range sarif("log", log) {
		t.Error(fault)
	}
	var typed sarifLog
	if err := json.Unmarshal(out.Bytes(), &typed); err != nil {
		t.Fatal(err)
	}
	run := typed.Runs[0]
	if len(run.Results) != 4 || len(run.Tool.Driver.Rules) != 2 {
		t.Fatalf("%d results, %d rules", len(run.Results), len(run.Tool.Driver.Rules))
	}
	for i, r := range run.Results {
		if run.Tool.Driver.Rules[r.RuleIndex].ID != r.RuleID {
			t.Errorf("result %d: rule %s is not at %d", i, r.RuleID, r.RuleIndex)
		}
		if (len(r.Suppressions) == 1) != (i == 3) {
			t.Errorf("result %d: %v", i, r.Suppressions)
		}
	}
	if uri := run.Results[1].Locations[0].Physical.Artifact.URI; uri != "specimens/other/a%20b%20%C3%A9%25.yaml" {
		t.Errorf("uri %q", uri)
	}
	if j := run.Results[3].Suppressions[0].Justification; j != "the field book is lost (Tiril Aune, 2026-01-09, in LK7-0000999)" {
		t.Errorf("justification %q", j)
	}
	if region := run.Results[2].Locations[0].Physical.Region; region.Line != 1 || region.Col != 0 {
		t.Errorf("region %+v", region)
	}

	out.Reset() // no findings: still a run with results
	if err := d.printSARIF(nil, nil); err != nil || !strings.Contains(out.String(), `"results":[]`) {
		t.Errorf("%v %s", err, out.String())
	}
}
