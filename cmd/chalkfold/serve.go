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

// runServe serves the page until it is told to stop.
func runServe(ctx context.Context, args []string, out, errs io.Writer) error {
	flags := flag.NewFlagSet("chalkfold serve", flag.ContinueOnError)
	flags.SetOutput(errs)
	addr := flags.String("addr", "", fmt.Sprintf("`host:port` to listen on (default %s:%d, or the next free port)", serveHost, firstPort))
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
	built, list, err := static.Open()
	if err != nil {
		return err
	}
	site, err := newSite(built, list)
	if err != nil {
		return err
	}
	listener, err := listen(*addr)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "Chalkfold is at http://%s/ (version %s). Stop it with Ctrl-C.\n", listener.Addr(), list.Version)
	return serveUntil(ctx, listener, site)
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

// serveUntil serves until ctx ends, then lets requests under way finish.
func serveUntil(ctx context.Context, l net.Listener, h http.Handler) error {
	server := &http.Server{
		Handler:           h,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       30 * time.Second,
		WriteTimeout:      60 * time.Second,
		IdleTimeout:       120 * time.Second,
		MaxHeaderBytes:    16 << 10,
	}
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
