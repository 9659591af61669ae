# Two commands matter: `make demo` and `make test`. Each sets up all it needs.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
OUTPUT ?= demo-output
export UV_PYTHON_DOWNLOADS = never

.PHONY: demo install test test-fast check bench prove lock clean

demo: install
	$(BIN)/asplayed demo $(OUTPUT)

install: $(VENV)/.installed

test: $(VENV)/.installed-test check
	$(BIN)/python -m pytest -n 2

test-fast: $(VENV)/.installed-test
	$(BIN)/python -m pytest -n 2 -m "not slow"

check: $(VENV)/.installed-test
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: $(VENV)/.installed-test
	$(BIN)/python -m benchmarks

prove: $(VENV)/.installed-test
	$(BIN)/python -m benchmarks.prove

$(VENV)/bin/uv:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { echo "asplayed needs Python 3.11 or newer; set PYTHON=/path/to/python3.11"; exit 1; }
	@$(PYTHON) -m venv $(VENV) || { echo "making a virtual environment failed: on Debian, install python3-venv (apt-get install python3-venv)"; exit 1; }
	$(BIN)/python -m pip install --quiet --disable-pip-version-check uv

$(VENV)/.installed: requirements.lock pyproject.toml | $(VENV)/bin/uv
	$(BIN)/uv pip install --quiet --python $(BIN)/python --require-hashes -r requirements.lock
	$(BIN)/uv pip install --quiet --python $(BIN)/python --no-deps --no-build-isolation -e .
	@touch $@

$(VENV)/.installed-test: requirements-test.lock pyproject.toml | $(VENV)/bin/uv
	$(BIN)/uv pip install --quiet --python $(BIN)/python --require-hashes -r requirements-test.lock
	$(BIN)/uv pip install --quiet --python $(BIN)/python --no-deps --no-build-isolation -e .
	@touch $@ $(VENV)/.installed

# Run after changing the dependencies in pyproject.toml.
lock: | $(VENV)/bin/uv
	$(BIN)/uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-annotate --no-header --no-emit-index-url --group build pyproject.toml -o requirements.lock
	$(BIN)/uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-annotate --no-header --no-emit-index-url -c requirements.lock --group build --group test pyproject.toml -o requirements-test.lock

clean:
	rm -rf $(VENV) $(OUTPUT) build dist
