package main

import (
	"os"
	"syscall"
)

// peak is the most memory a program held while it ran, in MiB (getrusage(2): in
// kB on Linux).
func peak(p *os.ProcessState) float64 {
	return float64(p.SysUsage().(*syscall.Rusage).Maxrss) / 1024
}
