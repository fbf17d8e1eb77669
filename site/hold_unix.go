//go:build unix && !solaris && !aix

package main

import (
	"os"
	"syscall"
)

// hold locks a folder until its file is closed or the program ends, and reports
// whether nobody else has it.
func hold(f *os.File) bool { return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) == nil }
