package ui

import (
	"bytes"
	"context"
	"errors"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/plain"
	"chalkfold/sync/store"
)

// A backup file with pictures is one JSON document that is written and read in lines,
// so that a phone need not hold all of it: what a file without pictures has, up to the
// bracket that opens their list; a picture in each line; and the end.
const (
	picturesOpen = `,"pictures":[`
	picturesShut = `]}`
)

// backupLines are the lines of a backup file: next returns one after the other, nil
// after the last. Without pictures the file is a line. A picture that is not here is
// left out.
func backupLines(ctx context.Context, records []store.Record, blobs store.Blobs, pictures bool) (next func() ([]byte, error), err error) {
	head, err := writeBackup(records)
	if err != nil {
		return nil, err
	}
	var names []string
	if pictures {
		for _, r := range records {
			if p, err := DecodePhoto(r.Data); r.Kind == photoKind && err == nil && p.Deleted == 0 {
				names = append(names, p.Picture)
			}
		}
	}
	if len(names) > 0 {
		head = bytes.Replace(head, []byte(`{"chalkfold_backup":2,`), []byte(`{"chalkfold_backup":3,`), 1)
		head = append(bytes.TrimSuffix(head, []byte("}")), picturesOpen...)
	}
	between := "\n"
	ended := len(names) == 0
	return func() ([]byte, error) {
		if head != nil {
			line := head
			head = nil
			return line, nil
		}
		for len(names) > 0 {
			name := names[0]
			names = names[1:]
			jpeg, err := blobs.Blob(ctx, name)
			if errors.Is(err, store.ErrNotFound) {
				continue
			}
			if err != nil {
				return nil, err
			}
			w := &plain.Writer{}
			writePicture(w, name, jpeg)
			line, err := w.Done()
			line = append([]byte(between), line...)
			between = ",\n"
			return line, err
		}
		if ended {
			return nil, nil
		}
		ended = true
		return []byte("\n" + picturesShut), nil
	}, nil
}

func writePicture(w *plain.Writer, name string, jpeg []byte) {
	w.Open('{')
	w.Key("name").Text(name)
	w.Key("sum").Text(sumOf(jpeg))
	w.Key("bytes").Bytes(jpeg)
	w.Shut('}')
}

func readPicture(r *plain.Reader) (name string, jpeg []byte, ok bool) {
	sum := ""
	for key := range r.Object() {
		switch key {
		case "name":
			name = r.Text()
		case "sum":
			sum = r.Text()
		case "bytes":
			jpeg = r.Bytes()
		}
	}
	return name, jpeg, r.Err() == nil && (sum == "" || sumOf(jpeg) == sum) && store.CheckBlob(name, jpeg) == nil
}

// eachPicture goes through the pictures of a backup that was read at once.
func (b *backup) eachPicture(do func(name string, jpeg []byte) error) error {
	if b.Pictures == nil {
		return nil
	}
	list := plain.Read(b.Pictures)
	for range list.List() {
		name, jpeg, ok := readPicture(list)
		if !ok {
			return errDamaged
		}
		if err := do(name, jpeg); err != nil {
			return err
		}
	}
	if list.End() != nil {
		return errDamaged
	}
	return nil
}

// chosenFile is a file that was chosen, of so many bytes, of which read reads some. It
// is read beside the page.
type chosenFile struct {
	size int
	read func(from, to int) ([]byte, error)
}

// pieceSize is how much of a file is read at once.
const pieceSize = 1 << 20

// lines goes through the lines of a file.
func (f chosenFile) lines(do func(line []byte) error) error {
	var rest []byte
	for at := 0; at < f.size; at += pieceSize {
		piece, err := f.read(at, min(f.size, at+pieceSize))
		if err != nil {
			return err
		}
		rest = append(rest, piece...)
		for {
			line, after, ok := bytes.Cut(rest, []byte("\n"))
			if !ok {
				break
			}
			if err := do(line); err != nil {
				return err
			}
			rest = append([]byte(nil), after...)
		}
	}
	return do(rest)
}

// errEnough ends the reading of lines.
var errEnough = errors.New("enough")

// readBackupFile reads a backup file of every version there was. Its pictures are looked
// at, and read again when they are wanted.
func readBackupFile(f chosenFile) (*restoring, error) {
	var first []byte
	if err := f.lines(func(line []byte) error {
		first = bytes.Clone(line)
		return errEnough
	}); err != nil && !errors.Is(err, errEnough) {
		return nil, err
	}
	head, ok := bytes.CutSuffix(bytes.TrimRight(first, "\r"), []byte(picturesOpen))
	if !ok { // no pictures, or written anew by another program
		text, err := f.read(0, f.size)
		if err != nil {
			return nil, err
		}
		return withPictures(readBackup(text))
	}
	r, err := readBackup(append(head, '}'))
	if err != nil {
		return nil, err
	}
	r.eachPicture = f.eachPicture
	return withPictures(r, nil)
}

// withPictures counts the pictures, and finds out whether they are whole.
func withPictures(r *restoring, err error) (*restoring, error) {
	if err != nil {
		return nil, err
	}
	return r, r.eachPicture(func(string, []byte) error {
		r.pictures++
		return nil
	})
}

// eachPicture goes through the pictures of a file in lines.
func (f chosenFile) eachPicture(do func(name string, jpeg []byte) error) error {
	n, ended := 0, false
	err := f.lines(func(line []byte) error {
		n++
		line = bytes.TrimSpace(line)
		switch {
		case n == 1, ended && len(line) == 0:
			return nil
		case string(line) == picturesShut && !ended:
			ended = true
			return nil
		}
		r := plain.Read(bytes.TrimSuffix(line, []byte(",")))
		name, jpeg, ok := readPicture(r)
		if !ok || ended || r.End() != nil {
			return errDamaged
		}
		return do(name, jpeg)
	})
	if err == nil && !ended {
		return errDamaged
	}
	return err
}

// restorePictures puts those pictures of a file that photos here name, and are not here.
// It tells how many of them are here then.
func (r *restoring) restorePictures(ctx context.Context, s store.Store, blobs store.Blobs) (n int, err error) {
	if blobs == nil || r.pictures == 0 {
		return 0, nil
	}
	records, err := s.List(ctx, photoKind)
	if err != nil {
		return 0, err
	}
	names, err := blobs.BlobNames(ctx)
	if err != nil {
		return 0, err
	}
	wanted := map[string]bool{}
	for _, r := range records {
		if p, err := DecodePhoto(r.Data); err == nil {
			wanted[p.Picture] = true
		}
	}
	for _, name := range names {
		if wanted[name] {
			wanted[name] = false
		}
	}
	return n, r.eachPicture(func(name string, jpeg []byte) error {
		missing, named := wanted[name]
		if missing {
			if err := blobs.PutBlob(ctx, name, jpeg); err != nil {
				return err
			}
			wanted[name] = false
		}
		if named {
			n++
		}
		return nil
	})
}

// fileOf is a file as the browser has it.
func fileOf(file app.Value) chosenFile {
	return chosenFile{file.Get("size").Int(), func(from, to int) ([]byte, error) {
		type heard struct {
			data []byte
			err  error
		}
		answer := make(chan heard, 1)
		read := app.FuncOf(func(_ app.Value, args []app.Value) any {
			bytes := app.Window().Get("Uint8Array").New(args[0])
			data := make([]byte, bytes.Length())
			app.CopyBytesToGo(data, bytes)
			answer <- heard{data, nil}
			return nil
		})
		defer read.Release()
		failed := app.FuncOf(func(app.Value, []app.Value) any {
			answer <- heard{nil, errNoBackup}
			return nil
		})
		defer failed.Release()
		file.Call("slice", from, to).Call("arrayBuffer").Call("then", read, failed)
		h := <-answer
		return h.data, h.err
	}}
}

// giveLines has the browser save a file or send it, line by line, so that the program
// need not hold it. next is called beside the page.
func (d *Desk) giveLines(name string, next func() ([]byte, error), send bool, done func(out bool, err error)) {
	l := loader()
	if l == nil {
		return
	}
	d.ctx.Async(func() {
		parts := app.Window().Get("Array").New()
		blob := app.Window().Get("Blob")
		for {
			line, err := next()
			if err != nil {
				d.ctx.Dispatch(func(app.Context) { done(false, err) })
				return
			}
			if line == nil {
				break
			}
			bytes := app.Window().Get("Uint8Array").New(len(line))
			app.CopyBytesToJS(bytes, line)
			parts.Call("push", blob.New([]any{bytes}))
		}
		d.ctx.Dispatch(func(app.Context) {
			l.Call("handOver", name, blob.New(parts), send, d.hearOnce(func(v app.Value) { done(v.Bool(), nil) }), jsonKind)
		})
	})
}
