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

// secure returns what answers by TLS, and what sends whoever comes without it there.
// Certificates are had for the hosts named and for no others; the terms of their
// issuer are accepted by asking for one.
func (s *serving) secure(h http.Handler) (secure, plain served, err error) {
	hosts := strings.FieldsFunc(s.hosts, func(r rune) bool { return r == ',' || r == ' ' })
	if len(hosts) == 0 {
		return secure, plain, errors.New("-hosts names no host")
	}
	for _, host := range hosts {
		if !strings.Contains(host, ".") || strings.ContainsAny(host, "/:*") {
			return secure, plain, fmt.Errorf("%q is no name of a host that a certificate could be had for: write for instance shop.example.org", host)
		}
	}
	if err := os.MkdirAll(s.certs, 0o700); err != nil {
		return secure, plain, fmt.Errorf("no folder for certificates: %w", err)
	}
	manager := &autocert.Manager{Prompt: autocert.AcceptTOS, HostPolicy: autocert.HostWhitelist(hosts...), Cache: autocert.DirCache(s.certs)}
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
