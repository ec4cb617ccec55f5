package main

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/internal/cputime"
)

// BenchmarkVerb times one command of every verb that computes, on one worker. The time of the
// processor, cpu-ms/op, is that of the whole process: on a machine that is shared it says more
// than the time on the wall.
func BenchmarkVerb(b *testing.B) {
	for _, command := range []string{
		"run --example direct-mail --reps 64 --uncertainty 0",
		"run --example log-rates --reps 64 --uncertainty 64 --json",
		"run --example statements --reps 1024 --uncertainty 0 --report r.html",
		"run line.yaml --against stops.csv --counts counts.csv --reps 40",
		"compare --example three-offers --reps 64 --uncertainty 0",
		"strategy --example divert-or-stop --reps 12",
		"sweep --example direct-mail --vary line.speed=12000/h:18000/h:4 --reps 64",
		"sensitivity --example direct-mail --reps 64",
		"season --example flats-season --reps 64",
		"fit stops.csv --counts counts.csv",
		"check --example flats-season",
	} {
		b.Run(strings.NewReplacer(" ", "_", "/", "").Replace(strings.ReplaceAll(command, "--", "")), func(b *testing.B) {
			dir := b.TempDir()
			copyInputs(b, dir)
			b.Chdir(dir)
			b.ReportAllocs()
			begun := cputime.OfProcess(b)
			for b.Loop() {
				require.NoError(b, run(strings.Fields(command), desk.Env{
					Out: io.Discard, Err: io.Discard,
					Getenv: func(name string) string { return map[string]string{"NETRATE_WORKERS": "1"}[name] },
				}))
			}
			b.ReportMetric(float64((cputime.OfProcess(b)-begun).Nanoseconds())/1e6/float64(b.N), "cpu-ms/op")
		})
	}
}
