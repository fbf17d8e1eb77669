# make          build everything and show the lessons on this machine
# make site     build the site into .site/
# make test     everything that must hold: vet, gofmt, the tests, the engine's
#               tests once more as the browser runs them, the pages in a browser
# make quick    of these, only vet, gofmt and the tests on this machine
# make agree    of these, only our reading of ABC against two other programs
# make fuzz     every fuzzer of the reader, FUZZ=30s each
# make bench    how long a plan takes, here and as the browser runs it, and a click
# make budgets  every budget, what was measured, and whether it is kept: some
#               three minutes
# make prove    the solver against the oracle on 100,000 random tunes, and what
#               they had in them: minutes
# make ablate   what changes without each rule: check values, and notes of whole
#               tunes; a minute or two
# make sizes    how large the engine is on its way to a reader
# make clean    remove what was built

SHELL := bash
.SHELLFLAGS := -euo pipefail -c
.DEFAULT_GOAL := serve
.PHONY: serve site command engine bundle test vet native agree fuzz wasm browser tools packages abcjs quick bench budgets prove ablate sizes clean

GO     ?= go
WASM   := $(shell $(GO) env GOROOT)/lib/wasm
ROOMS   = $$($(GO) list ./... | grep -v '/site/browser$$\|/site/agree$$')

# Every reader downloads the engine: functions written out again where they are
# called make it a twelfth larger, and help only where a plan is sought.
LEAN    = -gcflags='readyhand/...=-l' $(foreach room,solve rule hand harp,-gcflags='readyhand/engine/$(room)=')

# Go's tests as WebAssembly in node. The runner gives the whole environment to
# the engine, which has room for a small one only.
NODE    = env -i HOME="$$HOME" PATH="$$PATH:$(WASM)" GOOS=js GOARCH=wasm GOFLAGS="$$($(GO) env GOFLAGS)" GOPROXY="$$($(GO) env GOPROXY)" \
	    GOCACHE="$$($(GO) env GOCACHE)" GOMODCACHE="$$($(GO) env GOMODCACHE)" $(GO) test

# What takes long says so before, and how long it took after.
export TIMEFORMAT = took %0R s

serve: command
	.bin/readyhand serve

site: command
	.bin/readyhand build

# One file with the theme and the engine inside, for a teacher to take along.
command: bundle
	$(GO) build -trimpath -tags bundle -o .bin/readyhand ./site

bundle: engine
	@mkdir -p site/bundle
	@cp .bin/engine.wasm .bin/wasm_exec.js site/bundle/

engine:
	@mkdir -p .bin
	GOOS=js GOARCH=wasm $(GO) build -trimpath -ldflags='-s -w' $(LEAN) -o .bin/engine.wasm ./wasm
	@cp $(WASM)/wasm_exec.js .bin/

test: tools vet native agree wasm browser $(if $(filter true 1,$(CI)),fuzz)

quick: vet native

vet:
	@unformed=$$(gofmt -l engine wasm site); if [ -n "$$unformed" ]; then echo "gofmt -w has work to do in:"; echo "$$unformed"; exit 1; fi
	$(GO) mod tidy -diff
	$(GO) vet ./...
	GOOS=js GOARCH=wasm $(GO) vet ./wasm ./engine/...

native:
	@echo "the tests on this machine: minutes if nothing is kept from before (random tunes against an oracle, builds that are stopped)"
	@time $(GO) test $(ROOMS)

# Our reading of ABC against that of two other programs; it prints the table.
agree:
	@echo "the same tunes read by abc2midi and abcjs: half a minute"
	@time $(GO) test -v ./site/agree

# Every fuzzer of the reader for a while; a build server runs them with the tests.
FUZZ ?= 30s
fuzz:
	@for name in $$($(GO) test -list '^Fuzz' ./engine/read | grep '^Fuzz'); do \
	  echo "$$name for $(FUZZ)"; \
	  $(GO) test -run '^$$' -fuzz "^$$name$$" -fuzztime $(FUZZ) ./engine/read || exit 1; \
	done

wasm:
	@if command -v node >/dev/null; then \
	  echo "the engine's tests as WebAssembly in node: the longest part, some minutes"; \
	  time $(NODE) ./engine/...; \
	else echo "skipped: the engine's tests as WebAssembly need node"; fi

browser:
	@echo "the pages in a browser: a minute or two"
	@time $(GO) test -timeout 12m ./site/browser/...

# What the tests need beside Go: chromium, a font for it to write with, node, and two other readers of ABC
# with their example files. Where they may not be installed, this says so; on a build server that is a failure.
tools: packages abcjs

packages:
	@missing=(); \
	command -v node >/dev/null || missing+=(nodejs); \
	command -v npm >/dev/null || missing+=(npm); \
	command -v abc2midi >/dev/null || missing+=(abcmidi); \
	command -v abcm2ps >/dev/null || missing+=(abcm2ps); \
	command -v chromium >/dev/null || command -v chromium-browser >/dev/null || command -v google-chrome >/dev/null || missing+=(chromium); \
	if command -v apt-get >/dev/null && [ -z "$$(find /usr/share/fonts /usr/local/share/fonts -name '*.[to]tf' -print -quit 2>/dev/null)" ]; then missing+=(fonts-dejavu-core); fi; \
	[ $${#missing[@]} -gt 0 ] || exit 0; \
	become=(); [ "$$(id -u)" = 0 ] || become=(sudo -n); \
	if command -v apt-get >/dev/null && "$${become[@]}" true 2>/dev/null; then \
	  "$${become[@]}" apt-get update -qq && "$${become[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$${missing[@]}" && exit 0; \
	fi; \
	echo "to run all tests, install: $${missing[*]}"; \
	case "$${CI:-}" in true|1) exit 1;; esac

# abcjs comes from npm, into a folder that git does not see: nothing that is built needs it.
ABCJS = 6.7.2
abcjs: packages
	@! grep -qs '"version": "$(ABCJS)"' .cache/abcjs/node_modules/abcjs/package.json || exit 0; \
	mkdir -p .cache/abcjs; \
	npm install --silent --no-audit --no-fund --no-save --ignore-scripts --prefix .cache/abcjs abcjs@$(ABCJS) && exit 0; \
	echo "to run all tests, install abcjs $(ABCJS) from npm in .cache/abcjs"; \
	case "$${CI:-}" in true|1) exit 1;; esac

MEASURE = -run '^$$' -bench

# All other measures: go test -run '^$$' -bench . ./engine/... ./site/...
bench:
	@echo "the plan of 32 bars with 16 sites, on this machine, and of 100, 1,000 and 10,000 notes"
	@$(GO) test $(MEASURE) 'JointPlan$$|EveryOrnament$$|Finder$$|Growth$$' -benchmem ./engine
	@echo "the same as WebAssembly in node"
	@$(NODE) $(MEASURE) 'JointPlan$$|EveryOrnament$$|Finder$$|Live$$' -benchmem ./engine
	@echo "a click on an ornament in a browser: p50 is the median, p95 the 95th percentile"
	@$(GO) test $(MEASURE) 'Click$$' -benchtime 1x ./site/browser

# A budget that is not kept, or not measured, fails nothing.
budgets: engine
	@echo "what is measured, against what was promised: some three minutes, best with the machine to itself"
	@time { \
	  $(GO) test $(MEASURE) 'JointPlan$$|EveryOrnament$$|Finder$$|Growth$$' -benchtime 0.3s -count 3 ./engine || true; \
	  $(GO) test $(MEASURE) 'PlainSite$$|TuneSite$$|Weight$$' -benchtime 1x ./site || true; \
	  if command -v node >/dev/null; then $(NODE) $(MEASURE) 'JointPlan$$|EveryOrnament$$|Finder$$|Live$$' -benchtime 0.3s -count 3 ./engine || true; fi; \
	  $(GO) test $(MEASURE) 'Click$$|Open$$|Refresh$$' -benchtime 1x ./site/browser || true; \
	} | $(GO) run ./site/budgets

prove:
	@echo "100,000 random tunes against the oracle: some eight minutes with two cores to itself"
	@time $(GO) test -timeout 60m ./engine/solve -run 'Oracle$$' -cases 100000 -v

ablate:
	@echo "all check values and whole tunes without each rule: a minute or two"
	@time $(GO) test -timeout 30m ./engine/solve -run 'Ablate$$' -ablate -v

sizes: engine
	@printf 'engine.wasm  %9d bytes\n' "$$(wc -c < .bin/engine.wasm)"
	@printf 'gzip -9      %9d bytes\n' "$$(gzip -9 -c .bin/engine.wasm | wc -c)"

clean:
	rm -rf .bin .site site/bundle
