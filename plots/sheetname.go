package plots

import (
	"fmt"
	"strings"
	"unicode/utf16"
)

// sheetNames returns a name for the sheet of each table: 1 to 31 characters, none
// of : \ / ? * [ ], no apostrophe at the ends, and no two alike, capitals or not.
// "History" is taken by the program itself. Source: the help of a common
// spreadsheet (from memory); the library refuses most of it.
func sheetNames(tables []Table) []string {
	taken := map[string]bool{"history": true}
	var names []string
	for _, t := range tables {
		legal := strings.Map(func(r rune) rune {
			if strings.ContainsRune(`:\/?*[]`, r) {
				return '-'
			}
			return r
		}, oneLine(t.Name))
		name := sheetName(legal, "")
		for n := 2; taken[strings.ToLower(name)]; n++ {
			name = sheetName(legal, fmt.Sprintf(" %d", n))
		}
		taken[strings.ToLower(name)] = true
		names = append(names, name)
	}
	return names
}

// sheetName returns a name with its suffix, cut to what a sheet may have. Length
// counts in UTF-16, as spreadsheets do.
func sheetName(name, suffix string) string {
	const most = 31
	runes := []rune(strings.Trim(name, "' "))
	for len(utf16.Encode(runes))+len(suffix) > most {
		runes = runes[:len(runes)-1]
	}
	name = strings.Trim(string(runes), "' ")
	if name == "" {
		name = "Table"
	}
	return name + suffix
}
