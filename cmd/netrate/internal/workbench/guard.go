package workbench

import (
	"crypto/subtle"
	"net"
	"net/http"
	"net/netip"
	"sync"
	"time"
)

// What a request may be: the page is served to this machine alone, unless --listen names an address of
// the network, and only to whoever knows its address, in which a token stands. A page of somebody else, open in the same browser, can
// neither read it nor act in it.

// policy is what a page may do: nothing but with files of its own address.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self' data:; " +
	"frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// Limits.
const (
	mostBody        = 3 << 20 // bytes: a text of 1 MiB as JSON
	mostConnections = 256     // a page holds six
)

// guarded answers requests that come from a page of this address, and below its token alone. The
// host is that of the address: another name that leads to this machine is refused (DNS rebinding).
func guarded(token, host string, inner http.Handler) http.Handler {
	prefix := "/" + token + "/"
	cross := http.NewCrossOriginProtection()
	at, err := netip.ParseAddrPort(host)
	trusted := err == nil && at.Addr().IsLoopback() // as browsers have it, of a page without encryption
	return cross.Handler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		head := w.Header()
		head.Set("Content-Security-Policy", policy)
		head.Set("X-Content-Type-Options", "nosniff")
		head.Set("Referrer-Policy", "no-referrer")
		head.Set("Cross-Origin-Resource-Policy", "same-origin")
		if trusted { // elsewhere a browser only complains of it
			head.Set("Cross-Origin-Opener-Policy", "same-origin")
		}
		head.Set("Cache-Control", "no-store")
		switch site := r.Header.Get("Sec-Fetch-Site"); {
		case r.Host != host:
			http.Error(w, "this is not the address of the workbench", http.StatusMisdirectedRequest)
		case site != "" && site != "same-origin" && site != "none":
			http.Error(w, "asked from another page", http.StatusForbidden)
		case r.Header.Get("Origin") != "" && r.Header.Get("Origin") != "http://"+host:
			http.Error(w, "asked from another page", http.StatusForbidden)
		case len(r.URL.Path) < len(prefix) || subtle.ConstantTimeCompare([]byte(r.URL.Path[:len(prefix)]), []byte(prefix)) != 1:
			http.NotFound(w, r)
		default:
			r.Body = http.MaxBytesReader(w, r.Body, mostBody)
			http.StripPrefix("/"+token, inner).ServeHTTP(w, r)
		}
	}))
}

// newServer returns a server that waits for nobody for long. A stream of events clears its deadline itself.
func newServer(h http.Handler) *http.Server {
	return &http.Server{Handler: h, ReadHeaderTimeout: 3 * time.Second, ReadTimeout: 15 * time.Second, WriteTimeout: time.Minute, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 16 << 10}
}

// bounded is a listener that turns away connections beyond the most.
type bounded struct {
	net.Listener
	mu   sync.Mutex
	open int
}

// Accept returns the next connection that there is room for.
func (b *bounded) Accept() (net.Conn, error) {
	for {
		c, err := b.Listener.Accept()
		if err != nil {
			return nil, err
		}
		b.mu.Lock()
		room := b.open < mostConnections
		if room {
			b.open++
		}
		b.mu.Unlock()
		if room {
			return &boundedConn{Conn: c, of: b}, nil
		}
		_ = c.Close() // there is nobody to tell
	}
}

type boundedConn struct {
	net.Conn
	of   *bounded
	once sync.Once
}

// Close closes the connection, and makes room.
func (c *boundedConn) Close() error {
	c.once.Do(func() {
		c.of.mu.Lock()
		defer c.of.mu.Unlock()
		c.of.open--
	})
	return c.Conn.Close()
}
