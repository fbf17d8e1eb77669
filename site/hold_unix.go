//go:build unix && !solaris && !aix

package main

import (
	"os"
	"syscall"
)

// hold locks a folder until its file is closed or the program ends, and reports
// whether it could: only with wait does it wait for who has it.
func hold(f *os.File, wait bool) bool {
	how := syscall.LOCK_EX
	if !wait {
		how |= syscall.LOCK_NB
	}
	for {
		if err := syscall.Flock(int(f.Fd()), how); err != syscall.EINTR {
			return err == nil
		}
	}
}
