package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/scenarios"
)

// bench is a workbench that runs as a user runs it.
type bench struct {
	t     *testing.T
	state string // its state directory
	cmd   *exec.Cmd
	said  bytes.Buffer // on standard error
	url   string
}

// openBench starts netrate open with some arguments, in a state directory of its own unless one is given.
func openBench(t *testing.T, state string, args ...string) *bench {
	t.Helper()
	if state == "" {
		state = t.TempDir()
	}
	b := &bench{t: t, state: state, cmd: exec.Command("netrate", append([]string{"open", "--no-browser"}, args...)...)}
	b.cmd.Env = append(os.Environ(), "XDG_STATE_HOME="+state)
	b.cmd.Stderr = &b.said
	out, err := b.cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, b.cmd.Start())
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err, &b.said)
	b.url = strings.TrimSpace(line[strings.Index(line, "http"):])
	t.Cleanup(b.kill)
	return b
}

// kill ends it without a chance to say anything.
func (b *bench) kill() {
	_ = b.cmd.Process.Kill() // it may have ended
	_ = b.cmd.Wait()
}

// benchReply is what an operation comes back with.
type benchReply struct {
	Rev         int
	Said, Wrong string
	Stale       bool
}

// do asks for an operation.
func (b *bench) do(op map[string]any) benchReply {
	b.t.Helper()
	data, err := json.Marshal(op)
	require.NoError(b.t, err)
	r, err := http.Post(b.url+"do", "application/json", bytes.NewReader(data))
	require.NoError(b.t, err)
	defer func() { _ = r.Body.Close() }()
	require.Equal(b.t, http.StatusOK, r.StatusCode)
	var x benchReply
	require.NoError(b.t, json.NewDecoder(r.Body).Decode(&x))
	return x
}

// get returns what is at an address below the token, and its status.
func (b *bench) get(name string) (int, string) {
	b.t.Helper()
	r, err := http.Get(b.url + name)
	require.NoError(b.t, err)
	text, err := io.ReadAll(r.Body)
	require.NoError(b.t, err)
	require.NoError(b.t, r.Body.Close())
	return r.StatusCode, string(text)
}

// whole returns what is at an address once the answer is whole.
func (b *bench) whole(name string) string {
	b.t.Helper()
	var text string
	require.Eventually(b.t, func() bool {
		var status int
		status, text = b.get(name)
		return status == http.StatusOK
	}, time.Minute, 50*time.Millisecond)
	return text
}

// What is pinned and compared is what netrate compare says of the files, to the last digit; and the answer
// is that of netrate run.
func TestWorkbenchAgreesWithTheCommand(t *testing.T) {
	dir := t.TempDir()
	x, err := scenarios.ExampleNamed("seventh-feeder")
	require.NoError(t, err)
	plain, err := scenarios.EditedWithout("x.yaml", x.Data, "variants")
	require.NoError(t, err)
	file := filepath.Join(dir, "a.yaml")
	require.NoError(t, os.WriteFile(file, plain, 0o600))
	b := openBench(t, "", file)
	require.Empty(t, b.do(map[string]any{"kind": "pin", "name": "a"}).Wrong)
	added := b.do(map[string]any{"kind": "add", "part": "feeder rotary", "after": "flyer"})
	require.Empty(t, added.Wrong)
	require.Empty(t, b.do(map[string]any{"kind": "set", "path": "stations." + added.Said + ".misfeed", "value": "0.04 %"}).Wrong)
	require.Empty(t, b.do(map[string]any{"kind": "save", "save": "b.yaml"}).Wrong)
	got := b.whole("comparison.json")
	out, err := exec.Command("netrate", "compare", file, filepath.Join(dir, "b.yaml"), "--json").Output()
	require.NoError(t, err)
	numbers := regexp.MustCompile(`"(mean|half|difference_per_h|wins|p5|p95|low_per_h|high_per_h|n|reps)": *[-0-9.e]+`)
	want := numbers.FindAllString(string(out), -1)
	require.Greater(t, len(want), 20)
	assert.Equal(t, want, numbers.FindAllString(got, -1))

	report := b.whole("report.html")
	out, err = exec.Command("netrate", "run", filepath.Join(dir, "b.yaml"), "--report", filepath.Join(dir, "r.html")).Output()
	require.NoError(t, err, string(out))
	page, err := os.ReadFile(filepath.Join(dir, "r.html"))
	require.NoError(t, err)
	answer := regexp.MustCompile(`(?s)<p class="answer">.*?</p>`)
	require.NotEmpty(t, answer.FindString(string(page)))
	assert.Equal(t, answer.FindString(string(page)), answer.FindString(report))
}

// A workbench that is killed in the middle of an edit, five times, loses nothing that it has said yes
// to, comes back at the same address, and undo leads back to the first byte.
func TestWorkbenchIsKilled(t *testing.T) {
	state, file := t.TempDir(), filepath.Join(t.TempDir(), "line.yaml")
	x, err := scenarios.ExampleNamed("direct-mail")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, x.Data, 0o600))
	b := openBench(t, state, file)
	first := b.url
	n := 0
	for range 5 {
		for range 7 {
			n++
			require.Empty(t, b.do(map[string]any{"kind": "set", "path": "stations.letter.hopper.pieces", "value": fmt.Sprint(1000 + n)}).Wrong)
		}
		done := make(chan struct{})
		go func() { // an edit is on its way
			defer close(done)
			data := []byte(`{"kind":"set","path":"crew.walk","value":"11 s"}`)
			if r, err := http.Post(b.url+"do", "application/json", bytes.NewReader(data)); err == nil {
				_ = r.Body.Close()
			}
		}()
		b.kill()
		<-done
		b = openBench(t, state, file)
		assert.Equal(t, first, b.url, "pages that are open find it again")
		_, text := b.get("scenario.yaml")
		require.Contains(t, text, fmt.Sprintf("pieces: %d", 1000+n))
	}
	for {
		_, before := b.get("scenario.yaml")
		b.do(map[string]any{"kind": "undo"})
		if _, after := b.get("scenario.yaml"); after == before {
			break
		}
	}
	_, text := b.get("scenario.yaml")
	assert.Equal(t, string(x.Data), text)
	now, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(x.Data), string(now), "nothing was saved")
}

// Ctrl-C ends it, and it says where unsaved work is. A second one on the same file shows the first.
func TestWorkbenchEnds(t *testing.T) {
	b := openBench(t, "", "--example", "direct-mail")
	second := exec.Command("netrate", "open", "--no-browser", "--example", "direct-mail")
	second.Env = b.cmd.Env
	out, err := second.Output()
	require.NoError(t, err)
	assert.Equal(t, "It is open already: "+b.url+"\n", string(out))
	require.Empty(t, b.do(map[string]any{"kind": "set", "path": "crew.operators", "value": "3"}).Wrong)
	require.NoError(t, b.cmd.Process.Signal(os.Interrupt))
	require.NoError(t, b.cmd.Wait())
	assert.Contains(t, b.said.String(), "Changes of direct-mail are not saved. They are kept")
	b = openBench(t, b.state, "--example", "direct-mail")
	_, text := b.get("scenario.yaml")
	assert.Contains(t, text, "operators: 3")
}

// Whoever is not the page of this workbench is refused, and the work goes on.
func TestWorkbenchAttacked(t *testing.T) {
	t.Run("on the loopback address", func(t *testing.T) { attack(t, openBench(t, "", "--example", "direct-mail")) })
	t.Run("on the network", func(t *testing.T) {
		b := openBench(t, "", "--example", "direct-mail", "--listen", networkAddress(t)+":0")
		attack(t, b)
		at, err := url.Parse(b.url)
		require.NoError(t, err)
		_, err = net.Dial("tcp", "127.0.0.1:"+at.Port())
		require.Error(t, err, "it listens there alone")
		second := exec.Command("netrate", "open", "--no-browser", "--example", "direct-mail")
		second.Env = b.cmd.Env
		said, err := second.CombinedOutput()
		require.Error(t, err)
		assert.Contains(t, string(said), "it is open already, at "+at.Host)
		b.kill()
		assert.Contains(t, b.said.String(), "Whoever has this address can read and change the line")
		again := openBench(t, b.state, "--example", "direct-mail", "--listen", at.Host)
		assert.Equal(t, b.url, again.url, "pages that are open find it again")
	})
}

// networkAddress returns an address of this machine in a network; where there is none, one of those that
// are the machine's own but not 127.0.0.1.
func networkAddress(t *testing.T) string {
	t.Helper()
	all, err := net.InterfaceAddrs()
	require.NoError(t, err)
	for _, a := range all {
		if n, is := a.(*net.IPNet); is && n.IP.To4() != nil && n.IP.IsGlobalUnicast() {
			return n.IP.String()
		}
	}
	return "127.0.0.2"
}

func attack(t *testing.T, b *bench) {
	t.Helper()
	host, _, _ := strings.Cut(strings.TrimPrefix(b.url, "http://"), "/")
	good := `{"kind":"set","path":"crew.operators","value":"7"}`
	for _, x := range []struct {
		name, method, path, body string
		head                     map[string]string
		want                     int
	}{
		{"another host", "GET", "", "", map[string]string{"Host": "evil.example"}, http.StatusMisdirectedRequest},
		{"localhost", "GET", "", "", map[string]string{"Host": "localhost" + host[strings.Index(host, ":"):]}, http.StatusMisdirectedRequest},
		{"another origin", "POST", "do", good, map[string]string{"Origin": "http://evil.example"}, http.StatusForbidden},
		{"no origin", "POST", "do", good, map[string]string{"Origin": "null"}, http.StatusForbidden},
		{"another site", "POST", "do", good, map[string]string{"Sec-Fetch-Site": "cross-site"}, http.StatusForbidden},
		{"another port of this host", "POST", "do", good, map[string]string{"Sec-Fetch-Site": "same-site"}, http.StatusForbidden},
		{"read by another site", "GET", "scenario.yaml", "", map[string]string{"Sec-Fetch-Site": "cross-site"}, http.StatusForbidden},
		{"a form", "POST", "do", good, map[string]string{"Content-Type": "text/plain"}, http.StatusUnsupportedMediaType},
		{"another method", "PUT", "do", good, nil, http.StatusMethodNotAllowed},
		{"an unknown field", "POST", "do", `{"kind":"undo","file":"/etc/passwd"}`, nil, http.StatusBadRequest},
		{"no JSON", "POST", "do", `{`, nil, http.StatusBadRequest},
		{"a body of 100 MB", "POST", "do", `{"kind":"open","text":"` + strings.Repeat("x", 100<<20) + `"}`, nil, http.StatusRequestEntityTooLarge},
		{"out of the files of the page", "GET", "..%2f..%2fetc/passwd", "", nil, http.StatusNotFound},
		{"up", "GET", "%2e%2e/verb.go", "", nil, http.StatusNotFound},
	} {
		r, err := http.NewRequest(x.method, b.url+x.path, strings.NewReader(x.body))
		require.NoError(t, err)
		r.Header.Set("Content-Type", "application/json")
		for k, v := range x.head {
			r.Header.Set(k, v)
		}
		if h := x.head["Host"]; h != "" {
			r.Host = h
		}
		answer, err := http.DefaultTransport.RoundTrip(r)
		if err != nil && strings.HasPrefix(x.name, "a body") { // it hung up in the middle of it
			continue
		}
		require.NoError(t, err, x.name)
		assert.Equal(t, x.want, answer.StatusCode, x.name)
		require.NoError(t, answer.Body.Close())
	}
	for _, token := range []string{"", "x/", strings.Repeat("A", 26) + "/"} {
		r, err := http.Get("http://" + host + "/" + token)
		require.NoError(t, err)
		assert.Equal(t, http.StatusNotFound, r.StatusCode)
		require.NoError(t, r.Body.Close())
	}
	held := hold(t, host, 200) // slow ones, that say half a line
	defer held()
	_, text := b.get("alive")
	assert.Equal(t, "true\n", text, "the work goes on")
	defer hold(t, host, 200)() // more than there is room for: they are turned away, and those that say nothing are in a moment
	require.Eventually(t, func() bool {
		r, err := http.Get(b.url + "scenario.yaml")
		if err != nil {
			return false
		}
		data, err := io.ReadAll(r.Body)
		text = string(data)
		return r.Body.Close() == nil && err == nil && r.StatusCode == http.StatusOK
	}, 20*time.Second, 100*time.Millisecond)
	assert.NotContains(t, text, "operators: 7", "nobody has changed anything")
	assert.Contains(t, text, "operators: 2")
}

// hold opens connections that say half a line and then nothing.
func hold(t *testing.T, host string, n int) (release func()) {
	t.Helper()
	var all []net.Conn
	for range n {
		c, err := net.Dial("tcp", host)
		if err != nil { // turned away
			continue
		}
		_, _ = io.WriteString(c, "POST / HTTP/1.1\r\nHo") // likewise
		all = append(all, c)
	}
	return func() {
		for _, c := range all {
			_ = c.Close()
		}
	}
}

// Questions are answered by their verbs, a log is fitted into the text if that is asked for, and the film of
// what stands in the text plays.
func TestWorkbenchAsks(t *testing.T) {
	x, err := scenarios.ExampleNamed("direct-mail")
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "line.yaml")
	require.NoError(t, os.WriteFile(file, bytes.Replace(x.Data, []byte("min: 1000, max: 20000"), []byte("min: 60, max: 60"), 1), 0o600))
	b := openBench(t, "", file)
	post := func(path, body string) (int, string) {
		r, err := http.Post(b.url+path, "application/json", strings.NewReader(body))
		require.NoError(t, err)
		text, err := io.ReadAll(r.Body)
		require.NoError(t, err)
		return r.StatusCode, string(text) + fmt.Sprint(r.Body.Close())
	}
	status, wrong := post("ask?what=everything", "")
	assert.Equal(t, http.StatusConflict, status)
	assert.Contains(t, wrong, "no question is called")
	status, wrong = post("fitted", "")
	assert.Equal(t, http.StatusConflict, status, wrong)

	status, wrong = post("ask?what=speed", "")
	require.Equal(t, http.StatusOK, status, wrong)
	require.Eventually(t, func() bool { _, page := b.get("asked.html"); return strings.Contains(page, `class="answer"`) }, time.Minute, 50*time.Millisecond)
	_, page := b.get("asked.html")
	assert.Contains(t, page, "speed")

	log, err := json.Marshal(map[string]string{
		"Name": "stops.csv", "CountsNamed": "counts.csv", "Counts": "station,feeds\nletter,20000\n",
		"Log": "start,station,cause,seconds\n2026-03-02 06:10:00,letter,misfeed,40\n2026-03-02 07:40:00,letter,misfeed,35\n2026-03-02 08:10:00,letter,jam,90\n",
	})
	require.NoError(t, err)
	require.Eventually(t, func() bool { status, _ := post("log", string(log)); return status == http.StatusOK }, 10*time.Second, 50*time.Millisecond)
	require.Eventually(t, func() bool { status, _ := post("fitted", ""); return status == http.StatusOK }, time.Minute, 100*time.Millisecond)
	_, text := b.get("scenario.yaml")
	assert.Contains(t, text, "seen: 2, of: 20000")
	b.do(map[string]any{"kind": "undo"})
	_, text = b.get("scenario.yaml")
	assert.NotContains(t, text, "seen: 2", "undo takes the rates back")

	status, page = b.get("film.html")
	assert.Equal(t, http.StatusOK, status)
	assert.Contains(t, page, "<script")
	status, _ = b.get("film.html?pin=0")
	assert.Equal(t, http.StatusConflict, status)
}
