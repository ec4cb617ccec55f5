package workbench

import (
	"bytes"
	"compress/gzip"
	"embed"
	"encoding/json"
	"errors"
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"strings"

	"netrate/scenarios"
)

//go:embed web
var webFiles embed.FS

// routes returns what is below the token.
func (b *bench) routes() http.Handler {
	mux := http.NewServeMux()
	files, err := fs.Sub(webFiles, "web")
	if err != nil {
		panic("workbench: no files of the page: " + err.Error())
	}
	mux.Handle("GET /", packed(http.FileServerFS(files)))
	mux.HandleFunc("GET /events", b.events)
	mux.HandleFunc("GET /form", func(w http.ResponseWriter, r *http.Request) { b.html(w, b.form(r.FormValue("path"))) })
	mux.HandleFunc("GET /palette", func(w http.ResponseWriter, _ *http.Request) { b.html(w, region("palette", paletteShown())) })
	mux.HandleFunc("GET /keys", func(w http.ResponseWriter, _ *http.Request) { writeJSON(w, keyWords()) })
	mux.HandleFunc("POST /do", b.operate)
	mux.HandleFunc("GET /film.html", b.film)
	mux.HandleFunc("GET /alive", func(w http.ResponseWriter, _ *http.Request) { writeJSON(w, true) })
	b.exports(mux)
	b.inquiries(mux)
	return mux
}

func (b *bench) html(w http.ResponseWriter, text string) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write([]byte(text)) // whoever has gone hears nothing
}

func writeJSON(w http.ResponseWriter, x any) {
	w.Header().Set("Content-Type", "application/json")
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	_ = e.Encode(x) // likewise
}

// events tells a tab all that happens.
func (b *bench) events(w http.ResponseWriter, r *http.Request) {
	known, err := strconv.Atoi(r.FormValue("known"))
	if err != nil {
		known = -1
	}
	t, h := b.join(known)
	b.hub.serve(w, r, t, h)
}

// operate does one operation.
func (b *bench) operate(w http.ResponseWriter, r *http.Request) {
	if r.Header.Get("Content-Type") != "application/json" {
		http.Error(w, "want JSON", http.StatusUnsupportedMediaType)
		return
	}
	var op Op
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	if err := d.Decode(&op); err != nil {
		code := http.StatusBadRequest
		if _, big := errors.AsType[*http.MaxBytesError](err); big {
			code = http.StatusRequestEntityTooLarge
		}
		http.Error(w, err.Error(), code)
		return
	}
	writeJSON(w, b.do(op))
}

// packed sends files compressed to whoever takes them so: the editor is large.
func packed(inner http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if path.Ext(r.URL.Path) != ".js" || !strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			inner.ServeHTTP(w, r)
			return
		}
		data, err := fs.ReadFile(webFiles, path.Join("web", path.Clean("/"+r.URL.Path)))
		if err != nil {
			http.NotFound(w, r)
			return
		}
		var small bytes.Buffer
		z := gzip.NewWriter(&small)
		_, err = z.Write(data)
		if err = errors.Join(err, z.Close()); err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		w.Header().Set("Content-Type", "text/javascript; charset=utf-8")
		w.Header().Set("Content-Encoding", "gzip")
		_, _ = w.Write(small.Bytes()) // whoever has gone hears nothing
	})
}

// keyWord is what the editor completes with.
type keyWord struct {
	Label  string `json:"label"`
	Detail string `json:"detail"`
	Info   string `json:"info"`
	Type   string `json:"type"`
}

// keyWords returns all keys of the format and the words that values may be.
func keyWords() (all []keyWord) {
	known := map[string]bool{}
	add := func(k keyWord) {
		if !known[k.Label] {
			known[k.Label] = true
			all = append(all, k)
		}
	}
	for _, m := range scenarios.Mappings() {
		for _, k := range m.Keys {
			add(keyWord{k.Name, "of " + m.Name, k.About, "property"})
			for _, word := range k.Words {
				add(keyWord{word, "for " + k.Name, "", "constant"})
			}
		}
	}
	return all
}

// paletteShown is what can be put into the line, and where to begin.
func paletteShown() any {
	return struct {
		Parts    []part
		Examples []scenarios.Example
	}{palette(), scenarios.Examples()}
}
