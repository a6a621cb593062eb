//go:build !js

package sqlite

import "context"

// OpenBy opens a store by another of SQLite's ways to files.
func OpenBy(ctx context.Context, path, vfs string) (*DB, error) { return openBy(ctx, path, vfs) }
