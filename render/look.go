package render

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// lookAgain looks through the pages that stand, for what is looked for since
// they were made, and adds to jobs those that must be made anew: what another
// record withholds now is left out of them then, or found.
func (b *build) lookAgain(ctx context.Context, jobs []job) ([]job, error) {
	if b.in.Look == nil {
		return jobs, nil
	}
	doubtful := b.doubtful
	again := make([]bool, len(doubtful))
	var next atomic.Int64
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for ctx.Err() == nil {
				i := int(next.Add(1)) - 1
				if i >= len(doubtful) {
					return
				}
				again[i] = !b.clean(&doubtful[i])
			}
		})
	}
	wg.Wait()
	for i, j := range doubtful {
		if again[i] {
			jobs = append(jobs, j)
			for _, f := range b.made[j.name].files(j.name) {
				b.files.unmade(f)
			}
			delete(b.made, j.name)
		}
	}
	return jobs, ctx.Err()
}

// known reports whether the files of a page that stands have been looked
// through for all that is looked for.
func (b *build) known(j *job) bool {
	for _, f := range b.made[j.name].files(j.name) {
		if !b.in.Look.Known(f, b.files.was(f)) {
			return false
		}
	}
	return true
}

// clean reports whether the files of a page that stands have nothing in them.
func (b *build) clean(j *job) bool {
	for _, f := range b.made[j.name].files(j.name) {
		if b.in.Look.Known(f, b.files.was(f)) {
			continue
		}
		data, err := b.out.Read(f)
		if err != nil || sumOf(data) != b.files.was(f) || !b.in.Look.Clean(f, b.files.was(f), data) {
			return false
		}
	}
	return true
}

// looked refuses to put anything in place when something was found.
func (b *build) looked(ctx context.Context) error {
	if b.in.Look == nil {
		return nil
	}
	var err error
	if b.report.Look, err = b.in.Look.Report(ctx); err != nil {
		return err
	}
	if leaks := b.report.Look.Leaks; len(leaks) > 0 {
		return &Leak{Leaks: leaks}
	}
	return nil
}
