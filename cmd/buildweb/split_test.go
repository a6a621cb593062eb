package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// parted calls across the border in every way that Go knows, before the rest is
// there and after. What begins with late is in the rest.
const parted = `package main

import (
	"fmt"
	"runtime"
	"strings"
	"syscall/js"
	"time"
)

type roll struct{ cloth []int }

//go:noinline
func (r *roll) lateLength() int { return len(r.cloth) }

type measured interface{ lateGirth() int }

type body struct{ girth int }

//go:noinline
func (b body) lateGirth() int { return b.girth }

//go:noinline
func lateSum(n ...int) (sum int) {
	for _, v := range n {
		sum += v
	}
	return sum
}

//go:noinline
func lateDown(n int, down func(int) int) int { return down(n-1) + 1 }

func down(n int) int {
	var pad [32]int
	if n <= 0 {
		runtime.GC()
		return 0
	}
	pad[n%32] = n
	return lateDown(n, down) + 1 + pad[n%32] - n
}

//go:noinline
func latePanic(why string) { panic(why) }

//go:noinline
func lateRecover(do func()) (why any) {
	defer func() { why = recover() }()
	do()
	return nil
}

//go:noinline
func lateCrash(b *body) { b.girth = 1 }

//go:noinline
func lateSort(v []int, less func(a, b int) bool) {
	for i := range v {
		for j := i; j > 0 && less(v[j], v[j-1]); j-- {
			v[j], v[j-1] = v[j-1], v[j]
		}
	}
}

// say writes where the host writes, so that all stands in its order.
func say(v ...any) {
	js.Global().Get("console").Call("log", strings.TrimSpace(fmt.Sprintln(v...)))
}

// litter fills the heap anew, so that what nothing holds is lost.
func litter() {
	for range 3 {
		var all [][]int
		for i := range 2000 { all = append(all, make([]int, 1+i%64)) }
		runtime.GC()
		runtime.KeepAlive(all)
	}
}

func caught(do func()) (why any) {
	defer func() { why = recover() }()
	do()
	return nil
}

func main() {
	global := js.Global()
	mode := global.Get("mode").String()
	answers := make(chan string, 20)
	answer := func(what string, v any) { answers <- fmt.Sprint(what, "=", v) }

	// Goroutines that wait, each at another kind of call.
	go func() { answer("called", lateSum(1, 2, 3)) }()
	length := (&roll{make([]int, 30)}).lateLength // its receiver is held by the call alone
	go func(length func() int) { answer("method", length()) }(length)
	length = nil
	go func(m measured) { answer("interface", m.lateGirth()) }(body{42})
	go func() {
		defer answer("deferred", "yes")
		defer lateSum()
	}()
	kept := make([]int, 1, 7)
	go func() {
		sorted := []int{3, 1, 2}
		lateSort(sorted, func(a, b int) bool { return a*cap(kept) < b*cap(kept) })
		answer("callback", sorted)
	}()

	// An event that waits, and one after it that is answered at once.
	tap := js.FuncOf(func(_ js.Value, args []js.Value) any {
		n := lateSum(args[0].Int(), 1)
		answer("tap", n)
		return n
	})
	quick := js.FuncOf(func(js.Value, []js.Value) any { return 7 })
	global.Set("tap", tap)
	global.Set("quick", quick)
	taps := make(chan bool)
	global.Set("tapped", js.FuncOf(func(js.Value, []js.Value) any { taps <- true; return nil }))
	if mode == "nested" {
		global.Call("within", tap)
	}
	say("within", global.Call("within", quick))
	global.Call("taps")
	<-taps
	litter()
	time.Sleep(time.Millisecond) // the runtime's timers go on
	say("answers before the rest", len(answers))
	if mode == "never" {
		return
	}
	global.Call("bring")
	for range 6 {
		say(<-answers)
	}
	say("deep", down(2000))
	say(caught(func() { latePanic("from the rest") }), lateRecover(func() { panic("from the first") }))
	say(lateRecover(func() { latePanic("there and back") }))
	say("within", global.Call("within", tap), <-answers)
	global.Call("taps")
	<-taps
	say(<-answers)
	lateCrash(nil)
}
` + "\n"

// host is the page of parted: it taps from outside of the program, and brings
// the rest when the program is at rest.
const host = `
const fs = require("node:fs");
globalThis.fs = fs;
globalThis.path = require("node:path");
const [loader, first, rest, mode] = process.argv.slice(2);
require(loader);
globalThis.mode = mode;
const later = (do_) => setTimeout(do_, 0);
globalThis.within = (f) => f(4);
globalThis.taps = () => later(() => {
	console.log("tap answers", tap(1), "and quick", quick());
	later(tapped);
});
(async () => {
	const go = new Go();
	go.exit = (code) => { console.log("exit", code); process.exitCode = code; };
	const { instance } = await WebAssembly.instantiate(fs.readFileSync(first), go.importObject);
	globalThis.bring = () => later(async () => {
		console.log("wanted", instance.exports.rest.value > 4096);
		await WebAssembly.instantiate(fs.readFileSync(rest), { first: instance.exports });
		console.log("here", instance.exports.rest.value);
		go._resume();
	});
	await go.run(instance);
})();
`

// hosted runs a program in two parts and returns what it and its host said.
func hosted(t *testing.T, p program, mode string) (said, trouble string) {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("CHALKFOLD_BROWSER") == "need" {
			t.Fatal(err)
		}
		t.Skip("node is not there")
	}
	goroot, err := findGoroot()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	args := []string{filepath.Join(dir, "host.cjs"), filepath.Join(goroot, "lib", "wasm", "wasm_exec.js")}
	for _, f := range []struct {
		name string
		body []byte
	}{{"host.cjs", []byte(host)}, {"first.wasm", p.wasm}, {"rest.wasm", p.rest}} {
		name := filepath.Join(dir, f.name)
		if err := os.WriteFile(name, f.body, 0o644); err != nil {
			t.Fatal(err)
		}
		if f.name != "host.cjs" {
			args = append(args, name)
		}
	}
	var out, wrong bytes.Buffer
	cmd := exec.Command(node, append(args, mode)...)
	cmd.Stdout, cmd.Stderr = &out, &wrong
	_ = cmd.Run() // a crash is among what is looked for
	return out.String(), wrong.String()
}

func TestSplitProgram(t *testing.T) {
	p, err := tighten(build(t, parted), []string{"main.late", "main.(*roll).late", "main.body.late", "main.(*body).late"})
	if err != nil {
		t.Fatal(err)
	}
	const before = "within <number: 7>\ntap answers undefined and quick 7\nanswers before the rest 0\n"
	t.Run("comes late", func(t *testing.T) {
		said, trouble := hosted(t, p, "late")
		head, after, _ := strings.Cut(said, "here 1\n")
		if head != before+"wanted true\n" {
			t.Errorf("before the rest: %q", head)
		}
		for _, want := range []string{"called=6", "method=30", "interface=42", "deferred=yes", "callback=[1 2 3]", "tap=2"} {
			if strings.Count(after, want+"\n") != 1+strings.Count(want, "tap") {
				t.Errorf("%s is not among the answers: %q", want, after)
			}
		}
		_, after, _ = strings.Cut(after, "deep ")
		if want := "4000\nfrom the rest from the first\nthere and back\nwithin <number: 5> tap=5\ntap answers 2 and quick 7\ntap=2\nexit 2\n"; after != want {
			t.Errorf("after the rest: %q", after)
		}
		for _, want := range []string{"nil pointer dereference", "goroutine 1 [running]:", "main.lateCrash(", "main.main("} {
			if trace := named(t, trouble, p); !strings.Contains(trace, want) {
				t.Errorf("%q is not in the trace:\n%s", want, trace)
			}
		}
	})
	t.Run("never comes", func(t *testing.T) {
		if said, trouble := hosted(t, p, "never"); said != before+"exit 0\n" || trouble != "" {
			t.Errorf("%q %q", said, trouble)
		}
	})
	// What Go waits for itself cannot be answered without the rest.
	t.Run("wanted within", func(t *testing.T) {
		if said, trouble := hosted(t, p, "nested"); said != "exit 2\n" || !strings.Contains(trouble, "deadlock") {
			t.Errorf("%q %q", said, trouble)
		}
	})
	t.Run("of another program", func(t *testing.T) {
		other := p
		other.rest = bytes.Clone(p.rest)
		i := bytes.Index(other.rest, []byte(partName)) + len(partName) + 2
		other.rest[i]++ // in the mark
		if _, trouble := hosted(t, other, "late"); !strings.Contains(trouble, "LinkError") {
			t.Errorf("joined: %q", trouble)
		}
	})
}
