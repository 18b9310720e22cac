package main

import (
	"context"
	"fmt"
)

// settleCommand lets a script call what share calls before it joins two
// copies: settle BASE THEIRS, which are revisions.
func settleCommand() *command {
	return &command{Name: "share", Family: famEnter, Synopsis: "BASE THEIRS", Flags: enterFlags,
		Run: func(ctx context.Context, c *call) error {
			d, err := c.desk()
			if err != nil {
				return err
			}
			var ids [2]string
			for i, rev := range c.args {
				if ids[i], err = d.repo.Resolve(ctx, rev); err != nil {
					return err
				}
			}
			ok, err := d.settleNumbers(ctx, ids[0], ids[1])
			if err == nil {
				fmt.Fprintln(c.Out, "may be joined:", ok)
			}
			return err
		}}
}

func settleMain(args []string) int {
	e := scriptEnv()
	cmd := settleCommand()
	p, err := parse(cmd, args[1:])
	if err == nil {
		err = cmd.Run(context.Background(), &call{env: e, cmd: cmd, args: p.args, opts: p.opts})
	}
	return e.end(cmd, err)
}
