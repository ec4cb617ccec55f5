package workbench

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"strings"

	"netrate/cmd/netrate/internal/desk"
)

// filmPolicy is what the page of a film may do: play, and nothing else. It is shut off from the
// workbench, though it comes from the same address and is shown in a frame of its page.
const filmPolicy = "sandbox allow-scripts; default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'self'"

// film sends the page that plays a shift of an alternative, or of what stands in the text.
func (b *bench) film(w http.ResponseWriter, r *http.Request) {
	page, err := b.filmed(r.Context(), r.FormValue("pin"), r.FormValue("shift"))
	if err != nil {
		http.Error(w, err.Error(), http.StatusConflict)
		return
	}
	w.Header().Set("Content-Security-Policy", filmPolicy)
	b.html(w, string(page))
}

// filmed returns the page of the film of a shift of a pin, by their numbers; "" is what stands in the
// text, and the first shift. Whoever has gone needs none: ctx ends it.
func (b *bench) filmed(ctx context.Context, which, shift string) ([]byte, error) {
	v, err := b.inquiry.verbs("film")
	if err != nil {
		return nil, err
	}
	b.mu.Lock()
	p, getenv := pin{Text: b.work.text, Job: b.work.job}, b.work.env.Getenv
	b.mu.Unlock()
	if which != "" {
		if p, _, err = b.pinNumbered(which); err != nil {
			return nil, err
		}
	}
	args := []string{"-", "--out", "-"}
	if shift != "" {
		args = append(args, "--shift="+shift)
	}
	if p.Variant != "" {
		args = append(args, "--variant", p.Variant)
	}
	if p.Job != "" {
		args = append(args, "--job", p.Job)
	}
	var page, wrong bytes.Buffer
	if err := v.Run(args, desk.Env{In: strings.NewReader(p.Text), Out: &page, Err: &wrong, Getenv: getenv, Until: ctx}); err != nil {
		return nil, fmt.Errorf("%s%w", wrong.String(), err)
	}
	return page.Bytes(), nil
}
