# Everything that people and CI do, under the same names. Needs python3.11 (or a newer
# python3), make and git; the rest comes from the lock files, checked by their hashes.

PYTHON := $(shell command -v python3.11 || command -v python3)
BIN := .venv/bin
TO_CHAT := .venv/.ready-to-chat
TO_SERVE := .venv/.ready-to-serve
TO_TEST := .venv/.ready-to-test
TO_BENCH := .venv/.ready-to-bench
INSTALL := $(BIN)/python -m pip install --quiet --disable-pip-version-check --no-input
PROJECT := $(INSTALL) --no-deps --no-build-isolation --editable .
# With their extras, as pip before 23.3 else takes what `coverage[toml]` wants for unpinned, as soon
# as a newer coverage is out.
LOCK := $(BIN)/uv pip compile --quiet --upgrade --no-config --system-certs --universal \
	--python-version 3.11 --generate-hashes --no-strip-extras --no-header --no-annotate pyproject.toml

.DELETE_ON_ERROR:
.PHONY: chat serve demo gallery test lint types contracts check coverage bench mutate crash fuzz documents messages lock clean

chat: $(TO_CHAT) ## talk to Drawbar in this terminal; ARGS="--as Nora" says who texts
	@$(BIN)/drawbar chat $(ARGS)

serve: $(TO_SERVE) ## serve the networks that are set; ARGS="--config drawbar.toml"
	@$(BIN)/drawbar serve $(ARGS)

demo: $(TO_CHAT) ## watch an invented weekend go by
	@$(BIN)/drawbar demo

test: $(TO_TEST) ## every test; ARGS="-k tongue" picks some
	$(BIN)/pytest -n 2 --dist worksteal $(ARGS)

lint: $(TO_TEST)
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .

types: $(TO_TEST)
	$(BIN)/mypy

contracts: $(TO_TEST)
	$(BIN)/lint-imports --no-logo

check: lint types contracts test ## all that CI asks

coverage: $(TO_TEST) ## which lines and branches the tests never reach; ARGS picks tests
	$(BIN)/pytest -n 2 --dist worksteal --cov --cov-report=term-missing:skip-covered $(ARGS)

bench: $(TO_BENCH) ## figures for time and memory, each with its limit
	$(BIN)/pytest -m bench -s $(ARGS)

mutate: $(TO_BENCH) ## spoil the arithmetic line by line, to see that a test notices; ARGS="fuel" picks
	$(BIN)/python -m tests.mutation.mutate $(ARGS)

crash: $(TO_TEST) ## a thousand messages and a hundred kills, on each database
	$(BIN)/pytest -m long -s $(ARGS)

soak: $(TO_TEST) ## half an hour of life at once, with faults, on both databases; ARGS=MINUTES
	$(BIN)/python -m tests.soak.soak $(ARGS)

fuzz: $(TO_TEST) ## a million spoilt messages (ARGS=COUNT), then the tests on random data for longer
	$(BIN)/python -m tests.fuzz.fuzz_reading $(ARGS)
	$(BIN)/pytest -n 2 -m hypothesis --hypothesis-profile=fuzz

documents: $(TO_TEST) ## write the real answers into the documents' conversations
	$(BIN)/python -m tests.whole.documents

messages: $(TO_TEST) ## bring the catalogues up to date with what is said; then translate what is new
	$(BIN)/python -m tests.whole.catalogues

gallery: $(TO_TEST) ## write every kind of answer as each network shows it, to be looked at
	$(BIN)/python -m tests.gallery.scenes

lock: $(TO_TEST) ## move every dependency to its newest release, on purpose
	$(INSTALL) uv
	$(LOCK) --group build --output-file requirements.txt
	$(LOCK) --group build --extra photo --extra postgres --constraint requirements.txt \
		--output-file requirements-serve.txt
	$(LOCK) --group build --extra dev --constraint requirements.txt \
		--output-file requirements-dev.txt
	$(LOCK) --group build --extra dev --extra bench --constraint requirements-dev.txt \
		--output-file requirements-bench.txt

clean:
	rm -rf .venv .mypy_cache .ruff_cache .pytest_cache .hypothesis .coverage* build dist

$(TO_CHAT): requirements.txt pyproject.toml | $(BIN)/python
	@echo "Setting up (about a minute, once)..."
	@$(INSTALL) --require-hashes --requirement requirements.txt
	@$(PROJECT)
	@touch $@

$(TO_SERVE): requirements-serve.txt pyproject.toml | $(BIN)/python
	@echo "Setting up to serve (a minute or two, once)..."
	@$(INSTALL) --require-hashes --requirement requirements-serve.txt
	@$(PROJECT)
	@touch $@ $(TO_CHAT)

$(TO_TEST): requirements-dev.txt pyproject.toml | $(BIN)/python
	@echo "Setting up for tests (a minute or two, once)..."
	@$(INSTALL) --require-hashes --requirement requirements-dev.txt
	@$(PROJECT)
	@$(BIN)/python -m compileall -q bot domain  # tests start the program hundreds of times
	@touch $@ $(TO_CHAT) $(TO_SERVE)

$(TO_BENCH): requirements-bench.txt pyproject.toml | $(BIN)/python
	@$(INSTALL) --require-hashes --requirement requirements-bench.txt
	@$(PROJECT)
	@touch $@

$(BIN)/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "Drawbar needs Python 3.11 or newer")'
	@$(PYTHON) -m venv .venv
