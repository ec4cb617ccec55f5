//go:build !windows

package desk

// OwnConsole reports whether the console of the program is its own, and not that of a shell. Only
// Windows gives one to a program that is started by a double click.
func OwnConsole() bool { return false }
