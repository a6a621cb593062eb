package main

import (
	"fmt"
	"io"
	"strings"

	"chalkfold/draft/say"
)

// columns is how wide what is printed may be.
const columns = 80

// prose prints text for a terminal of so many columns, in the words of a reader.
type prose struct {
	*say.Words
	w io.Writer
}

// heading begins a part.
func (p prose) heading(s string) { fmt.Fprintf(p.w, "\n%s\n", strings.ToUpper(s)) }

// line prints a line, wrapped; what runs over is set in by hang.
func (p prose) line(hang int, format string, args ...any) {
	for _, l := range wrap(fmt.Sprintf(format, args...), hang) {
		fmt.Fprintln(p.w, l)
	}
}

// list is several things one after the other.
func (p prose) list(of []string) string {
	all := ""
	for i, s := range of {
		if i == 0 {
			all = s
			continue
		}
		all = p.F("%s; %s", all, s)
	}
	return all
}

// wrap breaks a text between words, at most columns wide. Blanks at the
// beginning are kept; what runs over is set in by hang.
func wrap(s string, hang int) []string {
	body := strings.TrimLeft(s, " ")
	lead := strings.Repeat(" ", len(s)-len(body))
	var out []string
	line := lead
	for _, word := range atBlanks(body) {
		switch {
		case strings.TrimSpace(line) == "":
			line += word
		case width(line)+1+width(word) <= columns:
			line += " " + word
		default:
			out = append(out, line)
			line = strings.Repeat(" ", hang) + word
		}
	}
	return append(out, line)
}

// atBlanks splits at single blanks, so that what is set in columns stays so.
func atBlanks(s string) []string {
	var out []string
	for _, w := range strings.Split(s, " ") {
		if n := len(out); n > 0 && (w == "" || strings.HasSuffix(out[n-1], " ")) {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// width is how many columns a text takes.
func width(s string) int { return len([]rune(s)) }

// pad fills a text up with blanks to so many columns.
func pad(s string, to int) string {
	return s + strings.Repeat(" ", max(to-width(s), 0))
}

// figure sets a figure to the right of a column of ten.
func figure(s string) string {
	return strings.Repeat(" ", max(10-width(s), 0)) + s
}
