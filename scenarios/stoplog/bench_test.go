package stoplog

import (
	"fmt"
	"io"
	"strings"
	"testing"
)

// logOf is a log of any length, made as it is read: the same rows over and over.
type logOf struct {
	block string
	left  int // blocks
	rest  string
}

func newLog(rows int) *logOf {
	const inBlock = 1000
	var b strings.Builder
	for i := range inBlock {
		fmt.Fprintf(&b, "2026-03-31 14:%02d:%02d,feeder %d,%s,%d.5,march %d\n", i/17%60, i%60, i%9, []string{"double", "Jam", "misfeed", "odd noise"}[i%4], 20+i%97, i%40)
	}
	return &logOf{rest: "start,station,cause,seconds,job\n", block: b.String(), left: rows / inBlock}
}

func (l *logOf) Read(p []byte) (int, error) {
	if l.rest == "" {
		if l.left == 0 {
			return 0, io.EOF
		}
		l.left, l.rest = l.left-1, l.block
	}
	n := copy(p, l.rest)
	l.rest = l.rest[n:]
	return n, nil
}

// What is allocated does not grow with the file: compare B/op of the two.
func BenchmarkRead(b *testing.B) {
	for _, rows := range []int{50_000, 5_000_000} {
		b.Run(fmt.Sprintf("rows=%d", rows), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				report, err := Read(newLog(rows), Mapping{}, func(Stop) error { return nil })
				if err != nil || report.Used != int64(rows) {
					b.Fatal(report.Used, err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(rows), "ns/row")
		})
	}
}
