package main

// slimURL stands in for net/url, which brings every way to write an address.
// The page knows two: its own, with a stage after the #, and what is opaque
// after a scheme. It takes them as the browser writes them, in full and escaped,
// and leaves them so.
const slimURL = `package url

import "strings"

type URL struct {
	Scheme, Opaque, Host, Path, RawQuery, Fragment string
}

func Parse(s string) (*URL, error) {
	u := &URL{}
	s, u.Fragment, _ = strings.Cut(s, "#")
	s, u.RawQuery, _ = strings.Cut(s, "?")
	if scheme, rest, ok := strings.Cut(s, ":"); ok && !strings.Contains(scheme, "/") {
		u.Scheme, s = strings.ToLower(scheme), rest
		if !strings.HasPrefix(s, "/") {
			u.Opaque = s
			return u, nil
		}
	}
	if rest, ok := strings.CutPrefix(s, "//"); ok {
		if i := strings.IndexByte(rest, '/'); i >= 0 {
			u.Host, s = rest[:i], rest[i:]
		} else {
			u.Host, s = rest, ""
		}
	}
	u.Path = s
	return u, nil
}

func (u *URL) String() string {
	s := ""
	if u.Scheme != "" {
		s = u.Scheme + ":"
	}
	if u.Opaque != "" {
		s += u.Opaque
	} else {
		if u.Scheme != "" || u.Host != "" {
			s += "//" + u.Host
			if u.Path != "" && u.Path[0] != '/' && u.Host != "" {
				s += "/"
			}
		}
		s += u.Path
	}
	if u.RawQuery != "" {
		s += "?" + u.RawQuery
	}
	if u.Fragment != "" {
		s += "#" + u.Fragment
	}
	return s
}

func (u *URL) Hostname() string {
	host, _, _ := strings.Cut(u.Host, ":")
	return host
}
`

// slimJSON stands in for encoding/json: the page's records are written and read
// by draft/plain.
const slimJSON = `package json

import "github.com/maxence-charriere/go-app/v10/pkg/errors"

func left() error { return errors.New("writing and reading values as JSON is left out of this build") }

func Marshal(any) ([]byte, error) { return nil, left() }

func Unmarshal([]byte, any) error { return left() }
`

// slimErrors stands in for errors that are written as JSON. They tell the same
// in words, except where in the library they were made.
const slimErrors = `package errors

import (
	"fmt"
	"strings"
)

type Error struct {
	message string
	tags    []string
	wrapped error
}

func New(message string) Error { return Error{message: message} }

func (e Error) WithTag(k string, v any) Error {
	e.tags = append(e.tags[:len(e.tags):len(e.tags)], fmt.Sprint(k, "=", v))
	return e
}

func (e Error) Wrap(err error) Error {
	e.wrapped = err
	return e
}

func (e Error) Unwrap() error { return e.wrapped }

func (e Error) Error() string {
	s := strings.Join(append([]string{e.message}, e.tags...), " ")
	if e.wrapped != nil {
		s += ": " + e.wrapped.Error()
	}
	return s
}
`
