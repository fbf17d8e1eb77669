# make          build everything and show the lessons on this machine
# make site     build the site into .site/
# make test     everything that must hold: vet, gofmt, the tests, the engine's
#               tests once more as the browser runs them, the pages in a browser
# make quick    of these, only vet, gofmt and the tests on this machine
# make bench    how long a plan takes, here and as the browser runs it, and a click
# make sizes    how large the engine is on its way to a reader
# make clean    remove what was built

SHELL := bash
.SHELLFLAGS := -euo pipefail -c
.DEFAULT_GOAL := serve
.PHONY: serve site command engine bundle test vet native wasm browser tools quick bench sizes clean

GO     ?= go
WASM   := $(shell $(GO) env GOROOT)/lib/wasm
ROOMS   = $$($(GO) list ./... | grep -v /site/browser)

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
	GOOS=js GOARCH=wasm $(GO) build -trimpath -ldflags='-s -w' -o .bin/engine.wasm ./wasm
	@cp $(WASM)/wasm_exec.js .bin/

test: tools vet native wasm browser

quick: vet native

vet:
	@unformed=$$(gofmt -l engine wasm site); if [ -n "$$unformed" ]; then echo "gofmt -w has work to do in:"; echo "$$unformed"; exit 1; fi
	$(GO) mod tidy -diff
	$(GO) vet ./...
	GOOS=js GOARCH=wasm $(GO) vet ./wasm ./engine/...

native:
	@echo "the tests on this machine: minutes if nothing is kept from before (random tunes against an oracle, builds that are stopped)"
	@time $(GO) test $(ROOMS)

wasm:
	@if command -v node >/dev/null; then \
	  echo "the engine's tests as WebAssembly in node: the longest part, some minutes"; \
	  time $(NODE) ./engine/...; \
	else echo "skipped: the engine's tests as WebAssembly need node"; fi

browser:
	@echo "the pages in a browser: a minute or two"
	@time $(GO) test -timeout 12m ./site/browser/...

# What the tests need beside Go: chromium, a font for it to write with, and node. Where they may not be
# installed, this says so; on a build server that is a failure.
tools:
	@missing=(); \
	command -v node >/dev/null || missing+=(nodejs); \
	command -v chromium >/dev/null || command -v chromium-browser >/dev/null || command -v google-chrome >/dev/null || missing+=(chromium); \
	if command -v apt-get >/dev/null && [ -z "$$(find /usr/share/fonts /usr/local/share/fonts -name '*.[to]tf' -print -quit 2>/dev/null)" ]; then missing+=(fonts-dejavu-core); fi; \
	[ $${#missing[@]} -gt 0 ] || exit 0; \
	become=(); [ "$$(id -u)" = 0 ] || become=(sudo -n); \
	if command -v apt-get >/dev/null && "$${become[@]}" true 2>/dev/null; then \
	  "$${become[@]}" apt-get update -qq && "$${become[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$${missing[@]}" && exit 0; \
	fi; \
	echo "to run all tests, install: $${missing[*]}"; \
	case "$${CI:-}" in true|1) exit 1;; esac

# All other measures: go test -run '^$$' -bench . ./engine/... ./site
bench:
	@echo "the plan of one hand, 32 bars with 16 sites, on this machine"
	@$(GO) test -run '^$$' -bench 'JointPlan$$' -benchmem ./engine
	@echo "the same as WebAssembly in node"
	@$(NODE) -run '^$$' -bench 'JointPlan$$' -benchmem ./engine
	@echo "a click on an ornament in a browser: p50 is the median, p95 the 95th percentile"
	@$(GO) test -run '^$$' -bench 'Click$$' ./site/browser

sizes: engine
	@printf 'engine.wasm  %9d bytes\n' "$$(wc -c < .bin/engine.wasm)"
	@printf 'gzip -9      %9d bytes\n' "$$(gzip -9 -c .bin/engine.wasm | wc -c)"

clean:
	rm -rf .bin .site site/bundle
