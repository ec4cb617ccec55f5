package desk

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// filed returns flags of two inputs, three outputs and a directory, read from args.
func filed(t *testing.T, args ...string) *pflag.FlagSet {
	t.Helper()
	flags := NewFlags("run")
	for _, name := range []string{"against", "counts"} {
		flags.String(name, "", "read `FILE`")
	}
	Reads(flags, "against", "counts")
	o := &Outputs{}
	o.AddData(flags, "csv", "write `FILE`")
	o.AddFiles(flags)
	require.NoError(t, flags.Parse(args))
	return flags
}

func TestApart(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for _, name := range []string{"in.yaml", "stops.csv", "old.csv"} {
		require.NoError(t, os.WriteFile(name, []byte(name), 0o600))
	}
	require.NoError(t, os.Mkdir("sub", 0o700))
	require.NoError(t, os.Symlink(filepath.Join(dir, "in.yaml"), "link"))
	require.NoError(t, os.Symlink("link", "chain"))
	require.NoError(t, os.Symlink("sub/none", "dangling"))
	require.NoError(t, os.Symlink("loop", "loop"))
	require.NoError(t, os.Link("in.yaml", "hard"))
	require.NoError(t, os.Symlink("../old.csv", "sub/x.PNG"))
	for name, c := range map[string]struct {
		args string
		want string // "" if all is well
	}{
		"nothing written":       {"in.yaml in.yaml", ""},
		"another name":          {"in.yaml --csv new.csv", ""},
		"itself":                {"in.yaml --csv in.yaml", "--csv in.yaml is the same file as in.yaml"},
		"the second input":      {"old.csv in.yaml --csv in.yaml", "--csv in.yaml is the same file as in.yaml"},
		"by another way":        {"in.yaml --csv sub/../in.yaml", "--csv sub/../in.yaml is the same file as in.yaml"},
		"a link":                {"in.yaml --report chain", "--report chain is the same file as in.yaml"},
		"an input's link":       {"chain --report in.yaml", "--report in.yaml is the same file as chain"},
		"a hard link":           {"in.yaml --xlsx hard", "--xlsx hard is the same file as in.yaml"},
		"the input of a flag":   {"in.yaml --against stops.csv --csv stops.csv", "--csv stops.csv is the same file as --against stops.csv"},
		"two outputs":           {"in.yaml --csv a --xlsx a", "--csv a and --xlsx a are one file"},
		"two outputs, one old":  {"in.yaml --csv old.csv --xlsx sub/../old.csv", "are one file"},
		"two, through a link":   {"in.yaml --csv dangling --xlsx sub/none", "are one file"},
		"same name, two places": {"in.yaml --csv none --xlsx sub/none", ""},
		"printed":               {"in.yaml --csv - --xlsx a", ""},
		"into a directory":      {"in.yaml --plots sub --csv sub/rows.csv", ""},
		"among pictures":        {"in.yaml --plots sub --csv sub/rows.svg", "--csv sub/rows.svg is among the pictures of --plots sub"},
		"a picture links to it": {"in.yaml --plots sub --csv old.csv", "--csv old.csv is among the pictures of --plots sub"},
		"an input is a picture": {"old.csv --plots sub", "old.csv is among the pictures of --plots sub and is read"},
		"the null device":       {"in.yaml --csv /dev/null --xlsx /dev/null", ""},
		"a loop of links":       {"loop --csv loop", "--csv loop is the same file as loop"},
	} {
		t.Run(name, func(t *testing.T) {
			flags := filed(t, strings.Fields(c.args)...)
			err := apart(flags, Env{}, flags.Args())
			if c.want == "" {
				require.NoError(t, err)
				return
			}
			require.ErrorContains(t, err, c.want)
			assert.Equal(t, 2, Status(err))
		})
	}
}

// Standard input and output are compared as well, where they are files.
func TestApartFromStandard(t *testing.T) {
	t.Chdir(t.TempDir())
	f, err := os.Create("f")
	require.NoError(t, err)
	defer func() { require.NoError(t, f.Close()) }()
	flags := filed(t, "-", "--csv", "f")
	require.ErrorContains(t, apart(flags, Env{In: f}, flags.Args()), "--csv f is the same file as standard input")
	require.ErrorContains(t, apart(flags, Env{Stdout: f}, flags.Args()), "--csv f is the file that the answer is printed to")
	flags = filed(t, "f")
	require.ErrorContains(t, apart(flags, Env{Stdout: f}, flags.Args()), "f is read, and the answer is printed to it")
}
