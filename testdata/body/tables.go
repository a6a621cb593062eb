// Package tables hands the published tables of bodies to tests; see SOURCES.md.
package tables

import (
	"bytes"
	"embed"
	"encoding/csv"
	"testing"
)

//go:embed *.csv
var files embed.FS

// Survey is the table of the surveyed bodies.
const Survey = "ansur2_garment_columns.csv"

// File is the table of a name.
func File(t testing.TB, name string) []byte {
	t.Helper()
	data, err := files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Rows are the rows of the table of a name, cell by column.
func Rows(t testing.TB, name string) []map[string]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(File(t, name))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []map[string]string
	for _, row := range rows[1:] {
		m := make(map[string]string, len(row))
		for i, cell := range row {
			m[rows[0][i]] = cell
		}
		all = append(all, m)
	}
	return all
}
