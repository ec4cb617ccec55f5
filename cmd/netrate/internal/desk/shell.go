package desk

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Quoted returns a file name as a shell takes it.
func Quoted(name string) string {
	plain := func(c rune) bool {
		return c > 127 && unicode.IsPrint(c) && c != utf8.RuneError || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.ContainsRune("-_./:,+@%=", c)
	}
	if name != "" && strings.IndexFunc(name, func(c rune) bool { return !plain(c) }) < 0 {
		return name
	}
	if strings.ContainsFunc(name, func(c rune) bool { return !unicode.IsPrint(c) || c == utf8.RuneError }) {
		return "$'" + escaped(name) + "'"
	}
	return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
}

// escaped returns a name with all that a terminal could take for a command as octal numbers
// of its bytes, as shells read them in $'…'.
func escaped(name string) string {
	var b strings.Builder
	for i, c := range name {
		_, size := utf8.DecodeRuneInString(name[i:])
		switch {
		case c == '\'' || c == '\\':
			b.WriteString(`\` + string(c))
		case unicode.IsPrint(c) && c != utf8.RuneError:
			b.WriteRune(c)
		default:
			for _, one := range []byte(name[i : i+size]) {
				fmt.Fprintf(&b, `\%03o`, one)
			}
		}
	}
	return b.String()
}
