package guard

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"maps"
	"net/http"
	"slices"
	"sync"
	"time"
)

// counts are what the operator can see.
type counts struct {
	mu      *sync.Mutex
	answers map[answered]*sum
	limited int64
	gauges  map[string]func() float64
}

type answered struct {
	name, path string
	status     int
}

type sum struct {
	requests, in, out int64
	took              time.Duration
}

func newCounts() counts {
	return counts{mu: new(sync.Mutex), answers: map[answered]*sum{}, gauges: map[string]func() float64{}}
}

// Gauge adds a figure to the metrics; read is called whenever they are asked for.
func (g *Guard) Gauge(name string, read func() float64) {
	g.counts.mu.Lock()
	defer g.counts.mu.Unlock()
	g.counts.gauges[name] = read
}

// Watch counts what a handler answers. A handler that panics is answered 500, and
// the server goes on.
func (g *Guard) Watch(name string, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		begun := g.Now()
		seen := see(w)
		body := &counting{ReadCloser: r.Body}
		r.Body = body
		defer func() {
			a := Answer{Name: name, Path: r.Pattern, Status: seen.status, In: body.read, Out: seen.written, Took: g.Now().Sub(begun), Limited: seen.limited}
			if p := recover(); p != nil {
				if a.Panicked = true; seen.status == 0 {
					a.Status = http.StatusInternalServerError
					http.Error(w, "the server failed: try again", a.Status)
				}
			}
			g.count(a)
			if g.Answered != nil {
				g.Answered(r.Context(), a)
			}
		}()
		next.ServeHTTP(seen, r)
	})
}

func (g *Guard) count(a Answer) {
	g.counts.mu.Lock()
	defer g.counts.mu.Unlock()
	key := answered{a.Name, a.Path, a.Status}
	s := g.counts.answers[key]
	if s == nil {
		s = new(sum)
		g.counts.answers[key] = s
	}
	s.requests++
	s.in += a.In
	s.out += a.Out
	s.took += a.Took
	if a.Limited {
		g.counts.limited++
	}
}

// Metrics writes the counts in the text format of Prometheus, version 0.0.4.
func (g *Guard) Metrics() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/plain; version=0.0.4; charset=utf-8")
		_, _ = w.Write(g.metrics()) // nobody is there to be told
	})
}

func (g *Guard) metrics() []byte {
	g.counts.mu.Lock()
	keys := slices.SortedFunc(maps.Keys(g.counts.answers), func(a, b answered) int {
		return cmp.Or(cmp.Compare(a.name, b.name), cmp.Compare(a.path, b.path), cmp.Compare(a.status, b.status))
	})
	var b bytes.Buffer
	for _, f := range []struct {
		name, kind string
		of         func(*sum) float64
	}{
		{"requests_total", "counter", func(s *sum) float64 { return float64(s.requests) }},
		{"seconds_total", "counter", func(s *sum) float64 { return s.took.Seconds() }},
		{"bytes_in_total", "counter", func(s *sum) float64 { return float64(s.in) }},
		{"bytes_out_total", "counter", func(s *sum) float64 { return float64(s.out) }},
	} {
		fmt.Fprintf(&b, "# TYPE chalkfold_%s %s\n", f.name, f.kind)
		for _, k := range keys {
			fmt.Fprintf(&b, "chalkfold_%s{part=%q,path=%q,status=\"%d\"} %v\n", f.name, k.name, k.path, k.status, f.of(g.counts.answers[k]))
		}
	}
	fmt.Fprintf(&b, "# TYPE chalkfold_limited_total counter\nchalkfold_limited_total %d\n", g.counts.limited)
	gauges := maps.Clone(g.counts.gauges)
	g.counts.mu.Unlock() // a gauge may take its time
	for _, name := range slices.Sorted(maps.Keys(gauges)) {
		fmt.Fprintf(&b, "# TYPE chalkfold_%s gauge\nchalkfold_%s %v\n", name, name, gauges[name]())
	}
	return b.Bytes()
}

// seeing is a writer that sees what is answered.
type seeing struct {
	http.ResponseWriter
	status  int
	written int64
	limited bool
}

// see returns a writer that sees, which w may be already.
func see(w http.ResponseWriter) *seeing {
	if s, ok := w.(*seeing); ok {
		return s
	}
	return &seeing{ResponseWriter: w}
}

func (s *seeing) WriteHeader(status int) {
	if s.status == 0 {
		s.status = status
	}
	s.ResponseWriter.WriteHeader(status)
}

func (s *seeing) Write(b []byte) (int, error) {
	if s.status == 0 {
		s.status = http.StatusOK
	}
	n, err := s.ResponseWriter.Write(b)
	s.written += int64(n)
	return n, err
}

// Unwrap lets http.ResponseController reach what is within.
func (s *seeing) Unwrap() http.ResponseWriter { return s.ResponseWriter }

// counting is a body that counts what is read.
type counting struct {
	io.ReadCloser
	read int64
}

func (c *counting) Read(b []byte) (int, error) {
	n, err := c.ReadCloser.Read(b)
	c.read += int64(n)
	return n, err
}
