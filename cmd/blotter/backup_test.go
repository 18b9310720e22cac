package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// cmdHarm copies a file with one byte changed, or only its beginning:
// harm flip|cut BYTE FROM TO
func cmdHarm(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 4 {
		ts.Fatalf("usage: harm flip|cut BYTE FROM TO")
	}
	at, err := strconv.Atoi(args[1])
	ts.Check(err)
	text, err := os.ReadFile(ts.MkAbs(args[2]))
	ts.Check(err)
	if at >= len(text) {
		ts.Fatalf("%s has only %d bytes", args[2], len(text))
	}
	if args[0] == "cut" {
		text = text[:at]
	} else {
		text[at] ^= 0x20
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[3]), text, 0o666))
}

// TestBackupFaults: at whatever step a backup or its restoring is broken off,
// what stands at the place is the old backup, the new one, or one without a
// checksum beside it, and never a half; of a ledger being restored there is
// all or nothing; and the next run succeeds.
func TestBackupFaults(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("it starts some dozens of processes")
	}
	dir := copyLedger(t, sampleLedger(t))
	place := t.TempDir()
	b := backupBench{dir: dir, file: filepath.Join(place, "x.bundle"), ledger: filepath.Join(place, "again")}
	file, ledger := b.file, b.ledger
	if out, err := runFaulty(dir, "", []string{"backup", "--to", file}); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	var err error
	if b.old, err = os.ReadFile(file); err != nil {
		t.Fatal(err)
	}
	if out, err := runFaulty(dir, "", []string{"note", "1", "runners", "--by", "Signe Rask"}); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for _, args := range [][]string{{"backup", "--to", file, "--yes"}, {"restore", file, ledger}} {
		log := filepath.Join(t.TempDir(), "steps")
		if out, err := runFaulty(dir, "0:fail:"+log, args); err != nil {
			t.Fatalf("%s without a fault: %v\n%s", args[0], err, out)
		}
		text, err := os.ReadFile(log)
		if err != nil {
			t.Fatal(err)
		}
		whole, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		n := bytes.Count(text, []byte("\n"))
		for _, at := range momentsOf(n, 14) {
			for _, how := range []string{"fail", "short", "kill"} {
				if how == "short" && !isWrite(text, at) {
					continue
				}
				b.broken(t, args, fmt.Sprintf("%d:%s", at, how), whole)
			}
		}
	}
}

// backupBench is a ledger, an old backup of it, and where one is restored.
type backupBench struct {
	dir, file, ledger string
	old               []byte // the old backup
}

// broken runs a command with a fault and then again without. whole is the
// backup that the fault keeps from its place.
func (b backupBench) broken(t *testing.T, args []string, fault string, whole []byte) {
	t.Helper()
	if args[0] == "backup" {
		if err := os.WriteFile(b.file, b.old, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.RemoveAll(b.ledger); err != nil {
		t.Fatal(err)
	}
	out, _ := runFaulty(b.dir, fault, args)
	if got, err := os.ReadFile(b.file); err != nil || !bytes.Equal(got, b.old) && !bytes.Equal(got, whole) {
		t.Errorf("%s, fault %s: neither the old backup nor the new one stands there: %v\n%s", args[0], fault, err, out)
	}
	if _, err := os.Stat(b.ledger); err == nil {
		if out, err := runFaulty(b.ledger, "", []string{"status"}); err != nil || !bytes.Contains([]byte(out), []byte("Nothing is waiting")) {
			t.Errorf("%s, fault %s: what is restored is not whole: %v\n%s", args[0], fault, err, out)
		}
		if err := os.RemoveAll(b.ledger); err != nil {
			t.Fatal(err)
		}
	}
	if out, err := runFaulty(b.dir, "", args); err != nil {
		t.Errorf("%s, fault %s: the next run: %v\n%s", args[0], fault, err, out)
	}
}
