package tables

import (
	"database/sql"
	"errors"
)

// Collect reads all rows of a query, and closes it: for a DB behind database/sql.
func Collect(rows *sql.Rows) (all [][]any, err error) {
	defer func() { err = errors.Join(err, rows.Close()) }()
	columns, err := rows.Columns()
	if err != nil {
		return nil, err
	}
	for rows.Next() {
		values, to := make([]any, len(columns)), make([]any, len(columns))
		for i := range values {
			to[i] = &values[i]
		}
		if err := rows.Scan(to...); err != nil {
			return nil, err
		}
		all = append(all, values)
	}
	return all, rows.Err()
}
