package scenarios

import (
	"embed"
	"path"
	"slices"
	"strings"
)

//go:embed examples/*.yaml
var exampleFiles embed.FS

// Example is a scenario that comes with the program. All are invented.
type Example struct {
	Name  string // as it is asked for: direct-mail
	Title string // as the file calls itself
	Data  []byte
}

// Examples returns the examples in the order of their names.
func Examples() []Example {
	entries, err := exampleFiles.ReadDir("examples")
	if err != nil {
		panic("scenarios: the examples are not embedded: " + err.Error())
	}
	var list []Example
	for _, entry := range entries {
		data, err := exampleFiles.ReadFile(path.Join("examples", entry.Name()))
		if err != nil {
			panic("scenarios: an example is not embedded: " + err.Error())
		}
		s, err := Load(entry.Name(), data)
		if err != nil {
			panic("scenarios: an example is wrong: " + err.Error())
		}
		list = append(list, Example{strings.TrimSuffix(entry.Name(), ".yaml"), s.Name, data})
	}
	slices.SortFunc(list, func(a, b Example) int { return strings.Compare(a.Name, b.Name) })
	return list
}

// UnknownExample says that there is no example of a name.
type UnknownExample string

func (e UnknownExample) Error() string {
	var names []string
	for _, x := range Examples() {
		names = append(names, x.Name)
	}
	return "no example is named " + string(e) + ": " + meant(string(e), names)
}

// ExampleNamed returns the example of a name, or an [UnknownExample] with the nearest
// name.
func ExampleNamed(name string) (Example, error) {
	for _, x := range Examples() {
		if x.Name == name {
			return x, nil
		}
	}
	return Example{}, UnknownExample(name)
}
