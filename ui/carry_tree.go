package ui

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft/plain"
)

// node is a record, or a part of one, that is put together; see carriage.
type node struct {
	text []byte           // of a leaf
	in   map[string]*node // by key, or by id in a list
	list bool
	at   int // its place in a list
}

// within is the node at a path below n, which is made where there is none.
func (n *node) within(path string) *node {
	for _, part := range strings.Split(path, "/") {
		key := unescaped(part)
		if n.in == nil {
			n.in = map[string]*node{}
		}
		if n.in[key] == nil {
			n.in[key] = &node{}
		}
		n = n.in[key]
	}
	return n
}

// cutLast cuts the last part off a path.
func cutLast(path string) (before, last string, ok bool) {
	i := strings.LastIndexByte(path, '/')
	if i < 0 {
		return "", path, false
	}
	return path[:i], path[i+1:], true
}

// write writes a record: what the book reads of it first of all; see readHead.
func (n *node) write(w *plain.Writer) {
	switch {
	case len(n.in) == 0 && n.text != nil:
		w.Raw(n.text)
	case n.list:
		w.Open('[')
		for _, id := range n.keys() {
			n.in[id].write(w.Next())
		}
		w.Shut(']')
	default:
		w.Open('{')
		for _, key := range n.keys() {
			n.in[key].write(w.Key(key))
		}
		w.Shut('}')
	}
}

// keys are what is within, in the order in which it is written.
func (n *node) keys() []string {
	placed := map[string]string{} // by texts that sort as their places do
	for key, in := range n.in {
		at := in.at
		if !n.list {
			at = rank(key)
		}
		placed[strconv.Itoa(1_000_000+min(max(0, at), 999_999))+key] = key
	}
	keys := make([]string, 0, len(placed))
	for _, text := range slices.Sorted(maps.Keys(placed)) {
		keys = append(keys, placed[text])
	}
	return keys
}

// rank is the place of a key among the others.
func rank(key string) int {
	first := []string{"version", "deleted", "head"}
	if i := slices.Index(first, key); i >= 0 {
		return i
	}
	return len(first)
}
