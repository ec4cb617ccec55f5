package golden

import (
	"fmt"
	"io"
	"reflect"
)

// Numbers writes every number of a value that is not 0, in full and by its name, a line each: what
// a value has besides, and never was anything else than 0, changes nothing. The entries of a list
// are called as entry says.
func Numbers(w io.Writer, x any, entry func(list reflect.Type, i int) string) {
	numbers(w, "", reflect.ValueOf(x), entry)
}

func numbers(w io.Writer, name string, v reflect.Value, entry func(list reflect.Type, i int) string) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			numbers(w, name+"."+v.Type().Field(i).Name, v.Field(i), entry)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			numbers(w, name+"["+entry(v.Type(), i)+"]", v.Index(i), entry)
		}
	case reflect.String:
		fmt.Fprintf(w, "%s %q\n", name, v.String())
	default:
		if !v.IsZero() {
			fmt.Fprintf(w, "%s %v\n", name, v)
		}
	}
}
