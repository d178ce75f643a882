# What people run. See README.md and DEVELOPERS.md.

ADDR ?= 127.0.0.1:8080
# Seeds, runs and seconds of random tests: small here, large in test-long.
SIZE ?= small

GO ?= go
SOURCES := $(shell find assets game lessons physics web -name node_modules -prune -o -path web/dist -prune -o -path web/check -prune -o -type f -print 2>/dev/null) go.mod go.sum

.PHONY: pictures run site scorm kiosk test test-long bench soak help clean

help: ## this list
	@sed -n 's/^\([a-z-]*\):.*## \(.*\)/  make \1\t\2/p' Makefile | expand -t 20

run: web/dist/index.html ## build what is needed and serve the page (ADDR=127.0.0.1:8080)
	@$(GO) run ./web/cmd/wheelroom serve --addr $(ADDR)

# For one's own machine a quick compression is enough.
web/dist/index.html: $(SOURCES)
	$(GO) run ./web/build --quality 3

site: ## the finished static site in web/dist, compressed as small as it goes
	$(GO) run ./web/build

# LESSON names the one that counts; without it the whole course does. TONGUE is
# the language in which it opens; the others can be chosen.
LESSON ?=
TONGUE ?= en
scorm: web/dist/index.html ## a package for a college's system, SCORM 1.2 (LESSON=ID for one lesson, TONGUE=de for German)
	$(GO) run ./web/build --pack wheelroom-scorm.zip --lesson "$(LESSON)" --language "$(TONGUE)"

kiosk: web/dist/index.html ## one program that holds the site, for a screen nobody watches
	CGO_ENABLED=0 $(GO) build -trimpath -ldflags="-s -w" -tags dist -o wheelroom-kiosk ./web/cmd/wheelroom-kiosk
	@echo "./wheelroom-kiosk serves the page and prints the browser's command; see web/kiosk/README.md"

test: ## everything: vet, unit, WebAssembly, browser
	SIZE=$(SIZE) web/check/run.sh

test-long: ## the same with many more random runs
	SIZE=large web/check/run.sh

bench: site ## the program's figures, one a line as: name value unit
	@web/check/run.sh tools >/dev/null
	@$(GO) run ./web/measure

# The exhibit, played with by restless hands at sixteen times its speed.
MINUTES ?= 5
soak: web/dist/index.html ## the exhibit under random touches (MINUTES=5): no error, no growth, nothing stuck
	@web/check/run.sh tools >/dev/null
	@$(GO) build -o web/check/out/wheelroom ./web/cmd/wheelroom
	@cd web/check && MINUTES=$(MINUTES) node soak.mjs

clean: ## remove what was built
	rm -rf web/dist web/check/out web/check/node_modules wheelroom-kiosk
