package desk

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOutFile(t *testing.T) {
	files := func(dir string) []string {
		list, err := filepath.Glob(filepath.Join(dir, "*"))
		require.NoError(t, err)
		for i := range list {
			list[i] = filepath.Base(list[i])
		}
		return list
	}
	t.Run("takes its place when it is whole", func(t *testing.T) {
		place := filepath.Join(t.TempDir(), "rows.csv")
		require.NoError(t, os.WriteFile(place, []byte("old"), 0o640))
		f, err := Create(Env{}, "csv", place)
		require.NoError(t, err)
		_, err = f.WriteString("new")
		require.NoError(t, err)
		old, err := os.ReadFile(place)
		require.NoError(t, err)
		assert.Equal(t, "old", string(old))
		require.NoError(t, f.Finish())
		f.Drop() // does nothing any more
		got, err := os.ReadFile(place)
		require.NoError(t, err)
		assert.Equal(t, "new", string(got))
		assert.Equal(t, []string{"rows.csv"}, files(filepath.Dir(place)))
		info, err := os.Stat(place)
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(0o640), info.Mode())
	})
	t.Run("leaves nothing when it is dropped", func(t *testing.T) {
		dir := t.TempDir()
		f, err := Create(Env{}, "csv", filepath.Join(dir, "rows.csv"))
		require.NoError(t, err)
		f.Drop()
		assert.Empty(t, files(dir))
	})
	t.Run("follows a link", func(t *testing.T) {
		dir := t.TempDir()
		place, link := filepath.Join(dir, "rows.csv"), filepath.Join(dir, "link.csv")
		require.NoError(t, os.WriteFile(place, nil, 0o600))
		require.NoError(t, os.Symlink(place, link))
		f, err := Create(Env{}, "csv", link)
		require.NoError(t, err)
		_, err = f.WriteString("new")
		require.NoError(t, err)
		require.NoError(t, f.Finish())
		got, err := os.ReadFile(place)
		require.NoError(t, err)
		assert.Equal(t, "new", string(got))
	})
	t.Run("is refused where there is a directory", func(t *testing.T) {
		_, err := Create(Env{}, "csv", t.TempDir())
		require.ErrorContains(t, err, "is a directory")
	})
	t.Run("is refused where there is no directory", func(t *testing.T) {
		_, err := Create(Env{}, "csv", filepath.Join(t.TempDir(), "none", "rows.csv"))
		require.Error(t, err)
	})
}
