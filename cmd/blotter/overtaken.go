package main

import (
	"bytes"
	"errors"
)

// errOvertaken: a file is no longer as it was when the command read it.
var errOvertaken = errors.New("somebody else wrote it meanwhile")

// notOvertaken refuses changes of files that another command wrote since they
// were read. Two persons who make a sheet at once would otherwise be given one
// number, and the later record would take the place of the earlier.
func (d *desk) notOvertaken(changes []fileChange) error {
	for _, c := range changes {
		now, err := d.read(c.path)
		if err != nil {
			return err
		}
		if (now == nil) != (c.old == nil) || !bytes.Equal(now, c.old) {
			return overtaken(c.path)
		}
	}
	return nil
}

func overtaken(path string) error {
	return stuck("%s: %w; nothing was changed", sheetOrPath(path), errOvertaken).try("Type the command again.")
}
