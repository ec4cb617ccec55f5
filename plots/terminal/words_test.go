package terminal

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWords(t *testing.T) {
	for text, want := range map[string][]string{
		"":                                nil,
		"from 83.2 % to 100 %.":           {"from", "83.2 %", "to", "100 %."},
		"2,050 ± 90 more (95 %, at once)": {"2,050 ± 90", "more", "(95 %,", "at", "once)"},
		"by chance (P\u00a0=\u00a00.03).": {"by", "chance", "(P\u00a0=\u00a00.03)."},
		"known to ± 200 an hour":          {"known", "to", "± 200", "an", "hour"},
		"8 h, 5 min; in time":             {"8 h,", "5 min;", "in", "time"},
		"12,000 × 65.45 % running":        {"12,000", "×", "65.45 %", "running"},
	} {
		assert.Equal(t, want, Words(text), text)
	}
}

func TestWidth(t *testing.T) {
	for text, want := range map[string]int{
		"": 0, "net rate": 8, "± 3 %": 5, "封筒": 4, "u\u0308": 1, "ｋ": 2, "−590": 4, "█▏": 2, "\u200d": 0, "‰": 1,
	} {
		assert.Equal(t, want, Width(text), "%q", text)
	}
}
