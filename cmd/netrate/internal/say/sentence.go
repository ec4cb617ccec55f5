package say

import "strings"

// Slug returns a name as a part of a file name.
func Slug(name string) string {
	return strings.Trim(strings.Map(func(r rune) rune {
		if r > 127 || r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, strings.ToLower(strings.NewReplacer(", ", "-", ": ", "-").Replace(name))), "-")
}

// List returns "a", "a and b", or "a, b and c".
func List(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// Or returns "a", "a or b", or "a, b or c", as a list of what is denied.
func Or(names []string) string {
	if len(names) < 2 {
		return List(names)
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// Capital returns the text with a capital for its first letter, unless it begins with a
// quotation mark.
func Capital(text string) string {
	if text == "" || text[0] < 'a' || text[0] > 'z' {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// Small returns the text with a small first letter, as it stands after a colon.
func Small(text string) string {
	if text == "" || text[0] < 'A' || text[0] > 'Z' {
		return text
	}
	return strings.ToLower(text[:1]) + text[1:]
}
