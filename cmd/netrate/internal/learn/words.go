package learn

import (
	"io"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/plots/terminal"
	"netrate/scenarios/stoplog"
)

// tellWords lists what a log may call its causes and its columns.
func tellWords(e desk.Env, args []string) error {
	if len(args) > 0 {
		return desk.Wrong("fit takes --words or a log, not both: found %q", args[0])
	}
	_, err := io.WriteString(e.Out, strings.Join([]string{
		wordList("Causes of a stop, and the words that mean them", stoplog.CauseWords()),
		wordList("Columns of the log, and their headings", stoplog.StopHeadings()),
		wordList("Columns of the counts, and their headings", stoplog.CountHeadings()),
	}, "\n"))
	return err
}

// wordList returns names with the words that mean them.
func wordList(title string, list []stoplog.Words) string {
	widest := 0
	for _, w := range list {
		widest = max(widest, terminal.Width(w.Name))
	}
	margin := strings.Repeat(" ", widest+4)
	var text strings.Builder
	text.WriteString(title + "\n")
	for _, w := range list {
		words := say.Wrapped(strings.Join(w.Usual, ", "), say.Prose()-len(margin))
		name := "  " + w.Name + strings.Repeat(" ", widest-terminal.Width(w.Name)+2)
		text.WriteString(strings.TrimRight(name+strings.ReplaceAll(words, "\n", "\n"+margin), " \n") + "\n")
	}
	return text.String()
}
