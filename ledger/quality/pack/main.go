// Command pack writes countries.txt: the names of countries in the languages of
// CLDR, as golang.org/x/text/language/display carries them, for the lookup in
// ledger/quality. Importing that package into the program itself would cost
// every start a millisecond. Run it in ledger/quality:
//
//	go run ./pack > countries.txt
package main

import (
	"bufio"
	"fmt"
	"os"
	"slices"
	"strings"

	"golang.org/x/text/language"
	"golang.org/x/text/language/display"

	"blotter/ledger/land"
	"blotter/ledger/quality"
)

func main() {
	codes := map[string]string{} // folded name -> code, "" for two
	for _, tag := range display.Supported.Tags() {
		namer := display.Regions(tag)
		if namer == nil {
			continue
		}
		for _, code := range land.Codes() {
			region, err := language.ParseRegion(code)
			if err != nil {
				continue
			}
			name := quality.FoldCountry(namer.Name(region))
			switch old, taken := codes[name]; {
			case len(name) <= 2:
			case taken && old != code:
				codes[name] = ""
			default:
				codes[name] = code
			}
		}
	}
	names := map[string][]string{}
	for name, code := range codes {
		if known, ok := land.CodeOf(name); code != "" && (!ok || known != code) {
			names[code] = append(names[code], name)
		}
	}
	out := bufio.NewWriter(os.Stdout)
	defer out.Flush()
	fmt.Fprintln(out, "# Made by ledger/quality/pack: names of countries in the languages of CLDR, folded (letters and marks, small), that ledger/land")
	fmt.Fprintln(out, "# does not know and that mean one country. Source: Unicode CLDR as in golang.org/x/text/language/display; licence in COUNTRIES.md.")
	for _, code := range land.Codes() {
		if list := names[code]; len(list) > 0 {
			slices.Sort(list)
			fmt.Fprintln(out, code+"|"+strings.Join(list, ";"))
		}
	}
}
