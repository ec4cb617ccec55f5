package desk

import (
	"unsafe"

	"golang.org/x/sys/windows"
)

var consoleProcesses = windows.NewLazySystemDLL("kernel32.dll").NewProc("GetConsoleProcessList")

// OwnConsole reports whether the console of the program is its own, and not that of a shell: it is
// the only one in it, as after a double click.
func OwnConsole() bool {
	var list [2]uint32
	n, _, _ := consoleProcesses.Call(uintptr(unsafe.Pointer(&list[0])), uintptr(len(list)))
	return n == 1
}
