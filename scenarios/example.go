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
	var list []Example
	for _, name := range exampleNames() {
		list = append(list, exampleOf(name))
	}
	return list
}

// exampleNames returns the names of all examples, in order.
func exampleNames() (names []string) {
	entries, err := exampleFiles.ReadDir("examples")
	if err != nil {
		panic("scenarios: the examples are not embedded: " + err.Error())
	}
	for _, entry := range entries {
		names = append(names, strings.TrimSuffix(entry.Name(), ".yaml"))
	}
	slices.Sort(names) // as file names flats-season.yaml is before flats.yaml
	return names
}

// exampleOf returns the example of a name that there is.
func exampleOf(name string) Example {
	file := name + ".yaml"
	data, err := exampleFiles.ReadFile(path.Join("examples", file))
	if err != nil {
		panic("scenarios: an example is not embedded: " + err.Error())
	}
	s, err := Load(file, data)
	if err != nil {
		panic("scenarios: an example is wrong: " + err.Error())
	}
	return Example{name, s.Name, data}
}

// UnknownExample says that there is no example of a name.
type UnknownExample string

func (e UnknownExample) Error() string {
	return "no example is named " + string(e) + ": " + meant(string(e), exampleNames())
}

// ExampleNamed returns the example of a name, or an [UnknownExample] with the nearest
// name.
func ExampleNamed(name string) (Example, error) {
	if !slices.Contains(exampleNames(), name) {
		return Example{}, UnknownExample(name)
	}
	return exampleOf(name), nil
}
