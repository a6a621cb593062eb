package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"strconv"
	"syscall"
	"time"

	"chalkfold/static"
)

const (
	serveHost    = "127.0.0.1"
	firstPort    = 8765
	portsToTry   = 20
	stopPatience = 5 * time.Second // for requests under way when the server is told to stop
)

// serving is what the flags of serve say.
type serving struct {
	addr, watch  string
	store        string
	invitations  string
	log, chunks  int64 // MiB for each workshop
	behindProxy  bool
	hosts, certs string
	quiet        bool
}

func serveFlags(errs io.Writer) (*flag.FlagSet, *serving) {
	s := new(serving)
	flags := flag.NewFlagSet("chalkfold serve", flag.ContinueOnError)
	flags.SetOutput(errs)
	flags.StringVar(&s.addr, "addr", "", fmt.Sprintf("`host:port` to listen on (default %s:%d, or the next free port; with -hosts, :443)", serveHost, firstPort))
	flags.StringVar(&s.store, "store", "", "keep the second copies of workshops in this `file` (default: the page alone is served)")
	flags.StringVar(&s.invitations, "invitations", "", "a `file` with an invitation on each line: a new workshop must show one (default: everyone may begin one)")
	flags.Int64Var(&s.log, "quota", 64, "`MiB` of records that a workshop may keep")
	flags.Int64Var(&s.chunks, "photo-quota", 512, "`MiB` of photos that a workshop may keep")
	flags.StringVar(&s.watch, "watch", "", "`host:port` for /healthz and /metrics; keep it to this machine")
	flags.BoolVar(&s.behindProxy, "behind-proxy", false, "a proxy before this server does TLS and writes X-Forwarded-For")
	flags.StringVar(&s.hosts, "hosts", "", "do TLS, with certificates by ACME for these `names`, with commas between them")
	flags.StringVar(&s.certs, "certs", "chalkfold-certs", "`folder` for the certificates of -hosts")
	flags.BoolVar(&s.quiet, "quiet", false, "log only what goes wrong")
	return flags, s
}

// runServe serves the page, and the second copies, until it is told to stop.
func runServe(ctx context.Context, args []string, out, errs io.Writer) error {
	flags, s := serveFlags(errs)
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return nil
		}
		return errUsage
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(errs, "chalkfold serve takes no arguments, got %q\n", flags.Args())
		return errUsage
	}
	if s.hosts != "" && s.behindProxy {
		return errors.New("with -behind-proxy the proxy does TLS: leave out -hosts")
	}
	built, list, err := static.Open()
	if err != nil {
		return err
	}
	site, err := newSite(built, list)
	if err != nil {
		return err
	}
	copies, err := s.open(ctx, site, errs)
	if err != nil {
		return err
	}
	err = s.listenAndServe(ctx, copies, list.Version, out)
	return errors.Join(err, copies.Close())
}

// listenAndServe serves on all that the flags name until ctx ends.
func (s *serving) listenAndServe(ctx context.Context, c *copies, version string, out io.Writer) error {
	var all []served
	closeAll := func(err error) error {
		for _, one := range all {
			_ = one.l.Close() // err says what went wrong
		}
		return err
	}
	add := func(addr string, h http.Handler, say string) error {
		l, err := listen(addr)
		if err != nil {
			return err
		}
		all = append(all, served{l, h})
		fmt.Fprintf(out, say+"\n", l.Addr())
		return nil
	}
	if s.hosts != "" {
		secure, challenge, err := s.secure(c.Handler())
		if err != nil {
			return err
		}
		all = append(all, secure, challenge)
		fmt.Fprintf(out, "Chalkfold is at https://%s/ (version %s). Stop it with Ctrl-C.\n", s.hosts, version)
	} else if err := add(s.addr, c.Handler(), "Chalkfold is at http://%s/ (version "+version+"). Stop it with Ctrl-C."); err != nil {
		return err
	}
	if s.watch != "" {
		if err := add(s.watch, c.Watched(), "Health and metrics are at http://%s/healthz and /metrics."); err != nil {
			return closeAll(err)
		}
	}
	return serveAll(ctx, all)
}

// listen takes addr, or, if it is empty, the first free port from firstPort on.
func listen(addr string) (net.Listener, error) {
	if addr != "" {
		return net.Listen("tcp", addr)
	}
	for port := firstPort; port < firstPort+portsToTry; port++ {
		l, err := net.Listen("tcp", net.JoinHostPort(serveHost, strconv.Itoa(port)))
		if err == nil || !errors.Is(err, syscall.EADDRINUSE) {
			return l, err
		}
	}
	return nil, fmt.Errorf("ports %d to %d of %s are all taken: choose one with -addr", firstPort, firstPort+portsToTry-1, serveHost)
}

// A served handler has a listener.
type served struct {
	l net.Listener
	h http.Handler
}

// serveAll serves on every listener until ctx ends or one of them fails, and then
// lets requests under way finish on all.
func serveAll(ctx context.Context, all []served) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	errs := make(chan error, len(all))
	for _, one := range all {
		go func() {
			errs <- serveUntil(ctx, one.l, one.h)
			stop()
		}()
	}
	var err error
	for range all {
		err = errors.Join(err, <-errs)
	}
	return err
}

// serverOf is a server that waits for the head of a request as long as patience says,
// for all of it six times as long, and for whoever reads the answer twelve times.
func serverOf(h http.Handler, patience time.Duration) *http.Server {
	return &http.Server{
		Handler:           h,
		ReadHeaderTimeout: patience,
		ReadTimeout:       6 * patience,
		WriteTimeout:      12 * patience,
		IdleTimeout:       24 * patience,
		MaxHeaderBytes:    16 << 10,
	}
}

// serveUntil serves until ctx ends, then lets requests under way finish.
func serveUntil(ctx context.Context, l net.Listener, h http.Handler) error {
	server := serverOf(h, 5*time.Second)
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(l) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	patience, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopPatience)
	defer cancel()
	if err := server.Shutdown(patience); err != nil {
		return errors.Join(err, server.Close())
	}
	return nil
}
