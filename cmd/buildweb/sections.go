package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
)

// The parts of a wasm file that are read here. From the WebAssembly core
// specification 2.0, 5.5 "Modules" and 5.2.2 "Integers".
const (
	sectionCustom = 0
	sectionData   = 11

	opI32Const = 0x41
	opEnd      = 0x0b
)

// wasmHeader is the magic number and the version of the format.
const wasmHeader = "\x00asm\x01\x00\x00\x00"

// A section is one section of a wasm file.
type section struct {
	id   byte
	body []byte
}

// A reader takes numbers off the front of what is left. The first error stays,
// and everything read after it is nought.
type reader struct {
	rest []byte
	err  error
}

func (r *reader) fail(what string) {
	if r.err == nil {
		r.err = fmt.Errorf("%s with %d bytes left", what, len(r.rest))
	}
	r.rest = nil
}

func (r *reader) take(n uint64) []byte {
	if n > uint64(len(r.rest)) {
		r.fail(fmt.Sprintf("%d bytes wanted", n))
		return nil
	}
	b := r.rest[:n]
	r.rest = r.rest[n:]
	return b
}

func (r *reader) octet() byte {
	if b := r.take(1); b != nil {
		return b[0]
	}
	return 0
}

// number reads an unsigned LEB128 number.
func (r *reader) number() uint64 {
	v, n := binary.Uvarint(r.rest)
	if n <= 0 {
		r.fail("not a number")
		return 0
	}
	r.rest = r.rest[n:]
	return v
}

// signed reads a signed LEB128 number.
func (r *reader) signed() int64 {
	var v int64
	for shift := uint(0); shift < 64; shift += 7 {
		b := r.octet()
		v |= int64(b&0x7f) << shift
		if b < 0x80 {
			if b&0x40 != 0 && shift+7 < 64 {
				v -= 1 << (shift + 7)
			}
			return v
		}
	}
	r.fail("a number that does not end")
	return 0
}

// appendSigned appends v as signed LEB128.
func appendSigned(b []byte, v int64) []byte {
	for {
		low := byte(v & 0x7f)
		v >>= 7
		if (v == 0 && low&0x40 == 0) || (v == -1 && low&0x40 != 0) {
			return append(b, low)
		}
		b = append(b, low|0x80)
	}
}

func readSections(wasm []byte) ([]section, error) {
	rest, ok := bytes.CutPrefix(wasm, []byte(wasmHeader))
	if !ok {
		return nil, errors.New("not a wasm file of version 1")
	}
	r := &reader{rest: rest}
	var all []section
	for len(r.rest) > 0 {
		id := r.octet()
		all = append(all, section{id, r.take(r.number())})
	}
	return all, r.err
}

func writeSections(all []section) []byte {
	out := []byte(wasmHeader)
	for _, s := range all {
		out = append(out, s.id)
		out = binary.AppendUvarint(out, uint64(len(s.body)))
		out = append(out, s.body...)
	}
	return out
}

// An image is what a data section puts into memory, from its first byte to its
// last, zeros in between written out.
type image struct {
	start uint64 // the address of the first byte
	bytes []byte
}

// maxImage is more memory than the data of any program of ours will fill; a
// section that asks for more is not what this reads it as.
const maxImage = 64 << 20

func readImage(body []byte) (image, error) {
	type segment struct {
		start uint64
		bytes []byte
	}
	r := &reader{rest: body}
	var segments []segment
	low, high := uint64(maxImage), uint64(0)
	for range r.number() {
		if kind, op := r.octet(), r.octet(); kind != 0 || op != opI32Const {
			r.fail("not a segment of memory 0 at a fixed address")
			break
		}
		start := uint64(r.signed())
		if r.octet() != opEnd {
			r.fail("an address that is not one number")
		}
		s := segment{start, r.take(r.number())}
		if r.err != nil {
			break
		}
		end := s.start + uint64(len(s.bytes))
		if s.start > maxImage || end > maxImage {
			r.fail(fmt.Sprintf("a segment at %d", s.start))
			break
		}
		low, high = min(low, s.start), max(high, end)
		segments = append(segments, s)
	}
	if r.err == nil && (len(r.rest) > 0 || len(segments) == 0) {
		r.fail("no segment, or more than was announced")
	}
	if r.err != nil {
		return image{}, fmt.Errorf("data section: %w", r.err)
	}
	im := image{low, make([]byte, high-low)}
	for _, s := range segments { // in order: a later one lies over an earlier one
		copy(im.bytes[s.start-low:], s.bytes)
	}
	return im, nil
}

// longGap is how many zeros in a row are left out rather than written, so that
// the browser has less to unpack and the phone less memory to fill.
const longGap = 64 << 10

// section writes one segment, or several where there are long gaps.
func (im image) section() section {
	var body []byte
	segments := uint64(0)
	for at, rest := im.start, im.bytes; len(rest) > 0; segments++ {
		end, next := len(rest), len(rest)
		if gap := bytes.Index(rest, make([]byte, longGap)); gap > 0 {
			end, next = gap, len(rest)-len(bytes.TrimLeft(rest[gap:], "\x00"))
		}
		body = appendSigned(append(body, 0, opI32Const), int64(at))
		body = binary.AppendUvarint(append(body, opEnd), uint64(end))
		body = append(body, rest[:end]...)
		at, rest = at+uint64(next), rest[next:]
	}
	return section{sectionData, append(binary.AppendUvarint(nil, segments), body...)}
}
