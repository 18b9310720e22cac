package main

import (
	"context"
	"io"
	"os"
	"strings"

	"blotter/ledger"
)

// newGathering makes the sheets of a file for a day's gathering: what all
// have in common once, then each plant after a line of three hyphens.
//
//	collector: Signe Rask
//	date: 14.vii.2025
//	country: Norway
//	---
//	number: 1207
//	name: Ranunculus acris L.
//	---
//	number: 1208
//	name: Trollius europaeus L.
func (d *desk) newGathering(ctx context.Context, from string, free func() (ledger.Number, error)) error {
	var content []byte
	var err error
	if from == "-" {
		content, err = io.ReadAll(io.LimitReader(d.In, ledger.MaxFile))
	} else {
		content, err = os.ReadFile(inDir(d.Dir, from))
	}
	if err != nil {
		return stuck("%v", err)
	}
	plants, err := readGathering(from, string(content))
	if err != nil {
		return err
	}
	var changes []fileChange
	given := map[string]bool{}
	for _, p := range plants {
		n := ledger.Number(p["specimen"])
		if n == "" {
			if n, err = free(); err != nil {
				return err
			}
		} else {
			n = fullNumber(string(n), d)
		}
		delete(p, "specimen")
		if err := d.mayBeGiven(ctx, n); err != nil {
			return err
		}
		if given[n.Key()] {
			return misuse("%s: the number %s is given twice", from, n)
		}
		given[n.Key()] = true
		c, err := d.newRecord(n, p, d.opts.on("draft"))
		if err != nil {
			return err
		}
		changes = append(changes, c)
		d.say("%s  %s", n, d.standing(decoded(c.path, c.new)).shown)
	}
	r, err := d.enter(ctx, entry{changes: changes})
	if err != nil {
		return err
	}
	d.reportNew(r, changes)
	return nil
}

// gatheringWords are names for fields in such a file beside those of
// FORMAT.md: as new asks for them.
var gatheringWords = map[string]string{
	"sheet": "specimen", "number": "coll_no", "name": newNameKey, "det. by": newBy, "det-by": newBy, "det. date": newNamed, "det-date": newNamed, "plant": "description",
}

// readGathering reads the file: the fields of each plant, the common ones
// filled in.
func readGathering(name, content string) ([]map[string]string, error) {
	common := map[string]string{}
	var plants []map[string]string
	into := common
	group := ""
	for i, line := range strings.Split(strings.ReplaceAll(content, "\r", ""), "\n") {
		trimmed := strings.TrimSpace(line)
		switch {
		case trimmed == "" || strings.HasPrefix(trimmed, "#"):
			continue
		case trimmed == "---":
			into = map[string]string{}
			plants = append(plants, into)
			group = ""
			continue
		}
		key, value, ok := strings.Cut(trimmed, ":")
		if !ok {
			return nil, misuse("%s, line %d: %q is no FIELD: VALUE", name, i+1, trimmed)
		}
		key, value = strings.TrimSpace(key), strings.TrimSpace(value)
		if line[0] != ' ' && line[0] != '\t' {
			group = ""
		}
		if value == "" && line[0] != ' ' {
			group = key + "."
			continue
		}
		path, err := gatheringField(group+key, key)
		if err != nil {
			f := err.(*fault)
			return nil, misuse("%s, line %d: %v", name, i+1, f.err)
		}
		if _, twice := into[path]; twice {
			return nil, misuse("%s, line %d: %s is given twice", name, i+1, path)
		}
		into[path] = unquoted(value)
	}
	if len(plants) == 0 {
		return nil, misuse("%s has no plant; each begins after a line ---", name)
	}
	for _, p := range plants {
		for k, v := range common {
			if _, own := p[k]; !own {
				p[k] = v
			}
		}
	}
	return plants, nil
}

func gatheringField(full, short string) (string, error) {
	if path, ok := gatheringWords[strings.ToLower(short)]; ok && full == short {
		return path, nil
	}
	path, _, err := findField(full)
	return path, err
}

// unquoted is a value without the quotes around it.
func unquoted(v string) string {
	if n := len(v); n >= 2 && (v[0] == '"' || v[0] == '\'') && v[n-1] == v[0] {
		return v[1 : n-1]
	}
	return v
}
