package guard_test

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"strconv"
	"strings"
	"testing"
	"time"

	"chalkfold/sync/server/guard"
)

// A clock stands still until it is moved.
type clock struct{ now time.Time }

func (c *clock) read() time.Time { return c.now }

func guarded(l guard.Limits) (*guard.Guard, *clock) {
	c := &clock{time.Date(2031, 5, 17, 12, 0, 0, 0, time.UTC)}
	return guard.New(guard.Config{Limits: l, Now: c.read, Address: guard.Remote}), c
}

func status(status int) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(status) })
}

func ask(h http.Handler, from string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, "/", strings.NewReader("message"))
	r.RemoteAddr = from
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestRate(t *testing.T) {
	limits := guard.Common()
	limits.Rate, limits.Burst = 2, 3
	g, clock := guarded(limits)
	h := g.Limit(status(http.StatusOK))
	want := func(from string, want int) {
		t.Helper()
		if got := ask(h, from); got.Code != want || want == http.StatusTooManyRequests && got.Header().Get("Retry-After") != "1" {
			t.Errorf("from %s: %d, %v; want %d", from, got.Code, got.Header(), want)
		}
	}
	for range 3 {
		want("192.0.2.1:1", http.StatusOK)
	}
	want("192.0.2.1:2", http.StatusTooManyRequests)
	want("192.0.2.2:1", http.StatusOK)
	clock.now = clock.now.Add(time.Second)
	want("192.0.2.1:3", http.StatusOK)
	want("192.0.2.1:3", http.StatusOK)
	want("192.0.2.1:3", http.StatusTooManyRequests)
	// A whole IPv6 network counts as one address.
	for i := range 3 {
		want("[2001:db8::"+strconv.Itoa(i)+"]:1", http.StatusOK)
	}
	want("[2001:db8::9]:1", http.StatusTooManyRequests)
	want("[2001:db8:0:1::9]:1", http.StatusOK)
}

// TestGuess: who shows wrong credentials is soon asked to wait for long.
func TestGuess(t *testing.T) {
	limits := guard.Common()
	g, clock := guarded(limits)
	h := g.Limit(status(http.StatusUnauthorized))
	tried := 0
	for ask(h, "192.0.2.1:1").Code == http.StatusUnauthorized {
		tried++
	}
	if most := limits.Burst/limits.Guess + 1; tried > most {
		t.Errorf("%d guesses at once, want %d at most", tried, most)
	}
	day := 0
	for range 24 * 60 * 60 {
		clock.now = clock.now.Add(time.Second)
		if ask(h, "192.0.2.1:1").Code == http.StatusUnauthorized {
			day++
		}
	}
	// 256 bits want more days than there are.
	if most := int(24*60*60*limits.Rate)/limits.Guess + 1; day > most {
		t.Errorf("%d guesses a day, want %d at most", day, most)
	}
}

func TestFlight(t *testing.T) {
	limits := guard.Common()
	limits.Flight = 2
	g, _ := guarded(limits)
	entered, leave := make(chan struct{}), make(chan struct{})
	h := g.Limit(http.HandlerFunc(func(http.ResponseWriter, *http.Request) {
		entered <- struct{}{}
		<-leave
	}))
	for range 2 {
		go ask(h, "192.0.2.1:1")
		<-entered
	}
	if got := ask(h, "192.0.2.1:1"); got.Code != http.StatusServiceUnavailable || got.Header().Get("Retry-After") == "" {
		t.Errorf("a third at once: %d", got.Code)
	}
	close(leave)
}

// TestMemory: however many addresses there are, few are remembered; and who comes
// often is not forgotten.
func TestMemory(t *testing.T) {
	limits := guard.Common()
	limits.Known, limits.Burst, limits.Rate = 10, 3, 1e-9
	g, _ := guarded(limits)
	h := g.Limit(status(http.StatusOK))
	let := 0
	for i := range 1000 {
		ask(h, netip.AddrFrom4([4]byte{10, 0, byte(i >> 8), byte(i)}).String()+":1")
		if ask(h, "192.0.2.1:1").Code == http.StatusOK {
			let++
		}
	}
	if let != 3 {
		t.Errorf("%d let through, want 3", let)
	}
}

func TestForwarded(t *testing.T) {
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	r.RemoteAddr = "127.0.0.1:5"
	if got := guard.Forwarded(r).String(); got != "127.0.0.1" {
		t.Errorf("without the header: %s", got)
	}
	r.Header.Add("X-Forwarded-For", "203.0.113.9, 198.51.100.7")
	if got := guard.Forwarded(r).String(); got != "198.51.100.7" {
		t.Errorf("two in one: %s", got)
	}
	r.Header.Add("X-Forwarded-For", "::ffff:198.51.100.8")
	if got := guard.Forwarded(r).String(); got != "198.51.100.8" {
		t.Errorf("two headers: %s", got)
	}
	r.Header.Set("X-Forwarded-For", "nonsense")
	if guard.Forwarded(r).IsValid() {
		t.Error("nonsense is an address")
	}
}

func TestMetrics(t *testing.T) {
	g, _ := guarded(guard.Common())
	var answers []guard.Answer
	g.Answered = func(_ context.Context, a guard.Answer) { answers = append(answers, a) }
	g.Gauge("heads", func() float64 { return 7 })
	echo := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/panic" {
			panic("something")
		}
		_, _ = io.Copy(w, r.Body)
	})
	mux := http.NewServeMux()
	mux.Handle("/", echo)
	h := g.Watch("page", mux)
	ask(h, "192.0.2.1:1")
	r := httptest.NewRequest(http.MethodPost, "/panic", nil)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Code != http.StatusInternalServerError || len(answers) != 2 || !answers[1].Panicked {
		t.Errorf("after a panic: %d, %+v", w.Code, answers)
	}
	out := httptest.NewRecorder()
	g.Metrics().ServeHTTP(out, httptest.NewRequest(http.MethodGet, "/metrics", nil))
	for _, want := range []string{
		`chalkfold_requests_total{part="page",path="/",status="200"} 1`,
		`chalkfold_requests_total{part="page",path="/",status="500"} 1`,
		`chalkfold_bytes_in_total{part="page",path="/",status="200"} 7`,
		`chalkfold_bytes_out_total{part="page",path="/",status="200"} 7`,
		"chalkfold_heads 7\n", "# TYPE chalkfold_limited_total counter\n",
	} {
		if !strings.Contains(out.Body.String(), want) {
			t.Errorf("no %q in\n%s", want, out.Body)
		}
	}
	if strings.Contains(out.Body.String(), "192.0.2") {
		t.Error("the metrics tell addresses")
	}
}
