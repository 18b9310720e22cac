//go:build unix

package gitrepo

import (
	"context"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"syscall"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/ledger/history"
)

// benchRepo is a synthetic ledger of BLOTTER_BENCH_N records (10,000 when
// unset), in the folder BLOTTER_BENCH_DIR if that names one to keep.
func benchRepo(b *testing.B) string {
	needGit(b)
	n, err := strconv.Atoi(os.Getenv("BLOTTER_BENCH_N"))
	if err != nil {
		n = 10_000
	}
	dir := os.Getenv("BLOTTER_BENCH_DIR")
	if dir == "" {
		dir = b.TempDir()
	}
	if _, err := os.Stat(dir + "/.git"); err != nil {
		synthesize(b, dir, n)
	}
	b.ResetTimer()
	return dir
}

// cpu is the processor time of this process and its finished children.
func cpu() time.Duration {
	var self, children syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &self)
	syscall.Getrusage(syscall.RUSAGE_CHILDREN, &children)
	var d time.Duration
	for _, u := range []syscall.Rusage{self, children} {
		d += time.Duration(u.Utime.Nano() + u.Stime.Nano())
	}
	return d
}

func BenchmarkLog(b *testing.B) {
	dir := benchRepo(b)
	ctx := context.Background()
	measure := func(b *testing.B, f func()) {
		start := cpu()
		for b.Loop() {
			f()
		}
		b.ReportMetric(float64((cpu()-start).Milliseconds())/float64(b.N), "cpu-ms/op")
		var u syscall.Rusage
		syscall.Getrusage(syscall.RUSAGE_SELF, &u)
		b.ReportMetric(float64(u.Maxrss)/1024, "peak-MB")
		runtime.GC()
	}
	b.Run("git", func(b *testing.B) {
		measure(b, func() {
			cmd := exec.Command("git", "log", "--raw", "--no-renames")
			cmd.Dir = dir
			if err := cmd.Run(); err != nil {
				b.Fatal(err)
			}
		})
	})
	for name, environ := range map[string][]string{"program": testEnviron(b), "native": nil} {
		b.Run(name, func(b *testing.B) {
			measure(b, func() {
				r, err := Open(dir, environ)
				if err != nil {
					b.Fatal(err)
				}
				defer r.Close()
				head, err := r.Head(ctx)
				if err != nil {
					b.Fatal(err)
				}
				n := 0
				if err := r.Log(ctx, []string{head}, nil, func(c history.Commit) error { n += len(c.Touches); return nil }); err != nil {
					b.Fatal(err)
				}
			})
		})
	}
}

func BenchmarkReadAll(b *testing.B) {
	dir := benchRepo(b)
	ctx := context.Background()
	for name, open := range map[string]func(r *Repo) (objects, error){"batch": (*Repo).openBatch, "native": (*Repo).openNative} {
		b.Run(name, func(b *testing.B) {
			start := cpu()
			for b.Loop() {
				r, err := Open(dir, testEnviron(b))
				if err != nil {
					b.Fatal(err)
				}
				r.pool.open = func() (objects, error) { return open(r) }
				head, err := r.Head(ctx)
				if err != nil {
					b.Fatal(err)
				}
				src, err := r.At(ctx, head)
				if err != nil {
					b.Fatal(err)
				}
				files, err := src.Files(ctx)
				if err != nil {
					b.Fatal(err)
				}
				for _, f := range files {
					if _, err := src.Read(ctx, f); err != nil {
						b.Fatal(err)
					}
				}
				r.Close()
			}
			b.ReportMetric(float64((cpu()-start).Milliseconds())/float64(b.N), "cpu-ms/op")
		})
	}
}

func BenchmarkStaged(b *testing.B) {
	dir := benchRepo(b)
	ctx := context.Background()
	write(b, dir, map[string]string{syntheticNumber(7).Path(): "changed\n"})
	mustGit(b, dir, "add", "-A")
	b.Run("git", func(b *testing.B) {
		start := cpu()
		for b.Loop() {
			cmd := exec.Command("git", "diff", "--cached", "--raw")
			cmd.Dir = dir
			if err := cmd.Run(); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64((cpu()-start).Microseconds())/float64(b.N)/1000, "cpu-ms/op")
	})
	for name, environ := range map[string][]string{"program": testEnviron(b), "native": nil} {
		b.Run(name, func(b *testing.B) {
			start := cpu()
			for b.Loop() {
				r, err := Open(dir, environ)
				if err != nil {
					b.Fatal(err)
				}
				cs, err := r.Staged(ctx)
				if err != nil || len(cs) != 1 {
					b.Fatal(err, cs)
				}
				if _, err := r.Blob(ctx, cs[0].New); err != nil {
					b.Fatal(err)
				}
				r.Close()
			}
			b.ReportMetric(float64((cpu()-start).Microseconds())/float64(b.N)/1000, "cpu-ms/op")
		})
	}
}

func BenchmarkFiles(b *testing.B) {
	dir := benchRepo(b)
	ctx := context.Background()
	r, err := Open(dir, testEnviron(b))
	if err != nil {
		b.Fatal(err)
	}
	head, err := r.Head(ctx)
	if err != nil {
		b.Fatal(err)
	}
	for name, open := range map[string]func() ledger.Source{
		"work tree": func() ledger.Source { return r.WorkTree(nil) },
		"head":      func() ledger.Source { s, _ := r.At(ctx, head); return s },
		"index":     r.Index,
	} {
		b.Run(name, func(b *testing.B) {
			start := cpu()
			for b.Loop() {
				if _, err := open().Files(ctx); err != nil {
					b.Fatal(err)
				}
				r.Close()
			}
			b.ReportMetric(float64((cpu()-start).Microseconds())/float64(b.N)/1000, "cpu-ms/op")
		})
	}
}

// BenchmarkObjects reads every blob of the last version, in order of path,
// through each reader of packs.
func BenchmarkObjects(b *testing.B) {
	dir := benchRepo(b)
	r, err := Open(dir, os.Environ())
	if err != nil {
		b.Fatal(err)
	}
	defer r.Close()
	src, err := r.At(context.Background(), "HEAD")
	if err != nil {
		b.Fatal(err)
	}
	files, err := src.Files(context.Background())
	if err != nil {
		b.Fatal(err)
	}
	for _, tt := range []struct {
		name string
		open func() (objects, error)
	}{{"packs", r.openPacked}, {"go-git", r.openNative}} {
		b.Run(tt.name, func(b *testing.B) {
			b.ReportAllocs()
			start := cpu()
			for b.Loop() {
				o, err := tt.open()
				if err != nil {
					b.Fatal(err)
				}
				for _, f := range files {
					if _, _, err := o.read(string(f.Blob), 0); err != nil {
						b.Fatal(err)
					}
				}
				o.close()
			}
			b.ReportMetric(float64((cpu()-start).Milliseconds())/float64(b.N), "cpu-ms/op")
		})
	}
}
