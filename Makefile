# netrate: everything a person types here. Go does the rest.

GO ?= go
LINTER = github.com/golangci/golangci-lint/v2/cmd/golangci-lint@v2.15.0
DEADCODE = golang.org/x/tools/cmd/deadcode@v0.51.0
# What starts goroutines, or is asked by several; a study is watched where it tells, is ended and is
# asked again, and the command where it serves and is ended: their other tests start the same ones.
RACED = ./sim ./model/runs ./cmd/netrate/internal/desk ./cmd/netrate/internal/workbench
# Of these, what runs in one goroutine, or starts the same ones as its neighbours, and takes long.
ALONE = Ziggurat|Sampler|MachineInterference|QueuingTable|ServiceNotExponential|LongRunQueue|TimersAgainst|HasNoBranches|FirstDelays|SensitivityOfAGroup|SensitivitiesOfZero|KnownTruth
# What takes longest, and breaks seldom: `go test ./...` and make release have it too.
LONG = WorkbenchByKeyboard|WorkbenchOfManyStations|PlanIsOnOneSheet|KnownTruthOf(WorkedLogs|Lots|TheBest)$$|PagesAreForEverybody/(sweep_of_2|sensitivity|strategy|against)
VULN = golang.org/x/vuln/cmd/govulncheck@v1.1.4

.PHONY: demo test editor check release race dead same same-v3 vulnerabilities torture mutate bench bench-ui validate build clusters clusters-large container

demo: ## the main job on embedded examples, and a comparison with its report
	$(GO) run ./cmd/netrate run --example direct-mail
	$(GO) run ./cmd/netrate compare --example seventh-feeder --report netrate-report.html
	@echo; echo "In the browser, where the answer moves while you change the line:"; echo "  $(GO) run ./cmd/netrate open --example direct-mail"

test: ## the tests, but for a few that take long, which make release has too
	$(GO) test -skip '$(LONG)' -timeout 20m ./...

editor: ## the editor pane of the workbench, bundled of its sources; needs npm, and is needed only where they change
	GO=$(GO) sh cmd/netrate/internal/workbench/editor/bundle.sh

# The linter vets for Linux, by the same rules.
check: test ## the whole gate: what CI runs
	$(GO) mod tidy -diff
	$(GO) run $(LINTER) fmt --diff
	$(GO) run $(LINTER) run ./...
	$(MAKE) --no-print-directory dead
	$(GO) test -race -skip '$(ALONE)' $(RACED)
	$(GO) test -race -run 'SoFar|Interrupted|Cancelled|Again|AreCut|CutWithin|Tells' ./model/study
	$(MAKE) --no-print-directory vulnerabilities

release: race same-v3 torture mutate validate ## what takes too long for each change: before a release
	$(GO) test -timeout 40m ./...
	GOOS=windows $(GO) vet ./...
	GOOS=darwin $(GO) vet ./...

race: ## all of the workbench under the race detector, ten minutes: before a release, and where tabs, turns or questions change
	$(GO) test -race -timeout 30m -run 'Workbench|Interrupted|Killed' ./cmd/netrate

dead: ## functions that the command does not reach, but for those that tools/dead/allowed.txt has a reason for
	@found=$$($(GO) run $(DEADCODE) -f '{{range .Funcs}}{{println $$.Path .Name}}{{end}}' ./...) || exit 1; \
	if echo "$$found" | grep -vxEf tools/dead/allowed.txt | grep .; then echo "nothing reaches these: use them, or delete them" >&2; exit 1; fi

vulnerabilities: ## known ones in what is depended on; passes where their database cannot be reached, and says so
	@found=$$($(GO) run $(VULN) ./... 2>&1); status=$$?; echo "$$found"; \
	case "$$found" in *"fetching vulnerabilities"*) echo "NOT LOOKED FOR: do it where the database can be reached, before each release" ;; *) exit $$status ;; esac

torture: ## a quarter of an hour of generated scenarios and logs, of faults at every call of the disk and signals at any moment, all verbs, all outputs
	$(GO) test ./cmd/netrate -run 'Torture|FaultsInWhole|Signals' -count 1 -timeout 0 -v -torture 5m

clusters: ## shards under a Slurm of this host and GNU parallel, both from Debian; the manifest as Kubernetes reads it
	$(GO) build -trimpath -o bin/netrate ./cmd/netrate
	tools/clusters/queues.sh bin/netrate
	cd tools/manifest && $(GO) test ./...

clusters-large: build ## a large question under Slurm, and in one process: by default ten million shifts in 50 shards, 20 minutes of two cores
	tools/clusters/large.sh bin/netrate $(or $(SHIFTS),10000000) $(or $(TASKS),50)

container: build ## the container, built and run as its own user by buildah from Debian; fetches nothing
	tools/clusters/container.sh

mutate: ## planted mistakes, each of which some test must notice
	$(GO) run ./tools/mutate

same: ## the same answers, to the last bit, on other processors (arm64 by qemu-user-static)
	GOARCH=arm64 $(GO) test -exec qemu-aarch64-static ./sim/portable ./model ./scenarios -count=1 -run 'Outcomes|Elementary|Distributions|Tables'
	GOARCH=arm64 $(GO) test -exec qemu-aarch64-static ./cmd/netrate -count=1 -run Recorded -answers -every 13

same-v3: ## and on amd64 with fused instructions, which TestNothingIsFused keeps out of arm64
	GOAMD64=v3 $(GO) test ./model ./scenarios -count=1 -run Outcomes
	GOAMD64=v3 $(GO) test ./cmd/netrate -count=1 -run Recorded -answers

bench: ## how long a shift of every example takes, and a command of every verb
	$(GO) test -run '^$$' -bench . -benchmem ./...

validate: ## how often intervals and choices are right where the truth is known
	$(GO) test -count=1 -v -timeout 0 -run KnownTruth ./model/runs ./model/seasons ./model/study ./sim/fit ./cmd/netrate/internal/learn -macro 500

build: ## the command, in bin/
	CGO_ENABLED=0 $(GO) build -trimpath -o bin/netrate ./cmd/netrate

bench-ui: ## how long the workbench takes, in a browser, from a change to the first new answer and to one known to half a percent; and a frame of a film
	$(GO) test ./cmd/netrate -run WorkbenchLatency -count 1 -v -timeout 0 -bench-ui 200
	$(GO) test ./cmd/netrate/internal/tracing -run FilmFrames -count 1 -v -film-frames 600
