//go:build !js

package sqlite

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"
)

// Backup writes all that is committed into a new file, while the store may be in
// use by this program or another. It is written beside, looked through, and takes
// its name once it is on the disk. There must be no file of that name.
func (db *DB) Backup(ctx context.Context, to string) (err error) {
	if err := absent(to); err != nil {
		return err
	}
	part := to + ".part"
	if err := os.Remove(part); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	defer func() {
		if gone := os.Remove(part); !errors.Is(gone, fs.ErrNotExist) {
			err = errors.Join(err, gone)
		}
	}()
	if _, err := db.readers.ExecContext(ctx, "VACUUM INTO ?", part); err != nil {
		return asDamage(err)
	}
	if err := os.Chmod(part, 0o600); err != nil {
		return err
	}
	if err := Check(ctx, part); err != nil {
		return err
	}
	return settle(part, to)
}

// Check looks through a file that nobody writes to, a backup for instance, and
// leaves it as it is.
func Check(ctx context.Context, path string) error {
	if _, err := os.Stat(path); err != nil {
		return err
	}
	db, err := connectTo(path, "mode=ro&immutable=1")
	if err != nil {
		return err
	}
	made, err := look(ctx, db)
	if err == nil && !made {
		err = ErrForeign
	}
	if err = errors.Join(err, db.Close()); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return nil
}

// Restore puts a backup in the place of a store, which no program may have open.
// What was there is kept beside, under the name that is returned; it is empty if
// nothing was there. A backup that cannot be used changes nothing.
func Restore(ctx context.Context, backup, path string, now time.Time) (kept string, err error) {
	if err := Check(ctx, backup); err != nil {
		return "", err
	}
	part := path + ".part"
	if err := copyFile(backup, part); err != nil {
		return "", errors.Join(err, os.Remove(part))
	}
	if _, err := os.Stat(path); err == nil {
		kept = path + ".before-" + now.UTC().Format("20060102-150405")
		if err := absent(kept); err != nil {
			return "", err
		}
	}
	// The write-ahead log belongs to the file that it was written for: to another
	// it would be garbage.
	for _, suffix := range []string{"", "-wal", "-shm"} {
		if err := os.Rename(path+suffix, kept+suffix); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return kept, err
		}
	}
	return kept, settle(part, path)
}

// absent says that something is there which must not be.
func absent(path string) error {
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		return errors.Join(err, fmt.Errorf("%s is there already: choose another name, or move it away", path))
	}
	return nil
}

// settle gives a file its name once its content is on the disk.
func settle(part, to string) error {
	f, err := os.OpenFile(part, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	if err := errors.Join(f.Sync(), f.Close()); err != nil {
		return err
	}
	if err := os.Rename(part, to); err != nil {
		return err
	}
	return syncFolder(to)
}

// syncFolder makes the names in a file's folder last.
func syncFolder(of string) error {
	d, err := os.Open(folder(of))
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}

func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Close())
}
