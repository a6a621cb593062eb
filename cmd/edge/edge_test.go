//go:build !js

package main_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/base64"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/ledgertest"
	"chalkfold/sync/ledger/tables"
)

// runtimeFolder is where make test-edge has put the runtime, an npm package. Without
// it the tests are not run: it is large, and make test does without.
const runtimeFolder = "CHALKFOLD_EDGE_RUNTIME"

// start runs a worker and returns its address.
func start(t *testing.T, options map[string]any) string {
	t.Helper()
	folder := os.Getenv(runtimeFolder)
	if folder == "" {
		t.Skip("no runtime of the edge is here: run make test-edge")
	}
	script, err := os.ReadFile("testdata/run.mjs")
	if err == nil {
		err = os.WriteFile(filepath.Join(folder, "run.mjs"), script, 0o600)
	}
	told, bad := json.Marshal(options)
	if err = errors.Join(err, bad); err != nil {
		t.Fatal(err)
	}
	node := exec.Command("node", filepath.Join(folder, "run.mjs"), string(told))
	node.Stderr = os.Stderr
	in, err := node.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := node.StdoutPipe()
	if err == nil {
		err = node.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = in.Close()
		if err := node.Wait(); err != nil {
			t.Errorf("the runtime ended: %v", err)
		}
	})
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatalf("%q, %v", line, err)
	}
	return strings.TrimSuffix(strings.TrimSpace(line), "/")
}

// A remote database runs statements on an engine of the edge.
type remote struct{ address string }

type blob struct {
	Blob string `json:"blob"`
}

func (r remote) Read(ctx context.Context, statement string, parameters ...any) ([][]any, error) {
	for i, p := range parameters {
		if b, ok := p.([]byte); ok {
			parameters[i] = blob{base64.StdEncoding.EncodeToString(b)}
		}
	}
	if parameters == nil {
		parameters = []any{}
	}
	message, err := json.Marshal(map[string]any{"statement": statement, "parameters": parameters})
	if err != nil {
		return nil, err
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodPost, r.address, bytes.NewReader(message))
	if err != nil {
		return nil, err
	}
	answer, err := http.DefaultClient.Do(request)
	if err != nil {
		return nil, err
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		return nil, err
	}
	var told struct {
		Rows  [][]json.RawMessage
		Error string
	}
	if err := json.Unmarshal(body, &told); err != nil {
		return nil, errors.Join(err, errors.New(string(body)))
	}
	if told.Error != "" {
		return nil, errors.New(told.Error)
	}
	return rowsOf(told.Rows)
}

func rowsOf(told [][]json.RawMessage) ([][]any, error) {
	var rows [][]any
	for _, values := range told {
		var row []any
		for _, raw := range values {
			var value any
			if bytes.HasPrefix(raw, []byte("{")) {
				var b blob
				if err := json.Unmarshal(raw, &b); err != nil {
					return nil, err
				}
				decoded, err := base64.StdEncoding.DecodeString(b.Blob)
				if err != nil {
					return nil, err
				}
				value = decoded
			} else if err := json.Unmarshal(raw, &value); err != nil {
				return nil, err
			}
			row = append(row, value)
		}
		rows = append(rows, row)
	}
	return rows, nil
}

func (r remote) Write(ctx context.Context, statement string, parameters ...any) ([][]any, error) {
	return r.Read(ctx, statement, parameters...)
}

// TestEngines holds the SQLite of an object and D1 to the one suite of every ledger:
// the statements are the same as those of a server of one's own.
func TestEngines(t *testing.T) {
	script, err := filepath.Abs("testdata/sql.mjs")
	if err != nil {
		t.Fatal(err)
	}
	address := start(t, map[string]any{
		"modules": []map[string]string{{"type": "ESModule", "path": script}}, "modulesRoot": filepath.Dir(script),
		"compatibilityDate": compatibility,
		"durableObjects":    map[string]any{"DATABASES": map[string]any{"className": "Database", "useSQLite": true}},
		"d1Databases":       []string{"D1"},
	})
	for _, engine := range []string{"object", "d1"} {
		t.Run(engine, func(t *testing.T) {
			db := remote{address + "/" + engine}
			for _, s := range tables.Make() {
				if _, err := db.Write(t.Context(), s); err != nil {
					t.Fatalf("%s: %v", s, err)
				}
			}
			ledgertest.Run(t, func(_ *testing.T, q ledger.Quota) ledgertest.Kept { return tables.New(db, q) })
		})
	}
}

const compatibility = "2026-07-01"
