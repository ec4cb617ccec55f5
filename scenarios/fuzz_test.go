package scenarios

import (
	"os"
	"path/filepath"
	"testing"
)

// Whatever the bytes, Load returns problems or a line that its own check passes.
func FuzzLoad(f *testing.F) {
	for _, pattern := range []string{"testdata/bad/*.yaml", "testdata/*.yaml", "examples/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			f.Fatal(pattern, err)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Add([]byte(everything))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := Load("fuzz.yaml", data)
		if err != nil {
			problems, ok := err.(Problems)
			if s != nil || !ok || len(problems) == 0 || problems.Error() == "" {
				t.Fatalf("scenario %v with error %#v", s, err)
			}
			return
		}
		if errs := s.Line.Check(); len(errs) > 0 {
			t.Fatalf("a line that cannot run: %v", errs)
		}
		if !(s.Run.Precision > 0 && s.Run.Min >= 2 && s.Run.Min <= s.Run.Max) {
			t.Fatalf("settings %+v", s.Run)
		}
	})
}
