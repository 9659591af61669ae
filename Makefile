# Two commands matter: `make demo` and `make test`. Each sets up all it needs.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
OUTPUT ?= demo-output
export UV_PYTHON_DOWNLOADS = never
export UV_SYSTEM_CERTS = true

# uv is quick; where it cannot work (an old mirror, a proxy of its own kind), pip installs the same locked files.
define install_locked
$(BIN)/uv pip install --quiet --python $(BIN)/python --require-hashes -r $(1) || $(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r $(1)
$(BIN)/uv pip install --quiet --python $(BIN)/python --no-deps --no-build-isolation -e . || $(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
endef

# A tool the tests need from the system: root installs it, anybody else is told in one sentence (command, package, what for).
define from_the_system
@command -v $(1) > /dev/null || { test "$$(id -u)" = 0 && command -v apt-get > /dev/null && apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $(2) > /dev/null; } || echo "$(1) is missing, so $(3) are skipped: apt-get install $(2)"
endef

.PHONY: demo install test test-fast check types tools bench prove docs mutants release lock vendored clean

demo: install
	$(BIN)/asplayed demo $(OUTPUT)

install: $(VENV)/.installed

test: $(VENV)/.installed-test check tools
	$(BIN)/python -m pytest -n 2

test-fast: $(VENV)/.installed-test check tools
	$(BIN)/python -m pytest -n 2 -m "not slow"

tools:
	$(call from_the_system,chromium,chromium,the tests in a real browser)
	$(call from_the_system,pdftoppm,poppler-utils,the tests that look at printed pages)
	$(call from_the_system,pg_lsclusters,postgresql,the tests of a store in PostgreSQL)

check: $(VENV)/.installed-test types
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

# The scripts of the web app are shipped as they are written; their types stand in comments.
types:
	@if command -v npm > /dev/null && $(MAKE) --silent node_modules/.installed; then node_modules/.bin/tsc; else echo "the types of the web app's scripts are not checked: npm or its registry is missing (apt-get install npm)"; fi

node_modules/.installed: package-lock.json
	@npm ci --ignore-scripts --no-audit --no-fund --silent
	@touch $@

bench: $(VENV)/.installed-test
	$(BIN)/python -m benchmarks

prove: $(VENV)/.installed-test tools
	$(BIN)/python -m benchmarks.prove

docs: $(VENV)/.installed-test
	$(BIN)/python -W ignore -m sphinx -W --keep-going -q -b html docs build/docs
	@echo "open build/docs/index.html"

# An hour on one core: every change to `clubs` and `mechanics` that a test should notice; docs/health.md has the score.
mutants: $(VENV)/.installed-test
	$(BIN)/uv pip install --quiet --python $(BIN)/python mutmut==3.8.1
	$(BIN)/mutmut run --max-children 2
	$(BIN)/mutmut results

# VERSION=0.2.0: tests, wheel and sdist proved in new environments, then a commit and a tag; nothing is uploaded.
release: $(VENV)/.installed-test
	$(BIN)/python tools/release.py $(VERSION)

$(VENV)/bin/uv:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { echo "asplayed needs Python 3.11 or newer; set PYTHON=/path/to/python3.11"; exit 1; }
	@$(PYTHON) -m venv $(VENV) || { echo "making a virtual environment failed: on Debian, install python3-venv (apt-get install python3-venv)"; exit 1; }
	$(BIN)/python -m pip install --quiet --disable-pip-version-check uv

$(VENV)/.installed: requirements.lock pyproject.toml | $(VENV)/bin/uv
	$(call install_locked,requirements.lock)
	@touch $@

$(VENV)/.installed-test: requirements-test.lock pyproject.toml | $(VENV)/bin/uv
	$(call install_locked,requirements-test.lock)
	@touch $@ $(VENV)/.installed

# Run after changing the dependencies in pyproject.toml.
lock: | $(VENV)/bin/uv
	$(BIN)/uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-annotate --no-header --no-emit-index-url --group build pyproject.toml -o requirements.lock
	$(BIN)/uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-annotate --no-header --no-emit-index-url -c requirements.lock --group build --group test --group docs pyproject.toml -o requirements-test.lock

# Run after changing package.json: the tests carry the accessibility checker that the lock names.
vendored:
	npm install --ignore-scripts --no-audit --no-fund --loglevel=error
	@touch node_modules/.installed
	cp node_modules/axe-core/axe.min.js tests/web/browser/axe.min.js

clean:
	rm -rf $(VENV) $(OUTPUT) build dist node_modules
