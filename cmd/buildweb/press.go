package main

import (
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"

	"github.com/andybalholm/brotli"
)

// A presser returns the brotli and the gzip form of a body.
type presser func(body []byte) (br, gz []byte, err error)

// pressFully presses as hard as it goes: some 12 s for the program.
func pressFully(body []byte) (br, gz []byte, err error) {
	return pressAt(body, brotli.BestCompression, gzip.BestCompression)
}

// pressLightly is done within a second, and leaves a quarter more.
func pressLightly(body []byte) (br, gz []byte, err error) {
	return pressAt(body, 4, gzip.BestSpeed)
}

func pressAt(body []byte, quality, level int) (br, gz []byte, err error) {
	var b bytes.Buffer
	// A window of 4 MiB: a wider one gains nothing here and costs the phone
	// memory while it unpacks.
	bw := brotli.NewWriterOptions(&b, brotli.WriterOptions{Quality: quality, LGWin: 22})
	if _, err := bw.Write(body); err != nil {
		return nil, nil, err
	}
	if err := bw.Close(); err != nil {
		return nil, nil, err
	}
	var g bytes.Buffer
	gw, err := gzip.NewWriterLevel(&g, level)
	if err != nil {
		return nil, nil, err
	}
	if _, err := gw.Write(body); err != nil {
		return nil, nil, err
	}
	if err := gw.Close(); err != nil {
		return nil, nil, err
	}
	return b.Bytes(), g.Bytes(), nil
}

// remembering keeps what press made in dir, by the hash of the body, so that
// an unchanged program is not pressed again.
func remembering(dir string, press presser) presser {
	return func(body []byte) (br, gz []byte, err error) {
		name := filepath.Join(dir, hashOf(body))
		br, errBr := os.ReadFile(name + ".br")
		gz, errGz := os.ReadFile(name + ".gz")
		if errBr == nil && errGz == nil {
			return br, gz, nil
		}
		if br, gz, err = press(body); err != nil {
			return nil, nil, err
		}
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return nil, nil, err
		}
		if err := os.WriteFile(name+".br", br, 0o644); err != nil {
			return nil, nil, err
		}
		return br, gz, os.WriteFile(name+".gz", gz, 0o644)
	}
}
