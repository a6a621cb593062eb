//go:build js && wasm

package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"
	"syscall/js"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/tables"
	"chalkfold/sync/server"
	"chalkfold/sync/wire"
)

// serveObject answers an object's messages for as long as the object is there.
func serveObject() {
	o := &object{db: objectDB{js.Global().Get("context").Get("sql")}, nobody: nothing()}
	l := tables.New(o.db, quota())
	o.ledger = l
	hint := js.Global().Get("context").Get("hint")
	o.server = server.New(server.Config{
		Ledger: l, Boxes: l, Now: clock, Invite: invitations(), Failed: failed,
		Moved: func(_ wire.Workshop, head wire.Position) { hint.Invoke(toJS(head.Encode())) },
	})
	binding := js.Global().Get("context").Get("binding")
	binding.Set("answer", promising(o.answer))
	binding.Set("admit", promising(o.admit))
	js.Global().Get("context").Get("ready").Invoke()
	select {}
}

// An object is one workshop's, or one box's.
type object struct {
	db     objectDB
	ledger tables.Ledger
	server http.Handler
	nobody http.Handler
	made   bool
}

// handler answers a path. An object that nothing has been kept in has no tables, and
// gets none by being asked: names can be made up.
func (o *object) handler(path string) (http.Handler, error) {
	if !o.made {
		keeps := path == server.Path+"create" || path == inside+"leave"
		rows, err := o.db.Read(context.Background(), tables.Made)
		if err != nil {
			return nil, err
		}
		if len(rows) == 0 && !keeps {
			return o.nobody, nil
		}
		if err := made(context.Background(), o.db); err != nil {
			return nil, err
		}
		o.made = true
	}
	if path == inside+"leave" {
		return http.HandlerFunc(o.leave), nil
	}
	return o.server, nil
}

// leave keeps a parcel that the front has looked at.
func (o *object) leave(w http.ResponseWriter, r *http.Request) {
	m, err := io.ReadAll(r.Body)
	parcel, bad := wire.DecodeParcel(m)
	if err = errors.Join(err, bad); err == nil {
		err = o.ledger.Leave(r.Context(), parcel, clock().Add(ledger.BoxTime))
	}
	if err != nil {
		failed(r, err)
		http.Error(w, "the server cannot answer now: try again", http.StatusServiceUnavailable)
		return
	}
	sealed(w)
	_, _ = w.Write(wire.EncodeDone()) // nobody is there to be told
}

// answer is called with the method, the path, the Authorization and Content-Encoding
// headers and the body of a request, and answers with a status, headers in a list and
// a body.
func (o *object) answer(args []js.Value) (any, error) {
	path := args[1].String()
	h, err := o.handler(path)
	if err != nil {
		return nil, err
	}
	body := make([]byte, args[4].Length())
	js.CopyBytesToGo(body, args[4])
	r, err := http.NewRequest(args[0].String(), path, bytes.NewReader(body))
	if err != nil {
		return nil, err
	}
	for i, name := range []string{"Authorization", "Content-Encoding"} {
		if v := args[2+i].String(); v != "" {
			r.Header.Set(name, v)
		}
	}
	w := &answer{head: http.Header{}}
	h.ServeHTTP(w, r)
	var heads []any
	for name, values := range w.head {
		for _, v := range values {
			heads = append(heads, []any{name, v})
		}
	}
	return map[string]any{"status": max(w.status, http.StatusOK), "headers": heads, "body": toJS(w.body.Bytes())}, nil
}

// admit says whether credentials are those of this object's workshop.
func (o *object) admit(args []js.Value) (any, error) {
	h, err := o.handler(server.Path + "usage")
	if err != nil || h != o.server {
		return false, err
	}
	_, err = server.Admit(context.Background(), o.ledger, args[0].String())
	return err == nil, nil
}

// An answer is what a handler writes.
type answer struct {
	head   http.Header
	status int
	body   bytes.Buffer
}

func (a *answer) Header() http.Header { return a.head }

func (a *answer) WriteHeader(status int) {
	if a.status == 0 {
		a.status = status
	}
}

func (a *answer) Write(b []byte) (int, error) {
	a.WriteHeader(http.StatusOK)
	return a.body.Write(b)
}

// promising returns a function of JavaScript that answers by a promise.
func promising(f func(args []js.Value) (any, error)) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) any {
		var run js.Func
		run = js.FuncOf(func(_ js.Value, settle []js.Value) any {
			run.Release()
			go func() {
				defer func() {
					if p := recover(); p != nil {
						settle[1].Invoke(js.Global().Get("Error").New(fmt.Sprint(p)))
					}
				}()
				if got, err := f(args); err != nil {
					settle[1].Invoke(js.Global().Get("Error").New(err.Error()))
				} else {
					settle[0].Invoke(got)
				}
			}()
			return nil
		})
		return js.Global().Get("Promise").New(run)
	})
}

func toJS(b []byte) js.Value {
	to := js.Global().Get("Uint8Array").New(len(b))
	js.CopyBytesToJS(to, b)
	return to
}

// objectDB is the SQLite of an object, which runs statements where it stands.
type objectDB struct{ run js.Value }

func (d objectDB) Read(ctx context.Context, statement string, parameters ...any) ([][]any, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	given := make([]any, len(parameters))
	for i, p := range parameters {
		if given[i] = p; p != nil {
			if b, ok := p.([]byte); ok {
				given[i] = toJS(b)
			}
		}
	}
	told := d.run.Invoke(statement, given)
	if e := told.Get("error"); !e.IsUndefined() {
		return nil, errors.New(e.String())
	}
	rows := told.Get("rows")
	all := make([][]any, rows.Length())
	for i := range all {
		row := rows.Index(i)
		all[i] = make([]any, row.Length())
		for k := range all[i] {
			all[i][k] = fromJS(row.Index(k))
		}
	}
	return all, nil
}

func (d objectDB) Write(ctx context.Context, statement string, parameters ...any) ([][]any, error) {
	return d.Read(ctx, statement, parameters...)
}

// fromJS is a value of a row: a number, a text, a blob or nothing.
func fromJS(v js.Value) any {
	switch v.Type() {
	case js.TypeNumber:
		return v.Float()
	case js.TypeString:
		return v.String()
	case js.TypeObject:
		bytes := js.Global().Get("Uint8Array").New(v)
		b := make([]byte, bytes.Length())
		js.CopyBytesToGo(b, bytes)
		return b
	default:
		return nil
	}
}

// variable is one of those that the operator sets, or empty.
func variable(name string) string {
	if v := js.Global().Get("context").Get("env").Get(name); v.Type() == js.TypeString {
		return v.String()
	}
	return ""
}

// quota is that of a workshop, by LOG_QUOTA and CHUNK_QUOTA, in MiB.
func quota() ledger.Quota {
	q := ledger.Common()
	for name, to := range map[string]*int64{"LOG_QUOTA": &q.Log, "CHUNK_QUOTA": &q.Chunks} {
		var mib int64
		if _, err := fmt.Sscan(variable(name), &mib); err == nil && mib > 0 {
			*to = mib << 20
		}
	}
	return q
}

// invitations are the lines of INVITATIONS. Without it everyone is admitted.
func invitations() func(context.Context, string) bool {
	all := strings.FieldsFunc(variable("INVITATIONS"), func(r rune) bool { return r == '\n' })
	if len(all) == 0 {
		return nil
	}
	return server.Invited(all)
}

// failed tells the log of what is nobody's doing.
func failed(r *http.Request, err error) {
	js.Global().Get("console").Call("error", r.URL.Path+": "+err.Error())
}
