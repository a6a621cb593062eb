// Buildweb builds the page that the server embeds: it compiles the one browser
// program, makes it smaller, splits it in two parts, presses every file with
// brotli and gzip, and writes static/dist. It stops with an error when the first
// load, or the whole of what a phone keeps, has grown over its budget.
//
// The first part, app.wasm, runs alone until the first screens stand; the rest,
// rest.wasm, is fetched then and joined to it. Which function comes late is said
// in parts.go by package, split.go tells how one module calls into the other,
// waiting.go what the runtime does with who calls too early. The linked program
// stays in the scratch folder, and with it parts.txt, which lists the functions
// of both parts with the bytes of their code. Two fifths of the first part's code did
// not run until a first job was drafted: what of it could, comes late, which took the
// first part from 1200 kB pressed to 1089. What of it runs at once is listed for the
// page by begin.go.
//
//	go run ./cmd/buildweb            # at the root of the repository
//	go run ./cmd/buildweb -link PACKAGE   # links another program as it links the page's, and no more
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"chalkfold/static"
)

// The budgets, in bytes over the wire. The first load is what comes before the
// first screen; what that does not need comes after it, and has a bound of its
// own, since a maker pays for every byte that is kept on her phone.
const (
	maxProgram = 1_300_000 // the first part of the program, brotli: the most that the project allows
	maxFirst   = 1_600_000 // everything that comes with it before the first screen
	maxKept    = 2_000_000 // all that is kept for use without a network, in English
)

// readAgainst is the Go whose standard library and linked programs the cuts of
// overlay.go, functable.go, fold.go and straight.go were read against. Another Go builds the page
// without them: larger, and not weighed.
const readAgainst = "go1.26.8"

func main() {
	root := flag.String("root", ".", "the root of the repository")
	work := flag.String("work", ".build/web", "scratch `folder`, below the root")
	quick := flag.Bool("quick", false, "press lightly and weigh nothing: for trying the page out")
	link := flag.String("link", "", "link this `package` as the page's program is linked, into app.wasm in the scratch folder, and build no page")
	flag.Parse()
	var err error
	if *link != "" {
		_, _, err = linkIn(*root, filepath.Join(*root, *work), *link, os.Stdout)
	} else {
		err = run(*root, *work, *quick, os.Stdout)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "buildweb:", err)
		os.Exit(1)
	}
}

// linkIn links a program in the scratch folder, with what is cut out of the page's cut out
// of it; it returns its file, and whether it is cut.
func linkIn(root, work, pkg string, out io.Writer) (linked string, cut bool, err error) {
	if err := os.MkdirAll(work, 0o755); err != nil {
		return "", false, err
	}
	linked, err = filepath.Abs(filepath.Join(work, "app.wasm"))
	if err != nil {
		return "", false, err
	}
	cut = runtime.Version() == readAgainst
	if !cut {
		fmt.Fprintf(out, "built with %s: the page stays some 540 kB larger than with %s, since its cuts were read against that; read overlay.go, functable.go, fold.go and straight.go again\n", runtime.Version(), readAgainst)
	}
	return linked, cut, buildWasm(root, work, linked, pkg, cut)
}

func run(root, work string, quick bool, out io.Writer) error {
	work = filepath.Join(root, work)
	linked, cut, err := linkIn(root, work, "./wasm", out)
	if err != nil {
		return err
	}
	wasm, err := os.ReadFile(linked)
	if err != nil {
		return err
	}
	built := program{wasm: wasm, rest: []byte(wasmHeader)}
	if cut {
		if built, err = tighten(wasm, lateNames()); err != nil {
			return fmt.Errorf("tighten the program: %w", err)
		}
		if err := os.WriteFile(filepath.Join(work, "parts.txt"), built.list, 0o644); err != nil {
			return err
		}
	}
	loader, err := readLoader()
	if err != nil {
		return err
	}
	press := pressLightly
	if !quick {
		press = remembering(filepath.Join(work, "pressed"), pressFully)
	}
	list, err := writeDist(filepath.Join(root, "static", "dist"), os.DirFS(filepath.Join(root, "static", "page")), built, loader, press)
	if err != nil {
		return err
	}
	return report(out, list, cut && !quick)
}

// readLoader returns the loader that belongs to the compiler in use.
func readLoader() ([]byte, error) {
	goroot, err := findGoroot()
	if err != nil {
		return nil, err
	}
	return os.ReadFile(filepath.Join(goroot, "lib", "wasm", "wasm_exec.js"))
}

func findGoroot() (string, error) {
	goroot, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return "", fmt.Errorf("go env GOROOT: %w", err)
	}
	return strings.TrimSpace(string(goroot)), nil
}

// report prints the sizes and, when weighed, checks them against the budgets.
func report(out io.Writer, list static.List, weighed bool) error {
	var first, kept, program, rest int64
	var spoken string
	fmt.Fprintf(out, "%-24s %10s %10s %10s\n", "file", "bytes", "gzip", "brotli")
	for _, f := range list.Files {
		fmt.Fprintf(out, "%-24s %10d %10d %10d\n", f.Path, f.Size, f.Gzip, f.Brotli)
		if f.Kept() {
			kept += f.Brotli + f.Plain
		}
		if f.Speaks != "" {
			spoken += fmt.Sprintf("; %d more where the language is %s", f.Brotli+f.Plain, f.Speaks)
		}
		if !f.Rare && !f.Late {
			first += f.Brotli + f.Plain
		}
		switch f.Path {
		case "/app.wasm":
			program = f.Brotli
		case "/rest.wasm":
			rest = f.Brotli
		}
	}
	fmt.Fprintf(out, "the program: %d bytes in its first part, of %d at most, and %d in the rest\n", program, maxProgram, rest)
	fmt.Fprintf(out, "version %s, over the wire %d bytes before the first screen, of %d at most, and %d in all, of %d%s\n", list.Version, first, maxFirst, kept, maxKept, spoken)
	if !weighed {
		return nil
	}
	if program > maxProgram {
		return fmt.Errorf("the first part of the program is %d bytes in brotli, over its budget of %d: see in .build/web/parts.txt what came in, and whether it can come late (parts.go)", program, maxProgram)
	}
	if first > maxFirst {
		return fmt.Errorf("%d bytes come before the first screen, over the budget of %d", first, maxFirst)
	}
	if kept > maxKept {
		return fmt.Errorf("the first visit takes %d bytes, over its budget of %d", kept, maxKept)
	}
	return nil
}
