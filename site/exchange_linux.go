package main

import (
	"errors"
	"runtime"
	"syscall"
	"unsafe"
)

// renameat2 is the number of that call on each processor (the kernel's
// syscall tables; package syscall was frozen before it had them all).
var renameat2 = map[string]uintptr{"amd64": 316, "386": 353, "arm": 382, "arm64": 276, "riscv64": 276, "loong64": 276}

// exchange lets two folders change names in one step (renameat2(2) with
// RENAME_EXCHANGE, Linux 3.15).
func exchange(a, b string) error {
	const here, both = ^uintptr(99), 2 // AT_FDCWD is -100, RENAME_EXCHANGE is 2
	number, ok := renameat2[runtime.GOARCH]
	if !ok {
		return errors.ErrUnsupported
	}
	from, err := syscall.BytePtrFromString(a)
	if err != nil {
		return err
	}
	to, err := syscall.BytePtrFromString(b)
	if err != nil {
		return err
	}
	_, _, code := syscall.Syscall6(number, here, uintptr(unsafe.Pointer(from)), here, uintptr(unsafe.Pointer(to)), both, 0)
	if code != 0 {
		return code
	}
	return nil
}
