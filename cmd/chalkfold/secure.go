package main

import (
	"cmp"
	"crypto/tls"
	"errors"
	"fmt"
	"net/http"
	"os"
	"strings"

	"golang.org/x/crypto/acme/autocert"
)

// certificates gets and keeps certificates for the hosts named and for no others.
// The terms of who issues them are accepted by asking for one.
func certificates(names, folder string) (*autocert.Manager, error) {
	hosts := strings.FieldsFunc(names, func(r rune) bool { return r == ',' || r == ' ' })
	if len(hosts) == 0 {
		return nil, errors.New("-hosts names no host")
	}
	for _, host := range hosts {
		if !strings.Contains(host, ".") || strings.ContainsAny(host, "/:*") {
			return nil, fmt.Errorf("%q is no name of a host that a certificate could be had for: write for instance shop.example.org", host)
		}
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return nil, fmt.Errorf("no folder for certificates: %w", err)
	}
	return &autocert.Manager{Prompt: autocert.AcceptTOS, HostPolicy: autocert.HostWhitelist(hosts...), Cache: autocert.DirCache(folder)}, nil
}

// secure returns what answers by TLS, and what sends whoever comes without it there.
func (s *serving) secure(h http.Handler) (secure, plain served, err error) {
	manager, err := certificates(s.hosts, s.certs)
	if err != nil {
		return secure, plain, err
	}
	l, err := listen(cmp.Or(s.addr, ":443"))
	if err != nil {
		return secure, plain, err
	}
	redirect, err := listen(":80")
	if err != nil {
		return secure, plain, errors.Join(err, l.Close())
	}
	config := manager.TLSConfig()
	config.MinVersion = tls.VersionTLS12
	return served{tls.NewListener(l, config), h}, served{redirect, manager.HTTPHandler(nil)}, nil
}
