//go:build js && wasm

package main

import (
	"context"
	"errors"
	"strings"
	"syscall/js"
	"time"

	"chalkfold/sync/wire"
)

// syncPath is where the server that the page comes from takes the messages of the
// second copy.
const syncPath = "/sync/1/"

// linePatience is how long an answer may take: half a mebibyte at 20 kbit/s.
const linePatience = 4 * time.Minute

var errLine = errors.New("no answer came")

// line carries the messages of the second copy.
type line struct{}

// Send implements client.Line.
func (line) Send(ctx context.Context, path, bearer string, message []byte) (int, []byte, error) {
	if err := ctx.Err(); err != nil {
		return 0, nil, err
	}
	body := js.Global().Get("Uint8Array").New(len(message))
	js.CopyBytesToJS(body, message)
	headers := map[string]any{"Content-Type": "application/octet-stream"}
	if bearer != "" {
		headers["Authorization"] = bearer
	}
	stop := js.Global().Get("AbortController").New()
	ctx, cancel := context.WithTimeout(ctx, linePatience)
	defer cancel()
	defer context.AfterFunc(ctx, func() { stop.Call("abort") })()
	response, ok := await(js.Global().Call("fetch", syncPath+path, map[string]any{
		"method": "POST", "body": body, "headers": headers, "cache": "no-store",
		"credentials": "omit", "redirect": "error", "signal": stop.Get("signal"),
	}))
	if !ok {
		return 0, nil, errLine
	}
	buffer, ok := await(response.Call("arrayBuffer"))
	if !ok || buffer.Get("byteLength").Int() > wire.MostMessage {
		return 0, nil, errLine
	}
	return response.Get("status").Int(), bytesOf(js.Global().Get("Uint8Array").New(buffer)), nil
}

// listen hears what the server tells of a workshop; see ui.Deps.
func listen(workshop, bearer string, heard func([]byte), over func()) (stop func()) {
	place := js.Global().Get("location")
	socket := js.Global().Get("WebSocket").New("ws" + strings.TrimPrefix(place.Get("protocol").String(), "http") + "//" + place.Get("host").String() + syncPath + "hints?" + workshop)
	socket.Set("binaryType", "arraybuffer")
	var hear []js.Func
	on := func(event string, do func(js.Value)) {
		f := js.FuncOf(func(_ js.Value, args []js.Value) any {
			do(args[0])
			return nil
		})
		hear = append(hear, f)
		socket.Call("addEventListener", event, f)
	}
	on("open", func(js.Value) {
		socket.Call("send", bearer)
		heard(nil)
	})
	on("message", func(event js.Value) {
		if data := event.Get("data"); data.Type() == js.TypeObject && data.Get("byteLength").Int() <= wire.MostMessage {
			heard(bytesOf(js.Global().Get("Uint8Array").New(data)))
		}
	})
	on("close", func(js.Value) {
		for _, f := range hear {
			f.Release()
		}
		over()
	})
	return func() { socket.Call("close") }
}
