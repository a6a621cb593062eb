# make run     builds everything and serves it on this machine; needs only Go and make
# make test    every check that must hold before a change lands
# make bench   speed, native and in wasm
# make bench-lay lays the published packing problems, 10 s and 60 s of processor
#              time on one core and on two: .build/lays.md
# make bench-copies measures what a server of second copies answers: .build/copies.md
# make prove   drafts for every surveyed body, in several styles
# make screens takes the pictures of every screen anew, into testdata/screens
# make begin   lists anew what the page begins with, which is compiled beside it
# make perf    what the page costs and how fast it is on a slow phone: .build/perf.md
# make sim     devices, a server and all that goes wrong, in 100,000 worlds
# make edge    packs what is deployed on a Workers runtime into .build/edge
# make test-edge tests that on a runtime of this machine, an npm package
# make crash   kills a writing server, fails its disk and its power, ROUNDS=1000 times each
# make fuzz    longer fuzzing than make test does (FUZZTIME=5m), and random
#              checks from anywhere (CHECKS=20000)

GO       ?= go
FUZZTIME ?= 60s
CHECKS   ?= 2000
ADDR     ?=

BIN  := .build/chalkfold
LINT := .build/bin/golangci-lint-v2.15.0
# What is compiled for the browser as well.
IN_BROWSER := ./draft/... ./sync/... ./ui/... ./wasm ./cmd/edge
# The packages whose tests take longest there are begun first.
LONGEST := ./draft/lay ./draft/prove ./draft
NODE_EXEC = $(shell $(GO) env GOROOT)/lib/wasm/go_js_wasm_exec

.PHONY: run build web test beside tools lint vet unit wasmtest size fuzzshort bench bench-lay bench-copies sim prove screens begin perf edge test-edge crash fuzz properties clean

# ADDR=127.0.0.1:9000 chooses the port; without it, 8765 or the next free one.
run: build
	$(BIN) serve $(if $(ADDR),-addr $(ADDR))

# The page in the binary is pressed fully; it fails when the first load is over
# its budget.
build:
	$(GO) run ./cmd/buildweb
	$(GO) build -trimpath -ldflags="-s -w" -o $(BIN) ./cmd/chalkfold

# The page alone, pressed lightly and not weighed: for the browser tests between
# two changes.
web:
	$(GO) run ./cmd/buildweb -quick

# The tests that open a browser run one after the other, and leave processor time:
# what needs no browser runs beside them, and waits where both want a core. Those of
# them that reckon for long (t.Parallel) come last, on both cores. While
# the page is built and weighed, which the tests open, the core is tested in wasm; it
# goes on while the tests run, and so do the linter and the fuzzing.
test: tools
	+$(MAKE) --output-sync=target -j3 unit wasmtest beside

beside: size
	+nice $(MAKE) -j1 lint vet fuzzshort

# What the tests need besides Go: a browser, a PDF renderer, node, the linter.
tools: $(LINT)
	.ci/install

$(LINT):
	@mkdir -p $(@D)
	GOBIN=$(CURDIR)/.build/bin $(GO) install github.com/golangci/golangci-lint/v2/cmd/golangci-lint@v2.15.0
	mv .build/bin/golangci-lint $@

size: build

# For the browser, the packages are read again of which other files are compiled there.
lint: $(LINT)
	$(LINT) run ./...
	GOOS=js GOARCH=wasm $(LINT) run $$(.ci/otherwise $(IN_BROWSER))

vet:
	$(GO) vet ./...
	GOOS=js GOARCH=wasm $(GO) vet $(IN_BROWSER)

# A change is judged by its own checks, not by chance: the random ones begin
# where they always do.
unit wasmtest: export RAPID_SEED = 1
# In wasm the first fifth of the checks that were made natively, and of the long
# tests one case: it must give the same, and need not be proved twice.
wasmtest: export RAPID_CHECKS = 20

# CHALKFOLD_BROWSER makes a missing browser or page a failure, not a skip. What go
# test vets is in what go vet does.
unit: size
	CHALKFOLD_BROWSER=need $(GO) test -vet=off -timeout=30m ./...

# The core once more, compiled as the phone runs it. The PDF tests measure with
# programs that cannot be started from there.
wasmtest:
	GOOS=js GOARCH=wasm nice $(GO) test -vet=off -short -timeout=30m -exec=$(NODE_EXEC) $(LONGEST) $$($(GO) list ./draft/... ./ui/... | grep -v /sheet/pdf)

fuzzshort:
	.ci/fuzz 5s

fuzz: properties
	.ci/fuzz $(FUZZTIME)

# More random checks, from a seed of chance. What fails says how to reproduce it.
properties:
	RAPID_CHECKS=$(CHECKS) $(GO) test -count=1 -timeout=0 $$($(GO) list -f '{{range .XTestImports}}{{if eq . "pgregory.net/rapid"}}{{$$.ImportPath}}{{end}}{{end}}' ./...)

bench:
	$(GO) test -run='^$$' -bench=. -benchmem ./draft/... ./ui/...
	GOOS=js GOARCH=wasm $(GO) test -exec=$(NODE_EXEC) -run='^$$' -bench=. ./draft/...

# Two hours on a free machine. CHALKFOLD_PROBLEMS=shirts,swim, CHALKFOLD_SECONDS=10,
# CHALKFOLD_SEEDS=1 and CHALKFOLD_CORES=1 make it less, CHALKFOLD_SECONDS=1200 more;
# what is in .build/lays.csv already is not laid again.
bench-lay:
	@mkdir -p .build
	$(GO) test ./cmd/chalkfold -run='^$$' -bench='^BenchmarkLays$$' -benchtime=1x -timeout=6h
	@cat .build/lays.md

# Twenty minutes on one core; a world that fails is told by its seed.
sim:
	CHALKFOLD_WORLDS=100000 $(GO) test ./sync/simtest -run='^TestSim$$' -v -timeout=10h

bench-copies:
	@mkdir -p .build
	$(GO) test ./cmd/chalkfold -run='^$$' -bench='^BenchmarkCopies$$' -benchtime=1x -timeout=1h
	@cat .build/copies.md

prove:
	$(GO) run ./cmd/chalkfold prove -bodies testdata/body/ansur2_garment_columns.csv
	CHALKFOLD_ORDER=every $(GO) test ./draft -count=1 -timeout 60m -run '^TestOrderOfEveryStyle$$'

# Look at the pictures before committing them.
screens: tools build
	rm -f testdata/screens/*
	CHALKFOLD_BROWSER=need CHALKFOLD_SCREENS=refresh $(GO) test ./cmd/chalkfold -count=1 -run '^Test(Tour|Screens)$$'

# Of the page as it is now. See cmd/buildweb/begin.go.
begin: tools
	: > cmd/buildweb/begin.txt
	$(GO) run ./cmd/buildweb -quick
	CHALKFOLD_BEGIN=refresh CHALKFOLD_BROWSER=need $(GO) test ./cmd/chalkfold -count=1 -v -run='^TestBegin$$'

perf: tools build
	CHALKFOLD_BROWSER=need $(GO) test ./cmd/chalkfold -run='^$$' -bench='^BenchmarkPage$$' -benchtime=1x -timeout=60m
	@cat .build/perf.md

edge: build
	$(GO) run ./cmd/edge/pack .build/edge

test-edge: tools edge
	.ci/edge
	CHALKFOLD_EDGE_RUNTIME=$(CURDIR)/.build/runtime $(GO) test ./cmd/edge -count=1 -v

ROUNDS ?= 1000
crash:
	CHALKFOLD_CRASH_ROUNDS=$(ROUNDS) $(GO) test ./sync/ledger/sqlite -count=1 -v -timeout=2h -run 'Killed|Power|Failing'

clean:
	rm -rf .build
	find static/dist -type f ! -name .gitkeep -delete
