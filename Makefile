# netrate: everything a person types here. Go does the rest.

GO ?= go
LINTER = github.com/golangci/golangci-lint/v2/cmd/golangci-lint@v2.15.0

.PHONY: demo test check bench validate build

demo: ## the main job on embedded examples, and a comparison with its report
	$(GO) run ./cmd/netrate run --example direct-mail
	$(GO) run ./cmd/netrate compare --example seventh-feeder --report netrate-report.html

test: ## the tests
	$(GO) test ./...

check: ## the whole gate: what CI runs
	$(GO) mod tidy -diff
	$(GO) vet ./...
	$(GO) run $(LINTER) fmt --diff
	$(GO) run $(LINTER) run ./...
	$(GO) test -race ./...

bench: ## how fast a shift is simulated
	$(GO) test -run '^$$' -bench . -benchmem ./...

validate: ## how often intervals and choices are right where the truth is known
	$(GO) test -count=1 -v -run KnownTruth ./model ./sim/fit ./cmd/netrate/internal/learn -macro 500

build: ## the command, in bin/
	CGO_ENABLED=0 $(GO) build -trimpath -o bin/netrate ./cmd/netrate
