//go:build !js

package ui

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestReadmeBackup: the backup file of the README is of the versions that the page
// writes today, and its records have no key that those kept of that version lack.
func TestReadmeBackup(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, text, _ := strings.Cut(string(readme), "## Everything as JSON")
	_, text, _ = strings.Cut(text, "```json")
	text, _, _ = strings.Cut(text, "```")
	var file struct {
		Version int `json:"chalkfold_backup"`
		Records []struct {
			Kind string
			Data map[string]any
		}
	}
	if err := json.Unmarshal([]byte(text), &file); err != nil {
		t.Fatalf("the README's backup file is no JSON: %v", err)
	}
	if file.Version != backupVersion {
		t.Errorf("the README's backup file has version %d, the page writes %d", file.Version, backupVersion)
	}
	kept := map[string]string{
		clientKind: fmt.Sprintf("client-%d.json", clientVersion),
		recordKind: fmt.Sprintf("kept-%d.json", keptVersion),
		photoKind:  fmt.Sprintf("photo-%d.json", photoVersion),
	}
	if len(file.Records) != len(kept) {
		t.Errorf("the README has %d records, want one of each of %v", len(file.Records), kept)
	}
	for _, r := range file.Records {
		data, err := os.ReadFile(filepath.Join("testdata", kept[r.Kind]))
		if err != nil {
			t.Fatalf("%s: %v", r.Kind, err)
		}
		var now map[string]any
		if err := json.Unmarshal(data, &now); err != nil {
			t.Fatal(err)
		}
		if r.Data["version"] != now["version"] {
			t.Errorf("the README's %s has version %v, the page writes %v", r.Kind, r.Data["version"], now["version"])
		}
		for key := range r.Data {
			if _, ok := now[key]; !ok {
				t.Errorf("the README's %s has %q, which the page does not write", r.Kind, key)
			}
		}
	}
}
