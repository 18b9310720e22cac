package main

import (
	"os"
	"syscall"
)

// peak is the most memory the ended process held, in bytes.
func peak(s *os.ProcessState) int64 {
	if u, ok := s.SysUsage().(*syscall.Rusage); ok {
		return u.Maxrss * 1024
	}
	return 0
}
