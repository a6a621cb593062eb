package main

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
)

// A verb is a place for a figure.
type verb struct {
	text string // as it stands: "%.1f", "%[2]s"
	arg  int    // which figure it is for, from 1
	how  string // without its number: "%.1f"
}

var verbPattern = regexp.MustCompile(`%([-+#0]*)(?:\[(\d+)\])?([\d.]*)([a-zA-Z])`)

// verbsOf are the verbs of a format, in order.
func verbsOf(format string) []verb {
	var out []verb
	next := 1
	for _, m := range verbPattern.FindAllStringSubmatch(format, -1) {
		if n, err := strconv.Atoi(m[2]); err == nil {
			next = n
		}
		out = append(out, verb{text: m[0], arg: next, how: "%" + m[1] + m[3] + m[4]})
		next++
	}
	return out
}

// disagree says how the verbs of a translation differ from those of the
// English, or nothing.
func disagree(english, translated string) string {
	want, got := verbsOf(english), verbsOf(translated)
	for _, v := range want {
		if !slices.ContainsFunc(got, func(g verb) bool { return g.arg == v.arg && g.how == v.how }) {
			return fmt.Sprintf("lacks %s, figure %d", v.how, v.arg)
		}
	}
	for _, g := range got {
		if !slices.ContainsFunc(want, func(v verb) bool { return g.arg == v.arg && g.how == v.how }) {
			return fmt.Sprintf("has %s for figure %d", g.how, g.arg)
		}
	}
	return ""
}
