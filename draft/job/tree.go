package job

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"chalkfold/draft/plain"
	"chalkfold/draft/say"
)

// Limits on what is read, far above any job, so that a file from elsewhere
// cannot fill the phone.
const (
	maxBytes = 64 << 10
	maxDepth = 8
	maxText  = 200 // bytes of one text
	maxKeys  = 200 // of one object
	maxItems = 32  // of one list
)

// node is one JSON value with its keys in order.
type node struct {
	kind plain.Kind
	text string // of a text, number or truth value
	keys []string
	at   map[string]*node
	list []*node
}

// shown is the node's value for a message, short.
func (n *node) shown() string {
	switch n.kind {
	case plain.Object:
		return "{…}"
	case plain.List:
		return "[…]"
	case plain.Null:
		return "null"
	default:
		return clip(n.text)
	}
}

// clip shortens what is quoted in a message.
func clip(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

// readTree reads the whole of r as one JSON value.
func (d *decoder) readTree(r io.Reader) *node {
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		d.problems = append(d.problems, &Problem{Why: say.Of("cannot be read: %v", err), Err: err})
		return nil
	}
	if len(data) > maxBytes {
		d.fail("", "", say.Of("larger than %d kB; a job is a few kB, so this is another file", maxBytes>>10))
		return nil
	}
	if len(bytes.TrimSpace(data)) == 0 {
		d.fail("", "", say.Of("empty; give a job file"))
		return nil
	}
	var bad *plain.Error
	if errors.As(plain.Check(data), &bad) {
		d.fail("", "", place(data, bad))
		return nil
	}
	return d.value(plain.Read(data), "", 0)
}

// place says what JSON stumbled over and where.
func place(data []byte, bad *plain.Error) say.Msg {
	before := data[:bad.At]
	line := bytes.Count(before, []byte("\n")) + 1
	column := len([]rune(string(before[bytes.LastIndexByte(before, '\n')+1:]))) + 1
	return say.Of("is not JSON: %v (line %d, place %d); mend the file there", bad.Why, line, column)
}

// value reads one value that is already known to be sound JSON.
func (d *decoder) value(r *plain.Reader, path string, depth int) *node {
	kind := r.Kind()
	switch kind {
	case plain.Object, plain.List:
		if depth >= maxDepth {
			d.stop(path, say.Of("nested too deep; a job has no such key"))
			return nil
		}
		if kind == plain.Object {
			return d.object(r, path, depth)
		}
		return d.list(r, path, depth)
	case plain.Text:
		text := r.Text()
		if len(text) > maxText {
			d.fail(path, clip(text), say.Of("too long; write at most %d letters", maxText))
			return nil
		}
		return &node{kind: kind, text: text}
	case plain.Number, plain.Truth:
		return &node{kind: kind, text: string(r.Raw())}
	case plain.Null:
	}
	return &node{}
}

func (d *decoder) object(r *plain.Reader, path string, depth int) *node {
	n := &node{kind: plain.Object, at: map[string]*node{}}
	for key := range r.Object() {
		v := d.value(r, join(path, key), depth+1)
		if v == nil && d.fatal {
			return nil
		}
		if _, twice := n.at[key]; twice {
			d.fail(join(path, key), "", say.Of("given twice; keep one"))
			continue
		}
		if len(n.keys) >= maxKeys {
			d.stop(path, say.Of("more than %d keys; a job has fewer", maxKeys))
			return nil
		}
		n.keys = append(n.keys, key)
		n.at[key] = v
	}
	return n
}

func (d *decoder) list(r *plain.Reader, path string, depth int) *node {
	n := &node{kind: plain.List}
	for i := range r.List() {
		v := d.value(r, fmt.Sprintf("%s[%d]", path, i), depth+1)
		if v == nil && d.fatal {
			return nil
		}
		if i >= maxItems {
			d.stop(path, say.Of("more than %d entries; a job has fewer", maxItems))
			return nil
		}
		n.list = append(n.list, v)
	}
	return n
}

func join(path, key string) string {
	if path == "" {
		return clip(key)
	}
	return path + "." + clip(key)
}
