package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

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
	kind kind
	text string // of a text, number or truth value
	keys []string
	at   map[string]*node
	list []*node
}

type kind uint8

const (
	null kind = iota
	text
	number
	truth
	object
	list
)

// String names the kind in a message.
func (k kind) String() string {
	switch k {
	case text:
		return say.Word("a text")
	case number:
		return say.Word("a number")
	case truth:
		return say.Word("true or false")
	case object:
		return say.Word("an object")
	case list:
		return say.Word("a list")
	case null:
	}
	return "null"
}

// shown is the node's value for a message, short.
func (n *node) shown() string {
	switch n.kind {
	case object:
		return "{…}"
	case list:
		return "[…]"
	case null:
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
	var raw json.RawMessage
	if err := json.Unmarshal(data, &raw); err != nil {
		d.fail("", "", place(data, err))
		return nil
	}
	tokens := json.NewDecoder(bytes.NewReader(data))
	tokens.UseNumber()
	return d.value(tokens, "", 0)
}

// place says what JSON stumbled over and where.
func place(data []byte, err error) say.Msg {
	var bad *json.SyntaxError
	if !errors.As(err, &bad) {
		return say.Of("is not JSON: %v", err)
	}
	before := data[:min(max(int(bad.Offset)-1, 0), len(data))]
	line := bytes.Count(before, []byte("\n")) + 1
	column := len([]rune(string(before[bytes.LastIndexByte(before, '\n')+1:]))) + 1
	return say.Of("is not JSON: %v (line %d, place %d); mend the file there", err, line, column)
}

// value reads one value that is already known to be sound JSON.
func (d *decoder) value(tokens *json.Decoder, path string, depth int) *node {
	token, err := tokens.Token()
	if err != nil {
		d.fail(path, "", say.Of("is not JSON: %v", err))
		return nil
	}
	switch v := token.(type) {
	case json.Delim:
		if depth >= maxDepth {
			d.stop(path, say.Of("nested too deep; a job has no such key"))
			return nil
		}
		if v == '{' {
			return d.object(tokens, path, depth)
		}
		return d.list(tokens, path, depth)
	case string:
		if len(v) > maxText {
			d.fail(path, clip(v), say.Of("too long; write at most %d letters", maxText))
			return nil
		}
		return &node{kind: text, text: v}
	case json.Number:
		return &node{kind: number, text: v.String()}
	case bool:
		return &node{kind: truth, text: fmt.Sprint(v)}
	}
	return &node{}
}

func (d *decoder) object(tokens *json.Decoder, path string, depth int) *node {
	n := &node{kind: object, at: map[string]*node{}}
	for tokens.More() {
		token, err := tokens.Token()
		key, isText := token.(string)
		if err != nil || !isText {
			d.fail(path, "", say.Of("is not JSON: a key is missing"))
			return nil
		}
		v := d.value(tokens, join(path, key), depth+1)
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
	_, _ = tokens.Token() // the closing brace, known to be there
	return n
}

func (d *decoder) list(tokens *json.Decoder, path string, depth int) *node {
	n := &node{kind: list}
	for tokens.More() {
		v := d.value(tokens, fmt.Sprintf("%s[%d]", path, len(n.list)), depth+1)
		if v == nil && d.fatal {
			return nil
		}
		if len(n.list) >= maxItems {
			d.stop(path, say.Of("more than %d entries; a job has fewer", maxItems))
			return nil
		}
		n.list = append(n.list, v)
	}
	_, _ = tokens.Token() // the closing bracket, known to be there
	return n
}

func join(path, key string) string {
	if path == "" {
		return clip(key)
	}
	return path + "." + clip(key)
}
