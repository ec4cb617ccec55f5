package workbench

import (
	"archive/zip"
	"bytes"
	"io"
	"mime"
	"net/http"
	"path"
	"strconv"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/plots"
	"netrate/scenarios"
)

// exports adds what can be taken away: the file as it stands and that of an alternative, the report and
// the workbook of the last whole answer, and of the comparison.
func (b *bench) exports(mux *http.ServeMux) {
	mux.HandleFunc("GET /scenario.yaml", func(w http.ResponseWriter, _ *http.Request) {
		b.mu.Lock()
		text := b.work.bytes()
		b.mu.Unlock()
		download(w, "application/yaml", "scenario.yaml", []byte(text))
	})
	mux.HandleFunc("GET /alternative.yaml", b.alternative)
	mux.HandleFunc("GET /report.html", func(w http.ResponseWriter, _ *http.Request) { b.export(w, "report.html", b.asker.answered()) })
	mux.HandleFunc("GET /workbook.xlsx", func(w http.ResponseWriter, _ *http.Request) { b.export(w, "workbook.xlsx", b.asker.answered()) })
	mux.HandleFunc("GET /figures.zip", func(w http.ResponseWriter, _ *http.Request) { b.export(w, "figures.zip", b.asker.answered()) })
	mux.HandleFunc("GET /command", func(w http.ResponseWriter, r *http.Request) {
		b.mu.Lock()
		text := withFirst(command("run", b.work.place, b.work.text, jobArgs(b.work.job)...))
		if r.FormValue("of") == "alternatives" {
			text = withFirst(compareCommand(b.task()))
		}
		b.mu.Unlock()
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		_, _ = w.Write([]byte(text)) // whoever has gone hears nothing
	})
	mux.HandleFunc("GET /comparison.html", func(w http.ResponseWriter, _ *http.Request) {
		b.export(w, "comparison.html", b.asker.comparison())
	})
	mux.HandleFunc("GET /comparison.xlsx", func(w http.ResponseWriter, _ *http.Request) {
		b.export(w, "comparison.xlsx", b.asker.comparison())
	})
	mux.HandleFunc("GET /plan.html", func(w http.ResponseWriter, _ *http.Request) { b.export(w, "plan.html", b.planner.answered()) })
	mux.HandleFunc("GET /plan.json", func(w http.ResponseWriter, _ *http.Request) { exportJSON(w, "plan.json", b.planner.answered()) })
	mux.HandleFunc("GET /comparison.json", func(w http.ResponseWriter, _ *http.Request) {
		exportJSON(w, "comparison.json", b.asker.comparison())
	})
}

// exportJSON sends an answer as JSON has it.
func exportJSON(w http.ResponseWriter, name string, x page.Shown) {
	if x == nil {
		http.Error(w, notYet, http.StatusConflict)
		return
	}
	var out bytes.Buffer
	if err := page.WriteDocument(&out, x.Document(desk.Version())); err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	download(w, "application/json", name, out.Bytes())
}

// alternative sends the file of a pin, under the name that the command for all of them has; a variant
// is sent as it is, and not within its file.
func (b *bench) alternative(w http.ResponseWriter, r *http.Request) {
	p, name, err := b.pinNumbered(r.FormValue("pin"))
	text := []byte(p.Text)
	if err == nil && p.Variant != "" {
		text, err = scenarios.VariantText(p.Name, text, p.Variant)
	}
	if err != nil {
		http.Error(w, err.Error(), http.StatusConflict)
		return
	}
	download(w, "application/yaml", name, text)
}

// pinNumbered returns a pin by its number, and what its file is called.
func (b *bench) pinNumbered(which string) (pin, string, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	i, err := strconv.Atoi(which)
	if err != nil || i < 0 || i >= len(b.work.pins) {
		return pin{}, "", errNoPin
	}
	return b.work.pins[i], fileNames(b.work.pins)[i], nil
}

const notYet = "the answer is not whole yet: try again in a moment"

// answered returns the last whole answer, comparison the last whole comparison; nil for none.
func (a *asker) answered() page.Shown {
	a.known.Lock()
	defer a.known.Unlock()
	return a.report
}

func (a *asker) comparison() page.Shown {
	a.known.Lock()
	defer a.known.Unlock()
	if a.versus == nil {
		return nil
	}
	return a.versus
}

// export sends a report or a workbook.
func (b *bench) export(w http.ResponseWriter, name string, x page.Shown) {
	if x == nil {
		http.Error(w, notYet, http.StatusConflict)
		return
	}
	r, err := x.Report(desk.Version())
	var out bytes.Buffer
	kind := "text/html; charset=utf-8"
	switch ext := path.Ext(name); {
	case err != nil:
	case ext == ".html":
		err = r.Page.HTML(&out)
	case ext == ".zip":
		kind = "application/zip"
		err = writeFigures(&out, r.Figures)
	default:
		kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
		err = plots.WriteXLSX(&out, r.Tables, r.Sums...)
	}
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	download(w, kind, name, out.Bytes())
}

// writeFigures writes figures as drawings, in one archive.
func writeFigures(to io.Writer, figures []desk.NamedFigure) error {
	z := zip.NewWriter(to)
	for _, f := range figures {
		svg, err := f.Figure.SVG()
		if err != nil {
			return err
		}
		w, err := z.Create(f.Name + ".svg")
		if err != nil {
			return err
		}
		if _, err := w.Write(svg); err != nil {
			return err
		}
	}
	return z.Close()
}

func download(w http.ResponseWriter, kind, name string, data []byte) {
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name}))
	_, _ = w.Write(data) // whoever has gone hears nothing
}
