package main

import (
	"context"
	"fmt"
	"runtime"
	"runtime/debug"

	"blotter/ledger"
)

func versionCommand() *command {
	return &command{
		Name: "version", Family: famSetUp,
		Says: "Shows which blotter this is and which format it reads.",
		Examples: []example{
			{"blotter version", "for a report of a fault"},
			{"blotter --version", "the same"},
			{"blotter version --json", "the same for a program"},
		},
		Flags: []*flag{flagJSON},
		Kin:   []string{"help", "completion"},
		Run: func(_ context.Context, c *call) error {
			v := programVersion()
			if c.opts.has("json") && c.opts.on("json") {
				return c.printJSON(struct {
					Version string `json:"version"`
					Format  string `json:"format"`
					Go      string `json:"go"`
				}{v, ledger.FormatVersion, runtime.Version()})
			}
			fmt.Fprintf(c.Out, "blotter %s, ledger format %s, %s\n", v, ledger.FormatVersion, runtime.Version())
			return nil
		},
	}
}

// programVersion is the module's version, or the revision it was built from.
func programVersion() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 7 {
			return "revision " + s.Value[:7]
		}
	}
	return "development"
}
