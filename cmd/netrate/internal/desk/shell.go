package desk

import "strings"

// Quoted returns a file name as a shell takes it.
func Quoted(name string) string {
	plain := func(c rune) bool {
		return c > 127 || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.ContainsRune("-_./:,+@%=", c)
	}
	if name != "" && strings.IndexFunc(name, func(c rune) bool { return !plain(c) }) < 0 {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
}
