package main

import (
	"context"
	"net/http"
	"time"

	"golang.org/x/time/rate"
)

// line is a slow one to the server, for all that comes over it together: the browser's
// own slow line is for what a tab fetches, and for none of its workers.
type line struct {
	wait  time.Duration // until an answer begins
	bytes *rate.Limiter // that come in a second
}

const packet = 1400 // bytes

func newLine(kilobits int, wait time.Duration) *line {
	return &line{wait, rate.NewLimiter(rate.Limit(kilobits*1000/8), packet)}
}

// over answers over the line.
func (l *line) over(site http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		time.Sleep(l.wait)
		site.ServeHTTP(lineWriter{w, r.Context(), l}, r)
	})
}

type lineWriter struct {
	http.ResponseWriter
	ctx  context.Context
	line *line
}

func (w lineWriter) Write(body []byte) (sent int, err error) {
	for len(body) > 0 {
		part := body[:min(packet, len(body))]
		if err := w.line.bytes.WaitN(w.ctx, len(part)); err != nil {
			return sent, err
		}
		n, err := w.ResponseWriter.Write(part)
		if sent += n; err != nil {
			return sent, err
		}
		w.ResponseWriter.(http.Flusher).Flush()
		body = body[n:]
	}
	return sent, nil
}
